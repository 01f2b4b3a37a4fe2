package org.rejoin.console.page;

import java.io.IOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Region;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.draw.Projection;
import org.rejoin.console.draw.RouteLines;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.report.StripValues;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.core.JsonGenerator;

/** Charts and routes as lines and points of one plan, in nautical miles from its centre. Immutable. */
final class RoutePicture {

    /** A hundredth of a mile: lines are thinned to a third of a unit. */
    private static final double UNITS_PER_NM = 100;

    /** Radii of the plan around the middle of route and start, nautical miles. */
    private static final double LEAST_REACH_NM = 120;

    private static final int MOST_POINTS = 1_500;

    /** A route, and what of its chart lies around it. */
    private record Filed(FiledRoute route, List<Position> places, Chart near) {}

    private final List<Filed> all;
    private final Supplier<LocalDate> date;
    private final Position centre;
    private final Projection view;
    private final RouteLines lines;

    RoutePicture(Lesson lesson, Supplier<LocalDate> date) {
        this(List.of(filed(lesson)), middle(places(lesson)), date);
    }

    private RoutePicture(List<Filed> all, Position centre, Supplier<LocalDate> date) {
        this.all = all;
        this.date = date;
        this.centre = centre;
        double reach = reachNm(
                centre, all.stream().flatMap(each -> each.places().stream()).toList());
        double side = Math.sqrt(2) * reach * UNITS_PER_NM;
        this.view = new Projection(centre, UNITS_PER_NM, side, side);
        this.lines = new RouteLines(view);
    }

    /** Several on one plan around a centre, or none; with the day for the magnetic model. */
    static RoutePicture together(List<RoutePicture> each, Position centre, Supplier<LocalDate> date) {
        return new RoutePicture(each.stream().flatMap(one -> one.all.stream()).toList(), centre, date);
    }

    private static Filed filed(Lesson lesson) {
        List<Position> places = places(lesson);
        Position middle = middle(places);
        return new Filed(
                lesson.filed(), places, lesson.chart().within(new Region.Circle(middle, reachNm(middle, places))));
    }

    private static List<Position> places(Lesson lesson) {
        List<Position> places = new ArrayList<>();
        lesson.filed().points().forEach(point -> places.add(point.position()));
        lesson.start().ifPresent(start -> places.add(start.position()));
        return places;
    }

    private static double reachNm(Position from, List<Position> places) {
        return LEAST_REACH_NM
                + places.stream().mapToDouble(from::distanceNm).max().orElse(0);
    }

    static Position middle(List<Position> places) {
        Position first = places.get(0);
        Position farthest = first;
        for (Position place : places) {
            farthest = first.distanceNm(place) > first.distanceNm(farthest) ? place : farthest;
        }
        double distance = first.distanceNm(farthest);
        return distance < 0.01 ? first : GeodesicLine.between(first, farthest).pointAt(distance / 2);
    }

    Position centre() {
        return centre;
    }

    double eastNm(Projection.Point point) {
        return (point.x() - view.width() / 2) / UNITS_PER_NM;
    }

    double southNm(Projection.Point point) {
        return (point.y() - view.height() / 2) / UNITS_PER_NM;
    }

    /** What of the lesson's chart is drawn; of the first lesson where several are. */
    Chart chart() {
        return all.get(0).near();
    }

    Projection.Point of(Position position) {
        return view.of(position);
    }

    /** Where a point of the plan is on the Earth. */
    Position at(double eastNm, double southNm) {
        double distance = Math.hypot(eastNm, southNm);
        return distance < 1e-6
                ? centre
                : centre.destination(
                        new TrueDirection(Angles.circle(Math.toDegrees(Math.atan2(eastNm, -southNm)))), distance);
    }

    /** Variation at the centre, as a member of an object. */
    void writeVariation(JsonGenerator json) throws IOException {
        json.writeNumberField("variation_deg", JsonNumbers.rounded(variationAt(centre), 1));
    }

    private double variationAt(Position place) {
        return MagneticModel.WMM2025.variation(place, 0, date.get()).eastDeg();
    }

    /** Distance and directions between two points of the plan, along the geodesic. */
    String measured(double eastNm, double southNm, double toEastNm, double toSouthNm) {
        Position from = at(eastNm, southNm);
        Position to = at(toEastNm, toSouthNm);
        Geodesics.Inverse way = from.to(to);
        double magnetic = Angles.circle(way.initial().deg() - variationAt(from));
        return Words.say(
                "%.2f NM, %s true, %s magnetic there",
                way.distanceNm(), Angles.figures(way.initial().deg()), Angles.figures(magnetic));
    }

