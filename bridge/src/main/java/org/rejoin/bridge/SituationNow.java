package org.rejoin.bridge;

import java.time.LocalTime;
import java.util.Optional;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.protocol.AircraftState;

/** The situation in which a clearance is heard, from the last sample. */
final class SituationNow {

    /** Taken where the feed has no ground speed, knots. */
    private static final double ASSUMED_KT = 120;

    private static final double SLOWEST_KT = 30;
    private static final double FASTEST_KT = 1000;

    private SituationNow() {}

    static Situation of(
            AircraftState now, Clearance clearance, FlightSession.Setting setting, Optional<LocalTime> utc) {
        Position position = Point.positionOf(now);
        Situation unsure = new Situation(
                position, now.altitudeMslFt(), ASSUMED_KT, Optional.empty(), setting.wind(), setting.date());
        Optional<MagneticDirection> heading = now.headingMagneticDeg().isPresent()
                ? Optional.of(new MagneticDirection(now.headingMagneticDeg().getAsDouble()))
                : now.headingTrueDeg().isPresent()
                        ? Optional.of(
                                new TrueDirection(now.headingTrueDeg().getAsDouble()).toMagnetic(unsure.variation()))
                        : Optional.empty();
        return new Situation(
                position,
                now.altitudeMslFt(),
                trueAirspeedKt(now, setting),
                RouteAmender.needsPresentHeading(clearance) ? heading : Optional.empty(),
                setting.wind(),
                setting.date(),
                Situation.Performance.UNKNOWN,
                utc);
    }

    /** Air vector = ground vector - wind; good enough for a lead, and all that every feed carries. */
    private static double trueAirspeedKt(AircraftState now, FlightSession.Setting setting) {
        double speed = now.groundSpeedKt().orElse(ASSUMED_KT);
        double track = Math.toRadians(now.trackTrueDeg().orElse(0));
        double from = Math.toRadians(setting.wind().from().deg());
        double wind = now.trackTrueDeg().isPresent() ? setting.wind().speedKt() : 0;
        double north = speed * Math.cos(track) + wind * Math.cos(from);
        double east = speed * Math.sin(track) + wind * Math.sin(from);
        return Math.min(FASTEST_KT, Math.max(SLOWEST_KT, Math.hypot(north, east)));
    }
}
