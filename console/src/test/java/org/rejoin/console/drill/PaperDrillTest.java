package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.skill.Skill;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A clearance worked out on paper: what is asked, what is right, what cannot be flown and why. */
class PaperDrillTest {

    private static PaperDrill paper(long seed, Shape shape) throws Exception {
        return PaperDrill.draw(
                new DrillChart(DrillCharts.ours(), ""), DrillRequest.usual(seed).withShape(Optional.of(shape)));
    }

    private static PaperDrill flyable(Shape shape) throws Exception {
        long seed = 5;
        while (!paper(seed, shape).route().warnings().isEmpty()) {
            seed++;
        }
        return paper(seed, shape);
    }

    private static Question asked(List<Question> questions, String code) {
        return questions.stream()
                .filter(each -> each.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theRightAnswersAreRightAndTheirContraryIsWrong() throws Exception {
        for (Shape shape : Shape.values()) {
            PaperDrill paper = paper(5, shape);
            PaperResult all = new PaperResult(
                    paper,
                    paper.questions().stream()
                            .map(each ->
                                    new PaperResult.Item(each, each.answer().words(), 4))
                            .toList());
            assertThat(all.right())
                    .as(shape.option())
                    .isEqualTo(paper.questions().size());
            assertThat(all.marks("A", Instant.EPOCH)).isNotEmpty().allMatch(Mark::right);
            assertThat(all.kept(DrillCharts.ours()).path("work_out_s").asDouble())
                    .isEqualTo(4.0 * paper.questions().size());
            PaperResult none = new PaperResult(
                    paper,
                    paper.questions().stream()
                            .map(each -> new PaperResult.Item(each, "", 1))
                            .toList());
            assertThat(none.right()).isZero();
            assertThat(none.marks("A", Instant.EPOCH)).noneMatch(Mark::right);
        }
        PaperDrill outbound = paper(5, Shape.C);
        assertThat(asked(outbound.questions(), "TO_FROM").answer().accepts("from"))
                .isTrue();
        assertThat(asked(outbound.questions(), "TO_FROM").answer().accepts("to"))
                .isFalse();
        assertThat(asked(paper(5, Shape.B).questions(), "TO_FROM").answer().accepts("T"))
                .isTrue();
    }

    /** Entry and outbound heading against the book's own rules: sectors of ICAO Doc 8168, three times the drift of AIM 5-3-8. */
    @Test
    void aHoldIsAskedForEntryTurnsInboundCourseAndTripleDrift() throws Exception {
        for (int seed = 0; seed < 25; seed++) {
            PaperDrill paper = flyableFrom(seed, Shape.HOLD);
            Holding hold = paper.route().holding().orElseThrow();
            List<Question> asked = paper.questions();
            double off = hold.inboundTrue()
                    .turnTo(hold.arrivalHeading()
                            .toTrue(paper.route()
                                    .situation()
                                    .variationAt(hold.fix().position())));
            double mirrored = hold.right() ? off : -off;
            String entry = mirrored >= -70 && mirrored <= 110 ? "direct" : mirrored > 110 ? "teardrop" : "parallel";
            assertThat(asked(asked, "HOLD_ENTRY").answer().accepts(entry))
                    .as(paper.say())
                    .isTrue();
            for (String other : List.of("direct", "teardrop", "parallel")) {
                assertThat(asked(asked, "HOLD_ENTRY").answer().accepts(other)).isEqualTo(other.equals(entry));
            }
            boolean left = paper.say().contains("left turns");
            assertThat(asked(asked, "HOLD_TURNS").answer().accepts(left ? "left" : "right"))
                    .isTrue();
            Wind wind = paper.drill().wind();
            double drift = Math.toDegrees(Math.asin(wind.speedKt()
                    / paper.drill().start().speedKt()
                    * Math.sin(Math.toRadians(hold.inboundTrue().turnTo(wind.from())))));
            MagneticDirection outbound = new TrueDirection(hold.inboundTrue().deg() + 180 - 3 * drift)
                    .toMagnetic(paper.route().situation().variationAt(hold.fix().position()));
            Question.Answer answer = asked(asked, "HOLD_OUTBOUND").answer();
            assertThat(answer.accepts(Angles.figures(outbound.deg())))
                    .as(paper.say())
                    .isTrue();
            assertThat(answer.accepts(Angles.figures(outbound.deg() + 20))).isFalse();
            assertThat(asked(asked, "HOLD_INBOUND")
                            .answer()
                            .accepts(Angles.figures(hold.inbound().deg())))
                    .isTrue();
        }
    }

    /** By the figures that stand in it: true directions on both sides of the sum, and a correction into the wind. */
    @Test
    void theWorkingOfAHoldAddsUpByItsOwnFigures() throws Exception {
        Pattern entry = Pattern.compile(
                "arriving on heading \\d{3} \\((.*) true\\), inbound course \\d{3} \\((.*) true\\): (\\d+)"
                        + " degrees? (left|right) of it, (left|right) turns: (direct|teardrop|parallel).*");
        Pattern outbound =
                Pattern.compile("inbound (.*) true, outbound (.*); inbound the correction is (.*) degrees (left|right),"
                        + " outbound three times that the other way: (.*) true .*");
        for (int seed = 0; seed < 15; seed++) {
            PaperDrill paper = flyableFrom(seed, Shape.HOLD);
            Matcher said = entry.matcher(asked(paper.questions(), "HOLD_ENTRY").working());
            assertThat(said.matches())
                    .as(asked(paper.questions(), "HOLD_ENTRY").working())
                    .isTrue();
            double off = Double.parseDouble(said.group(3)) * (said.group(4).equals("right") ? 1 : -1);
            double sum = Double.parseDouble(said.group(2)) + off - Double.parseDouble(said.group(1));
            assertThat(Angles.turn(sum)).as(said.group()).isCloseTo(0, within(0.6));
            Matcher out =
                    outbound.matcher(asked(paper.questions(), "HOLD_OUTBOUND").working());
            assertThat(out.matches()).isTrue();
            double inbound = Double.parseDouble(out.group(1));
            double correction = Double.parseDouble(out.group(3)) * (out.group(4).equals("right") ? 1 : -1);
            assertThat(Angles.turn(
                            Double.parseDouble(out.group(2)) - 3 * correction - Double.parseDouble(out.group(5))))
                    .as(out.group())
                    .isCloseTo(0, within(0.3));
            double windFrom =
                    new TrueDirection(inbound).turnTo(paper.drill().wind().from());
            assertThat(Math.signum(correction)).as("into the wind").isEqualTo(Math.signum(windFrom));
        }
    }

    @Test
    void theLineOfAnNdbIsABearingInEveryQuestionAndWorking() throws Exception {
        int seen = 0;
        for (int seed = 0; seed < 80; seed++) {
            PaperDrill paper = PaperDrill.draw(new DrillChart(DrillCharts.ours(), ""), DrillRequest.usual(seed));
            Optional<Course> course = paper.route().course();
            if (course.filter(line -> line.station().kind() == Station.Kind.NDB).isEmpty()
                    || paper.route().computedFix().isEmpty()) {
                continue;
            }
            seen++;
            String ident = course.get().station().ident();
            assertThat(asked(paper.questions(), "FIX_DISTANCE").working()).startsWith("where the bearing crosses");
            assertThat(asked(paper.drawings(), "DRAW_FIX").working())
                    .startsWith("where the bearing crosses")
                    .endsWith(ident);
        }
        assertThat(seen).isPositive();
    }

    /** Lead radial by the rule of 60: a mile at D NM is 60/D radials (Instrument Flying Handbook, FAA-H-8083-15B, ch. 9). */
    @Test
    void anArcIsAskedForWhereItIsMetWhichWayRoundAndItsLeadRadial() throws Exception {
        for (int seed = 0; seed < 25; seed++) {
            PaperDrill paper = flyableFrom(seed, Shape.ARC);
            Leg.DmeArc arc = (Leg.DmeArc) paper.route().legs().get(paper.route().courseLeg());
            List<Question> asked = paper.questions();
            assertThat(paper.questions()).extracting(Question::ask).noneMatch(ask -> ask.contains("onto the course"));
            assertThat(paper.drawings()).extracting(Question::ask).noneMatch(ask -> ask.contains("meets the course"));
            boolean clockwise =
                    Angles.turn(arc.toRadial().deg() - arc.fromRadial().deg()) > 0;
            // What the heading meets is called what it is.
            assertThat(asked(asked, "TURN_ONTO_COURSE").ask()).isEqualTo("Turn onto the arc: left or right?");
            assertThat(paper.drawings()).extracting(Question::ask).contains("Mark where the heading meets the arc.");
            Question.Answer way = asked(asked, "ARC_WAY").answer();
            assertThat(way.accepts(clockwise ? "clockwise" : "counterclockwise"))
                    .as(paper.say())
                    .isTrue();
            assertThat(way.accepts(clockwise ? "counterclockwise" : "clockwise"))
                    .isFalse();
            assertThat(way.accepts("c")).as("could be either").isFalse();
            assertThat(asked(asked, "ARC_MET")
                            .answer()
                            .accepts(Angles.figures(arc.fromRadial().deg())))
                    .isTrue();
            double groundKt = GroundVector.forCourse(
                            arc.path().finalCourse(),
                            paper.drill().start().speedKt(),
                            paper.drill().wind())
                    .orElseThrow()
                    .groundSpeedKt();
            double turn = paper.drill().features().turnAtFixDeg().orElseThrow();
            double lead =
                    groundKt / (60 * Math.PI) * Math.tan(Math.toRadians(Math.abs(turn) / 2)) * 60 / arc.distanceNm();
            double radial = arc.toRadial().deg() - (clockwise ? lead : -lead);
            assertThat(asked(asked, "ARC_LEAD_RADIAL").answer().accepts(Angles.figures(radial)))
                    .as(paper.say())
                    .isTrue();
            assertThat(asked(asked, "ARC_TURN_OFF").answer().accepts(turn > 0 ? "right" : "left"))
                    .isTrue();
        }
    }

    private static PaperDrill flyableFrom(long first, Shape shape) throws Exception {
        long seed = first;
        while (!paper(seed, shape).route().warnings().isEmpty()) {
            seed += 100;
        }
        return paper(seed, shape);
    }

    /** Numbers as the Aeronautical Information Manual says them, 4-2-8 to 4-2-10. */
    @ParameterizedTest
    @CsvSource({
        "one zero one, 101", "one hundred one, ", "forty-eight, 48", "forty eight degrees, 48", "niner, 9", "48, 48",
        "048, 48", "4.4, 4.4", "'4,4 min', 4.4", "four point four, 4.4", "fifteen decimal five NM, 15.5", "237°, 237",
        "4x8, ", "banana, ", "-5, ", "48 or 50, ", "?, ", "point five, "
    })
    void aNumberIsReadInFiguresAndAsAtcSaysIt(String typed, Double number) {
        OptionalDouble read = Question.TypedNumber.of(typed);
        assertThat(read).isEqualTo(number == null ? OptionalDouble.empty() : OptionalDouble.of(number));
    }

    @Test
    void aSlipOfTheKeyboardIsNoAnswerAndAWrongAnswerIsOne() throws Exception {
        List<Question> asked = paper(3, Shape.C).questions();
        Question side = asked(asked, "TURN_TO_HEADING");
        for (String slip : List.of("banana", "?", "left turn", "l.", "to SKU")) {
            assertThat(side.noAnswer(slip)).hasValue("\"" + slip + "\" is none of the answers: left or right");
        }
        assertThat(List.of("left", "RIGHT", "l", "", " "))
                .allMatch(typed -> side.noAnswer(typed).isEmpty());
        Question course = asked(asked, "COURSE");
        assertThat(course.noAnswer("361")).isPresent();
        assertThat(course.noAnswer("001")).isEmpty();
        assertThat(course.answer().accepts("two three seven"))
                .isEqualTo(course.answer().accepts("237"));
    }

    @Test
    void oneInFourCannotBeFlownForOneOfThreeReasons() throws Exception {
        Map<Warning.Code, Integer> why = new EnumMap<>(Warning.Code.class);
        int drawn = 100;
        for (int seed = 0; seed < drawn; seed++) {
            PaperDrill paper = paper(seed, Shape.C);
            List<Warning> warnings = paper.route().warnings();
            Question flyable = asked(paper.questions(), "FLYABLE");
            assertThat(flyable.answer().accepts("yes")).isEqualTo(warnings.isEmpty());
            if (!warnings.isEmpty()) {
                assertThat(flyable.working()).contains(warnings.get(0).text());
                // A radial that crosses flat may be out of range besides.
                why.merge(
                        warnings.stream()
                                .map(Warning::code)
                                .filter(code -> code == Warning.Code.WEAK_FIX_GEOMETRY)
                                .findFirst()
                                .orElse(warnings.get(0).code()),
                        1,
                        Integer::sum);
            }
        }
        assertThat(why)
                .containsOnlyKeys(
                        Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                        Warning.Code.WEAK_FIX_GEOMETRY,
                        Warning.Code.OUT_OF_SERVICE_VOLUME);
        assertThat(why.values().stream().mapToInt(Integer::intValue).sum())
                .isBetween(drawn * 15 / 100, drawn * 35 / 100);
    }

    @Test
    void aDrawnCourseIsRightTheWayItIsFlownAndNowhereElse() throws Exception {
        PaperDrill paper = flyable(Shape.C);
        Question course = asked(paper.drawings(), "DRAW_COURSE");
        Question.Answer.Line right = (Question.Answer.Line) course.answer();
        Position from = right.line().pointAt(right.line().lengthNm() * 0.3);
        Position to = right.line().pointAt(right.line().lengthNm() * 0.9);
        assertThat(course.kind()).isEqualTo("line");
        assertThat(right.accepts(text(from) + " " + text(to))).isTrue();
        assertThat(right.accepts(text(to) + " " + text(from)))
                .as("the reciprocal")
                .isFalse();
        assertThat(right.accepts(right.words())).isTrue();
        Position aside =
                from.destination(new TrueDirection(right.line().initialCourse().deg() + 90), 5);
        assertThat(right.accepts(text(aside) + " " + text(to))).isFalse();
        assertThat(right.accepts(text(from) + " " + text(from))).as("no line").isFalse();
        assertThat(right.accepts("over there")).isFalse();
        assertThat(right.accepts("91,0 92,0")).isFalse();
    }

    @Test
    void aMarkedPointIsRightWithinATenthOfTheDistance() throws Exception {
        PaperDrill paper = flyable(Shape.C);
        Question fix = asked(paper.drawings(), "DRAW_FIX");
        Question.Answer.Point right = (Question.Answer.Point) fix.answer();
        assertThat(fix.skill()).isEqualTo(Skill.FIX);
        assertThat(right.accepts(text(right.at()))).isTrue();
        double off = right.toleranceNm();
        assertThat(right.accepts(text(right.at().destination(new TrueDirection(45), off - 0.1))))
                .isTrue();
        assertThat(right.accepts(text(right.at().destination(new TrueDirection(45), off + 0.1))))
                .isFalse();
        assertThat(asked(flyable(Shape.A).drawings(), "DRAW_INTERCEPT").kind()).isEqualTo("point");
    }

    @Test
    void whatCannotBeDrawnIsTypedAsPlacesAndMarkedByTheSameCode() throws Exception {
        Chart chart = DrillCharts.ours();
        PaperDrill paper = flyable(Shape.C);
        Question course = asked(paper.drawings(), "DRAW_COURSE");
        GeodesicLine line = ((Question.Answer.Line) course.answer()).line();
        String right = PaperDrill.asTyped(
                course, text(line.pointAt(5)) + " " + text(line.pointAt(line.lengthNm() - 1)), chart);
        assertThat(right).matches("[A-Z]{3}/\\d{3}/[\\d.]+ [A-Z]{3}/\\d{3}/[\\d.]+");
        String drawn = paper.drawn(course, right, chart);
        assertThat(course.answer().accepts(drawn)).isTrue();
        String[] ends = right.split(" ", -1);
        assertThat(course.answer().accepts(paper.drawn(course, ends[1] + " " + ends[0], chart)))
                .as("the reciprocal")
                .isFalse();
        // The radial of the clearance itself, typed by station and distance.
        String station = paper.route().course().orElseThrow().station().ident();
        String radial =
                Angles.figures(paper.route().course().orElseThrow().radial().deg());
        assertThat(course.answer()
                        .accepts(paper.drawn(
                                course, station + "/" + radial + "/8 " + station + "/" + radial + "/16", chart)))
                .isTrue();
        Question fix = asked(paper.drawings(), "DRAW_FIX");
        assertThat(fix.answer()
                        .accepts(paper.drawn(
                                fix, PaperDrill.asTyped(fix, fix.answer().words(), chart), chart)))
                .isTrue();
        assertThat(fix.answer().accepts(paper.drawn(fix, "PTL", chart))).isFalse();
    }

    @Test
    void whatIsNoPlaceIsRefusedWithWhatWouldBeRight() throws Exception {
        Chart chart = DrillCharts.ours();
        PaperDrill paper = flyable(Shape.C);
        Question course = asked(paper.drawings(), "DRAW_COURSE");
        Question fix = asked(paper.drawings(), "DRAW_FIX");
        assertThatThrownBy(() -> paper.drawn(course, "PTL", chart))
                .hasMessage("a line is two places, the way it is flown: for example PTL/078/12 PTL/078/30");
        assertThatThrownBy(() -> paper.drawn(fix, "PTL FUL", chart))
                .hasMessage("a point is one place: for example PTL/078/12");
        assertThatThrownBy(() -> paper.drawn(fix, "QQQ/078/12", chart))
                .hasMessageContaining("station QQQ is not on chart");
        assertThatThrownBy(() -> paper.drawn(fix, "over-there", chart)).hasMessageContaining("is not a place");
    }

    @Test
    void aRadialUntilAnotherAsksWhereItIsLeftAndTheSecondCourse() throws Exception {
        PaperDrill paper = flyable(Shape.RADIALS);
        Leg.CourseToFix second = Measured.secondCourse(paper.route()).orElseThrow();
        assertThat(paper.route().course().orElseThrow().station()).isNotEqualTo(second.station());
        Question course = asked(paper.questions(), "SECOND_COURSE");
        // Inbound is the radial and 180; that radial stands in the words.
        Radial radial = second.course().reciprocal();
        assertThat(paper.say()).contains(" until the " + second.station().name());
        assertThat(paper.route().clearance().all(Instruction.InterceptRadial.class))
                .last()
                .satisfies(said -> assertThat(said.radial()).isEqualTo(radial));
        assertThat(course.answer().accepts(Angles.figures(radial.deg() + 180))).isTrue();
        assertThat(course.answer().accepts(Angles.figures(radial.deg()))).isFalse();
        Question corner = asked(paper.drawings(), "DRAW_CORNER");
        assertThat(((Question.Answer.Point) corner.answer())
                        .at()
                        .distanceNm(second.path().start()))
                .isLessThan(0.01);
        assertThat(asked(paper.questions(), "TO_FROM").answer().words()).isEqualTo("from");
    }

    @Test
    void theSheetSaysWhichNorthEachDirectionHasAndThePlaceAsTheLogDoes() throws Exception {
        PaperDrill paper = paper(3, Shape.C);
        double west = -MagneticModel.WMM2025
                .variation(paper.drill().heard(), 6000, DrillRequest.USUAL_DATE)
                .eastDeg();
        assertThat(paper.sheet().get(1))
                .matches("At N38°\\d\\d\\.\\d{3}' W049°\\d\\d\\.\\d{3}', 6000 ft, heading 325 magnetic,"
                        + " 120 kt true airspeed, wind from 100 true at 20 kt, variation .*")
                .endsWith(String.format(Locale.ROOT, "variation %.1f west", west));
    }

    @Test
    void aBearingOfAnNdbIsAskedByTodaysVariation() throws Exception {
        int seen = 0;
        for (int seed = 0; seed < 60 && seen < 3; seed++) {
            PaperDrill paper = paper(seed, Shape.C);
            Course course = paper.route().course().orElseThrow();
            if (course.station().kind() != Station.Kind.NDB) {
                continue;
            }
            seen++;
            assertThat(paper.drill().features().ndb()).isTrue();
            assertThat(paper.say()).contains(" bearing from Gannet");
            double variation = MagneticModel.WMM2025
                    .variation(course.station().position(), 0, DrillRequest.USUAL_DATE)
                    .eastDeg();
            double magnetic = course.outbound().initialCourse().deg() - variation;
            assertThat(Math.abs(Angles.turn(Double.parseDouble(
                                    asked(paper.questions(), "COURSE").answer().words())
                            - magnetic)))
                    .isLessThan(1e-6);
            assertThat(paper.sheet().get(2)).matches("That is .* NM from GNT, on the \\d{3} bearing from it");
        }
        assertThat(seen).isPositive();
    }

    private static String text(Position position) {
        return position.latitudeDeg() + "," + position.longitudeDeg();
    }
}
