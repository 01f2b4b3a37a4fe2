package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.draw.Plan;
import org.rejoin.console.draw.PlanStyle;
import org.rejoin.console.draw.Projection;
import org.rejoin.console.words.Words;

/** A brief as a drawing in SVG, to be printed: the clearance, the plan with what a pilot sets and flies, and its key. */
public final class BriefDrawing {

    private static final double WIDTH = 1000;
    private static final double PLAN_TOP = 96;
    private static final double KEY_LINE = 26;

    /** Around the aircraft, so that a plan without any other place has a size, nautical miles. */
    private static final double LEAST_REACH_NM = 2;

    private final Brief brief;
    private final AmendedRoute route;
    private final Projection view;
    private final Markup out = new Markup();

    private BriefDrawing(Brief brief) {
        this.brief = brief;
        this.route = brief.route();
        this.view = Projection.showing(shown(route), List.of(), WIDTH, 480, 680, 90);
    }

    /** The drawing, an SVG document that holds no script and fetches nothing. */
    public static String svg(Brief brief, String caution) {
        return new BriefDrawing(brief).document(caution);
    }

    private String document(String caution) {
        double keyTop = PLAN_TOP + Plan.height(view) + KEY_LINE;
        List<String[]> key = key();
        double foot = keyTop + KEY_LINE * ((key.size() + 1) / 2 + 2);
        String height = Markup.xy(foot + 24);
        out.start(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "viewBox",
                "0 0 " + Markup.xy(WIDTH) + " " + height,
                "width",
                Markup.xy(WIDTH),
                "height",
                height,
                "role",
                "img",
                "class",
                "drawing");
        out.element("title", "Clearance: " + route.clearance().words());
        out.own("style", PlanStyle.onPaper());
        out.empty("rect", "width", Markup.xy(WIDTH), "height", height, "fill", "#ffffff");
        heading();
        plan();
        for (int i = 0; i < key.size(); i++) {
            double x = i % 2 == 0 ? 4 : WIDTH / 2;
            int row = i / 2;
            double y = keyTop + KEY_LINE * row;
            out.start("g", "transform", Words.say("translate(%s %s)", Markup.xy(x), Markup.xy(y - 6)));
            for (int style = 1; style < key.get(i).length; style++) {
                out.empty("polyline", "class", key.get(i)[style], "points", "4,0 72,0");
            }
            out.end();
            out.words("small", x + 84, y, key.get(i)[0]);
        }
        out.words(
                "small",
                4,
                foot - KEY_LINE,
                Words.say(
                        "%.0f kt true airspeed, %s. Radials by station declination, headings by today's variation.",
                        route.situation().trueAirspeedKt(), route.situation().date()));
        out.words("name", 4, foot, caution);
        return out.endLine().document();
    }

    private void heading() {
        out.element("text", "Clearance worked out", "class", "name", "x", "4", "y", "26", "font-size", "22");
        double y = 50;
        List<String> clearance = Words.wrapped("", "ATC: " + route.clearance().words(), Words.WIDTH);
        for (String line : clearance.subList(0, Math.min(2, clearance.size()))) {
            out.words("small", 4, y, line);
            y += 20;
        }
        String filed = "Filed: " + route.filed().text();
        out.words("small", 4, y, filed.length() > 100 ? filed.substring(0, 100) + " ..." : filed);
    }

    private void plan() {
        Plan plan = new Plan(out, view, Optional.of(route), true);
        plan.open(
                "brief",
                "x",
                "0",
                "y",
                Markup.xy(PLAN_TOP),
                "width",
                Markup.xy(WIDTH),
                "height",
                Markup.xy(Plan.height(view)));
        plan.airways(brief.chart().airways());
        plan.routes(route.filed());
        plan.nose(90);
        plan.closeLines();
        plan.you();
        plan.names();
        plan.marks(places());
        plan.labels();
        plan.close(route.situation().wind(), "as given", route.situation().date());
    }

    /** What each line means, with the styles that are drawn over one another. */
    private List<String[]> key() {
        List<String[]> key = new ArrayList<>();
        key.add(new String[] {"route to fly", "amended-band", "amended"});
        key.add(new String[] {"route as filed", "filed"});
        route.course().ifPresent(course -> key.add(new String[] {"radial or bearing", "radial"}));
        route.heading().ifPresent(plan -> {
            key.add(new String[] {"track on the heading", "amended-band", "heading"});
            if (route.situation().wind().speedKt() > 0) {
                key.add(new String[] {"where the nose points", "nose"});
            }
        });
        key.add(new String[] {"airway", "airway"});
        return key;
    }

    private Set<Waypoint> places() {
        Set<Waypoint> places = new LinkedHashSet<>();
        route.course().ifPresent(course -> places.add(course.station()));
        route.computedFix().ifPresent(fix -> fix.definitions().forEach(definition -> places.add(definition.station())));
        route.legs().forEach(leg -> leg.endsAt().ifPresent(places::add));
        places.addAll(brief.chart().stations());
        Set<String> airways = new LinkedHashSet<>();
        route.legs().forEach(leg -> leg.airway().ifPresent(airways::add));
        airways.forEach(ident -> brief.chart().airways(ident).forEach(airway -> places.addAll(airway.points())));
        return places;
    }

    private static List<Position> shown(AmendedRoute route) {
        List<Position> shown = new ArrayList<>();
        Position here = route.situation().position();
        for (double deg : new double[] {0, 90, 180, 270}) {
            shown.add(here.destination(new TrueDirection(deg), LEAST_REACH_NM));
        }
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
        for (Leg leg : route.legs()) {
            if (leg instanceof Leg.DmeArc arc) {
                shown.add(arc.path().pointAt(arc.path().lengthNm() / 2));
                shown.add(arc.path().pointAt(arc.path().lengthNm()));
                shown.add(arc.path().centre());
            }
        }
        route.holding()
                .ifPresent(hold -> shown.addAll(hold.racetrack(route.situation().trueAirspeedKt())));
        route.legs().forEach(leg -> leg.endsAt().map(Waypoint::position).ifPresent(shown::add));
        return shown;
    }
}
