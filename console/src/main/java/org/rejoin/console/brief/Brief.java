package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.ChartReport;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.PublishedCourse;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;

/** What is to be briefed: an amended route, and what was taken for granted on the way to it, one sentence each. */
public record Brief(Chart chart, AmendedRoute route, List<String> notes) {

    /** How a refusal begins that points at words of the clearance. */
    public static final String IN_THE_CLEARANCE = "in the clearance";

    public Brief {
        notes = List.copyOf(notes);
    }

    /** Whether the clearance leaves the route as it was. */
    static boolean routeStays(AmendedRoute route) {
        return route.clearance().routeStays() || route.clearance().disregards();
    }

    /** Whether a heading is part of what is to be done: not where the aircraft only happens to be on one. */
    static boolean headingIsFlown(AmendedRoute route) {
        return !routeStays(route)
                && (route.assignedHeading().isPresent()
                        || route.legs().stream()
                                .anyMatch(leg -> leg instanceof Leg.HeadingToIntercept
                                        || (leg instanceof Leg.HeadingOnly only
                                                && only.after().isEmpty())));
    }

    /** Whether the length flown of a leg is known: not that of a course on which it is not known where it is met. */
    static boolean lengthKnown(AmendedRoute route, Leg leg) {
        boolean course = leg instanceof Leg.CourseToFix || leg instanceof Leg.FixOutbound;
        return !course || route.intercept().isPresent();
    }

    /**
     * Reads and works out a clearance with an altitude given beside its words.
     *
     * @param clearanceText ATC's words
     * @param assigned altitude assigned beside the words; empty where none is
     * @param assumed what the caller took for granted, one sentence each
     * @throws ClearanceException if route or clearance cannot be read or worked out
     */
    public static Brief of(
            Chart chart,
            String filedText,
            String clearanceText,
            Optional<Instruction.Maintain> assigned,
            Situation situation,
            List<String> assumed)
            throws ClearanceException {
        FiledRoute filed = filed(filedText, chart);
        Clearance said = said(clearanceText, chart, filed);
        Clearance clearance = assigned.map(said::withAltitude).orElse(said);
        AmendedRoute route = RouteAmender.amend(chart, filed, clearance, situation);
        List<String> notes = new ArrayList<>(filed.notes());
        notes.addAll(clearance.notes());
        notes.addAll(route.notes());
        notes.addAll(assumed);
        notes.addAll(declinations(chart, route));
        return new Brief(chart, route, notes.stream().distinct().toList());
    }

    private static FiledRoute filed(String text, Chart chart) throws ClearanceException {
        try {
            return FiledRouteReader.read(text, chart);
        } catch (ClearanceException e) {
            throw e.in("in the filed route", text);
        }
    }

    private static Clearance said(String text, Chart chart, FiledRoute filed) throws ClearanceException {
        try {
            return ClearanceReader.read(text, chart, filed);
        } catch (ClearanceException e) {
            throw e.in(IN_THE_CLEARANCE, text);
        }
    }

    /** What is wrong with the stations by which the numbers of this brief are reckoned. */
    private static List<String> declinations(Chart chart, AmendedRoute route) {
        Stream<Station> ofCourse = route.course().map(Course::station).stream();
        Stream<Station> ofFix = route.computedFix().stream()
                .flatMap(fix -> fix.definitions().stream())
                .map(ComputedFix.Definition::station);
        Stream<Station> ofHold = route.clearance().all(Instruction.Hold.class).stream()
                .flatMap(hold -> hold.line().stream())
                .filter(Instruction.HoldLine.OnRadial.class::isInstance)
                .map(line -> ((Instruction.HoldLine.OnRadial) line).station());
        Stream<Station> ofLegs = route.legs().stream()
                .flatMap(leg -> leg instanceof Leg.DmeArc arc
                        ? Stream.of(arc.station())
                        : PublishedCourse.of(leg, chart, route.situation()).flatMap(PublishedCourse::station).stream());
        return Stream.of(ofCourse, ofFix, ofHold, ofLegs)
                .flatMap(stations -> stations)
                .distinct()
                .flatMap(station ->
                        ChartReport.declination(station, route.situation().date()).stream())
                .map(finding -> finding.text() + "; until it is put right, what is reckoned by its radials is off")
                .toList();
    }
}
