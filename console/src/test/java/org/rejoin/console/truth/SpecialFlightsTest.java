package org.rejoin.console.truth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.practice.PracticeAircraft;
import org.rejoin.console.truth.TrueLine.Place;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Flights that are out of the ordinary, each with what an examiner would say of it. */
class SpecialFlightsTest {

    private static final Setting.Shape SHAPE = Setting.Shape.RADIAL_OUTBOUND;

    @TempDir
    Path folder = Path.of("");

    private static Task everyday() {
        return Task.of(Setting.everyday(SHAPE).withLeg(16));
    }

    private static Flown flown(Mistake.Kind kind, double size) {
        return Flown.by(everyday(), Pilot.Kind.AUTOPILOT, new Mistake(kind, size), 1);
    }

    private static Flown good() {
        return flown(Mistake.Kind.NONE, 0);
    }

    private Verdict judge(Flown flown) throws Exception {
        return Verdict.of(flown, Feed.JSON_2, folder);
    }

    private Verdict judge(Task task, List<Feed.Sent> sent) throws Exception {
        return Verdict.of(task, folder, file -> Feed.JSON_2.write(sent, file));
    }

    /** The states of a flight between two times, moved so that they begin at another. */
    private static List<Feed.Sent> part(Flown flown, double fromS, double toS, double atS) {
        List<Feed.Sent> part = new ArrayList<>();
        for (Feed.Sent each : Feed.JSON_2.sent(flown.states())) {
            double time = each.state().timeS();
            if (time >= fromS && time < toS) {
                AircraftState moved = each.state().withTimeS(time - fromS + atS);
                part.add(new Feed.Sent(moved.timeS(), moved));
            }
        }
        return part;
    }

    private static double onSecondS(Flown flown) {
        return Truth.seconds(new Truth(flown).onSecond);
    }

    @Test
    void whoIsSlewedPastTheExerciseHasNotFlownIt() throws Exception {
        Flown flown = good();
        List<Feed.Sent> sent = part(flown, 0, 50, 0);
        sent.addAll(part(flown, onSecondS(flown) + 5, 1e9, 50.5));
        Verdict verdict = judge(flown.task(), sent);
        assertThat(verdict.met()).as("%s", verdict).isEmpty();
        assertThat(verdict.faults()).isEmpty();
        assertThat(verdict.measured("INTERCEPT")).isEmpty();
        assertThat(verdict.measured("FIX")).isEmpty();
        assertThat(verdict.grade().path("score").asDouble(0)).isLessThan(60);
    }

    @Test
    void whatWasNotReceivedIsNotJudged() throws Exception {
        Flown flown = good();
        List<Feed.Sent> sent = part(flown, 0, 45, 0);
        double again = onSecondS(flown) + 5;
        sent.addAll(part(flown, again, 1e9, again));
        Verdict verdict = judge(flown.task(), sent);
        assertThat(verdict.met()).as("%s", verdict).isEmpty();
        assertThat(verdict.faults()).isEmpty();
        assertThat(verdict.measured("INTERCEPT")).isEmpty();
        assertThat(verdict.measured("COURSE")).isEmpty();
    }

    @Test
    void ignoringTheSecondClearanceEarnsNothingFromTheFirst() throws Exception {
        Flown flown = good();
        Task task = flown.task();
        double secondS = Truth.seconds(new Truth(flown).established) + 30;
        // A radial of CCC to the left of the leg, met on a heading 50 degrees left of it.
        PracticeAircraft then = flown.states().get((int) (secondS * Flown.HZ));
        Place at = new Place(then.position().latitudeDeg(), then.position().longitudeDeg());
        double course = task.first().courseDeg(task.first().lengthNm());
        Place aside = at.going(course - 50, 9);
        Place station = task.second().at(task.second().lengthNm());
        int radial = (int) Math.floorMod(Math.round(station.azimuthDeg(aside) + 8), 360L);
        double variation = MagneticModel.WMM2025
                .variation(new Position(at.latitudeDeg(), at.longitudeDeg()), Task.ALTITUDE_FT, Task.DATE)
                .eastDeg();
        int heading = (int) Math.floorMod(Math.round(course - 50 - variation), 360L);
        String second = String.format(
                Locale.ROOT,
                "  - {when: {elapsed_s: %.0f}, say: \"fly heading %03d, intercept the CCC %03d radial, then as filed\"}\n",
                secondS,
                heading,
                radial);
        String lesson = task.lesson().replace("standard:", second + "standard:");
        Verdict verdict = Verdict.of(task.chart(), lesson, folder, file -> Feed.JSON_2.write(flown, file));
        assertThat(verdict.met()).as("%s", verdict).contains(false);
        assertThat(verdict.faultCodes()).containsAnyOf("HEADING_NOT_HELD", "NOT_ACHIEVED", "ROUTE_LEFT");
        assertThat(verdict.score()).isLessThan(65);
        JsonNode amendments = verdict.attempts().path(0).path("amendments");
        assertThat(amendments).hasSize(2);
        assertThat(amendments.path(1).path("score").asDouble()).isLessThan(30);
        assertThat(amendments.path(0).path("score").asDouble()).isGreaterThan(80);
    }

