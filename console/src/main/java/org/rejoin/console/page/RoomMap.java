package org.rejoin.console.page;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;

import org.rejoin.bridge.geo.Position;
import org.rejoin.console.draw.Projection;
import org.rejoin.console.json.Json;
import org.rejoin.console.words.CleanText;

import org.jspecify.annotations.Nullable;

/**
 * All aircraft of a room on one plan, with the filed routes of their lessons: text of server-sent events, for whoever may
 * see which of them. Confined to the page's thread.
 */
final class RoomMap {

    /** So much of each track is told to a page that is opened later, seconds. */
    private static final double KEPT_S = 180;

    /** Between two rows of a track, seconds. */
    private static final double ROW_S = 1;

    /** Once so far from the middle, routes are drawn around another, nautical miles; common practice, no source. */
    private static final double FAR_NM = 500;

    private static final Row.Line NO_LINE = new Row.Line(0, -1, OptionalDouble.empty(), OptionalDouble.empty(), 0, 0);

    private record Here(String seat, String label, boolean off) {}

    private record Fix(double timeS, Position position, double trackDeg, double speedKt, boolean apart) {}

    private static final class Seat {
        private final Deque<Fix> track = new ArrayDeque<>();
        private PageRoom.Seen last;
        private @Nullable Fix now;
        private List<Fix> fresh = List.of();

        Seat(PageRoom.Seen first) {
            this.last = first;
        }

        void take(PageRoom.Seen seen, double timeS) {
            last = seen;
            Fix before = now;
            Fix fix = new Fix(
                    timeS,
                    seen.position(),
                    seen.trackTrueDeg().orElse(before == null ? 0 : trackDeg(before, seen.position())),
                    seen.groundSpeedKt(),
                    before == null || seen.jumped());
            now = fix;
            fresh = List.of();
            if (track.isEmpty() || fix.apart() || timeS - track.getLast().timeS() >= ROW_S) {
                track.addLast(fix);
                fresh = List.of(fix);
            }
            while (track.getFirst().timeS() < timeS - KEPT_S) {
                track.removeFirst();
            }
        }

        private static double trackDeg(Fix before, Position position) {
            return before.position().distanceNm(position) < 0.002
                    ? before.trackDeg()
                    : before.position().to(position).initial().deg();
        }
    }

    private final Map<String, Seat> seats = new LinkedHashMap<>();
    private List<RoutePicture> drawn = List.of();
    private @Nullable RoutePicture routes;

    /**
     * Takes where everybody is who is heard, at a time of any clock; the picture of the lesson of a seat is empty
     * before its first. Whether the plan is another one: then all of it must be told again.
     */
    boolean update(List<PageRoom.Seen> seen, Function<String, Optional<RoutePicture>> routeOf, double timeS) {
        Set<String> here = new HashSet<>();
        List<RoutePicture> wanted = new ArrayList<>();
        for (PageRoom.Seen each : seen) {
            here.add(each.seat());
            seats.computeIfAbsent(each.seat(), unseen -> new Seat(each)).take(each, timeS);
            routeOf.apply(each.seat()).ifPresent(wanted::add);
        }
        seats.keySet().retainAll(here);
        RoutePicture before = routes;
        if (seen.isEmpty() || (before != null && wanted.equals(drawn))) {
            return false;
        }
        drawn = List.copyOf(wanted);
        List<Position> middles = wanted.stream().map(RoutePicture::centre).toList();
        boolean stays =
                before != null && middles.stream().allMatch(place -> place.distanceNm(before.centre()) <= FAR_NM);
        Position centre = before != null && stays
                ? before.centre()
                : middles.isEmpty() ? seen.get(0).position() : RoutePicture.middle(middles);
        routes = RoutePicture.together(drawn, centre, () -> LocalDate.now(ZoneOffset.UTC));
        return true;
    }

    /** The plan; empty before anybody was heard. */
    Optional<RoutePicture> routes() {
        return Optional.ofNullable(routes);
    }

    /** All of it, for a page that is opened or for another plan. */
    String whole(Predicate<String> may) {
        RoutePicture plan = routes;
        if (plan == null) {
            return Picture.NOTHING;
        }
        StringBuilder text = new StringBuilder(Picture.line(Message.json("hello", json -> {
            Json.member(
                    json,
                    "centre",
                    List.of(plan.centre().latitudeDeg(), plan.centre().longitudeDeg()));
            plan.writeVariation(json);
            plan.writeChart(json);
        })));
        tell(text, plan, may, seat -> List.copyOf(seat.track));
        return text.toString();
    }

    /** What is new since the last update. */
    String news(Predicate<String> may) {
        RoutePicture plan = routes;
        StringBuilder text = new StringBuilder();
        if (plan != null) {
            tell(text, plan, may, seat -> seat.fresh);
        }
        return text.toString();
    }

    private void tell(StringBuilder text, RoutePicture plan, Predicate<String> may, Function<Seat, List<Fix>> rows) {
        List<Seat> allowed = seats.values().stream()
                .filter(seat -> may.test(seat.last.seat()))
                .toList();
        List<Here> here = allowed.stream()
                .map(seat -> new Here(seat.last.seat(), CleanText.of(seat.last.name()), seat.last.off()))
                .toList();
        text.append(Picture.line(Message.json("here", json -> Json.member(json, "seats", here))));
        for (Seat seat : allowed) {
            Fix now = seat.now;
            if (now == null) {
                continue;
            }
            text.append(Picture.line(SeatMessages.age(
                    seat.last.seat(), seat.last.ageS(), seat.last.old() ? DataState.SILENT : DataState.FLYING)));
            Picture.rows(
                    text,
                    seat.last.seat(),
                    rows.apply(seat).stream().map(fix -> row(plan, fix)).toList(),
                    row(plan, now),
                    false);
        }
    }

    private static Row row(RoutePicture plan, Fix fix) {
        Projection.Point at = plan.of(fix.position());
        return new Row(
                fix.timeS(),
                plan.eastNm(at),
                plan.southNm(at),
                fix.trackDeg(),
                fix.speedKt(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                fix.apart(),
                NO_LINE);
    }
}
