package org.rejoin.console.page;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.protocol.AircraftState;

/**
 * Where a flight stands some seconds after its last sample, by the dead reckoning of its sender. For the eye alone: nothing
 * is graded by it.
 */
final class DeadReckoned {

    private DeadReckoned() {}

    /** Nothing where the sender does not say how the aircraft goes on, and no longer than it may be silent. */
    static Optional<Point> of(Point last, double seconds) {
        return last.state().after(seconds).map(state -> moved(last, state));
    }

    private static Point moved(Point then, AircraftState state) {
        FlightInstant was = then.instant();
        Geodesics.Inverse way = then.position().to(new Position(state.latitudeDeg(), state.longitudeDeg()));
        double track = state.trackTrueDeg().orElse(was.trackDeg());
        double turned = difference(then.state().headingTrueDeg(), state.headingTrueDeg());
        FlightInstant now = new FlightInstant(
                state,
                was.flownS() + state.timeS() - was.timeS(),
                track,
                was.meanTrackDeg(),
                was.noseDeg() + turned,
                was.meanNoseDeg(),
                was.turnRateDegPerS(),
                was.ratesOverS(),
                state.groundSpeedKt().orElse(was.groundSpeedKt()),
                Angles.circle(was.headingMagneticDeg() + turned));
        // In the plane: a few thousandths of a mile in the seconds that a sender is silent.
        CourseMeasure line = then.measure();
        double offCourse =
                line == null ? Double.NaN : Math.toRadians(way.initial().deg() - line.courseDeg());
        double alongNm = way.distanceNm() * Math.cos(offCourse);
        return new Point(
                now,
                line == null
                        ? null
                        : new CourseMeasure(
                                now,
                                line.crossTrackNm() + way.distanceNm() * Math.sin(offCourse),
                                line.alongNm() + alongNm,
                                line.courseDeg()),
                then.phase(),
                then.legIndex(),
                then.toGoNm() - alongNm,
                then.fullScaleNm(),
                Angles.turn(then.headingErrorDeg() + turned),
                then.altitudeErrorFt() + difference(then.state().altitudeMslFt(), state.altitudeMslFt()),
                then.speedErrorKt(),
                then.direct(),
                then.established(),
                false);
    }

    private static double difference(OptionalDouble from, OptionalDouble to) {
        return from.isPresent() && to.isPresent() ? to.getAsDouble() - from.getAsDouble() : 0;
    }
}
