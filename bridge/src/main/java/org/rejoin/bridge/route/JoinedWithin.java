package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.geo.GroundPath;
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
     * @param from where its leg begins that is joined there
     * @param next the point of it where that leg ends
     */
    static boolean allows(
            Chart chart, Noted.JoinedWithin said, Position at, Position from, Waypoint next, Situation situation) {
        Position fix = said.fix().position();
        if (at.distanceNm(fix) < AT_NM) {
            return true;
        }
        boolean before = chart.airways(said.airway()).stream()
                .filter(airway -> airway.passes(next))
                .anyMatch(airway -> onward(airway.points(), from, next).contains(said.fix()));
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

    /** The points of the airway from the next on, as it is flown there: those beyond where it is left, too. */
    private static List<Waypoint> onward(List<Waypoint> points, Position from, Waypoint next) {
        int index = points.indexOf(next);
        boolean asPublished = index == points.size() - 1
                || (index > 0
                        && detourNm(points.get(index - 1), from, next) < detourNm(points.get(index + 1), from, next));
        return asPublished ? points.subList(index, points.size()) : points.subList(0, index + 1);
    }

    private static double detourNm(Waypoint before, Position by, Waypoint next) {
        return before.position().distanceNm(by)
                + by.distanceNm(next.position())
                - before.position().distanceNm(next.position());
    }

    /** Warns where the route that the other words lead to joins the airway elsewhere. */
    static void check(Chart chart, AmendmentDraft draft) {
        for (Noted.JoinedWithin said : draft.clearance.all(Noted.JoinedWithin.class)) {
            for (int i = 0; i < draft.legs.size(); i++) {
                if (!draft.legs.get(i).airway().equals(Optional.of(said.airway()))) {
                    continue;
                }
                Leg first = draft.legs.get(i);
                GroundPath path = first.groundPath().orElseThrow();
                Position at = path.pointAt(first.joinedAtNm());
                if (!allows(chart, said, at, path.pointAt(0), first.endsAt().orElseThrow(), draft.situation)) {
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
