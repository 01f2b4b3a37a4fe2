package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Consumer;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.console.words.Words;

/** The symbols of a brief's drawing, each with its label: the aircraft, the intercept, the computed fix, the points. */
final class DrawingSymbols {

    /** Where a symbol is whole. */
    private static final Sketch.Frame SYMBOLS = new Sketch.Frame(
            BriefDrawing.MAP.x() + 12,
            BriefDrawing.MAP.y() + 12,
            BriefDrawing.MAP.width() - 24,
            BriefDrawing.MAP.height() - 24);

    private static final String HEXAGON =
            "M-9 0L-4.5 -7.8L4.5 -7.8L9 0L4.5 7.8L-4.5 7.8ZM-1 0a1 1 0 1 0 2 0a1 1 0 1 0 -2 0";
    private static final String RINGS = "M-3 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0M-8 0a8 8 0 1 0 16 0a8 8 0 1 0 -16 0";
    private static final String TRIANGLE = "M0 -7L6.5 5L-6.5 5Z";
    private static final String DIAMOND = "M0 -9L9 0L0 9L-9 0Z";
    private static final String TARGET = "M-8 0a8 8 0 1 0 16 0a8 8 0 1 0 -16 0M-12 0L12 0M0 -12L0 12";
    private static final String AIRCRAFT = "M0 -14L8 10L0 5L-8 10Z";

    private final Brief brief;
    private final AmendedRoute route;
    private final Sketch sketch;
    private final Paper paper;
    private final Labels labels;
    private final Consumer<Runnable> lettering;

    /**
     * Nothing is drawn yet.
     *
     * @param lettering takes what writes the labels, to be run when all symbols are placed
     */
    DrawingSymbols(Brief brief, Sketch sketch, Paper paper, Labels labels, Consumer<Runnable> lettering) {
        this.brief = brief;
        this.route = brief.route();
        this.sketch = sketch;
        this.paper = paper;
        this.labels = labels;
        this.lettering = lettering;
    }

    /**
     * Draws them.
     *
     * @param airways idents whose points are shown
     */
    void draw(Set<String> airways) {
        Set<Waypoint> points = new LinkedHashSet<>();
        route.course().ifPresent(course -> points.add(course.station()));
        route.computedFix().ifPresent(fix -> fix.definitions().forEach(definition -> points.add(definition.station())));
        airways.forEach(ident -> brief.chart().airways(ident).forEach(airway -> points.addAll(airway.points())));
        route.legs().forEach(leg -> leg.endsAt().ifPresent(points::add));
        points.addAll(brief.chart().stations());
        route.computedFix().map(ComputedFix::fix).ifPresent(points::remove);
        aircraft();
        route.intercept().filter(met -> met.distanceNm() > 0.05).ifPresent(this::intercept);
        route.computedFix().ifPresent(this::computedFix);
        points.stream()
                .filter(point -> SYMBOLS.contains(sketch.spot(point.position())))
                .limit(60)
                .forEach(this::point);
    }

    private void aircraft() {
        Position here = route.situation().position();
        double nose = route.heading()
                .map(plan -> plan.headingTrue().deg())
                .orElseGet(() -> route.legs()
                        .get(0)
                        .line()
                        .map(line -> line.initialCourse().deg())
                        .orElse(0.0));
        symbol(here, sketch.paperDeg(here, nose), AIRCRAFT, Paper.BLACK, 12, List.of("you"));
    }

    private void intercept(Intercept met) {
        symbol(
                met.position(),
                0,
                TARGET,
                "none",
                12,
                List.of(
                        "intercept",
                        Words.say("turn %s %.0f\u00b0", Words.side(met.turnsRight()), met.angleDeg()),
                        Words.say("lead %.2f NM", met.leadNm())));
    }

    private void computedFix(ComputedFix fix) {
        ComputedFix.Definition cleared = fix.definitions().get(0);
        List<String> words = new ArrayList<>();
        words.add("computed fix " + fix.fix().ident());
        words.add(Words.say(
                "%s %s / %.1f NM",
                cleared.station().ident(), Words.direction(cleared.radial().deg()), cleared.distanceNm()));
        fix.definitions().stream()
                .filter(each -> each.use() == ComputedFix.Use.CROSSING_RADIAL)
                .findFirst()
                .ifPresent(each -> words.add(Words.say(
                        "%s %s / %.1f NM",
                        each.station().ident(), Words.tenths(each.radial().deg()), each.distanceNm())));
        words.add(Words.place(fix.fix().position()));
        route.turnAtComputedFix()
                .ifPresent(turn -> words.add(
                        Words.say("turn %s %.0f\u00b0", Words.side(turn.turnDeg()), Math.abs(turn.turnDeg()))));
        symbol(fix.fix().position(), 0, DIAMOND, Paper.PURPLE, 11, words);
    }

    private void point(Waypoint point) {
        if (point instanceof Station station) {
            String shape = station.kind() == Station.Kind.NDB ? RINGS : HEXAGON;
            List<String> words = new ArrayList<>(List.of(station.ident()));
            station.frequencyMhz()
                    .ifPresent(mhz -> words.add(
                            station.kind() == Station.Kind.NDB
                                    ? Words.say("%.0f", mhz * 1000)
                                    : Words.say("%.2f", mhz).replaceFirst("0$", "")));
            symbol(point.position(), 0, shape, "#ffffff", 10, words);
        } else {
            symbol(
                    point.position(),
                    0,
                    TRIANGLE,
                    "#ffffff",
                    9,
                    List.of(point.ident().toUpperCase(Locale.ROOT)));
        }
    }

    private void symbol(Position at, double turnDeg, String shape, String fill, double radius, List<String> words) {
        Sketch.Spot spot = sketch.spot(at);
        paper.shape(spot, turnDeg, shape, fill, Paper.BLACK);
        labels.symbol(spot, radius);
        lettering.accept(() -> labels.beside(spot, radius + 4, words, BriefDrawing.TYPE)
                .ifPresent(box -> paper.label(box, words, BriefDrawing.TYPE, true)));
    }
}
