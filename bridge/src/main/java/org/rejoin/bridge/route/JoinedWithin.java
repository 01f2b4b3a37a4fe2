package org.rejoin.bridge.route;

import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.geo.Position;

/** "Join V31 at or before BBB", "at or south of BBB": as far as where an airway is joined. */
final class JoinedWithin {

    /** Joined so near to the fix it is joined at it, nautical miles (no source). */
    private static final double AT_NM = 0.5;

    private JoinedWithin() {}

    /** What is said of where an airway is joined. */
    static Optional<Noted.JoinedWithin> of(AmendmentDraft draft, String airway) {
        return draft.clearance.all(Noted.JoinedWithin.class).stream()
                .filter(each -> each.airway().equals(airway))
                .findFirst();
    }

    /**
     * Whether an airway may be joined at a place.
     *
     * @param ahead points of it that are still to come there
     */
    static boolean allows(Noted.JoinedWithin said, Position at, Stream<Waypoint> ahead, Situation situation) {
        Position fix = said.fix().position();
        if (at.distanceNm(fix) < AT_NM) {
            return true;
        }
        boolean before = ahead.anyMatch(said.fix()::equals);
        return switch (said.side()) {
            case "before" -> before;
            case "after" -> !before;
            default ->
                Compass.offDeg(
                                RadialDistance.of(said.fix(), at, situation)
                                        .radial()
                                        .deg(),
                                said.side())
                        < 90;
        };
    }

    /** Warns where the route that the other words lead to joins the airway elsewhere. */
    static void check(AmendmentDraft draft) {
        for (Noted.JoinedWithin said : draft.clearance.all(Noted.JoinedWithin.class)) {
            for (int i = 0; i < draft.legs.size(); i++) {
                if (!draft.legs.get(i).airway().equals(Optional.of(said.airway()))) {
                    continue;
                }
                Leg first = draft.legs.get(i);
                Position at = first.groundPath().orElseThrow().pointAt(first.joinedAtNm());
                Stream<Waypoint> ahead = draft.legs.subList(i, draft.legs.size()).stream()
                        .takeWhile(leg -> leg.airway().equals(first.airway()))
                        .flatMap(leg -> leg.endsAt().stream());
                if (!allows(said, at, ahead, draft.situation)) {
                    draft.choice(
                            "%s is to be joined %s, and this way joins it %.1f NM from there, on the other side: ask",
                            said.airway(),
                            said.words(),
                            at.distanceNm(said.fix().position()));
                }
                break;
            }
        }
    }
}
