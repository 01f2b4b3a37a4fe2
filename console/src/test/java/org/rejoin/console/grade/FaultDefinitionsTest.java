package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.grade.Ocean.Flown;
import org.rejoin.console.grade.Ocean.Leg;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Each fault of the contract, just inside and just outside its definition, on flights in closed form. */
class FaultDefinitionsTest {

    static List<FaultCode> faults(Leg leg) {
        return fly(leg).faults();
    }

    static Flown fly(Leg leg) {
        return Ocean.fly(leg.flight.sample(2), Ocean.CALM);
    }

    static Leg from(double angle, int side) {
        return Ocean.toRadial(angle, side, 120, Ocean.CALM);
    }

    @ParameterizedTest
    @CsvSource({
        "30, -1, 90, 0, 0", "45, 1, 120, 0, 0", "60, -1, 180, 0, 0", "90, 1, 120, 0, 0", "90, -1, 180, 0, 0",
        "30, 1, 120, 240, 25", "45, -1, 90, 10, 20", "60, 1, 120, 130, 30", "90, -1, 90, 300, 20", "45, 1, 180, 90, 40"
    })
    void aSoundLeadHasNone(double angle, int side, double kt, double windFrom, double windKt) {
        Wind wind = new Wind(new TrueDirection(windFrom), windKt);
        Leg leg = Ocean.toRadial(angle, side, kt, wind).toLead().turnOn().asCleared();
        for (var times : List.of(leg.flight.times(1), leg.flight.times(10))) {
            for (boolean noisy : new boolean[] {false, true}) {
                var noise = noisy ? ClosedFormFlight.Noise.usual(7) : ClosedFormFlight.Noise.NONE;
                Flown flown = Ocean.fly(leg.flight.sample(times, noise), wind);
                assertThat(flown.faults()).as("%s %s", noisy, flown.events()).isEmpty();
                assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.MET);
                assertThat(flown.grade().score().orElseThrow()).isGreaterThan(90);
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"45, 9, false", "45, 11, true", "14, 25, false", "16, 11, true", "120, 9, false", "120, 11, true"})
    void flownThrough(double angle, double seconds, boolean fault) {
        Leg leg = from(angle, -1).toCourse(seconds).turnOn().sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults().contains(FaultCode.FLOWN_THROUGH))
                .as("%s", flown.events())
                .isEqualTo(fault);
        if (fault) {
            assertThat(flown.faults()).containsExactly(FaultCode.FLOWN_THROUGH);
        }
    }

    @ParameterizedTest
    @CsvSource({"180, 60, 0.35, false", "180, 60, 0.75, true", "120, 90, 0, true", "120, 45, 9, false"})
    void overshoot(double kt, double angle, double late, boolean fault) {
        Leg leg = Ocean.toRadial(angle, 1, kt, Ocean.CALM).toCourse(late).turnOn();
        leg.flight.seconds(12);
        assertThat(faults(leg.sidestep().asCleared())).isEqualTo(fault ? List.of(FaultCode.OVERSHOOT) : List.of());
    }

    @ParameterizedTest
    @CsvSource({"90, 30, 0", "90, 45, 5", "120, 30, 8", "120, 60, 3", "180, 45, 6", "180, 90, 2"})
    void overshootHasItsClosedForm(double kt, double angle, double late) {
        for (double hz : new double[] {1, 10}) {
            Leg leg = Ocean.toRadial(angle, -1, kt, Ocean.CALM).toCourse(late).turnOn();
            double a = Math.toRadians(angle);
            double expected = leg.flight.radiusNm() * (1 - Math.cos(a)) + late * kt * Math.sin(a) / 3600;
            leg.flight.seconds(8);
            leg.sidestep().asCleared();
            var overshoots = Ocean.fly(leg.flight.sample(hz), Ocean.CALM).all(FlightEvent.Overshoot.class);
            if (expected < 0.1) {
                assertThat(overshoots).isEmpty();
            } else {
                assertThat(overshoots).hasSize(1);
                assertThat(overshoots.get(0).maxCrossTrackNm())
                        .isCloseTo(expected, org.assertj.core.data.Offset.offset(0.002));
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"1.2, 13, false", "1.2, 18, true", "0.9, 40, false", "1.1, 18, true"})
    void turnedEarly(double shortNm, double seconds, boolean fault) {
        Leg leg = from(45, -1);
        double radius = leg.flight.radiusNm();
        double a = Math.toRadians(45);
        leg.flight.miles(6 - radius * Math.tan(a / 2) - shortNm / Math.sin(a));
        leg.turnOn().flight.seconds(seconds);
        leg.sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults())
                .as("%s", flown.events())
                .isEqualTo(fault ? List.of(FaultCode.TURNED_EARLY) : List.of());
    }

    @ParameterizedTest
    @CsvSource({"5, 12, true", "25, 1, false", "5, 0, true"})
    void wrongDirection(double offReciprocal, double seconds, boolean fault) {
        Leg leg = from(60, 1);
        double radius = leg.flight.radiusNm();
        // A lead for the long way round.
        leg.flight.miles(6 - radius / Math.tan(Math.toRadians(30)));
        leg.flight.turn(-(120 - offReciprocal)).seconds(seconds);
        leg.flight.turn(offReciprocal > 20 ? 120 - offReciprocal : -(180 + offReciprocal));
        leg.turnOn();
        leg.flight.seconds(5);
        leg.sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults().contains(FaultCode.WRONG_DIRECTION))
                .as("%s", flown.events())
                .isEqualTo(fault);
        assertThat(flown.faults()).doesNotContain(FaultCode.HEADING_NOT_HELD);
    }

    @ParameterizedTest
    @CsvSource({"90, true", "33, true", "27, false"})
    void wrongTurn(double left, boolean fault) {
        Leg leg = from(45, -1).toLead().turnOn().toFixLessNm(0.5);
        leg.flight.turn(-left).seconds(5);
        leg.ontoAirway().flight.seconds(30);
        assertThat(faults(leg).contains(FaultCode.WRONG_TURN)).isEqualTo(fault);
    }

    @ParameterizedTest
    @CsvSource({"22, false", "28, true", "50, true", "0, false"})
    void sequenceMissed(double after, boolean fault) {
        Leg leg = from(45, -1).toLead().turnOn().toFixLessNm(0);
        leg.flight.seconds(after);
        leg.ontoAirway();
        assertThat(faults(leg).contains(FaultCode.SEQUENCE_MISSED)).isEqualTo(fault);
    }

    @ParameterizedTest
    @CsvSource({"8, -12, false", "11, -12, true", "8, 12, false", "11, 12, true", "60, 8, false"})
    void headingNotHeld(double seconds, double off, boolean fault) {
        Leg leg = new Leg(45, -1, 120, Ocean.CALM, 9);
        leg.flight.seconds(30).turn(off).seconds(seconds).turn(-off).seconds(10);
        // Back on the heading, beside the planned line: the lead is counted from where it now meets the course.
        double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(45));
        leg.flight.miles(toLine - leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
        leg.turnOn().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults())
                .as("%s", flown.events())
                .isEqualTo(fault ? List.of(FaultCode.HEADING_NOT_HELD) : List.of());
    }

    @ParameterizedTest
    @CsvSource({"7, false", "12, true"})
    void aStricterSetFailsTheCriterionWithoutAFault(double off, boolean fault) {
        Leg leg = new Leg(45, -1, 120, Ocean.CALM, 9);
        leg.flight.seconds(30).turn(-off).seconds(15).turn(off).seconds(10);
        double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(45));
        leg.flight.miles(toLine - leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
        leg.turnOn().asCleared();
        Flown flown = Ocean.fly(leg.flight.sample(2), Ocean.CALM, "strict");
        assertThat(flown.faults()).isEqualTo(fault ? List.of(FaultCode.HEADING_NOT_HELD) : List.of());
        assertThat(flown.grade().verdict()).isNotEqualTo(Verdict.MET);
    }

    @ParameterizedTest
    @CsvSource({"120, 2, false", "120, 5, true", "95, 60, false", "-120, 5, true"})
    void altitudeNotHeld(double off, double seconds, boolean fault) {
        Leg leg = from(45, 1).toLead().turnOn().asCleared();
        double ramp = Math.abs(off) / 20;
        leg.flight.altitude(t -> 6000
                + Math.signum(off) * 20 * Math.max(0, Math.min(ramp, Math.min(t - 40, 40 + 2 * ramp + seconds - t))));
        assertThat(faults(leg)).isEqualTo(fault ? List.of(FaultCode.ALTITUDE_NOT_HELD) : List.of());
    }

    @ParameterizedTest
    @CsvSource({"12, 3, true", "12, 2, false", "4.5, 5, false"})
    void weaving(double deg, int crossings, boolean fault) {
        Leg leg = from(30, -1).toLead().turnOn();
        leg.flight.seconds(10);
        double side = 1;
        leg.flight.turn(deg).seconds(15);
        for (int i = 0; i < crossings; i++) {
            leg.flight.turn(-2 * side * deg);
            side = -side;
            leg.flight.seconds(i == crossings - 1 ? 18 : 30);
        }
        leg.turnOn().sidestep().asCleared();
        Flown flown = fly(leg);
        assertThat(flown.faults()).as("%s", flown.events()).isEqualTo(fault ? List.of(FaultCode.WEAVING) : List.of());
    }

    @Test
    void notAchieved() {
        Leg leg = from(45, -1).toLead().turnOn();
        leg.toFixLessNm(2);
        assertThat(faults(leg)).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(fly(leg).grade().verdict()).isNotEqualTo(Verdict.MET);
    }
}
