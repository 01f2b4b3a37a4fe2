package org.rejoin.console.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.LessonFlight;
import org.rejoin.console.grade.Fault;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.grade.Verdict;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The good practice pilot flies every kind of line and instruction; a habit that shows nothing is refused. */
class WholeTaskFlownTest {

    /** The open ocean of the built-in lessons, another start, other words. */
    static Lesson lesson(String at, int heading, String filed, String say) throws Exception {
        Lesson base = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        Chart chart = base.chart();
        String[] place = at.split("/", -1);
        return new Lesson(
                "words",
                chart,
                FiledRouteReader.read(filed, chart),
                base.date(),
                Optional.empty(),
                base.start()
                        .map(start -> new Lesson.Start(
                                new Position(Double.parseDouble(place[0]), Double.parseDouble(place[1])),
                                6000,
                                new MagneticDirection(heading),
                                140)),
                new Wind(new TrueDirection(250), 15),
                List.of(new Amendment(new Amendment.When.ElapsedS(20), say, OptionalDouble.empty())),
                base.standard(),
                Optional.empty(),
                base.files(),
                List.of());
    }

    private static final String V40 = "XSKU DCT SKU V40 FUL DCT XFUL";
    private static final String V31 = "XPTL DCT PTL V31 SHEAR DCT XSHE";

    @ParameterizedTest(name = "{2}")
    @CsvSource(
            delimiter = '|',
            value = {
                "38.20/-49.62 | 110 | fly heading 120, intercept the FUL 12 mile arc, arc clockwise, join V40, then as filed",
                "38.20/-49.62 | 110 | fly heading 120, intercept the FUL 15 mile arc, arc counterclockwise to the FUL 260 radial, then direct FUL",
                "38.28/-49.55 | 120 | direct PRION, hold northwest of PRION on V40, right turns",
                "38.20/-49.62 | 90 | direct PRION, hold southwest of PRION on V40, left turns, 2 minute legs",
                "38.20/-49.62 | 90 | direct FUL, hold east of FUL on the 090 radial, 5 mile legs",
                "38.183/-49.781 | 110 | fly heading 110, intercept the PTL 066 radial, hold southwest on the PTL 066 radial at 25 DME, left turns",
                "38.20/-49.62 | 90 | direct FUL, hold west of FUL on the 270 radial, 6 mile legs",
                "38.20/-49.92 | 90 | direct FUL, hold west of FUL on the 270 radial, right turns",
                "38.28/-49.55 | 120 | direct PRION, hold northwest of PRION on V40, one circuit, then as filed",
                "38.28/-49.55 | 120 | direct PRION, hold southeast of PRION on V40 for course reversal, V40 FUL, depart FUL heading 090",
                "38.60/-49.80 | 110 | direct PRION, V40 FUL, hold northwest of FUL on V40",
                "38.28/-49.55 | 110 | direct PRION, then as filed, cross PRION at and maintain 7000",
                "38.28/-49.80 | 110 | direct PRION, then as filed, cross 5 miles west of PRION at or above 7000",
                "38.28/-49.55 | 110 | direct FUL, depart FUL heading 090",
                "38.28/-49.55 | 110 | direct FUL, depart FUL on the 120 radial",
                "38.28/-49.55 | 110 | cleared to PRION, direct PRION"
            })
    void theGoodPilotFliesIt(String at, int heading, String say) throws Exception {
        Grade grade = HabitsTest.fly(lesson(at, heading, V40, say), Habit.GOOD, 2);
        assertThat(grade.faults()).isEmpty();
        assertThat(grade.verdict()).as("%s", grade.notes()).isEqualTo(Verdict.MET);
        assertThat(grade.score().orElseThrow()).isGreaterThanOrEqualTo(90);
    }

    /** One flight, judged as it is flown, of a pilot who hears several clearances. */
    private record Heard(FlightRecord record, Grade grade, AircraftState last) {
        static Heard fly(Lesson base, String... said) throws Exception {
            List<Amendment> all = new ArrayList<>();
            for (String each : said) {
                String[] parts = each.split(": ", 2);
                all.add(new Amendment(
                        new Amendment.When.ElapsedS(Double.parseDouble(parts[0])), parts[1], OptionalDouble.empty()));
            }
            Lesson lesson = new Lesson(
                    base.title(),
                    base.chart(),
                    base.filed(),
                    base.date(),
                    Optional.empty(),
                    base.start(),
                    base.wind(),
                    all,
                    base.standard(),
                    Optional.empty(),
                    base.files(),
                    base.notes());
            FlightRecord record = FlightRecord.whole();
            Grader grader = new Grader(ToleranceSet.read(lesson.standard()));
            record.tell(grader);
            FlightSession session = LessonFlight.seat(lesson, all, record);
            AircraftState[] last = new AircraftState[1];
            new PracticeFlight(lesson, lesson.date().orElseThrow(), Habit.GOOD).fly(1, state -> {
                last[0] = state;
                session.accept(state);
            });
            session.finish();
            return new Heard(record, grader.grade(), last[0]);
        }

