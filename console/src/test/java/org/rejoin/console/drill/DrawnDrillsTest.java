package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Verdict;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.skill.Skill;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Drills on charts round the world: flyable, of one meaning, as asked, not leaning to one side. More seeds with
 * {@code -Drejoin.drill-seeds=1000}; {@code -Drejoin.drill-flights=100} flies so many of them with every habit, which takes
 * a while; {@code -Drejoin.say=true} prints the figures.
 */
class DrawnDrillsTest {

    /** Seeds that are drawn and worked out: cheap. */
    private static final int DRAWN = Integer.getInteger("rejoin.drill-seeds", 500);

    /** Seeds of them that are flown, well and with the habits. */
    private static final int FLOWN = Integer.getInteger("rejoin.drill-flights", 3);

    private static final boolean SAY = Boolean.getBoolean("rejoin.say");

    enum Place {
        OURS,
        SOUTHERN,
        ANTIMERIDIAN,
        NORTH_78,
        ARINC;

        Chart chart() throws Exception {
            return switch (this) {
                case OURS -> DrillCharts.ours();
                case SOUTHERN -> DrillCharts.movedTo("Southern ocean", new Position(-42, -120));
                case ANTIMERIDIAN -> DrillCharts.movedTo("Antimeridian", new Position(-20, 179.6));
                case NORTH_78 -> DrillCharts.movedTo("Far north", new Position(78, 0));
                case ARINC -> DrillCharts.arinc();
            };
        }
    }

    /** What each habit shows, and the drills in which it can: under 20 degrees no turn is the wrong one. */
    private static final Map<Habit, Set<FaultCode>> SHOWS = new EnumMap<>(Map.of(
            Habit.LATE, Set.of(FaultCode.OVERSHOOT, FaultCode.FLOWN_THROUGH),
            Habit.FLY_THROUGH, Set.of(FaultCode.FLOWN_THROUGH),
            Habit.RECIPROCAL, Set.of(FaultCode.WRONG_DIRECTION),
            Habit.EARLY, Set.of(FaultCode.TURNED_EARLY),
            Habit.WEAVING, Set.of(FaultCode.WEAVING),
            Habit.WRONG_TURN, Set.of(FaultCode.WRONG_TURN, FaultCode.HOLD_WRONG_SIDE)));

    /** Without these a drill is thrown away; the others depend on angle and wind, and most drills show them. */
    private static final Set<Habit> MUST = EnumSet.of(Habit.FLY_THROUGH, Habit.RECIPROCAL, Habit.WRONG_TURN);

    @ParameterizedTest
    @EnumSource(Place.class)
    void everySeedGivesADrillThatIsFlownWellAndWhoseWrongWaysShow(Place place) throws Exception {
        Chart chart = place.chart();
        DrillMaker maker = new DrillMaker(new DrillChart(chart, ""));
        Map<Habit, int[]> shown = new EnumMap<>(Habit.class);
        double worst = 100;
        int another = 0;
        for (int i = 0; i < FLOWN; i++) {
            int seed = i * (DRAWN / FLOWN);
            // Flown inside: good, fly-through, reciprocal, wrong turn.
            Drill drill = maker.make(DrillRequest.usual(seed));
            another += drill.say()
                            .equals(maker.makeToBeFlown(DrillRequest.usual(seed))
                                    .say())
                    ? 0
                    : 1;
            asWorkedOut(drill, chart, seed);
            Lesson lesson = drill.lesson(chart, none());
            // Once more from outside: a drill flown again grades the same.
            Grade grade = FlownCheck.fly(lesson, Habit.GOOD).grade();
            assertThat(grade.verdict()).as("seed %d %s", seed, drill.say()).isEqualTo(Verdict.MET);
            assertThat(grade.faults()).as("seed %d", seed).isEmpty();
            worst = Math.min(worst, grade.score().orElse(0));
            for (Map.Entry<Habit, Set<FaultCode>> each : SHOWS.entrySet()) {
                boolean turn = drill.features().shape() == Shape.HOLD
                        || Math.abs(drill.features().turnAtFixDeg().orElse(0)) >= 20;
                if ((FLOWN < 50 && !MUST.contains(each.getKey())) || (each.getKey() == Habit.WRONG_TURN && !turn)) {
                    continue;
                }
                Grade wrong = FlownCheck.fly(lesson, each.getKey()).grade();
                boolean seen = wrong.verdict() == Verdict.NOT_MET
                        && wrong.faults().stream()
                                .anyMatch(fault -> each.getValue().contains(fault.code()));
                int[] counts = shown.computeIfAbsent(each.getKey(), habit -> new int[2]);
                counts[0]++;
                counts[1] += seen ? 1 : 0;
                if (SAY && !seen) {
                    System.out.println(place + " seed " + seed + " " + each.getKey() + ": "
                            + wrong.faults().stream()
                                    .map(fault -> fault.code().name())
                                    .toList() + " "
                            + DrillText.features(drill.features()) + ": " + drill.say());
                }
                assertThat(seen || !MUST.contains(each.getKey()))
                        .as("%s, seed %d: %s", each.getKey(), seed, drill.say())
                        .isTrue();
            }
        }
        assertThat(worst).isGreaterThanOrEqualTo(95);
        if (SAY) {
            System.out.println(place + ": " + FLOWN + " flown, worst " + worst + ", drawn again " + another + ", shown "
                    + shown.entrySet().stream()
                            .map(each -> each.getKey() + " " + each.getValue()[1] + " of " + each.getValue()[0])
                            .toList());
        }
    }

