package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the rubric of docs/grading.md says, on flights in closed form. */
class RubricTest {

    private static final String WIDE = """
            name: wide
            title: twice as wide as usual
            full_scale_nm: 2
            course_scale: 0.75
            heading_deg: 20
            altitude_ft: 200
            overshoot_nm: 0.5
            fix_lateral_nm: 1
            """;

    @TempDir
    private Path folder;

    private static Leg approaching() {
        return Ocean.toRadial(45, -1, 120, Ocean.CALM);
    }

    private Flown against(String yaml, Leg leg) throws IOException {
        Path file = Files.writeString(folder.resolve("set.yaml"), yaml);
        return Flown.fly(leg.flight.sample(2), file.toString());
    }

    @Test
    void aWiderSetStillGivesTheFaultAndNeverShowsItBesideMet() throws IOException {
        Leg leg = approaching();
        leg.flight.seconds(40).turn(-15).seconds(25).turn(15);
        leg.flight.altitude(t -> t < 60 ? 6000 : 6150).seconds(20);
        Flown flown = against(WIDE, leg);
        assertThat(flown.faults()).contains(FaultCode.HEADING_NOT_HELD, FaultCode.ALTITUDE_NOT_HELD);
        assertThat(flown.criterion("HEADING").verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(flown.criterion("ALTITUDE").verdict()).isEqualTo(Verdict.NOT_MET);
    }

    /** A fault that costs nothing stands beside all points, and not without a word. */
    @Test
    void whatIsJustPastTheLimitIsAFaultThatCostsNothingAndTheCardSaysSo() {
        Leg leg = approaching();
        leg.flight.altitude(t -> t > 30 && t < 60 ? 6100.3 : 6000).seconds(100);
        Flown flown = Flown.fly(leg.flight.sample(2));
        assertThat(flown.faults()).containsExactly(FaultCode.ALTITUDE_NOT_HELD);
        Criterion faults = flown.criterion("FAULTS");
        assertThat(faults.points()).isGreaterThan(24.95);
        assertThat(faults.title()).isEqualTo("Faults, just past the limit: no points lost");
    }

    @Test
    void eachDeviationIsJudgedByItself() {
        Leg leg = approaching();
        leg.flight
                .altitude(t -> (t > 30 && t < 33) || (t > 60 && t < 80) ? 6150 : 6000)
                .seconds(100);
        Flown flown = Flown.fly(leg.flight.sample(2), "strict");
        assertThat(flown.grade().faults())
                .filteredOn(fault -> fault.code() == FaultCode.ALTITUDE_NOT_HELD)
                .singleElement()
                .satisfies(fault -> assertThat(fault.atS()).isBetween(59.0, 62.0));
    }

    /** Ended before the line was due: nothing of it is judged, and that is said. */
    @Test
    void whatWasNotDueIsNotJudged() {
        Leg leg = approaching();
        leg.flight.seconds(60);
        Flown flown = Flown.fly(leg.flight.sample(2));
        Criterion intercept = flown.criterion("INTERCEPT");
        assertThat(intercept.judged()).isFalse();
        assertThat(intercept.maxPoints()).isZero();
        assertThat(flown.grade().faults()).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(flown.grade().notJudged())
                .hasValueSatisfying(why -> assertThat(why).contains("before it was due"));
        assertThat(GradeCard.lines(flown.grade(), "")).anyMatch(line -> line.contains("standard not judged: "));
        assertThat(GradeCard.result(OptionalDouble.of(99.6), Verdict.MET, Optional.empty()))
                .isEqualTo("SCORE 99.6 of 100, standard met");
    }

    /** 15 points, less half of them a limit: 14.3478, in the grade's file 14.35, and from there on 14.4 everywhere. */
    @Test
    void pointsAreSaidAsTheGradesFileHasThem() {
        Criterion course =
                new Criterion.Asked(Criterion.Kind.COURSE, 1, Span.of(0, 60), "an example").measured(0.08696);
        assertThat(course.points()).isBetween(14.345, 14.35);
        assertThat(course.pointsInWords()).isEqualTo("14.4 of 15");
    }

    @Test
    void aFlightWithoutAClearanceHasNoScore() {
        Leg leg = approaching();
        leg.flight.seconds(60);
        Flown flown = Flown.fly(leg.flight.sample(2), "strict", List.of(), Ocean.FILED, Ocean.CHART);
        assertThat(GradeCard.lines(flown.grade(), ""))
                .anyMatch(line -> line.contains("no score"))
                .noneMatch(line -> line.contains("SCORE"));
    }

    @Test
    void turningTheWrongWayCostsMoreThanTurningLate() {
        Leg late = approaching().toLead().turnOn().toFixLessNm(0.3).ontoAirway();
        Leg wrong = approaching().toLead().turnOn().toFixLessNm(0.5);
        wrong.flight.turn(-90).seconds(20);
        wrong.ontoAirway().flight.seconds(30);
        Flown flownWrong = Flown.fly(wrong.flight.sample(2));
        Flown flownLate = Flown.fly(late.flight.sample(2));
        assertThat(flownWrong.faults()).contains(FaultCode.WRONG_TURN);
        assertThat(flownWrong.score()).isLessThan(flownLate.score() - 20);
    }

    /** Nearly a full circle the wrong way is told as that, and not as the short way round. */
    @Test
    void aWrongTurnIsCountedOnPastTheReciprocal() {
        Leg wrong = approaching().toLead().turnOn().toFixLessNm(0.5);
        wrong.flight.turn(-290).seconds(60);
        Flown flown = Flown.fly(wrong.flight.sample(2));
        assertThat(flown.grade().faults())
                .filteredOn(fault -> fault.code() == FaultCode.WRONG_TURN)
                .singleElement()
                .extracting(Fault::text)
                .asString()
                .containsPattern("by (289|290|291) degrees");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "heading_deg: 20|heading_deg: .nan|bad.yaml:5",
                "heading_deg: 20|heading_deg: 91|heading_deg",
                "heading_deg: 20|heading_deg: -1|heading_deg",
                "heading_deg: 20|heading: 3|\"heading\"",
                "altitude_ft: 200|# none|needs \"altitude_ft\"",
                "name: wide|# none|name",
                "full_scale_nm: 2|# none|full_scale_nm",
                "overshoot_nm: 0.5|overshoot_nm: .inf|bad.yaml:7"
            })
    void aSetThatIsNotValidNamesTheKey(String from, String to, String says) throws IOException {
        Path file = Files.writeString(folder.resolve("bad.yaml"), WIDE.replace(from, to));
        assertThatThrownBy(() -> ToleranceSet.read(file.toString()))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("bad.yaml")
                .hasMessageContaining(says);
    }

    @Test
    void anEmptyFileIsNoSet() throws IOException {
        Path file = Files.writeString(folder.resolve("empty.yaml"), "");
        assertThatThrownBy(() -> ToleranceSet.read(file.toString()))
                .isInstanceOf(IOException.class)
                .hasMessageNotContaining("null");
    }
}
