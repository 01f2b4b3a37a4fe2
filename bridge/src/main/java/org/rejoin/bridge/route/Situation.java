package org.rejoin.bridge.route;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.StandardAtmosphere;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.geo.Wind;

/**
 * The aircraft at the moment the clearance is heard.
 *
 * @param altitudeFt above mean sea level, feet; empty where unknown
 * @param trueAirspeedKt knots, [30, 1000]
 * @param heading present heading by the compass; empty where unknown
 * @param utc time of day, Coordinated Universal Time; empty where unknown
 */
public record Situation(
        Position position,
        OptionalDouble altitudeFt,
        double trueAirspeedKt,
        Optional<MagneticDirection> heading,
        Wind wind,
        LocalDate date,
        Performance performance,
        Optional<LocalTime> utc) {

    /** How fast the aircraft climbs and descends, feet a minute, above 0; empty where unknown. */
    public record Performance(OptionalDouble climbFpm, OptionalDouble descentFpm) {

        /** Nothing known: what a light aircraft does is taken. */
        public static final Performance UNKNOWN = new Performance(OptionalDouble.empty(), OptionalDouble.empty());

        /** What a light aircraft climbs and descends at most, feet a minute (common practice, no source). */
        private static final double LIGHT_FPM = 1000;

        /** The most it can, up or down, feet a minute. */
        public double mostFpm(boolean up) {
            return (up ? climbFpm : descentFpm).orElse(LIGHT_FPM);
        }
    }

    private static final double HALF_DAY_S = 12 * 3600;

    /** An aircraft of which neither climb and descent nor the time of day are known. */
    public Situation(
            Position position,
            OptionalDouble altitudeFt,
            double trueAirspeedKt,
            Optional<MagneticDirection> heading,
            Wind wind,
            LocalDate date) {
        this(position, altitudeFt, trueAirspeedKt, heading, wind, date, Performance.UNKNOWN, Optional.empty());
    }

    /**
     * Checks the speed.
     *
     * @throws IllegalArgumentException if the airspeed is outside [30, 1000] knots or not a number
     */
    public Situation {
        if (!(trueAirspeedKt >= 30 && trueAirspeedKt <= 1000)) {
            throw new IllegalArgumentException("true airspeed " + trueAirspeedKt + " is not in 30 to 1000 knots");
        }
    }

    /** The same at another time of day. */
    public Situation withUtc(Optional<LocalTime> now) {
        return new Situation(position, altitudeFt, trueAirspeedKt, heading, wind, date, performance, now);
    }

    /**
     * How long until a time of day that a clearance names in four digits, seconds, (-43200, 43200], negative where it
     * is past: a time has no day, and one of the last twelve hours is past, any other is to come. Empty where the time
     * of day is not known.
     */
    public OptionalDouble secondsUntil(String time) {
        if (utc.isEmpty()) {
            return OptionalDouble.empty();
        }
        double at = (Integer.parseInt(time.substring(0, 2)) * 60 + Integer.parseInt(time.substring(2))) * 60;
        double ahead = at - utc.get().toNanoOfDay() * 1e-9;
        return OptionalDouble.of(
                ahead > HALF_DAY_S ? ahead - 2 * HALF_DAY_S : ahead <= -HALF_DAY_S ? ahead + 2 * HALF_DAY_S : ahead);
    }

    /** The heading that makes a course good in the wind; empty where the wind is too strong for it. */
    public Optional<GroundVector.HeadingForCourse> headingFor(TrueDirection course) {
        return GroundVector.forCourse(course, trueAirspeedKt, wind);
    }

    /**
     * About what the airspeed indicator shows: equivalent airspeed in the standard atmosphere, knots; the true airspeed
     * where the altitude is not known.
     */
    public double indicatedAirspeedKt() {
        return trueAirspeedKt * StandardAtmosphere.rootOfDensity(altitudeFt.orElse(0));
    }

    /** The altitude flown where one is assigned or none is, feet; empty where none is assigned and the present one unknown. */
    OptionalDouble flownFt(OptionalDouble assigned) {
        return assigned.isPresent() ? assigned : altitudeFt;
    }

    /** Today's variation at the aircraft; by the World Magnetic Model. */
    public Variation variation() {
        return variationAt(position);
    }

    /** Today's variation at another place, at the aircraft's altitude; by the World Magnetic Model. */
    public Variation variationAt(Position place) {
        return MagneticModel.WMM2025.variation(place, altitudeFt.orElse(0), date);
    }

    /** Today's variation at a station, at its place and elevation: a bearing of it is the same for all aircraft. */
    public Variation variationAt(Station station) {
        return MagneticModel.WMM2025.variation(station.position(), station.elevationFt(), date);
    }
}
