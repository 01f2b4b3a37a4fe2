package org.rejoin.bridge.tracker;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;

/** An invented stretch of open ocean, and flights over it designed in closed form. */
final class Ocean {

    static final LocalDate DATE = LocalDate.of(2026, 6, 1);
    static final Wind CALM = Wind.CALM;

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

    static final Chart CHART = chart();
    static final GeodesicLine RADIAL = GeodesicLine.from(new Position(30, -45), new TrueDirection(90), 80);
    static final GeodesicLine V40 = GeodesicLine.between(new Position(30.9, -44.2), new Position(29.2, -44.2));
    static final double FIX_NM = RADIAL.crossing(V40).orElseThrow().alongFirstNm();

    private Ocean() {}

    private static Chart chart() {
        try {
            return ChartReader.read(new ByteArrayInputStream(YAML.getBytes(StandardCharsets.UTF_8)), "ocean.yaml")
                    .chart();
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    /** A flight as it was told. */
    record Flown(FlightRecord record, FlightSession session) {
        List<FlightEvent> events() {
            return record.events();
        }

        <T extends FlightEvent> List<T> all(Class<T> kind) {
            return events().stream().filter(kind::isInstance).map(kind::cast).toList();
        }

        List<Point> points() {
            return record.points().toList();
        }

        /** What stands for itself and is, or may be, a fault: without an overshoot inside its limit. */
        List<FaultCode> faults() {
            return record.entries().stream()
                    .filter(Entry.Happened.class::isInstance)
                    .map(Entry.Happened.class::cast)
                    .filter(happened -> !happened.follows())
                    .filter(happened ->
                            !(happened.event() instanceof FlightEvent.Overshoot o && o.maxCrossTrackNm() <= 0.5))
                    .flatMap(happened -> happened.event().kind().fault().stream())
                    .distinct()
                    .toList();
        }

        List<String> names() {
            return events().stream().map(FlightEvent::name).toList();
        }
    }

    /** "Fly heading ..., intercept the AAA 102 radial, join V40, then as filed": the heading flown at first. */
    static String radialClearance(AircraftState first) {
        return String.format(
                Locale.ROOT,
                "fly heading %03d, intercept the AAA 102 radial, join V40, then as filed",
                magneticHeading(first));
    }

    static int magneticHeading(AircraftState state) {
        double east = MagneticModel.WMM2025
                .field(new Position(state.latitudeDeg(), state.longitudeDeg()), 6000, MagneticModel.decimalYear(DATE))
                .variation()
                .eastDeg();
        int heading = (int) Math.round(Angles.circle(state.headingTrueDeg().orElseThrow() - east));
        return heading == 0 ? 360 : heading;
    }

    static Amendment at(double elapsedS, String say, double altitudeFt) {
        return new Amendment(new Amendment.When.ElapsedS(elapsedS), say, OptionalDouble.of(altitudeFt));
    }

    static final String FILED = "XNOR DCT NORTH V40 SOUTH DCT XSOU";

    static Flown fly(List<AircraftState> states) {
        return fly(states, CALM);
    }

    static Flown fly(List<AircraftState> states, Wind wind) {
        return fly(states, wind, Rules.STANDARD, List.of(at(2, radialClearance(states.get(0)), 6000)));
    }

    static Flown fly(List<AircraftState> states, Rules rules) {
        return fly(states, CALM, rules, List.of(at(2, radialClearance(states.get(0)), 6000)));
    }

    static Flown fly(List<AircraftState> states, List<Amendment> amendments) {
        return fly(states, CALM, Rules.STANDARD, amendments);
    }

    static Flown fly(List<AircraftState> states, Wind wind, Rules rules, List<Amendment> amendments) {
        try {
            FlightRecord record = FlightRecord.whole();
            FlightSession session = new FlightSession(
                    new FlightSession.Setting(
                            CHART,
                            FiledRouteReader.read(FILED, CHART),
                            amendments,
                            DATE,
                            wind,
                            Limits.INSTRUMENT_RATING,
                            12),
                    record,
                    rules);
            states.forEach(session::accept);
            session.finish();
            return new Flown(record, session);
        } catch (org.rejoin.bridge.clearance.ClearanceException e) {
            throw new AssertionError(e);
        }
    }

    static Amendment say(double elapsedS, String text) {
        return new Amendment(new Amendment.When.ElapsedS(elapsedS), text, OptionalDouble.empty());
    }

    /**
     * A flight that would meet the radial 14 NM from the station at an angle, from 6 NM away; still straight.
     *
     * @param angleDeg to the course
     * @param side -1 from the left (north), 1 from the right
     */
    static Leg toRadial(double angleDeg, int side, double kt, Wind wind) {
        return new Leg(angleDeg, side, kt, wind, 6);
    }

    /** An intercept being designed. */
    static final class Leg {
        final double angleDeg;
        final int side;
        final ClosedFormFlight flight;
        private final double distanceNm;

        Leg(double angleDeg, int side, double kt, Wind wind, double distanceNm) {
            this.angleDeg = angleDeg;
            this.side = side;
            this.distanceNm = distanceNm;
            Position meets = RADIAL.pointAt(14);
            double track = RADIAL.courseAt(14).deg() - side * angleDeg;
            Position start = meets.destination(new TrueDirection(track + 180), distanceNm);
            flight = new ClosedFormFlight(start, start.to(meets).initial().deg(), kt, wind);
        }

        /** Straight to the point where a standard turn ends on the course. */
        Leg toLead() {
            flight.miles(distanceNm - flight.radiusNm() * Math.tan(Math.toRadians(angleDeg / 2)));
            return this;
        }

        /** Straight to the course and on for some seconds. */
        Leg toCourse(double beyondS) {
            flight.miles(distanceNm).seconds(beyondS);
            return this;
        }

        Leg turnOn() {
            flight.turnTo(courseHere());
            return this;
        }

        double courseHere() {
            return RADIAL.offset(flight.end().position()).course().deg();
        }

        double crossNm() {
            return RADIAL.offset(flight.end().position()).crossTrackNm();
        }

        double alongNm() {
            return RADIAL.offset(flight.end().position()).alongTrackNm();
        }

        /** From parallel to the course, back onto it: two equal turns with a straight between. */
        Leg sidestep() {
            double off = crossNm();
            double radius = flight.radiusNm();
            double turn = Math.min(30, Math.toDegrees(Math.acos(Math.max(-1, 1 - Math.abs(off) / 2 / radius))));
            double straight = (Math.abs(off) - 2 * radius * (1 - Math.cos(Math.toRadians(turn))))
                    / Math.sin(Math.toRadians(turn));
            flight.turn(-Math.signum(off) * turn).miles(Math.max(0, straight)).turnTo(courseHere());
            return this;
        }

        /** Along the course, a led turn onto the airway, and on. */
        Leg asCleared() {
            return toFixLessNm(flight.radiusNm()).ontoAirway();
        }

        Leg toFixLessNm(double nm) {
            flight.miles(FIX_NM - nm - alongNm());
            return this;
        }

        Leg ontoAirway() {
            double course = V40.offset(flight.end().position()).course().deg();
            flight.turnTo(course).seconds(60);
            return this;
        }
    }
}
