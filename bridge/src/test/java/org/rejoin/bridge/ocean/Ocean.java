package org.rejoin.bridge.ocean;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;

/** An invented stretch of open ocean, and flights over it designed in closed form. */
public final class Ocean {

    public static final LocalDate DATE = LocalDate.of(2026, 6, 1);
    public static final Wind CALM = Wind.CALM;

    private static final String YAML = """
            name: invented
            stations:
              - {ident: AAA, name: Alpha, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: 30.0, longitude_deg: -45.0, declination_deg: -12.0, elevation_ft: 0}
            fixes:
              - {ident: NORTH, latitude_deg: 30.9, longitude_deg: -44.2}
              - {ident: SOUTH, latitude_deg: 29.2, longitude_deg: -44.2}
              - {ident: BENDA, latitude_deg: 30.4, longitude_deg: -44.8}
              - {ident: BENDB, latitude_deg: 30.0, longitude_deg: -44.4}
              - {ident: BENDC, latitude_deg: 29.3, longitude_deg: -44.4}
            airports:
              - {ident: XNOR, name: North, latitude_deg: 31.2, longitude_deg: -44.2, elevation_ft: 0}
              - {ident: XSOU, name: South, latitude_deg: 28.9, longitude_deg: -44.2, elevation_ft: 0}
            airways:
              - {ident: V40, points: [NORTH, SOUTH], minimum_altitude_ft: 3000}
              - {ident: V50, points: [BENDA, BENDB, BENDC], minimum_altitude_ft: 3000}
            """;

    public static final Chart CHART = chart();
    public static final GeodesicLine RADIAL = GeodesicLine.from(new Position(30, -45), new TrueDirection(90), 80);
    public static final GeodesicLine V40 = GeodesicLine.between(new Position(30.9, -44.2), new Position(29.2, -44.2));
    public static final double FIX_NM = RADIAL.crossing(V40).orElseThrow().alongFirstNm();

    public static final String FILED = "XNOR DCT NORTH V40 SOUTH DCT XSOU";

    private Ocean() {}

    private static Chart chart() {
        try {
            return ChartReader.read(new ByteArrayInputStream(YAML.getBytes(StandardCharsets.UTF_8)), "ocean.yaml")
                    .chart();
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    /** "Fly heading ..., intercept the AAA 102 radial, join V40, then as filed": the heading flown at first. */
    public static String radialClearance(AircraftState first) {
        return String.format(
                Locale.ROOT,
                "fly heading %03d, intercept the AAA 102 radial, join V40, then as filed",
                magneticHeading(first));
    }

    public static int magneticHeading(AircraftState state) {
        double east = MagneticModel.WMM2025
                .field(new Position(state.latitudeDeg(), state.longitudeDeg()), 6000, MagneticModel.decimalYear(DATE))
                .variation()
                .eastDeg();
        int heading = (int) Math.round(Angles.circle(state.headingTrueDeg().orElseThrow() - east));
        return heading == 0 ? 360 : heading;
    }

    public static Amendment at(double elapsedS, String say, double altitudeFt) {
        return new Amendment(new Amendment.When.ElapsedS(elapsedS), say, OptionalDouble.of(altitudeFt));
    }

    public static Amendment say(double elapsedS, String text) {
        return new Amendment(new Amendment.When.ElapsedS(elapsedS), text, OptionalDouble.empty());
    }

    /**
     * A flight that would meet the radial 14 NM from the station at an angle, from 6 NM away; still straight.
     *
     * @param angleDeg to the course
     * @param side -1 from the left (north), 1 from the right
     */
    public static Leg toRadial(double angleDeg, int side, double kt, Wind wind) {
        return new Leg(angleDeg, side, kt, wind, 6);
    }

    /** An intercept being designed. */
    public static final class Leg {
        public final double angleDeg;
        public final int side;
        public final ClosedFormFlight flight;
        private final double distanceNm;

        public Leg(double angleDeg, int side, double kt, Wind wind, double distanceNm) {
            this.angleDeg = angleDeg;
            this.side = side;
            this.distanceNm = distanceNm;
            Position meets = RADIAL.pointAt(14);
            double track = RADIAL.courseAt(14).deg() - side * angleDeg;
            Position start = meets.destination(new TrueDirection(track + 180), distanceNm);
            flight = new ClosedFormFlight(start, start.to(meets).initial().deg(), kt, wind);
        }

        /** Straight to the point where a standard turn ends on the course. */
        public Leg toLead() {
            flight.miles(distanceNm - flight.radiusNm() * Math.tan(Math.toRadians(angleDeg / 2)));
            return this;
        }

        /** Straight to the course and on for some seconds. */
        public Leg toCourse(double beyondS) {
            flight.miles(distanceNm).seconds(beyondS);
            return this;
        }

        public Leg turnOn() {
            flight.turnTo(courseHere());
            return this;
        }

        public double courseHere() {
            return RADIAL.offset(flight.end().position()).course().deg();
        }

        public double crossNm() {
            return RADIAL.offset(flight.end().position()).crossTrackNm();
        }

        public double alongNm() {
            return RADIAL.offset(flight.end().position()).alongTrackNm();
        }

        /** From parallel to the course, back onto it: two equal turns with a straight between. */
        public Leg sidestep() {
            double off = crossNm();
            double radius = flight.radiusNm();
            double turn = Math.min(30, Math.toDegrees(Math.acos(Math.max(-1, 1 - Math.abs(off) / 2 / radius))));
            double straight = (Math.abs(off) - 2 * radius * (1 - Math.cos(Math.toRadians(turn))))
                    / Math.sin(Math.toRadians(turn));
            flight.turn(-Math.signum(off) * turn).miles(Math.max(0, straight)).turnTo(courseHere());
            return this;
        }

        /** Along the course, a led turn onto the airway, and on. */
        public Leg asCleared() {
            return toFixLessNm(flight.radiusNm()).ontoAirway();
        }

        public Leg toFixLessNm(double nm) {
            flight.miles(FIX_NM - nm - alongNm());
            return this;
        }

        public Leg ontoAirway() {
            double course = V40.offset(flight.end().position()).course().deg();
            flight.turnTo(course).seconds(60);
            return this;
        }
    }

    /**
     * The same sample with another altitude and airspeed.
     *
     * @param feet above mean sea level; empty where none is sent
     * @param knots indicated; empty where none is sent
     */
    public static AircraftState sending(AircraftState s, OptionalDouble feet, OptionalDouble knots) {
        return new AircraftState(
                s.timeS(),
                s.latitudeDeg(),
                s.longitudeDeg(),
                feet,
                s.headingTrueDeg(),
                s.headingMagneticDeg(),
                s.trackTrueDeg(),
                s.groundSpeedKt(),
                s.verticalSpeedFpm(),
                s.pitchDeg(),
                s.rollDeg(),
                knots,
                s.paused());
    }

    /** The same from a feed that has a magnetic heading alone, or none. */
    public static AircraftState sendingMagnetic(AircraftState s, OptionalDouble headingDeg) {
        return new AircraftState(
                s.timeS(),
                s.latitudeDeg(),
                s.longitudeDeg(),
                s.altitudeMslFt(),
                OptionalDouble.empty(),
                headingDeg,
                s.trackTrueDeg(),
                s.groundSpeedKt(),
                s.verticalSpeedFpm(),
                s.pitchDeg(),
                s.rollDeg(),
                s.indicatedAirspeedKt(),
                s.paused());
    }
}