    @ParameterizedTest
    @EnumSource(Place.class)
    void featuresAreAsAskedAndNoSideIsFavoured(Place place) throws Exception {
        Chart chart = place.chart();
        DrillMaker maker = new DrillMaker(new DrillChart(chart, ""));
        int right = 0;
        int thenRight = 0;
        int then = 0;
        int bearings = 0;
        long longestMs = 0;
        Map<String, Integer> shapes = new TreeMap<>();
        Map<Features.Entry, Integer> entries = new EnumMap<>(Features.Entry.class);
        Set<Long> octants = new HashSet<>();
        for (int seed = 0; seed < DRAWN; seed++) {
            long began = System.nanoTime();
            Drill drill = maker.makeForPaper(DrillRequest.usual(seed));
            longestMs = Math.max(longestMs, (System.nanoTime() - began) / 1_000_000);
            asWorkedOut(drill, chart, seed);
            Features features = drill.features();
            assertThat(features.angleDeg()).isBetween(25.0 - 3, 75.0 + 3);
            assertThat(features.minutes()).isBetween(2 * 0.8, 4.5 * 1.2);
            right += features.turnOntoCourseDeg() > 0 ? 1 : 0;
            then += features.turnAtFixDeg().isPresent() ? 1 : 0;
            thenRight += features.turnAtFixDeg().orElse(0) > 0 ? 1 : 0;
            shapes.merge(features.shape().option(), 1, Integer::sum);
            bearings += features.ndb() ? 1 : 0;
            features.entry().ifPresent(entry -> entries.merge(entry, 1, Integer::sum));
            octants.add((long) (drill.route().intercept().orElseThrow().course().deg() / 45));
        }
        String seen = place + ": onto the course right " + right + " of " + DRAWN + ", at its end right " + thenRight
                + " of " + then + ", " + shapes + ", entries " + entries + ", octants " + octants.size() + ", bearings "
                + bearings;
        if (SAY) {
            System.out.println(seen + ", longest " + longestMs + " ms");
        }
        assertThat((double) right / DRAWN).as(seen).isBetween(0.4, 0.6);
        double to = shapes.getOrDefault("B", 0);
        double from = shapes.getOrDefault("C", 0);
        assertThat(to / (to + from)).as(seen).isBetween(0.4, 0.6);
        assertThat(shapes).as(seen).containsOnlyKeys("A", "B", "C", "radials", "arc", "hold");
        assertThat((double) thenRight / then).as(seen).isBetween(0.4, 0.6);
        assertThat(octants.size()).as(seen).isEqualTo(8);
        assertThat(entries).as(seen).containsOnlyKeys(Features.Entry.values());
        assertThat(bearings).as("bearings of NDBs: " + seen).isBetween(DRAWN / 40, DRAWN / 4);
    }

