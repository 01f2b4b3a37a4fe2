package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.LegMap;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * An aircraft that rolls, in air that is not still, flown soundly: heading, intercept, radial, airway. It banks at 6
 * degrees a second to 25 degrees at most; the gusts swing the nose and push the track (a first-order process of 6 s).
 */
class RolledFlightTest {

    private static final double STEP_S = 0.25;
    private static final double GRAVITY_MPS2 = 9.80665;

    private static List<AircraftState> fly(double angleDeg, int side, double kt, double gustDeg, long seed) {
        Random random = new Random(seed);
        LegMap radial = new LegMap(Ocean.RADIAL);
        LegMap airway = new LegMap(Ocean.V40);
        Position meets = Ocean.RADIAL.pointAt(14);
        double track = Ocean.RADIAL.courseAt(14).deg() - side * angleDeg;
        Position here = meets.destination(new TrueDirection(track + 180), 7);
        double headingDeg = track;
        double assignedDeg = track;
        double bankDeg = 0;
        double gust = 0;
        int stage = 0;
        List<AircraftState> states = new ArrayList<>();
        double mps = kt * 1852 / 3600;
        double radiusNm = mps / Math.toRadians(rate(mps)) / 1852;
        for (int i = 0; i < 10_000 && stage < 3; i++) {
            double t = i * STEP_S;
            Offset onRadial = radial.offset(here);
            Offset onAirway = airway.offset(here);
            double toFixNm = Ocean.FIX_NM - onRadial.alongTrackNm();
            double turnDeg = Math.abs(
                    Angles.turn(onAirway.course().deg() - onRadial.course().deg()));
            if (stage == 0) {
                double off = Math.abs(Angles.turn(headingDeg - onRadial.course().deg()));
                double lead =
                        radiusNm * (1 - Math.cos(Math.toRadians(off))) + kt / 3600 * 3 * Math.sin(Math.toRadians(off));
                stage = Math.abs(onRadial.crossTrackNm()) < lead ? 1 : 0;
            } else if (stage == 1 && toFixNm < radiusNm * Math.tan(Math.toRadians(turnDeg / 2)) + kt / 3600 * 2) {
                stage = 2;
            } else if (stage == 2 && onAirway.alongTrackNm() > 0 && toFixNm < 2) {
                stage = Math.abs(onRadial.crossTrackNm()) > 4 ? 3 : 2;
            }
            double wantedDeg = stage == 0 ? assignedDeg : stage == 1 ? toward(onRadial, kt) : toward(onAirway, kt);
            double limit = Math.min(25, Math.toDegrees(Math.atan(Math.toRadians(3) * mps / GRAVITY_MPS2)));
            double wantedBank = Math.max(-limit, Math.min(limit, 1.5 * Angles.turn(wantedDeg - headingDeg)));
            bankDeg += Math.max(-6 * STEP_S, Math.min(6 * STEP_S, wantedBank - bankDeg));
            headingDeg += Math.toDegrees(GRAVITY_MPS2 * Math.tan(Math.toRadians(bankDeg)) / mps) * STEP_S;
            gust += -gust * STEP_S / 6 + gustDeg * Math.sqrt(2 * STEP_S / 6) * random.nextGaussian();
            double flownTrack = headingDeg + gust;
            if (i % 2 == 0) {
                states.add(new AircraftState(
                        t,
                        here.latitudeDeg(),
                        here.longitudeDeg(),
                        OptionalDouble.of(6000),
                        OptionalDouble.of(Angles.circle(headingDeg - 0.8 * gust)),
                        OptionalDouble.empty(),
                        OptionalDouble.of(Angles.circle(flownTrack)),
                        OptionalDouble.of(kt),
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        OptionalDouble.empty(),
                        false));
            }
            here = here.destination(new TrueDirection(flownTrack), kt / 3600 * STEP_S);
        }
        return states;
    }

    private static double rate(double mps) {
        return Math.min(3, Math.toDegrees(GRAVITY_MPS2 * Math.tan(Math.toRadians(25)) / mps));
    }

    /** Back to the line at up to 30 degrees, in proportion to the distance that half a minute covers. */
    private static double toward(Offset offset, double kt) {
        double correction = Math.toDegrees(Math.atan(offset.crossTrackNm() / (kt / 3600 * 30)));
        return offset.course().deg() - Math.max(-30, Math.min(30, correction));
    }

    @ParameterizedTest
    @CsvSource({
        "20, -1, 90, 0", "45, 1, 120, 0", "90, -1, 120, 0", "60, 1, 180, 0", "90, 1, 250, 0", "110, -1, 100, 0",
        "30, -1, 90, 2.5", "45, 1, 120, 2.5", "90, -1, 120, 2.5", "60, 1, 180, 2", "45, -1, 250, 1.5", "20, 1, 80, 3"
    })
    void aSoundFlightInRoughAirHasNoFault(double angle, int side, double kt, double gustDeg) {
        for (long seed = 1; seed <= (gustDeg == 0 ? 1 : 2); seed++) {
            List<AircraftState> states = fly(angle, side, kt, gustDeg, seed);
            Flown flown = Flown.fly(states, List.of(Ocean.at(2, Ocean.radialClearance(steady(states)), 6000)));
            assertThat(flown.faults()).as("%s: %s", seed, flown.events()).isEmpty();
            assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        }
    }

    /** The first sample with the nose where the pilot means it to be. */
    private static AircraftState steady(List<AircraftState> states) {
        AircraftState first = states.get(0);
        GeodesicLine line =
                GeodesicLine.between(new Position(first.latitudeDeg(), first.longitudeDeg()), Ocean.RADIAL.pointAt(14));
        return new AircraftState(
                0,
                first.latitudeDeg(),
                first.longitudeDeg(),
                first.altitudeMslFt(),
                OptionalDouble.of(line.initialCourse().deg()),
                OptionalDouble.empty(),
                first.trackTrueDeg(),
                first.groundSpeedKt(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                false);
    }
}
