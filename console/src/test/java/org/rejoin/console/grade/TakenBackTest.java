package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Habit;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** "Disregard": what the controller takes back is asked of nobody. */
class TakenBackTest {
    private static Flown fly(Amendment... later) {
        List<AircraftState> states = FeedFairnessTest.flight(Habit.SOUND).sample(2);
        List<Amendment> amendments = new ArrayList<>();
        amendments.add(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000));
        amendments.addAll(List.of(later));
        return Flown.fly(states, amendments);
    }

    @Test
    void nothingOfItIsAskedForAnyMore() {
        Flown flown = fly(Ocean.say(60, "disregard"));
        assertThat(flown.events())
                .extracting(FlightEvent::name)
                .containsSubsequence("clearance_issued", "amendment_cancelled", "clearance_issued", "flight_ended")
                .doesNotContain("amendment_not_achieved", "intercept_achieved", "altitude_deviation_began");
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.progress().get(flown.progress().size() - 1).phase()).isEqualTo(Point.Phase.AS_FILED);
        assertThat(flown.grade().criteria()).extracting(Criterion::code).doesNotContain("INTERCEPT", "COMPLETED");
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(flown.grade().verdict()).isNotEqualTo(Verdict.MET);
        assertThat(GradeCard.lines(flown.grade(), "")).anyMatch(line -> line.contains("standard not judged"));
    }

    /** Nobody grades the way as filed, but who stays on a heading that was taken back is told so. */
    @Test
    void whoNeverGoesBackIsTold() {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        leg.flight.seconds(2400);
        Grade grade = takenBack(leg.flight.sample(2)).grade();
        assertThat(grade.verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(GradeCard.lines(grade, ""))
                .anyMatch(line ->
                        line.contains("standard not judged") && line.contains("never went back to the filed route"));
    }

    private static Flown takenBack(List<AircraftState> states) {
        return Flown.fly(
                states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000), Ocean.say(60, "disregard")));
    }

    @Test
    void whoGoesBackIsNotTold() {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        leg.flight.seconds(70).turnTo(90);
        double toAirway = -Ocean.V40.offset(leg.flight.end().position()).crossTrackNm();
        leg.flight.miles(Math.abs(toAirway) - leg.flight.radiusNm()).turnTo(180).seconds(120);
        Grade grade = takenBack(leg.flight.sample(2)).grade();
        assertThat(GradeCard.lines(grade, "")).noneMatch(line -> line.contains("never went back"));
    }

    @Test
    void anotherAmendmentMayFollow() {
        Flown flown =
                fly(Ocean.say(60, "disregard"), Ocean.say(70, "intercept the AAA 102 radial, join V40, then as filed"));
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        assertThat(flown.faults()).isEmpty();
    }

    @Test
    void theClearanceBeforeItIsInForceAgain() {
        Flown flown = fly(Ocean.say(30, "fly heading 300, intercept V40"), Ocean.say(60, "disregard"));
        List<FlightEvent.ClearanceIssued> heard = flown.all(FlightEvent.ClearanceIssued.class);
        assertThat(heard).hasSize(3);
        assertThat(flown.all(FlightEvent.ClearanceAsBefore.class))
                .containsExactly(new FlightEvent.ClearanceAsBefore(
                        heard.get(2).timeS(), heard.get(0).text(), heard.get(0).altitudeFt()));
        assertThat(flown.grade().notes()).anyMatch(note -> note.startsWith("as cleared before: "));
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        Flown filed =
                fly(Ocean.say(30, "fly heading 300, intercept V40"), Ocean.say(60, "disregard, continue as filed"));
        assertThat(filed.all(FlightEvent.ClearanceIssued.class)).hasSize(3);
        assertThat(filed.all(FlightEvent.AmendmentComplete.class)).isEmpty();
    }

    /**
     * Who takes some seconds to react begins the turn that was taken back, and goes on with it while he reacts to that: what he
     * has turned by then has to be turned back, and there is time for it.
     */
    @ParameterizedTest
    @CsvSource({
        "4, disregard",
        "8, disregard",
        "12, disregard",
        "18, disregard",
        "12, turn left heading 110",
        "9, turn left heading 110"
    })
    void whoBeginsTheTurnThatIsTakenBackHasTheTimeToTurnBack(double takenBackS, String say) {
        for (double reactionS = 0; reactionS <= 9.5; reactionS += 0.5) {
            ClosedFormFlight flight = new ClosedFormFlight(new Position(30.3, -44.9), 100, 120, Ocean.CALM);
            flight.seconds(30 + reactionS)
                    .turn(3 * takenBackS)
                    .turn(-3 * takenBackS)
                    .seconds(120);
            List<AircraftState> states = flight.sample(2);
            int here = Ocean.magneticHeading(states.get(0));
            Flown flown = Flown.fly(
                    states,
                    List.of(
                            Ocean.say(2, String.format(Locale.ROOT, "fly heading %03d", here)),
                            Ocean.say(30, String.format(Locale.ROOT, "turn right heading %03d", here + 75)),
                            Ocean.say(30 + takenBackS, say.replace("110", String.format(Locale.ROOT, "%03d", here)))));
            assertThat(flown.faults())
                    .as("%.1f s: %s", reactionS, flown.events())
                    .isEmpty();
            assertThat(flown.criterion("HEADING").met())
                    .as("%.1f s: %s", reactionS, flown.grade())
                    .isTrue();
        }
    }

    /** Turned as he was told, and not back when it was taken back: one mistake, whenever that was. */
    @ParameterizedTest
    @ValueSource(doubles = {4, 8, 12, 40})
    void whoDoesNotFollowTheDisregardHasMadeOneMistake(double takenBackS) {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        leg.flight.seconds(35).turn(-75).seconds(900);
        List<AircraftState> states = leg.flight.sample(2);
        int taken = Ocean.magneticHeading(states.get(0)) - 75;
        Flown flown = Flown.fly(
                states,
                List.of(
                        Ocean.say(2, Ocean.radialClearance(states.get(0))),
                        Ocean.say(30, String.format(Locale.ROOT, "turn left heading %03d", taken)),
                        Ocean.say(30 + takenBackS, "disregard")));
        assertThat(flown.faults()).as("%s", flown.events()).hasSize(1);
        assertThat(flown.grade().faults().get(0).text())
                .contains("the disregard was not followed")
                .contains(String.format(Locale.ROOT, "heading %03d was flown", taken));
    }

    /**
     * What the controller takes back is annulled (ICAO Annex 10, volume II, 5.2.1.9): the flight, which is the same in both
     * columns, is worth the same whether he said it and took it back or never said it, and whenever he did.
     */
    @ParameterizedTest
    @CsvSource({"SOUND", "LATE", "EARLY", "FLOWN_THROUGH"})
    void aClearanceSaidByMistakeAndTakenBackChangesNoGrade(Habit habit) {
        List<AircraftState> states = FeedFairnessTest.flight(habit).sample(2);
        Amendment first = Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000);
        Flown never = Flown.fly(states, List.of(first));
        AmendmentGrade alone = never.grade().last().amendments().get(0);
        double metS = never.events().stream()
                .filter(event ->
                        event instanceof FlightEvent.CourseCrossed || event instanceof FlightEvent.InterceptAchieved)
                .findFirst()
                .orElseThrow()
                .timeS();
        for (double stoodS : new double[] {2, 8, 25}) {
            for (double afterS : new double[] {-20, 1, 14, 60}) {
                double saidS = metS + afterS;
                Flown taken = Flown.fly(
                        states,
                        List.of(
                                first,
                                Ocean.say(saidS, "turn right heading 100, intercept V40, resume own navigation"),
                                Ocean.say(saidS + stoodS, "disregard the amendment")));
                String what = habit + " said at " + saidS + " for " + stoodS + " s: " + taken.grade();
                List<AmendmentGrade> amendments = taken.grade().last().amendments();
                assertThat(amendments).as(what).hasSize(2);
                boolean toBeDoneMeanwhile = stoodS > 10 && (afterS < 60 || habit != Habit.SOUND);
                if (!toBeDoneMeanwhile) {
                    assertThat(amendments.get(1).notJudged())
                            .as(what)
                            .hasValue(Words.say("taken back after %.0f s", stoodS));
                    assertThat(taken.faults()).as(what).isEqualTo(never.faults());
                    assertThat(taken.grade().verdict())
                            .as(what)
                            .isEqualTo(never.grade().verdict());
                    assertThat(taken.grade().score().orElseThrow())
                            .as(what)
                            .isCloseTo(alone.score().orElseThrow(), Offset.offset(0.5));
                }
            }
        }
    }

    /** A clearance that stands again is one with what was said beside it later. */
    @ParameterizedTest
    @ValueSource(doubles = {25, 45})
    void whatIsSaidAfterItStandsInTheSameTable(double takenBackS) {
        Flown flown = fly(
                Ocean.say(20, "turn right heading 100, intercept V40, resume own navigation"),
                Ocean.say(takenBackS, "disregard"),
                Ocean.say(60, "climb and maintain 7000"));
        assertThat(flown.grade().last().amendments().get(0).say()).endsWith("; climb and maintain 7000");
    }

    /** Two mistakes of the controller, the second to the first clearance itself: nothing is met, and nothing was not due. */
    @Test
    void takenBackTwiceNothingIsLeftToBeMet() {
        double onTheLineS =
                fly().all(FlightEvent.InterceptAchieved.class).get(0).timeS();
        Flown flown = fly(
                Ocean.say(onTheLineS + 10, "turn right heading 100, intercept V40, resume own navigation"),
                Ocean.say(onTheLineS + 14, "disregard"),
                Ocean.say(onTheLineS + 16, "disregard"));
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(flown.grade().last().notJudged().orElseThrow())
                .contains("taken back after 4 s")
                .doesNotContain("the time to reach");
        assertThat(flown.all(FlightEvent.AmendmentCancelled.class))
                .extracting(FlightEvent.AmendmentCancelled::reason)
                .containsExactly("never established on V40", "did not join V40");
    }

    /** The route was never amended by the altitude: it is flown on and judged as one, back at the altitude before. */
    @Test
    void anAltitudeAloneIsTakenBackAndTheRouteGoesOn() {
        Flown flown = fly(Ocean.say(30, "climb and maintain 8000"), Ocean.say(50, "disregard"));
        assertThat(flown.all(FlightEvent.ClearanceIssued.class))
                .extracting(FlightEvent.ClearanceIssued::text)
                .endsWith("climb and maintain 8000", "disregard")
                .hasSize(3);
        assertThat(flown.all(FlightEvent.ClearanceAsBefore.class))
                .extracting(FlightEvent.ClearanceAsBefore::text)
                .containsExactly(
                        flown.all(FlightEvent.ClearanceIssued.class).get(0).text());
        assertThat(flown.all(FlightEvent.AmendmentReplaced.class)).isEmpty();
        assertThat(flown.all(FlightEvent.AmendmentCancelled.class)).isEmpty();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        assertThat(flown.grade().last().amendments()).hasSize(1);
        // Flown at 6000 ft all the way: what is assigned at the end is what was assigned before.
        assertThat(flown.progress().get(flown.progress().size() - 1).altitudeErrorFt())
                .isCloseTo(0, Offset.offset(100.0));
    }

    /** The altitude of the first stands under the second, which names none; the third is taken back. */
    @Test
    void theAltitudeUnderWhichAClearanceStoodStandsAgainWithIt() {
        Flown flown = fly(
                Ocean.say(20, "fly heading 300, intercept V40"),
                Ocean.say(30, "fly heading 280, climb and maintain 8000"),
                Ocean.say(35, "disregard"));
        assertThat(flown.all(FlightEvent.ClearanceAsBefore.class))
                .extracting(FlightEvent.ClearanceAsBefore::text)
                .containsExactly("fly heading 300, intercept V40");
        Point last = flown.progress().get(flown.progress().size() - 1);
        assertThat(last.altitudeErrorFt()).isCloseTo(0, Offset.offset(100.0));
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class)).isEmpty();
    }

    /** He is on the radial already: the heading that led to it is done, and is not asked for again. */
    @Test
    void theHeadingThatLedToALineIsNotGivenBackOnceTheLineWasReached() {
        double onTheLineS =
                fly().all(FlightEvent.InterceptAchieved.class).get(0).timeS();
        Flown flown = fly(
                Ocean.say(onTheLineS + 10, "fly heading 300, intercept V40"), Ocean.say(onTheLineS + 15, "disregard"));
        assertThat(flown.all(FlightEvent.ClearanceAsBefore.class)).hasSize(1);
        List<AmendmentGrade> amendments = flown.grade().last().amendments();
        assertThat(amendments.get(amendments.size() - 1).criteria())
                .extracting(Criterion::code)
                .doesNotContain("HEADING");
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        assertThat(flown.faults()).isEmpty();
    }

    @Test
    void anAltitudeSaidWithItIsInForce() {
        Flown flown = fly(Ocean.say(60, "disregard, maintain 8000"));
        assertThat(flown.all(FlightEvent.AltitudeDeviationBegan.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.AmendmentNotAchieved.class)).isEmpty();
    }

    @Test
    void withNothingInForceThereIsNothingToTakeBack() throws Exception {
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = new FlightSession(
                new FlightSession.Setting(
                        Ocean.CHART,
                        FiledRouteReader.read(Ocean.FILED, Ocean.CHART),
                        List.of(),
                        LocalDate.of(2026, 6, 1),
                        Ocean.CALM,
                        Limits.INSTRUMENT_RATING,
                        12),
                record);
        FeedFairnessTest.flight(Habit.SOUND).sample(1).subList(0, 10).forEach(seat::accept);
        assertThatThrownBy(() -> seat.issue("disregard", OptionalDouble.empty()))
                .isInstanceOf(ClearanceException.class)
                .hasMessageContaining("no amended clearance in force");
        assertThat(record.events()).extracting(FlightEvent::name).containsExactly("flight_began");
        seat.issue("fly heading 100", OptionalDouble.empty());
        assertThat(seat.record().inForce().route()).isPresent();
        seat.issue("fly heading 120", OptionalDouble.empty());
        assertThat(seat.issue("disregard", OptionalDouble.empty()).clearance().text())
                .isEqualTo("fly heading 100");
        seat.issue("disregard", OptionalDouble.empty());
        assertThat(seat.record().inForce().route()).isEmpty();
        assertThat(seat.complete()).isTrue();
    }
}
