package org.rejoin.console.page;

import java.util.Optional;
import java.util.OptionalDouble;

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
        Position place = new Position(state.latitudeDeg(), state.longitudeDeg());
        Geodesics.Inverse way = then.position().to(place);
        double track = state.trackTrueDeg().orElse(then.trackTrueDeg());
        double turned = difference(then.state().headingTrueDeg(), state.headingTrueDeg());
        // In the plane: a few thousandths of a mile in the seconds that a sender is silent.
        double offCourse = Math.toRadians(way.initial().deg() - (then.trackTrueDeg() - then.trackErrorDeg()));
        return new Point(
                state,
                then.flownS() + state.timeS() - then.timeS(),
                track,
                state.groundSpeedKt().orElse(then.groundSpeedKt()),
                then.turnRateDegPerS(),
                Angles.circle(then.headingMagneticDeg() + turned),
                then.phase(),
                then.legIndex(),
                then.crossTrackNm() + way.distanceNm() * Math.sin(offCourse),
                then.toGoNm() - way.distanceNm() * Math.cos(offCourse),
                Angles.turn(then.trackErrorDeg() + track - then.trackTrueDeg()),
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