        double offNm(Waypoint from, Waypoint to) {
            return Math.abs(GeodesicLine.between(from.position(), to.position())
                    .offset(new Position(last.latitudeDeg(), last.longitudeDeg()))
                    .crossTrackNm());
        }
    }

    /** A hold goes on until ATC says more: what came after it taken back, it is held again, by the pilot as by the tracker. */
    @Test
    void aHoldStandsAgainWhenTheWayOutIsTakenBack() throws Exception {
        Lesson base = lesson("38.28/-49.55", 120, V40, "direct PRION");
        Heard heard = Heard.fly(
                base,
                "20: direct PRION, hold northwest of PRION on V40, right turns",
                "760: direct FUL, then as filed",
                "780: disregard");
        assertThat(heard.record().events())
                .extracting(FlightEvent::name)
                .containsSubsequence("hold_entered", "amendment_complete", "hold_left", "hold_entered", "hold_inbound");
        assertThat(heard.record().inForce().route().orElseThrow().endsInHold()).isTrue();
        assertThat(heard.grade().faults()).isEmpty();
    }

    /** Back on the route as filed nothing older is flown any more: the heading before is not, when the last is taken back. */
    @Test
    void whatWasFlownToItsEndLeadsBackToNothingOlder() throws Exception {
        Lesson base = lesson("38.45/-49.55", 140, V40, "direct PRION");
        Heard heard = Heard.fly(base, "5: fly heading 090", "40: direct PRION, then as filed", "560: disregard");
        assertThat(heard.record().events())
                .extracting(FlightEvent::name)
                .containsSubsequence("amendment_complete", "clearance_issued", "flight_ended");
        assertThat(heard.record().events().stream()
                        .filter(FlightEvent.ClearanceIssued.class::isInstance)
                        .map(FlightEvent.ClearanceIssued.class::cast)
                        .toList())
                .extracting(FlightEvent.ClearanceIssued::text)
                .endsWith("disregard");
        assertThat(heard.record().inForce().route()).isEmpty();
        assertThat(heard.offNm(
                        base.chart().waypoints("PRION").get(0),
                        base.chart().waypoints("FUL").get(0)))
                .isLessThan(2);
    }

    /** "Intercept the radial" with nothing said of a heading: one is proposed, flown and met. */
    @ParameterizedTest
    @CsvSource({"38.0/-50.5, 60", "37.6/-50.3, 150", "38.0/-50.6, 300"})
    void aRadialWithoutAHeadingIsMet(String at, int heading) throws Exception {
        Grade grade = HabitsTest.fly(lesson(at, heading, V31, "intercept the PTL 250 radial, V31"), Habit.GOOD, 2);
        assertThat(grade.faults()).isEmpty();
        assertThat(grade.verdict()).isEqualTo(Verdict.MET);
    }

    @ParameterizedTest
    @CsvSource({"late", "reciprocal", "early"})
    void aHabitThatShowsNothingIsRefused(String habit) throws Exception {
        Lesson lesson = lesson("38.28/-49.55", 110, V40, "direct PRION, then as filed");
        assertThatThrownBy(() -> HabitsTest.fly(lesson, Habit.valueOf(habit.toUpperCase(Locale.ROOT)), 1))
                .isInstanceOf(LessonException.class)
                .hasMessageContaining("the habit " + habit + " does not show")
                .hasMessageNotContaining("\n");
    }

    @ParameterizedTest
    @CsvSource({"fly-through, HOLD_NOT_ENTERED", "wrong-turn, HOLD_WRONG_SIDE"})
    void theHabitsOfAHold(String habit, FaultCode fault) throws Exception {
        Lesson lesson = lesson("38.28/-49.55", 110, V40, "direct PRION, hold northwest of PRION on V40, right turns");
        Habit flown = Habit.valueOf(habit.toUpperCase(Locale.ROOT).replace('-', '_'));
        Grade grade = HabitsTest.fly(lesson, flown, 2);
        assertThat(grade.faults()).extracting(Fault::code).contains(fault);
        assertThat(grade.verdict()).isEqualTo(Verdict.NOT_MET);
    }
}
