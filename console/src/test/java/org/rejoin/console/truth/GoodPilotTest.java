package org.rejoin.console.truth;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The good practice pilot is what a student is shown: every clearance flown well, at 80 to 250 kt, in 40 kt of wind from
 * every quarter and in gusts.
 */
class GoodPilotTest {

    private static final double LEAST_SCORE = 90;
    private static final double[] SPEEDS_KT = {80, 120, 160, 200, 250};
    private static final double[] GUSTS_KT = {0, 15};

    /** Invented, in open ocean; long legs, for fast aircraft. */
    private static final String CHART =
            """
            name: Invented, in open ocean
            stations:
              - {ident: AAA, name: Petrel, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: 39.0, longitude_deg: -51.0, declination_deg: -16.0, elevation_ft: 0}
              - {ident: BBB, name: Tern, kind: VORTAC, class: H, frequency_mhz: 114.4, latitude_deg: 39.0, longitude_deg: -50.0, declination_deg: -16.0, elevation_ft: 0}
              - {ident: CCC, name: Skua, kind: VORTAC, class: H, frequency_mhz: 115.4, latitude_deg: 38.3, longitude_deg: -49.0, declination_deg: -16.0, elevation_ft: 0}
            airports:
              - {ident: XAAA, name: First Field, latitude_deg: 39.2, longitude_deg: -51.3, elevation_ft: 10}
              - {ident: XCCC, name: Last Field, latitude_deg: 38.0, longitude_deg: -48.8, elevation_ft: 10}
            airways:
              - {ident: V40, points: [AAA, BBB, CCC]}
            """;

    @TempDir
    Path folder = Path.of("");

    /** A clearance to be flown, and where from. */
    private record Case(String name, String chart, String lesson) {}

    private static List<Case> intercepts() {
        List<Case> cases = new ArrayList<>();
        int quarter = 0;
        for (Setting.Shape shape : Setting.Shape.values()) {
            for (double kt : SPEEDS_KT) {
                for (double angle : quarter % 4 < 2 ? new double[] {-90, 30} : new double[] {-45, 60}) {
                    double wind = kt < 100 ? 25 : 40;
                    double from = 90 * quarter++;
                    Setting setting = Setting.everyday(shape)
                            .withSpeed(kt)
                            .withIntercept(angle)
                            .withWind(from, wind)
                            .withLeg(6 + kt / 8);
                    Task task = Task.of(setting);
                    cases.add(new Case(
                            String.format(Locale.ROOT, "%s %.0f kt %.0f deg wind from %.0f", shape, kt, angle, from),
                            task.chart(),
                            task.lesson()));
                }
            }
        }
        return cases;
    }

    private static Case said(String say, double kt, double headingDeg, double windFromDeg) {
        String lesson = String.format(
                Locale.ROOT,
                """
                title: A task in open ocean
                chart: chart.yaml
                filed: "XAAA DCT AAA V40 CCC DCT XCCC"
                date: 2026-06-01
                start: {at: "38.700,-50.500", altitude_ft: 6000, heading_magnetic_deg: %.0f, speed_kt: %.0f}
                wind: {from_true_deg: %.0f, speed_kt: %d}
                amendments:
                  - {when: {elapsed_s: 20}, say: "%s", altitude_ft: 6000}
                standard: instrument-rating
                """,
                headingDeg,
                kt,
                windFromDeg,
                kt < 100 ? 25 : 40,
                say);
        return new Case(String.format(Locale.ROOT, "%s at %.0f kt from heading %.0f", say, kt, headingDeg), CHART, lesson);
    }

    /** BBB bears 052 true, 068 by the compass, 29 NM from the start. */
    private static List<Case> directs() {
        List<Case> cases = new ArrayList<>();
        int quarter = 0;
        for (double kt : SPEEDS_KT) {
            for (int turn : new int[] {20, 90, 110, 130, 150, 170}) {
                int side = quarter % 2 == 0 ? 1 : -1;
                cases.add(said(
                        "proceed direct BBB, then as filed",
                        kt,
                        Math.floorMod(68 - side * turn, 360),
                        90 * (quarter++ * 7 / 3) % 360));
            }
        }
        return cases;
    }

    private static List<Case> simple() {
        List<Case> cases = new ArrayList<>();
        for (double kt : new double[] {80, 140, 250}) {
            cases.add(said("turn left heading 040", kt, 120, 200));
            cases.add(said("fly heading 250", kt, 80, 200));
            Case climb = said("climb and maintain 8000", kt, 80, 20);
            cases.add(new Case(climb.name(), climb.chart(), climb.lesson().replace("altitude_ft: 6000}\nstandard", "altitude_ft: 8000}\nstandard")));
            cases.add(said("fly heading 030, join V40, then as filed", kt, 60, 300));
            cases.add(said("direct CCC", kt, 150, 300));
        }
        return cases;
    }

    private Grade fly(Case each, double gustsKt) {
        try {
            Path place = Files.createTempDirectory(folder, "flight");
            Files.writeString(place.resolve("chart.yaml"), each.chart());
            Lesson lesson = LessonReader.readFile(Files.writeString(place.resolve("lesson.yaml"), each.lesson()));
            ToleranceSet set = ToleranceSet.read(lesson.standard());
            FlightRecord record = FlightRecord.whole();
            FlightSession seat = new FlightSession(
                    new FlightSession.Setting(
                            lesson.chart(),
                            lesson.filed(),
                            lesson.amendments(),
                            lesson.date().orElseThrow(),
                            lesson.wind(),
                            set.limits(),
                            12),
                    record);
            new PracticeFlight(lesson, lesson.date().orElseThrow(), Habit.GOOD, gustsKt).fly(2, seat::accept);
            seat.finish();
            return Grader.grade(record, set);
        } catch (Exception e) {
            throw new AssertionError(each.name() + ": " + e.getMessage(), e);
        }
    }

    private void allFlownWell(List<Case> cases) {
        List<String> wrong = IntStream.range(0, cases.size())
                .parallel()
                .mapToObj(i -> {
                    double gusts = GUSTS_KT[i % GUSTS_KT.length];
                    Grade grade = fly(cases.get(i), gusts);
                    boolean well = grade.verdict() == org.rejoin.console.grade.Verdict.MET && grade.score().orElse(0) >= LEAST_SCORE;
                    return well ? "" : cases.get(i).name() + ", gusts " + gusts + ": " + grade.score() + " " + grade;
                })
                .filter(text -> !text.isEmpty())
                .toList();
        assertThat(wrong).isEmpty();
    }

    @Test
    void interceptsAreFlownWell() {
        allFlownWell(intercepts());
    }

    @Test
    void directsWithTheTurnsTheyNeedAreFlownWell() {
        allFlownWell(directs());
    }

    @Test
    void headingsAltitudesAndPlainClearancesAreFlownWell() {
        allFlownWell(simple());
    }
}