    private static void asWorkedOut(Drill drill, Chart chart, long seed) throws Exception {
        // By itself, as anybody would who has only the drill's words.
        AmendedRoute route = RouteAmender.amend(
                chart,
                drill.filed(),
                ClearanceReader.read(drill.say(), chart, drill.filed()),
                new Situation(
                        drill.heard(),
                        OptionalDouble.of(drill.start().altitudeFt()),
                        drill.start().speedKt(),
                        Optional.empty(),
                        drill.wind(),
                        drill.date()));
        assertThat(route.warnings()).as("seed %d: %s", seed, drill.say()).isEmpty();
        assertThat(route.intercept().orElseThrow().angleDeg())
                .isCloseTo(drill.features().angleDeg(), within(1e-6));
        assertThat(route.clearance().notes()).isEmpty();
        canBeTurnedTheWrongWay(drill, seed);
    }

    /** Judgement: by 15 degrees and less nobody can; fly-by turns go up to 120 (ICAO Doc 8168). Of a hold it is the entry. */
    private static void canBeTurnedTheWrongWay(Drill drill, long seed) {
        if (drill.features().shape() != Shape.HOLD) {
            drill.features()
                    .turnAtFixDeg()
                    .ifPresent(turn -> assertThat(Math.abs(turn))
                            .as("turn at the end, seed %d: %s", seed, drill.say())
                            .isStrictlyBetween(15.0, 120.1));
        }
    }

    /** Nearly straight on at FULBO, 2 degrees at GANET, a corner of 60 at PTL, and 10 from the airway's end to the airport. */
    @Test
    void aLegThatGoesOnNearlyStraightIsNoDrill() throws Exception {
        Position first = new Position(38, -52);
        Position fulbo = first.destination(new TrueDirection(70), 40);
        Position ganet = fulbo.destination(new TrueDirection(82), 40);
        Position corner = ganet.destination(new TrueDirection(84), 40);
        Position last = corner.destination(new TrueDirection(144), 40);
        Position field = last.destination(new TrueDirection(154), 20);
        String points = "";
        for (Map.Entry<String, Position> each : Map.of("AUKLE", first, "FULBO", fulbo, "GANET", ganet, "RAZOR", last)
                .entrySet()) {
            points += "  - {ident: " + each.getKey() + place(each.getValue()) + "}\n";
        }
        String yaml =
                "name: bent\nfixes:\n" + points + "stations:\n  - {ident: PTL, kind: VORTAC, name: Petrel, class: H,"
                        + " declination_deg: -15" + place(corner) + "}\nairports:\n  - {ident: XRAZ" + place(field)
                        + "}\nairways:\n  - {ident: V40, points: [AUKLE, FULBO, GANET, PTL, RAZOR], minimum_altitude_ft: 4000}\n";
        Chart chart = ChartReader.read(new ByteArrayInputStream(yaml.getBytes(StandardCharsets.UTF_8)), "bent")
                .chart();
        DrillMaker maker = new DrillMaker(new DrillChart(chart, ""));
        Set<Boolean> goesOn = new HashSet<>();
        for (int seed = 0; seed < 40; seed++) {
            Drill drill = maker.makeForPaper(DrillRequest.usual(seed).withShape(Optional.of(Shape.A)));
            canBeTurnedTheWrongWay(drill, seed);
            goesOn.add(drill.features().turnAtFixDeg().isPresent());
        }
        assertThat(goesOn)
                .as("legs that end in the corner, and at the end of the route")
                .contains(true);
    }

    private static String place(Position at) {
        return ", latitude_deg: " + at.latitudeDeg() + ", longitude_deg: " + at.longitudeDeg();
    }