    /** Points, airways and the filed route, as members of an object. */
    void writeChart(JsonGenerator json) throws IOException {
        json.writeStringField(
                "chart",
                CleanText.of(
                        all.stream().map(each -> each.near().name()).distinct().collect(Collectors.joining(", "))));
        Stream<Waypoint> ofRoutes = all.stream().flatMap(each -> each.route().points().stream());
        Stream<Waypoint> ofCharts = all.stream().flatMap(each -> each.near().waypoints().stream());
        Json.member(
                json,
                "points",
                Stream.concat(ofRoutes, ofCharts)
                        .distinct()
                        .limit(MOST_POINTS)
                        .map(this::point)
                        .toList());
        Json.member(
                json,
                "airways",
                all.stream()
                        .flatMap(each -> each.near().airways().stream())
                        .distinct()
                        .map(this::drawn)
                        .filter(airway -> !airway.lines().isEmpty())
                        .toList());
        Json.member(
                json,
                "filed",
                xy(all.stream()
                        .map(Filed::route)
                        .distinct()
                        .flatMap(route -> lines.filed(route).stream())
                        .toList()));
    }

    private record DrawnAirway(String name, List<List<BigDecimal>> lines) {}

    private DrawnAirway drawn(Airway airway) {
        List<Waypoint> points = airway.points();
        return new DrawnAirway(
                CleanText.of(airway.ident()),
                xy(IntStream.range(1, points.size())
                        .mapToObj(i -> lines.between(points.get(i - 1), points.get(i)))
                        .flatMap(Optional::stream)
                        .toList()));
    }

    private List<Object> point(Waypoint point) {
        String kind = point.fold(station -> station.kind().name(), fix -> "FIX", airport -> "AIRPORT");
        List<BigDecimal> at = xy(view.of(point.position()));
        return List.of(CleanText.of(point.ident()), kind, at.get(0), at.get(1));
    }

    /** What was worked out, as members of an object, for an aircraft on a heading by the compass, empty where that is not known. */
    void writeRoute(JsonGenerator json, AmendedRoute route, Optional<MagneticDirection> present) throws IOException {
        json.writeStringField("say", CleanText.of(route.clearance().text()));
        json.writeStringField("spoken", CleanText.of(Phraseology.say(route.clearance())));
        Json.texts(
                json,
                "legs",
                IntStream.range(0, route.legs().size())
                        .mapToObj(leg -> CleanText.of(
                                route.legs().get(leg) instanceof Leg.HeadingToIntercept
                                        ? "the heading"
                                        : StripValues.legName(route, leg)))
                        .toList());
        Json.member(json, "amended", xy(lines.amended(route)));
        Json.member(json, "heading", xy(lines.heading(route).stream().toList()));
        Json.member(json, "radial", xy(lines.radial(route).stream().toList()));
        Optional<HeadingPlan> heading = route.heading();
        if (heading.isPresent()) {
            json.writeStringField(
                    "heading_name",
                    "heading " + Angles.figures(heading.get().magnetic().deg()));
        }
        if (route.course().isPresent()) {
            json.writeStringField("radial_name", route.course().get().name());
        }
        writePlace(json, "intercept", route.intercept().map(met -> met.position()));
        writePlace(json, "lead", lines.lead(route));
        if (route.computedFix().isPresent()) {
            Fix fix = route.computedFix().get().fix();
            List<BigDecimal> at = xy(view.of(fix.position()));
            Json.member(json, "fix", List.of(CleanText.of(fix.ident()), at.get(0), at.get(1)));
        }
        Json.texts(
                json,
                "working",
                Stream.concat(
                                RouteWords.altitudes(route.clearance()).map(words -> "altitude " + words).stream(),
                                RouteWords.lines(route, present).stream())
                        .map(CleanText::of)
                        .toList());
        Json.texts(
                json,
                "warnings",
                Stream.concat(route.warnings().stream().map(Warning::text), route.clearance().notes().stream())
                        .map(CleanText::of)
                        .toList());
    }

    private void writePlace(JsonGenerator json, String name, Optional<Position> place) throws IOException {
        if (place.isPresent()) {
            Json.member(json, name, xy(view.of(place.get())));
        }
    }

    /** Each line as its points one after the other, east and south by turns. */
    private List<List<BigDecimal>> xy(List<List<Projection.Point>> all) {
        return all.stream()
                .map(line -> line.stream().flatMap(point -> xy(point).stream()).toList())
                .toList();
    }

    private List<BigDecimal> xy(Projection.Point point) {
        return List.of(JsonNumbers.rounded(eastNm(point), 4), JsonNumbers.rounded(southNm(point), 4));
    }
}