    @ParameterizedTest
    @ValueSource(doubles = {4, 7})
    void whoLeavesTheRadialEarlyHasLeftTheRoute(double nm) throws Exception {
        Flown flown = flown(Mistake.Kind.LEFT_EARLY, nm);
        Verdict verdict = judge(flown);
        assertThat(verdict.faults()).as("%s", verdict).containsExactly("ROUTE_LEFT");
        assertThat(verdict.met()).contains(false);
    }

    @Test
    void aPauseInsideADeviationMakesNoSecondOne() throws Exception {
        Flown flown = flown(Mistake.Kind.ALTITUDE_OFF, 300);
        List<Feed.Sent> sent = part(flown, 0, 120, 0);
        AircraftState held = sent.get(sent.size() - 1).state().asPaused();
        for (int i = 1; i <= 120; i++) {
            sent.add(new Feed.Sent(held.timeS() + i * 0.5, held));
        }
        for (Feed.Sent each : part(flown, 120, 1e9, 120)) {
            sent.add(new Feed.Sent(each.receivedS() + 60, each.state()));
        }
        Verdict verdict = judge(flown.task(), sent);
        assertThat(verdict.faults()).as("%s", verdict).containsExactly("ALTITUDE_NOT_HELD");
    }

    @ParameterizedTest
    @ValueSource(doubles = {15, 40})
    void aGapInsideADeviationMakesNoSecondOne(double gapS) throws Exception {
        Flown flown = flown(Mistake.Kind.ALTITUDE_OFF, 300);
        List<Feed.Sent> sent = part(flown, 0, 120, 0);
        sent.addAll(part(flown, 120 + gapS, 1e9, 120 + gapS));
        Verdict verdict = judge(flown.task(), sent);
        assertThat(verdict.faults()).as("%s", verdict).containsExactly("ALTITUDE_NOT_HELD");
    }

    @Test
    void aSecondTryAfterMovingBackHasNoMemoryOfTheFirst() throws Exception {
        Flown first = flown(Mistake.Kind.CARRIED_PAST, 1.2);
        Flown second = good();
        double endS = first.captureS() + 20;
        List<Feed.Sent> sent = part(first, 0, endS, 0);
        sent.addAll(part(second, 34, 1e9, endS + 1));
        Verdict verdict = judge(second.task(), sent);
        assertThat(verdict.attempts()).as("%s", verdict).hasSize(2);
        assertThat(verdict.faults()).isEmpty();
        assertThat(verdict.met()).contains(true);
        assertThat(verdict.score()).isGreaterThan(90);
        assertThat(verdict.attempts().path(0).path("met").asBoolean(true)).isFalse();
    }

    @Test
    void theInstructorsEndMakesNothingAFaultThatWasNotDue() throws Exception {
        Flown flown = good();
        double onCourse = Truth.seconds(new Truth(flown).established);
        Verdict verdict = judge(flown.until(onCourse + 60));
        assertThat(verdict.faults()).as("%s", verdict).isEmpty();
        assertThat(verdict.met()).isEmpty();
    }

