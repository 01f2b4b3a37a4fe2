package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.skill.Shape;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * A clearance to be worked out without a simulator: one in four cannot be flown as given, and the pilot has to say so.
 *
 * @param say ATC's words; of a drill that cannot be flown not those of {@code drill}
 * @param route worked out from those words
 * @param questions in the order asked
 */
public record PaperDrill(Drill drill, String say, AmendedRoute route, List<Question> questions) {

    private static final int ONE_IN = 4;

    /** A draw of its own, that no try of the maker has. */
    private static final int FLAWS = -1;

    public PaperDrill {
        questions = List.copyOf(questions);
    }

    /**
     * Draws one, the same for the same request and chart.
     *
     * @throws NoDrillException if the chart has none; one line
     */
    public static PaperDrill draw(DrillChart chart, DrillRequest request) throws NoDrillException {
        Random random = DrawnConditions.tryOf(request.seed(), FLAWS);
        DrillMaker maker = new DrillMaker(chart);
        if (random.nextInt(ONE_IN) != 0) {
            return asDrawn(maker.makeForPaper(request));
        }
        List<LineDraw.Flaw> flaws = List.of(LineDraw.Flaw.values());
        LineDraw.Flaw flaw = flaws.get(random.nextInt(flaws.size()));
        Optional<Drill> drawn = flaw == LineDraw.Flaw.DOES_NOT_REACH ? Optional.empty() : flawed(maker, request, flaw);
        if (drawn.isPresent()) {
            return asDrawn(drawn.get());
        }
        Drill drill = maker.makeForPaper(request);
        return turnedAway(drill, chart).orElseGet(() -> asDrawn(drill));
    }

    private static PaperDrill asDrawn(Drill drill) {
        return of(drill, drill.say(), drill.route());
    }

    private static PaperDrill of(Drill drill, String say, AmendedRoute route) {
        return new PaperDrill(drill, say, route, PaperQuestions.of(drill, route));
    }

    /** Only a radial that makes a fix can be out of range or cross too flat; a chart may have neither. */
    private static Optional<Drill> flawed(DrillMaker maker, DrillRequest request, LineDraw.Flaw flaw) {
        if (request.shape().filter(shape -> shape != Shape.C).isPresent()) {
            return Optional.empty();
        }
        try {
            return Optional.of(maker.makeFlawed(request.withShape(Optional.of(Shape.C)), flaw));
        } catch (NoDrillException e) {
            return Optional.empty();
        }
    }

    /** The same clearance with a heading that leads away from the line. */
    private static Optional<PaperDrill> turnedAway(Drill drill, DrillChart chart) {
        List<Instruction> words = new ArrayList<>(drill.route().clearance().instructions());
        if (!(words.get(0) instanceof Instruction.FlyHeading fly)) {
            return Optional.empty();
        }
        MagneticDirection away = new MagneticDirection(fly.heading().deg() + 180);
        words.set(0, new Instruction.FlyHeading(away, fly.direction()));
        String say = Phraseology.say(new Clearance("", Optional.empty(), words));
        Situation situation = drill.route().situation();
        try {
            AmendedRoute route = RouteAmender.amend(
                    chart.chart(), drill.filed(), ClearanceReader.read(say, chart.chart(), drill.filed()), situation);
            boolean misses = route.warnsOf(Warning.Code.HEADING_DOES_NOT_REACH_COURSE);
            return misses ? Optional.of(of(drill, say, route)) : Optional.empty();
        } catch (ClearanceException e) {
            return Optional.empty();
        }
    }

    /**
     * What can be asked to be drawn on the chart, beside the questions or instead of some: course, intercept, computed
     * fix, as far as the clearance has them; answered by {@code LAT,LON} or {@code LAT,LON LAT,LON}, degrees.
     */
    public List<Question> drawings() {
        return PaperQuestions.drawings(route);
    }

    /**
     * An answer to one of the drawings, typed where nothing can be drawn.
     *
     * @param typed a place, or two for a line the way it is flown; each {@code LAT,LON} in degrees, an ident of the chart, or
     *     {@code STATION/RADIAL/DISTANCE}
     * @throws LessonException if it is no such place, or too many or too few; one line
     */
    public String drawn(Question drawing, String typed, Chart chart) throws LessonException {
        return Drawing.typed(drawing, typed, chart, drill);
    }

    /**
     * An answer to one of the questions or drawings, right or given, as a pilot types it: places by the nearest
     * station's radial and distance, all else as it is.
     */
    public static String asTyped(Question question, String answer, Chart chart) {
        return question.isDrawn() ? Drawing.words(answer, chart) : answer;
    }

    /** {@return the questions without their answers; code, skill, kind, ask} */
    public ArrayNode questionsJson() {
        return json(questions);
    }

    /** {@return what can be drawn, without the answers; code, skill, kind, ask} */
    public ArrayNode drawingsJson() {
        return json(drawings());
    }

    private static ArrayNode json(List<Question> questions) {
        ArrayNode array = JsonNodeFactory.instance.arrayNode();
        questions.forEach(question -> {
            ObjectNode each = array.addObject()
                    .put("code", question.code())
                    .put("skill", question.skill().name())
                    .put("kind", question.kind())
                    .put("ask", question.ask());
            if (question.answer() instanceof Question.Answer.Choice choice) {
                choice.among().forEach(each.putArray("among")::add);
            }
        });
        return array;
    }

    /** {@return what the pilot has before him, lines} */
    public List<String> sheet() {
        Situation situation = route.situation();
        return List.of(
                "Filed: " + drill.filed().text(),
                Words.say(
                        "At %s, %.0f ft, heading %s magnetic, %.0f kt true airspeed, wind from %s true at %.0f kt,"
                                + " variation %s",
                        Words.place(situation.position()),
                        situation.altitudeFt().orElse(0),
                        Angles.figures(drill.presentHeading().deg()),
                        situation.trueAirspeedKt(),
                        Angles.figures(situation.wind().from().deg()),
                        situation.wind().speedKt(),
                        Words.variation(situation.variation().eastDeg())),
                nearest(situation),
                "ATC: " + say);
    }

    /** The station that matters: of the radial, of the arc, or the one to hold at. */
    private Optional<Station> station() {
        return route.course()
                .map(Course::station)
                .or(() -> route.arcs().stream().map(Leg.DmeArc::station).findFirst())
                .or(() -> route.holding()
                        .map(Holding::fix)
                        .filter(Station.class::isInstance)
                        .map(Station.class::cast));
    }

    /** Where the aircraft is by the stations, as the pilot would see it. */
    private String nearest(Situation situation) {
        return station()
                .map(station -> {
                    double nm = station.position().distanceNm(situation.position());
                    return Words.say(
                            StationLines.isNdb(station)
                                    ? "That is %.1f NM from %s, on the %s bearing from it"
                                    : "That is %.1f NM from %s, on its %s radial",
                            nm,
                            station.ident(),
                            StationLines.of(station, situation.date())
                                    .map(lines -> Angles.figures(lines.exact(station.position()
                                                    .to(situation.position())
                                                    .initial())
                                            .deg()))
                                    .orElse("?"));
                })
                .orElse("The chart shows where that is");
    }
}
