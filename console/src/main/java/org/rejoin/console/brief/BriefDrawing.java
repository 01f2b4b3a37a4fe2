package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.HoldPattern;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.Words;

/**
 * A brief as a drawing in SVG, to be printed: airway, radial, track on the heading, intercept, computed fix, stations,
 * scale, true and magnetic north. Lines are told apart by dashes and labels, not by colour alone.
 */
public final class BriefDrawing {

    private static final int WIDTH = 1000;
    private static final int HEIGHT = 790;
    static final double TYPE = 13;
    static final Sketch.Frame MAP = new Sketch.Frame(20, 92, 960, 560);

    private static final Paper.Stroke AIRWAY = new Paper.Stroke(Paper.BLUE, 2.5, "", 1);
    private static final Paper.Stroke RADIAL = new Paper.Stroke(Paper.VERMILLION, 2.2, "12 4 2 4", 1);
    private static final Paper.Stroke TRACK = new Paper.Stroke(Paper.BLACK, 2, "7 5", 1);
    private static final Paper.Stroke NOSE = new Paper.Stroke(Paper.BLACK, 1.4, "1.5 3", 1);
    private static final Paper.Stroke FLOWN = new Paper.Stroke(Paper.GREEN, 9, "", 0.35);

    private final Brief brief;
    private final AmendedRoute route;
    private final Sketch sketch;
    private final Labels labels = new Labels(MAP);
    private final Paper paper;
    private final List<Runnable> lettering = new ArrayList<>();

    private BriefDrawing(Brief brief) {
        this.brief = brief;
        this.route = brief.route();
        this.sketch = new Sketch(MAP, shown(route));
        this.paper = new Paper(WIDTH, HEIGHT, "Clearance: " + route.clearance().text());
    }

    /**
     * The drawing.
     *
     * @param brief worked out
     * @param caution stands at its foot
     * @return an SVG document
     */
    public static String svg(Brief brief, String caution) {
        BriefDrawing drawing = new BriefDrawing(brief);
        drawing.heading();
        drawing.paper.openClip(MAP);
        drawing.lines();
        new DrawingSymbols(brief, drawing.sketch, drawing.paper, drawing.labels, drawing.lettering::add)
                .draw(drawing.airways());
        // Labels last: they must know everything that they are to keep clear of.
        drawing.lettering.forEach(Runnable::run);
        drawing.paper.close();
        drawing.paper.frame(MAP);
        new DrawingKey(drawing.paper, drawing.sketch, brief.route()).draw(drawing.key());
        drawing.paper.text(20, HEIGHT - 10, caution, 12, true, "start");
        return drawing.paper.finished();
    }

    private List<DrawingKey.Entry> key() {
        List<DrawingKey.Entry> entries = new ArrayList<>();
        if (!airways().isEmpty()) {
            entries.add(new DrawingKey.Entry("airway", AIRWAY));
        }
        boolean curved = route.holding().isPresent() || route.legs().stream().anyMatch(Leg.DmeArc.class::isInstance);
        if (route.course().isPresent() || curved) {
            entries.add(new DrawingKey.Entry(curved ? "radial, arc, hold" : "radial or bearing", RADIAL));
        }
        if (route.heading().isPresent()) {
            entries.add(new DrawingKey.Entry("track on the heading", TRACK));
            if (route.situation().wind().speedKt() > 0) {
                entries.add(new DrawingKey.Entry("where the nose points", NOSE));
            }
        }
        entries.add(new DrawingKey.Entry("route to fly", FLOWN));
        return entries;
    }

    private static List<Position> shown(AmendedRoute route) {
        List<Position> shown = new ArrayList<>();
        shown.add(route.situation().position());
        route.intercept().map(Intercept::position).ifPresent(shown::add);
        route.intercept().flatMap(Intercept::airwayLeg).ifPresent(segment -> {
            shown.add(segment.from().position());
            shown.add(segment.to().position());
        });
        route.course().map(course -> course.station().position()).ifPresent(shown::add);
        route.computedFix().ifPresent(fix -> {
            shown.add(fix.fix().position());
            shown.add(fix.segment().from().position());
            shown.add(fix.segment().to().position());
        });
        route.legs().stream()
                .filter(Leg.DmeArc.class::isInstance)
                .map(leg -> ((Leg.DmeArc) leg).path())
                .forEach(arc -> {
                    shown.add(arc.pointAt(arc.lengthNm() / 2));
                    shown.add(arc.pointAt(arc.lengthNm()));
                    shown.add(arc.centre());
                });
        route.holding().ifPresent(hold -> shown.add(hold.fix().position()));
        int last = Math.min(route.legs().size(), Math.max(route.courseLeg(), 0) + 2);
        route.legs()
                .subList(0, last)
                .forEach(leg -> leg.endsAt().map(Waypoint::position).ifPresent(shown::add));
        return shown;
    }

    private void heading() {
        paper.text(20, 28, "Clearance worked out", 19, true, "start");
        double y = 50;
        List<String> clearance = Words.wrapped("", "ATC: " + route.clearance().text());
        for (String line : clearance.subList(0, Math.min(2, clearance.size()))) {
            paper.text(20, y, line, 14, false, "start");
            y += 17;
        }
        String filed = "Filed: " + route.filed().text();
        paper.text(20, y, filed.length() > 130 ? filed.substring(0, 130) + " ..." : filed, 13, false, "start");
    }