    /** Asked for is what the middle of each band is worth; drawn is what the program measured. */
    @Test
    void drillsAreOnTheWholeAsHardAsAskedFor() throws Exception {
        DrillMaker maker = new DrillMaker(new DrillChart(DrillCharts.ours(), ""));
        List<Band> angles = List.of(new Band(25, 35), new Band(36, 50), new Band(51, 69), new Band(71, 85));
        List<Band> minutes = List.of(new Band(1.2, 1.9), new Band(2.1, 3.9), new Band(4.1, 5));
        Map<Skill, Double> off = new TreeMap<>();
        int drawn = 0;
        for (Shape shape : List.of(Shape.A, Shape.B, Shape.C)) {
            for (Band angle : angles) {
                for (Band time : minutes) {
                    Drill drill = maker.makeForPaper(DrillRequest.usual(drawn++)
                            .withShape(Optional.of(shape))
                            .withBands(angle, time));
                    Features seen = drill.features();
                    Map<Skill, Double> asked = Difficulty.BUILT_IN.of(new Features(
                            shape,
                            (angle.low() + angle.high()) / 2,
                            (time.low() + time.high()) / 2,
                            seen.crosswindKt(),
                            seen.tailwindKt(),
                            seen.turnAtFixDeg(),
                            seen.turnOntoCourseDeg(),
                            seen.firstTurnDeg(),
                            seen.reciprocalTrap(),
                            seen.ndb(),
                            seen.lookAlike(),
                            seen.outNm(),
                            seen.extras(),
                            seen.entry()));
                    drill.difficulty()
                            .forEach((skill, logit) ->
                                    off.merge(skill, logit - asked.getOrDefault(skill, 0.0), Double::sum));
                }
            }
        }
        double count = drawn;
        assertThat(off)
                .isNotEmpty()
                .allSatisfy((skill, sum) -> assertThat(sum / count)
                        .as("%s, mean of drawn less asked, logits", skill)
                        .isBetween(-0.3, 0.3));
    }

    @Test
    void nowAndThenAnAltitudeOrASpeedIsAssignedBesideTheLine() throws Exception {
        DrillMaker maker = new DrillMaker(new DrillChart(DrillCharts.ours(), ""));
        int altitudes = 0;
        int speeds = 0;
        for (int seed = 0; seed < 60; seed++) {
            Drill drill = maker.makeForPaper(DrillRequest.usual(seed));
            double climb = drill.altitudeFt() - drill.start().altitudeFt();
            boolean speed = drill.say().contains("knots");
            assertThat(drill.features().extras()).as(drill.say()).isEqualTo(climb != 0 || speed ? 1 : 0);
            if (climb != 0) {
                assertThat(drill.say()).contains(climb > 0 ? "climb and maintain" : "descend and maintain");
                assertThat(Math.abs(climb)).isIn(1000.0, 2000.0);
            }
            altitudes += climb != 0 ? 1 : 0;
            speeds += speed ? 1 : 0;
            assertThat(maker.makeForPaper(DrillRequest.usual(seed).withoutExtras())
                            .features()
                            .extras())
                    .isZero();
        }
        assertThat(altitudes).isBetween(12, 36);
        assertThat(speeds).isBetween(2, 15);
        // Few feeds tell the indicated airspeed: a speed is read back and worked with on paper, not flown.
        for (int seed = 0; seed < 60; seed++) {
            assertThat(maker.makeToBeFlown(DrillRequest.usual(seed)).say()).doesNotContain("knots");
        }
    }

    /** A listening drill is of the same words: read back as heard, each kind is right; with another figure it is wrong. */
    @Test
    void everyKindReadBackAsItWasSaidIsRightAndWithoutItsLastLineIsNot() throws Exception {
        Chart chart = DrillCharts.ours();
        DrillMaker maker = new DrillMaker(new DrillChart(chart, ""));
        Set<String> kinds = new HashSet<>();
        for (int seed = 0; seed < 80; seed++) {
            Drill drill = maker.makeForPaper(DrillRequest.usual(seed));
            kinds.add(drill.features().shape().option() + (drill.features().ndb() ? " by an NDB" : ""));
            Clearance said = drill.route().clearance();
            assertThat(Readback.outcome(Readback.check(said, drill.say(), chart, drill.filed(), Optional.empty())))
                    .as("%s %s", drill.say(), Readback.check(said, drill.say(), chart, drill.filed(), Optional.empty()))
                    .isEqualTo(Readback.Outcome.RIGHT);
            String half = drill.say().replaceFirst("intercept .*", "");
            assertThat(Readback.outcome(Readback.check(said, half, chart, drill.filed(), Optional.empty())))
                    .as(half)
                    .isNotEqualTo(Readback.Outcome.RIGHT);
        }
        assertThat(kinds).contains("A", "B", "C", "C by an NDB", "radials", "radials by an NDB", "arc", "hold");
    }

