package org.rejoin.console.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.words.RouteWords;

import org.junit.jupiter.api.Test;

/** The log as a pilot reads it: what stands on the instruments first, every number with its unit. */
class EventTextTest {

    @Test
    void aHeadingIsMagneticWithTheTrueOneBeside() throws Exception {
        AmendedRoute route = route(BuiltInLesson.RADIAL_OUTBOUND);
        double truth = route.assignedHeading().orElseThrow().headingTrue().deg();
        // True = magnetic + variation, east positive (Instrument Flying Handbook, FAA-H-8083-15B, chapter 5).
        assertThat(truth)
                .isCloseTo(110 + route.situation().variation().eastDeg(), org.assertj.core.api.Assertions.within(1e-6));
        assertThat(EventText.line(new FlightEvent.HeadingEstablished(51.26, 110), Optional.of(route)))
                .isEqualTo(String.format(
                        java.util.Locale.ROOT, "00:51.3  on the assigned heading, 110 magnetic (%03.0f true)", truth));
    }

    @Test
    void aDirectIsNoIntercept() throws Exception {
        assertThat(EventText.line(new FlightEvent.DirectNotTakenUp(213, "KIT", -1.484), Optional.<AmendedRoute>empty()))
                .isEqualTo("03:33.0  NOT DIRECT: not going to KIT, 1.48 NM left of the course to it");
    }

    @Test
    void aRadialIsTheCourseThatIsSetAndItsStation() throws Exception {
        assertThat(line(BuiltInLesson.RADIAL_OUTBOUND, new FlightEvent.InterceptAchieved(209, 49.16, 44.59, -0.0118)))
                .isEqualTo("03:29.0  intercept achieved: course 066 FROM PTL (049 true), closed on at 45 degrees, now"
                        + " 0.01 NM left of it");
        assertThat(line(BuiltInLesson.RADIAL_INBOUND, new FlightEvent.WrongDirection(9, 271, 91)))
                .contains("magnetic (271 true) instead of course ")
                .contains(" TO ");
    }

    @Test
    void anAirwayHasAMagneticCourse() throws Exception {
        assertThat(line(BuiltInLesson.HEADING_TO_AIRWAY, new FlightEvent.InterceptAchieved(9, 0.2, 40, 0.1)))
                .matches(".*intercept achieved: course \\d{3} magnetic \\(360 true\\), closed on.*right of it");
    }

    /** One course of one hold has one number, that of its line, wherever it is said. */
    @Test
    void theInboundCourseOfAHoldIsTheOneThatWasCleared() throws Exception {
        Lesson lesson = LessonReader.read(BuiltInLesson.HOLD_AT_FIX.lessonName());
        AmendedRoute route = RouteAmender.amend(
                lesson.chart(),
                lesson.filed(),
                ClearanceReader.read(
                        "direct PTL, hold west of PTL on the PTL 270 radial", lesson.chart(), lesson.filed()),
                route(BuiltInLesson.HOLD_AT_FIX).situation());
        Holding hold = route.holding().orElseThrow();
        String inbound = Angles.figures(hold.inbound().deg());
        assertThat(RouteWords.lines(route)).anyMatch(line -> line.contains("inbound course " + inbound));
        assertThat(EventText.line(
                        new FlightEvent.InterceptAchieved(9, hold.inboundTrue().deg(), 0, 0), Optional.of(route)))
                .contains("course 090 inbound to PTL (");
        assertThat(inbound).isEqualTo("090");
    }

    @Test
    void anOvershootSaysWhenTheCourseWasHeldAgainAndNotThatTheNeedleIsInTheMiddle() {
        assertThat(EventText.line(new FlightEvent.Overshoot(9, 0.44, OptionalDouble.of(30)), Optional.empty()))
                .endsWith("overshoot: 0.44 NM past the line, established on it 30 s after it was crossed");
        assertThat(EventText.line(new FlightEvent.Overshoot(9, 0.44, OptionalDouble.empty()), Optional.empty()))
                .endsWith("never established on it");
    }

    @Test
    void withoutAClearanceADirectionIsSaidToBeTrue() {
        assertThat(EventText.line(new FlightEvent.WrongDirection(1, 230, 50), Optional.empty()))
                .contains("230 true")
                .contains("050 true");
    }

    @Test
    void feetAreHighOrLow() {
        assertThat(EventText.line(new FlightEvent.AltitudeDeviationBegan(1, -120), Optional.empty()))
                .isEqualTo("00:01.0  off the assigned altitude, 120 ft low");
    }

    /** The pilot hears it and reads it back; beside the text alone he could not read it. */
    @Test
    void anAltitudeBesideTheTextStandsInWhatAtcSaid() {
        assertThat(EventText.line(
                        new FlightEvent.ClearanceIssued(30, "fly heading 110, intercept V40", OptionalDouble.of(6000)),
                        Optional.empty()))
                .endsWith("ATC: \"fly heading 110, intercept V40, maintain 6000\"");
    }

    @Test
    void aFaultIsToldByWhatHappenedNotByItsWords() {
        assertThat(new FlightEvent.FlownThrough(1, 0.3).kind().fault()).isPresent();
        assertThat(new FlightEvent.SequenceMissed(1, "A").kind().fault()).isPresent();
        assertThat(new FlightEvent.AmendmentNotAchieved(1, "x", OptionalDouble.empty())
                        .kind()
                        .fault())
                .isPresent();
        // Large capitals in ATC's words are no fault.
        assertThat(new FlightEvent.ClearanceIssued(1, "FLY HEADING 110, INTERCEPT V40", OptionalDouble.empty())
                        .kind()
                        .fault())
                .isEmpty();
    }

    private static String line(BuiltInLesson lesson, FlightEvent event) throws Exception {
        return EventText.line(event, Optional.of(route(lesson)));
    }

    private static AmendedRoute route(BuiltInLesson name) throws Exception {
        Lesson lesson = LessonReader.read(name.lessonName());
        return LessonFlight.route(lesson, lesson.start().orElseThrow().speedKt(), lesson.wind());
    }
}