    private void lines() {
        List<Leg> legs = route.legs();
        for (int i = Math.max(0, route.courseLeg()); i < legs.size() && route.courseLeg() >= 0; i++) {
            Leg leg = legs.get(i);
            leg.line()
                    .map(line -> sketch.spots(line, Math.min(leg.joinedAtNm(), line.lengthNm()), line.lengthNm()))
                    .ifPresent(spots -> {
                        paper.line(spots, FLOWN);
                        labels.line(spots);
                    });
            if (leg instanceof Leg.DmeArc arc) {
                arc(arc);
            } else if (leg instanceof Leg.HoldAtFix hold) {
                racetrack(hold.holding());
            }
        }
        for (String ident : airways()) {
            brief.chart().airways(ident).forEach(this::airway);
        }
        route.course().ifPresent(this::radial);
        route.heading().filter(plan -> route.courseLeg() != 0).ifPresent(this::track);
    }

    private void arc(Leg.DmeArc leg) {
        GeodesicArc path = leg.path();
        List<Sketch.Spot> spots = new ArrayList<>();
        int pieces = Math.max(8, (int) (Math.abs(path.sweepDeg()) / 3));
        for (int i = 0; i <= pieces; i++) {
            spots.add(sketch.spot(path.pointAt(path.lengthNm() * i / pieces)));
        }
        paper.line(spots, FLOWN);
        paper.line(spots, RADIAL);
        labels.line(spots);
        List<String> words = List.of(
                Words.say("%.0f DME arc %s", leg.distanceNm(), leg.station().ident()));
        lettering.add(() -> along(spots.stream().filter(MAP::contains).toList(), words, TYPE, true));
    }

    private void racetrack(Holding hold) {
        List<Sketch.Spot> spots = HoldPattern.racetrack(hold, route.situation().trueAirspeedKt()).stream()
                .map(sketch::spot)
                .toList();
        paper.line(spots, FLOWN);
        paper.line(spots, RADIAL);
        labels.line(spots);
    }

    private Set<String> airways() {
        Set<String> idents = new LinkedHashSet<>();
        route.legs().forEach(leg -> leg.airway().ifPresent(idents::add));
        route.clearance().first(Instruction.JoinAirway.class).ifPresent(join -> idents.add(join.airway()));
        route.intercept()
                .flatMap(Intercept::airwayLeg)
                .flatMap(segment -> segment.airway())
                .ifPresent(idents::add);
        return idents;
    }

    private void airway(Airway airway) {
        List<Sketch.Spot> longest = List.of();
        double most = 0;
        for (int i = 0; i + 1 < airway.points().size(); i++) {
            Position from = airway.points().get(i).position();
            Position to = airway.points().get(i + 1).position();
            if (from.distanceNm(to) < 0.01) {
                continue;
            }
            GeodesicLine line = GeodesicLine.between(from, to);
            List<Sketch.Spot> spots = sketch.spots(line, 0, line.lengthNm());
            paper.line(spots, AIRWAY);
            labels.line(spots);
            long inside = spots.stream().filter(MAP::contains).count();
            if (inside * line.lengthNm() > most) {
                most = inside * line.lengthNm();
                longest = spots.stream().filter(MAP::contains).toList();
            }
        }
        List<Sketch.Spot> beside = longest;
        if (!beside.isEmpty()) {
            lettering.add(() -> along(beside, List.of(airway.ident()), 16, true));
        }
    }

    private void radial(Course course) {
        double farthest = 0;
        for (Position position : shown(route)) {
            farthest = Math.max(farthest, course.outbound().offset(position).alongTrackNm());
        }
        double reach = Math.max(5, Math.min(farthest, course.outbound().lengthNm()));
        List<Sketch.Spot> spots = sketch.spots(course.outbound(), 0, reach * 1.04);
        paper.line(spots, RADIAL);
        labels.line(spots);
        lettering.add(() -> along(
                spots.stream().filter(MAP::contains).toList(),
                List.of(
                        course.station().ident() + " "
                                + Words.direction(course.radial().deg())
                                + (course.station().kind() == Station.Kind.NDB ? " bearing" : " radial"),
                        "set course " + Words.direction(course.courseToSet().deg()) + " " + course.direction()),
                TYPE,
                true));
    }

    private void track(HeadingPlan plan) {
        double length = route.intercept().map(Intercept::distanceNm).orElse(MAP.height() / 3 / sketch.scale());
        List<Sketch.Spot> spots = sketch.spots(plan.path(), 0, Math.max(length, 0.01));
        paper.line(spots, TRACK);
        labels.line(spots);
        List<String> words = new ArrayList<>();
        words.add((plan.origin() == HeadingPlan.Origin.PROPOSED ? "proposed heading " : "heading ")
                + Words.direction(plan.magnetic().deg()));
        if (route.situation().wind().speedKt() > 0) {
            GeodesicLine nose = GeodesicLine.from(
                    route.situation().position(), plan.headingTrue(), Math.max(0.1, 90 / sketch.scale()));
            List<Sketch.Spot> ahead = sketch.spots(nose, 0, nose.lengthNm());
            paper.line(ahead, NOSE);
            labels.line(ahead);
            words.add(Words.say(
                    "track %s true", Words.tenths(plan.ground().track().deg())));
        }
        route.intercept()
                .ifPresent(
                        met -> words.add(Words.say("%.1f NM, %s", met.distanceNm(), Words.minutes(met.minutes()))));
        if (route.intercept().isEmpty() && route.courseLeg() > 0) {
            words.add("does not meet the course");
        }
        lettering.add(() -> along(spots, words, TYPE, false));
    }

    private void along(List<Sketch.Spot> spots, List<String> words, double size, boolean bold) {
        labels.along(spots, 9, words, size).ifPresent(box -> paper.label(box, words, size, bold));
    }
}
