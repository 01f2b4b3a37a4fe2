package org.rejoin.bridge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

/** The amendments still to be spoken, and when each is due as the flight goes by. */
final class Schedule {

    /** Two times are the same instant within this, seconds. */
    static final double SAME_INSTANT_S = 1e-3;

    /** An amendment, and the instant it is due, seconds since the first sample. */
    record Due(Amendment amendment, double atS) {}

    private final List<Amendment> due;
    private final Chart chart;
    private final FiledRoute filed;
    private final double beganS;

    /**
     * A script from its beginning.
     *
     * @param beganS when the attempt began, seconds since the first sample: elapsed times count from here
     */
    Schedule(List<Amendment> amendments, Chart chart, FiledRoute filed, double beganS) {
        this.beganS = beganS;
        this.due = new ArrayList<>(amendments);
        this.chart = chart;
        this.filed = filed;
    }

    void spoken(Amendment amendment) {
        due.remove(amendment);
    }

    /** Whether all were spoken. */
    boolean done() {
        return due.isEmpty();
    }

    /** The next amendment to be spoken by the second sample; of two due at one instant, the one written first. */
    Optional<Due> next(AircraftState before, AircraftState now) {
        if (due.isEmpty()) {
            return Optional.empty();
        }
        Due next = null;
        for (Amendment amendment : due) {
            OptionalDouble at = dueAt(amendment, before, now);
            if (at.isPresent() && (next == null || at.getAsDouble() < next.atS() - SAME_INSTANT_S)) {
                next = new Due(amendment, at.getAsDouble());
            }
        }
        return Optional.ofNullable(next);
    }

    /** When an amendment is due, if that is by the second sample. */
    private OptionalDouble dueAt(Amendment amendment, AircraftState before, AircraftState now) {
        if (amendment.when() instanceof Amendment.When.ElapsedS elapsed) {
            double atS = beganS + elapsed.seconds();
            return atS <= now.timeS() + SAME_INSTANT_S ? OptionalDouble.of(atS) : OptionalDouble.empty();
        }
        Amendment.When.Abeam abeam = (Amendment.When.Abeam) amendment.when();
        Optional<Waypoint> point = named(abeam.ident(), now);
        if (point.isEmpty() || !(now.timeS() > before.timeS())) {
            return OptionalDouble.empty();
        }
        double ahead = ahead(before, before, now, point.get());
        double aheadNow = ahead(now, before, now, point.get());
        return ahead > 0 && aheadNow <= 0
                ? OptionalDouble.of(before.timeS() + (now.timeS() - before.timeS()) * ahead / (ahead - aheadNow))
                : OptionalDouble.empty();
    }

    /** The point of that name: the one on the filed route, else the one nearest to the aircraft. */
    private Optional<Waypoint> named(String ident, AircraftState now) {
        Position here = Point.positionOf(now);
        return Stream.of(filed.points(), chart.waypoints(ident))
                .map(points -> points.stream()
                        .filter(point -> point.ident().equals(ident))
                        .min(Comparator.comparingDouble(point -> here.distanceNm(point.position()))))
                .flatMap(Optional::stream)
                .findFirst();
    }

    /** Distance ahead along the track to abeam a point, NM; negative once it is behind. */
    private static double ahead(AircraftState state, AircraftState from, AircraftState to, Waypoint point) {
        Geodesics.Inverse way = Point.positionOf(state).to(point.position());
        double track = state.trackTrueDeg()
                .orElseGet(() -> state.headingTrueDeg()
                        .orElseGet(() -> Point.positionOf(from)
                                .to(Point.positionOf(to))
                                .initial()
                                .deg()));
        return way.distanceNm()
                * Math.cos(Math.toRadians(Angles.turn(way.initial().deg() - track)));
    }
}
