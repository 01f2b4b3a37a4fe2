package org.rejoin.console.page;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.protocol.AircraftState;

/**
 * Where a flight stands some seconds after its last sample, by the dead reckoning of its sender. For the eye alone: nothing
 * is graded by it.
 *
 * @param state then
 * @param progress then; what is not a matter of place is as it was
 */
record Onward(AircraftState state, Progress progress) {

    /** Nothing where the sender does not say how the aircraft goes on, and no longer than it may be silent. */
    static Optional<Onward> of(AircraftState last, Progress then, double seconds) {
        return last.after(seconds).map(state -> new Onward(state, moved(then, last, state)));
    }

    private static Progress moved(Progress then, AircraftState last, AircraftState state) {
        Position place = new Position(state.latitudeDeg(), state.longitudeDeg());
        Geodesics.Inverse way = then.position().to(place);
        double track = state.trackTrueDeg().orElse(then.trackTrueDeg());
        // In the plane: a few thousandths of a mile in the seconds that a sender is silent.
        double offCourse = then.trackErrorDeg().isPresent()
                ? Math.toRadians(way.initial().deg()
                        - (then.trackTrueDeg() - then.trackErrorDeg().getAsDouble()))
                : 0;
        return new Progress(
                state.timeS(),
                place,
                track,
                state.groundSpeedKt().orElse(then.groundSpeedKt()),
                then.phase(),
                then.legIndex(),
                plus(then.crossTrackNm(), way.distanceNm() * Math.sin(offCourse)),
                plus(then.toGoNm(), -way.distanceNm() * Math.cos(offCourse)),
                turned(then.trackErrorDeg(), track - then.trackTrueDeg()),
                turned(then.headingErrorDeg(), difference(last.headingTrueDeg(), state.headingTrueDeg())),
                plus(then.altitudeErrorFt(), difference(last.altitudeMslFt(), state.altitudeMslFt())),
                then.speedErrorKt(),
                then.established(),
                then.nextFix());
    }

    private static double difference(OptionalDouble from, OptionalDouble to) {
        return from.isPresent() && to.isPresent() ? to.getAsDouble() - from.getAsDouble() : 0;
    }

    private static OptionalDouble plus(OptionalDouble value, double more) {
        return value.isPresent() ? OptionalDouble.of(value.getAsDouble() + more) : value;
    }

    private static OptionalDouble turned(OptionalDouble errorDeg, double byDeg) {
        return errorDeg.isPresent() ? OptionalDouble.of(Angles.turn(errorDeg.getAsDouble() + byDeg)) : errorDeg;
    }
}
