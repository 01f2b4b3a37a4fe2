package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Comparator;
import java.util.List;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The time beside a number is when it was flown, on flights in closed form. */
class MomentsTest {

    private static final Offset<Double> A_SECOND = Offset.offset(1.0);

    private static double momentOf(Flown flown, String code) {
        return flown.criterion(code).moment().orElseThrow();
    }

    private static Leg approaching() {
        return Ocean.toRadial(45, -1, 120, Ocean.CALM);
    }

    private static Point at(Flown flown, double timeS) {
        return flown.progress().stream()
                .min(Comparator.comparingDouble(point -> Math.abs(point.timeS() - timeS)))
                .orElseThrow();
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 5, 20})
    void anAltitudeIsSaidWhereItWasFarthestOffForFiveSeconds(double hz) {
        Leg leg = approaching();
        leg.flight
                .altitude(t -> t > 40 && t < 50 ? 6080 : t > 70 && t < 90 ? 6150 : t > 100 && t < 102 ? 6400 : 6000)
                .seconds(130);
        Flown flown = Flown.fly(leg.flight.sample(hz));
        assertThat(flown.criterion("ALTITUDE").measured()).isCloseTo(150, Offset.offset(1.0));
        assertThat(momentOf(flown, "ALTITUDE")).isBetween(69.0, 90.0);
    }

    /**
     * A thousand feet at 600 ft a minute, levelled off with a lead of a tenth of the rate and a time constant of 6 s, costs
     * as good as nothing: it was not off an altitude that it was on its way to.
     */
    @ParameterizedTest
    @ValueSource(doubles = {5000, 7000})
    void aNormalLevelOffCostsNoPoint(double fromFt) {
        Leg leg = approaching();
        double feetPerS = Math.signum(6000 - fromFt) * 10;
        double leadFt = feetPerS * 6;
        double toLeadS = 12 + (6000 - leadFt - fromFt) / feetPerS;
        leg.flight
                .altitude(t -> t < 12
                        ? fromFt
                        : t < toLeadS ? fromFt + (t - 12) * feetPerS : 6000 - leadFt * Math.exp(-(t - toLeadS) / 6))
                .seconds(180);
        Criterion altitude = Flown.fly(leg.flight.sample(5)).criterion("ALTITUDE");
        assertThat(altitude.points()).isEqualTo(altitude.maxPoints(), Offset.offset(0.2));
    }

    /** Flown seconds leave out what nobody saw, the clock of the flight does not. */
    @Test
    void behindAGapTheClockOfTheFlightGoesOn() {
        Leg leg = approaching();
        leg.flight.altitude(t -> t > 110 && t < 120 ? 6150 : 6000).seconds(140);
        List<AircraftState> states = leg.flight.sample(5).stream()
                .filter(state -> state.timeS() < 60 || state.timeS() > 80)
                .toList();
        Flown flown = Flown.fly(states);
        assertThat(momentOf(flown, "ALTITUDE")).isBetween(109.0, 120.0);
    }

    @Test
    void aHeadingIsSaidWhereItWasFarthestOffInItsWorstTenSeconds() {
        Leg leg = approaching();
        leg.flight.seconds(60).turn(8).seconds(1).turn(8).seconds(1).turn(-16).seconds(60);
        Flown flown = Flown.fly(leg.flight.sample(5));
        // Off by 16 degrees for a second, at the rate of the flight (3 deg/s) from 66.3 s on.
        assertThat(momentOf(flown, "HEADING")).isCloseTo(66.8, A_SECOND);
    }

    @Test
    void carriedPastTheLineIsSaidAtItsFarthest() {
        Leg leg = approaching().toCourse(12).turnOn().asCleared();
        Flown flown = Flown.fly(leg.flight.sample(5));
        Criterion intercept = flown.criterion("INTERCEPT");
        assertThat(intercept.measured()).isGreaterThan(0.3);
        assertThat(Math.abs(at(flown, momentOf(flown, "INTERCEPT")).crossTrackNm()))
                .isCloseTo(intercept.measured(), Offset.offset(0.01));
    }

    @Test
    void whatWasFollowedIsSaidWhereItWasFarthestOff() {
        Leg leg = approaching().toLead().turnOn().asCleared();
        Flown flown = Flown.fly(leg.flight.sample(5));
        Criterion course = flown.criterion("COURSE");
        assertThat(Math.abs(at(flown, momentOf(flown, "COURSE")).crossTrackNm()))
                .isCloseTo(course.measured(), Offset.offset(0.001));
    }

    @Test
    void whatIsCountedOrNeverOffHasNoMoment() {
        Leg leg = approaching();
        leg.flight.altitude(t -> 6000).seconds(60);
        Flown flown = Flown.fly(leg.flight.sample(2));
        assertThat(flown.criterion("ALTITUDE").moment()).isEmpty();
        assertThat(flown.criterion("FAULTS").moment()).isEmpty();
        assertThat(flown.criterion("INTERCEPT").moment()).as("not judged").isEmpty();
    }

    @Test
    void theCardSaysIt() {
        Leg leg = approaching();
        leg.flight.altitude(t -> t > 70 && t < 90 ? 6150 : 6000).seconds(130);
        Flown flown = Flown.fly(leg.flight.sample(5));
        assertThat(GradeCard.lines(flown.grade(), ""))
                .anyMatch(line -> line.matches(" +at 01:[12]\\d\\.\\d; limit: .*"));
    }
}
