package org.rejoin.console.why;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.grade.ToleranceSet;
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
    void theRulesAreThoseOfThePageOfTheTracker() throws Exception {
        String page = Files.readString(Path.of("..", "bridge", "docs", "tracker.md"));
        String table = page.substring(page.indexOf("## Thresholds"), page.indexOf("## Events"));
        List<String> rows =
                table.lines().filter(line -> line.startsWith("|")).skip(2).toList();
        assertThat(rows)
                .containsExactlyElementsOf(Arrays.stream(Rule.values())
                        .map(rule -> "| " + rule.title() + " | " + rule.definition() + " | " + rule.source() + " |")
                        .toList());
    }

    /** Fails when an event is added to the tracker and nobody says by which rule. */
    @Test
    void everyEventNamesItsRuleOrIsKnownToHaveNone() throws Exception {
        String rules = Files.readString(Path.of("src/main/java/org/rejoin/console/why/Rule.java"));
        Set<String> without = Arrays.stream(FlightEvent.class.getPermittedSubclasses())
                .map(event -> event.getSimpleName()
                        .replaceAll("(?<=[a-z])(?=[A-Z])", "_")
                        .toLowerCase(java.util.Locale.ROOT))
                .filter(name -> !rules.contains('"' + name + '"'))
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(without)
                .containsExactly(
                        "amendment_not_achieved",
                        "amendment_replaced",
                        "clearance_issued",
                        "flight_began",
                        "flight_ended");
    }

    @Test
    void theStatesBracketTheEventAndTheirGeometryIsTheFlights() throws Exception {
        double atS = flown(new Explainer(0), Habit.FLY_THROUGH).stream()
                .filter(FlightEvent.FlownThrough.class::isInstance)
                .findFirst()
                .orElseThrow()
                .timeS();
        Explainer explainer = new Explainer(atS + 1);
        flown(explainer, Habit.FLY_THROUGH);
        List<Explanation> why =
                explainer.explanations(ToleranceSet.read("instrument-rating").limits());
        assertThat(why).hasSize(1);
        Explanation through = why.get(0);
        assertThat(through.event()).isInstanceOf(FlightEvent.FlownThrough.class);
        assertThat(through.around().get(0).timeS()).isLessThan(atS - 15);
        assertThat(through.around().get(through.around().size() - 1).timeS()).isGreaterThan(atS + 8);
        double eventNm = ((FlightEvent.FlownThrough) through.event()).crossTrackNm();
        Point nearest = through.around().stream()
                .min(java.util.Comparator.comparingDouble(at -> Math.abs(at.timeS() - atS)))
                .orElseThrow();
        assertThat(nearest.crossTrackNm().orElseThrow()).isCloseTo(eventNm, within(0.03));
        // Distance from the line grows with the sine of the track error: two ways to the same geometry.
        Point first = through.around().get(2);
        Point last = through.around().get(4);
        assertThat(last.crossTrackNm().orElseThrow() - first.crossTrackNm().orElseThrow())
                .isCloseTo(
                        first.groundSpeedKt()
                                / 3600
                                * (last.timeS() - first.timeS())
                                * Math.sin(Math.toRadians(first.trackErrorDeg().orElseThrow())),
                        within(0.003));
        assertThat(String.join("\n", through.lines()))
                .contains("FLOWN THROUGH")
                .contains("rule, flown through: crossed at more than 15 deg")
                .contains("full scale 2.00 NM")
                .contains("right");
    }

    @Test
    void eventsOfOneInstantAreExplainedTogether() throws Exception {
        double atS = flown(new Explainer(0), Habit.GOOD).stream()
                .filter(FlightEvent.AmendmentComplete.class::isInstance)
                .findFirst()
                .orElseThrow()
                .timeS();
        Explainer explainer = new Explainer(atS);
        flown(explainer, Habit.GOOD);
        assertThat(explainer.explanations(ToleranceSet.read("instrument-rating").limits()))
                .extracting(each -> each.event().name())
                .contains("airway_joined", "route_resumed", "amendment_complete");
    }

    @Test
    void aTimeWithNoEventNearIsRefusedAndTheNearestNamed() throws Exception {
        Explainer explainer = new Explainer(400);
        flown(explainer, Habit.GOOD);
        assertThatThrownBy(() -> explainer.explanations(
                        ToleranceSet.read("instrument-rating").limits()))
                .isInstanceOf(NoEventNearException.class)
                .hasMessageMatching(
                        "no event within 5 s of 06:40\\.0; the nearest is [a-z_]+ at .* \\(--why [0-9.]+\\)");
    }

    @ParameterizedTest
    @CsvSource({"209, 209", "209.02, 209.02", "03:29.0, 209", "1:02:03, 3723", "75:10, 4510", " 0 , 0"})
    void aTimeIsSecondsOrTheClockOfTheLog(String text, double seconds) {
        assertThat(FlightTime.read(text).orElseThrow()).isCloseTo(seconds, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "x", "-3", "1:75", "1e3", "NaN", "1:2:3:4", "3,5", "٣"})
    void anythingElseIsNoTime(String text) {
        assertThat(FlightTime.read(text)).isEmpty();
    }

    private static List<FlightEvent> flown(Explainer explainer, Habit habit) throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        List<FlightEvent> events = new java.util.ArrayList<>();
        FlightSession seat = LessonFlight.seat(lesson, lesson.amendments(), explainer, new FlightSession.Listener() {
            @Override
            public void event(FlightEvent event) {
                events.add(event);
            }
        });
        new PracticeFlight(lesson, lesson.date().orElseThrow(), habit).fly(1, seat::accept);
        seat.finish();
        return events;
    }
}