    @Test
    void whatComesAfterTheGradedPartDoesNotCount() throws Exception {
        Flown flown = good();
        double end = onSecondS(flown) + 45;
        Flown graded = flown.until(end);
        List<Feed.Sent> sent = part(flown, 0, end, 0);
        AircraftState last = sent.get(sent.size() - 1).state();
        // Off to lunch: down, round and away.
        Place place = new Place(last.latitudeDeg(), last.longitudeDeg());
        double track = last.trackTrueDeg().orElseThrow();
        for (int i = 1; i < 800; i++) {
            track += 1.5;
            place = place.going(track, 140.0 / 7200);
            double heading = track - 360 * Math.floor(track / 360);
            AircraftState state = new AircraftState(
                    last.timeS() + i * 0.5,
                    place.latitudeDeg(),
                    Task.wrapped(place.longitudeDeg()),
                    java.util.OptionalDouble.of(Math.max(1000, Task.ALTITUDE_FT - i * 12)),
                    java.util.OptionalDouble.of(heading),
                    java.util.OptionalDouble.empty(),
                    java.util.OptionalDouble.of(heading),
                    java.util.OptionalDouble.of(140),
                    java.util.OptionalDouble.of(-1400),
                    java.util.OptionalDouble.of(0),
                    java.util.OptionalDouble.of(20),
                    java.util.OptionalDouble.empty(),
                    false);
            sent.add(new Feed.Sent(state.timeS(), state));
        }
        Verdict without = judge(graded);
        Verdict verdict = judge(flown.task(), sent);
        assertThat(verdict.faults()).as("%s", verdict).isEmpty();
        assertThat(verdict.met()).contains(true);
        assertThat(verdict.score()).isCloseTo(without.score(), within(0.5));
    }

    @Test
    void endedNineteenSecondsAfterTheClearanceNothingIsJudged() throws Exception {
        Verdict verdict = judge(good().until(Task.CLEARED_S + 19));
        assertThat(verdict.faults()).as("%s", verdict).isEmpty();
        assertThat(verdict.met()).isEmpty();
    }

    @Test
    void twoBumpsNeverCostMoreThanLowAllTheWay() throws Exception {
        Verdict bumps = judge(flown(Mistake.Kind.BUMPS, -135));
        Verdict low = judge(flown(Mistake.Kind.ALTITUDE_OFF, -1500));
        assertThat(bumps.faults()).as("%s", bumps).containsExactly("ALTITUDE_NOT_HELD");
        assertThat(low.faults()).containsExactly("ALTITUDE_NOT_HELD");
        assertThat(bumps.score()).isGreaterThan(low.score() + 5);
    }

    @Test
    void aWrongTurnAndTheWayBackAreOneFault() throws Exception {
        Verdict verdict = judge(flown(Mistake.Kind.WRONG_TURN, 40));
        assertThat(verdict.faults()).as("%s", verdict).containsExactly("WRONG_TURN");
        assertThat(verdict.met()).contains(false);
    }

    @Test
    void levellingOffWithALeadIsSoundFlying() throws Exception {
        Task task = everyday();
        Flown flown = Flown.by(task, Pilot.Kind.AUTOPILOT, new Mistake(Mistake.Kind.ALTITUDE_OFF, 2000), 1);
        String lesson = task.lesson().replaceFirst(", altitude_ft: 6000}\nstandard", ", altitude_ft: 8000}\nstandard");
        assertThat(lesson).isNotEqualTo(task.lesson());
        Verdict verdict = Verdict.of(task.chart(), lesson, folder, file -> Feed.JSON_2.write(flown, file));
        assertThat(verdict.faults()).as("%s", verdict).isEmpty();
        assertThat(verdict.met()).contains(true);
    }

    @ParameterizedTest
    @EnumSource(Setting.Shape.class)
    void anAutopilotCloseToTheLineInGustsDoesNotWeave(Setting.Shape shape) throws Exception {
        for (int seed = 1; seed <= 3; seed++) {
            Task task =
                    Task.of(Setting.everyday(shape).withSpeed(95).withGusts(16).withLeg(16));
            Flown flown = Flown.by(task, Pilot.Kind.AUTOPILOT, Mistake.NONE, seed);
            Verdict verdict = Verdict.of(flown, Feed.DIS_5, folder);
            assertThat(verdict.faults()).as("%s", verdict).isEmpty();
            assertThat(verdict.met()).contains(true);
        }
    }

    @Test
    void aTurnBegunBeforeTheLineThatEndsLateIsAnOvershoot() throws Exception {
        Task task =
                Task.of(Setting.everyday(SHAPE).withSpeed(250).withIntercept(90).withLeg(26));
        Flown flown = Flown.by(task, Pilot.Kind.AUTOPILOT, new Mistake(Mistake.Kind.TURN_DELAYED, 14), 1);
        Truth truth = new Truth(flown);
        assertThat(truth.turnAfterCrossingS().orElseThrow()).isBetween(-20.0, -14.0);
        assertThat(truth.carriedNm).isGreaterThan(0.55);
        Verdict verdict = judge(flown);
        assertThat(verdict.faults()).as("%s", verdict).containsExactly("OVERSHOOT");
        assertThat(verdict.met()).isEqualTo(Optional.of(false));
    }
}
