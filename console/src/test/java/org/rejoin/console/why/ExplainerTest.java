package org.rejoin.console.why;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Why an event is in the log: the rule of the page, the flight around it, and a clear no where there is none. */
class ExplainerTest {

    @Test
    void theStatesBracketTheEventAndTheirGeometryIsTheFlights() throws Exception {
        FlightRecord record = flown(Habit.FLY_THROUGH);
        double atS = record.events().stream()
                .filter(FlightEvent.FlownThrough.class::isInstance)
                .findFirst()
                .orElseThrow()
                .timeS();
        List<Explanation> why = Explainer.explanations(record, atS + 1, Limits.INSTRUMENT_RATING);
        assertThat(why).hasSize(1);
        Explanation through = why.get(0);
        assertThat(through.event()).isInstanceOf(FlightEvent.FlownThrough.class);
        assertThat(through.around().get(0).timeS()).isLessThan(atS - 15);
        assertThat(through.around().get(through.around().size() - 1).timeS()).isGreaterThan(atS + 8);
        double eventNm = ((FlightEvent.FlownThrough) through.event()).crossTrackNm();
        Point nearest = through.around().stream()
                .min(java.util.Comparator.comparingDouble(at -> Math.abs(at.timeS() - atS)))
                .orElseThrow();
        assertThat(nearest.crossTrackNm()).isCloseTo(eventNm, within(0.03));
        // Distance from the line grows with the sine of the track error: two ways to the same geometry.
        Point first = through.around().get(2);
        Point last = through.around().get(4);
        assertThat(last.crossTrackNm() - first.crossTrackNm())
                .isCloseTo(
                        first.groundSpeedKt()
                                / 3600
                                * (last.timeS() - first.timeS())
                                * Math.sin(Math.toRadians(first.trackErrorDeg())),
                        within(0.003));
        assertThat(String.join("\n", Explainer.lines(why)))
                .contains("FLOWN THROUGH")
                .contains("rule, flown through: crossed at more than 15 deg")
                .contains("full scale 2.00 NM")
                .contains("right");
    }

    @Test
    void aPauseIsExplainedByTheRuleThatNoticedIt() {
        for (FlightEvent.SimPaused.Reason reason : FlightEvent.SimPaused.Reason.values()) {
            FlightEvent pause = new FlightEvent.SimPaused(9, reason);
            Explanation why = new Explanation(pause, Optional.empty(), List.of(), Limits.INSTRUMENT_RATING);
            assertThat(why.reasons())
                    .filteredOn(line -> line.startsWith("  rule, pause"))
                    .singleElement()
                    .asString()
                    .contains(reason == FlightEvent.SimPaused.Reason.FLAG ? "as the sender says" : "standing still");
        }
    }

    /** Which numbers we have not looked up again is marked for contributors; a pilot reads the document. */
    @Test
    void aRuleNamesItsDocumentAlone() throws Exception {
        String all = flown(Habit.GOOD).events().stream()
                .map(event -> new Explanation(event, Optional.empty(), List.of(), Limits.INSTRUMENT_RATING))
                .flatMap(why -> why.reasons().stream())
                .collect(Collectors.joining("\n"));
        assertThat(all).contains("from: RTCA DO-236;").doesNotContain("from memory");
    }

    /** On a radial nothing is said of arcs and directs, on an arc nothing of directs. */
    @Test
    void onlyTheRuleOfTheLineAtHandIsNamed() throws Exception {
        assertThat(rulesOf(BuiltInLesson.RADIAL_OUTBOUND))
                .anyMatch(line -> line.startsWith("  rule, established:"))
                .noneMatch(line -> line.startsWith("  rule, on an arc:") || line.startsWith("  rule, direct:"));
        assertThat(rulesOf(BuiltInLesson.ARC_TO_AIRWAY))
                .anyMatch(line -> line.startsWith("  rule, established:"))
                .anyMatch(line -> line.startsWith("  rule, on an arc:"))
                .noneMatch(line -> line.startsWith("  rule, direct:"));
    }

    private static List<String> rulesOf(BuiltInLesson of) throws Exception {
        FlightRecord record = flown(of, Habit.GOOD);
        double atS = record.events().stream()
                .filter(FlightEvent.InterceptAchieved.class::isInstance)
                .findFirst()
                .orElseThrow()
                .timeS();
        return Explainer.explanations(record, atS, Limits.INSTRUMENT_RATING).stream()
                .filter(each -> each.event() instanceof FlightEvent.InterceptAchieved)
                .flatMap(each -> each.reasons().stream())
                .toList();
    }

    @Test
    void eventsOfOneInstantAreExplainedTogether() throws Exception {
        FlightRecord record = flown(Habit.GOOD);
        double atS = record.events().stream()
                .filter(FlightEvent.AmendmentComplete.class::isInstance)
                .findFirst()
                .orElseThrow()
                .timeS();
        List<Explanation> together = Explainer.explanations(record, atS, Limits.INSTRUMENT_RATING);
        assertThat(together)
                .extracting(each -> each.event().name())
                .contains("airway_joined", "route_resumed", "amendment_complete");
        List<String> lines = Explainer.lines(together);
        assertThat(lines)
                .as("one table")
                .filteredOn(line -> line.contains("cross-track"))
                .hasSize(1);
        assertThat(lines.get(lines.size() - 1)).contains("plus: track right of the course");
    }

    @Test
    void aTimeWithNoEventNearIsRefusedAndTheNearestNamed() throws Exception {
        FlightRecord record = flown(Habit.GOOD);
        assertThatThrownBy(() -> Explainer.explanations(record, 400, Limits.INSTRUMENT_RATING))
                .isInstanceOf(Explainer.NothingNearException.class)
                .hasMessageMatching(
                        "no event within 5 s of 06:40\\.0; the nearest is [a-z_]+ at .* \\(--why [0-9.]+\\)");
    }

    @ParameterizedTest
    @CsvSource({"209, 209", "209.02, 209.02", "03:29.0, 209", "1:02:03, 3723", "75:10, 4510", " 0 , 0"})
    void aTimeIsSecondsOrTheClockOfTheLog(String text, double seconds) {
        assertThat(Explainer.timeS(text).orElseThrow()).isCloseTo(seconds, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "x", "-3", "1:75", "1e3", "NaN", "1:2:3:4", "3,5", "٣"})
    void anythingElseIsNoTime(String text) {
        assertThat(Explainer.timeS(text)).isEmpty();
    }

    private static FlightRecord flown(Habit habit) throws Exception {
        return flown(BuiltInLesson.RADIAL_OUTBOUND, habit);
    }

    private static FlightRecord flown(BuiltInLesson of, Habit habit) throws Exception {
        Lesson lesson = LessonReader.read(of.lessonName());
        FlightRecord record = FlightRecord.whole();
        FlightSession seat = LessonFlight.seat(lesson, lesson.amendments(), record);
        new PracticeFlight(lesson, lesson.date().orElseThrow(), habit).fly(1, seat::accept);
        seat.finish();
        return record;
    }
}