    @Test
    void narrowBandsAreKept() throws Exception {
        DrillMaker maker = new DrillMaker(new DrillChart(DrillCharts.ours(), ""));
        for (Shape shape : List.of(Shape.A, Shape.B, Shape.C)) {
            for (int seed = 0; seed < 40; seed++) {
                Drill drill = maker.makeForPaper(DrillRequest.usual(seed)
                        .withShape(Optional.of(shape))
                        .withBands(new Band(45, 45), new Band(3, 3)));
                assertThat(drill.features().shape()).isEqualTo(shape);
                assertThat(drill.features().angleDeg()).isCloseTo(45, within(3.0));
                assertThat(drill.features().minutes()).isCloseTo(3, within(0.6));
            }
        }
    }

    @Test
    void sameSeedSameBytesOtherSeedAnotherDrill() throws Exception {
        Set<String> texts = new HashSet<>();
        for (int seed = 0; seed < 30; seed++) {
            DrillRequest request = DrillRequest.usual(seed);
            String text = DrillText.lesson(
                    new DrillMaker(new DrillChart(DrillCharts.ours(), "")).makeForPaper(request), "c.yaml", "");
            assertThat(DrillText.lesson(
                            new DrillMaker(new DrillChart(DrillCharts.ours(), "")).makeForPaper(request), "c.yaml", ""))
                    .isEqualTo(text);
            texts.add(text);
        }
        assertThat(texts).hasSize(30);
    }

    @Test
    void aDrillReadFromItsFileIsFlownAndGradedTheSame(@TempDir Path folder) throws Exception {
        Chart chart = DrillCharts.ours();
        Drill drill = new DrillMaker(new DrillChart(chart, ""))
                .make(DrillRequest.usual(4).withShape(Optional.of(Shape.C)));
        Path file = folder.resolve("drill.yaml");
        if (LessonReader.read("radial-outbound").files().chart() instanceof Lesson.KeptChart.Octets kept) {
            Files.write(folder.resolve("ocean.yaml"), kept.octets());
        }
        Files.writeString(file, DrillText.lesson(drill, "ocean.yaml", ""));
        Lesson read = LessonReader.readFile(file);
        assertThat(read.start()).contains(drill.start());
        assertThat(FlownCheck.fly(read, Habit.GOOD).grade())
                .isEqualTo(
                        FlownCheck.fly(drill.lesson(chart, none()), Habit.GOOD).grade());
    }

    @Test
    void aChartWithTooFewStationsSaysSo() throws Exception {
        DrillMaker maker = new DrillMaker(new DrillChart(DrillCharts.tooFew(), ""));
        assertThatThrownBy(() -> maker.make(DrillRequest.usual(1).withShape(Optional.of(Shape.C))))
                .isInstanceOf(NoDrillException.class)
                .hasMessageContaining("chart Two stations gives no drill of shape C")
                .hasMessageContaining("no station with radials where this needs one");
        DrillMaker empty =
                new DrillMaker(new DrillChart(new Chart("Empty", List.of(), List.of(), List.of(), List.of()), ""));
        assertThatThrownBy(() -> empty.make(DrillRequest.usual(1))).hasMessageContaining("it has no airway");
    }

    @Test
    void aWindTooStrongForTheAirspeedIsSaid() throws Exception {
        DrillRequest storm = DrillRequest.usual(1).flown(80, new Wind(new TrueDirection(270), 60));
        assertThatThrownBy(() -> new DrillMaker(new DrillChart(DrillCharts.ours(), "")).make(storm))
                .hasMessageContaining("the wind is too strong for the airspeed");
    }

    private static Lesson.Files none() {
        return new Lesson.Files("", "", new Lesson.KeptChart.Octets(new byte[0]));
    }
}
