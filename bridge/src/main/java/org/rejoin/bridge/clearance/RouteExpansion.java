package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.NearestChain;
import org.rejoin.bridge.chart.Waypoint;

/** Joins the elements of a filed route to segments, with every point of the airways between. */
final class RouteExpansion {

    /** One element of a filed route, before it is expanded. */
    sealed interface Element {

        /** As filed. */
        Word word();

        /**
         * A point.
         *
         * @param word as filed
         * @param candidates what the chart shows of that ident, one or more
         * @param coded whether it was filed by ident; false for coordinates and for bearing and distance
         */
        record Point(Word word, List<Waypoint> candidates, boolean coded) implements Element {}

        /** An airway to the next point. */
        record Along(Word word, Airway airway) implements Element {}

        /** "DCT". */
        record Direct(Word word) implements Element {}
    }

    /** One hop of the route as filed, without airways a direct; {@code said} is whether DCT was filed. */
    private record Hop(Element.Point from, List<Element.Along> airways, Element.Point to, boolean said) {}

    private final List<Element.Point> points = new ArrayList<>();
    private final List<Hop> hops = new ArrayList<>();
    private final List<String> notes;

    /**
     * Puts elements in order.
     *
     * @param elements of a route
     * @param notes to add to
     * @throws ClearanceException if two elements cannot follow each other
     */
    RouteExpansion(List<Element> elements, List<String> notes) throws ClearanceException {
        this.notes = notes;
        List<Element.Along> airways = new ArrayList<>();
        Optional<Element.Direct> direct = Optional.empty();
        for (Element element : elements) {
            if (element instanceof Element.Point point) {
                begin(point, airways, direct.isPresent());
                airways.clear();
                direct = Optional.empty();
            } else if (element instanceof Element.Along along) {
                if (direct.isPresent()) {
                    throw along.word()
                            .notValid("DCT " + along.word().text() + ": DCT leads to a point; name the point where "
                                    + along.word().text() + " is joined");
                }
                if (points.isEmpty()) {
                    throw along.word()
                            .notValid(along.word().text() + " stands first: name the point where it is joined");
                }
                airways.add(along);
            } else if (element instanceof Element.Direct dct) {
                if (!airways.isEmpty() || direct.isPresent()) {
                    throw dct.word().notValid("DCT stands after a point: name the point where it starts");
                }
                direct = Optional.of(dct);
            }
        }
        end(airways, direct);
    }

    private void begin(Element.Point point, List<Element.Along> airways, boolean direct) {
        if (points.isEmpty() && direct) {
            notes.add("DCT stands first: direct from the departure, which the route does not name");
        } else if (!points.isEmpty()) {
            hops.add(new Hop(points.get(points.size() - 1), List.copyOf(airways), point, direct));
        }
        points.add(point);
    }

    private void end(List<Element.Along> airways, Optional<Element.Direct> direct) throws ClearanceException {
        if (!airways.isEmpty()) {
            Word last = airways.get(airways.size() - 1).word();
            throw last.notValid(last.text() + " stands last: name the point where it is left");
        }
        if (hops.isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.ROUTE_NOT_VALID,
                    "a route has two points or more, for example XAAA DCT AAA V31 BBB DCT XBBB");
        }
        if (direct.isPresent()) {
            notes.add("DCT stands last: direct to the destination, which the route does not name");
        }
    }

    /**
     * The expanded route.
     *
     * @return one or more segments, each starting where the one before ends
     * @throws ClearanceException if an airway does not lead from point to point
     */
    List<FiledRoute.Segment> segments() throws ClearanceException {
        List<Waypoint> chosen = choose();
        List<FiledRoute.Segment> segments = new ArrayList<>();
        for (int i = 0; i < hops.size(); i++) {
            expand(hops.get(i), chosen.get(i), chosen.get(i + 1), segments);
        }
        return segments;
    }

    /** Of points of one ident those on the airways beside them, then those that make the route shortest. */
    private List<Waypoint> choose() {
        List<Waypoint> chosen = NearestChain.of(
                points.stream().map(Element.Point::candidates).toList(),
                (to, before, here) -> cost(hops.get(to - 1), before, here));
        for (int i = chosen.size() - 1; i >= 0; i--) {
            Element.Point point = points.get(i);
            notes.addAll(Places.choice(point.word().text(), chosen.get(i), point.candidates()));
        }
        return chosen;
    }

    private static double cost(Hop hop, Waypoint from, Waypoint to) {
        double offAirwayNm = 1e6;
        double cost = from.position().distanceNm(to.position());
        if (!hop.airways().isEmpty()) {
            cost += hop.airways().get(0).airway().passes(from) ? 0 : offAirwayNm;
            cost += hop.airways().get(hop.airways().size() - 1).airway().passes(to) ? 0 : offAirwayNm;
        }
        return cost;
    }

    private void expand(Hop hop, Waypoint from, Waypoint to, List<FiledRoute.Segment> segments)
            throws ClearanceException {
        if (hop.airways().isEmpty()) {
            if (from.equals(to)) {
                throw hop.to().word().notValid("from " + from.ident() + " to " + to.ident() + " there is no way to go");
            }
            if (!hop.said() && (hop.from().coded() || hop.to().coded())) {
                notes.add(from.ident() + " " + to.ident() + ": no airway and no DCT between them, read as direct");
            }
            segments.add(new FiledRoute.Segment(from, to, Optional.empty()));
            return;
        }
        Waypoint at = from;
        for (int i = 0; i < hop.airways().size(); i++) {
            Element.Along along = hop.airways().get(i);
            boolean lastAirway = i == hop.airways().size() - 1;
            Waypoint end = lastAirway ? to : sharedPoint(along, hop.airways().get(i + 1));
            follow(along, at, end, segments);
            at = end;
        }
    }

    private static Waypoint sharedPoint(Element.Along first, Element.Along second) throws ClearanceException {
        List<Waypoint> shared = first.airway().points().stream()
                .filter(second.airway()::passes)
                .distinct()
                .toList();
        String both = first.word().text() + " and " + second.word().text();
        if (shared.isEmpty()) {
            throw second.word().notValid(both + " share no point; name how to get from one to the other");
        }
        if (shared.size() > 1) {
            throw second.word()
                    .notValid(both + " share " + Places.idents(shared) + "; name the one where to change over");
        }
        return shared.get(0);
    }

    private static void follow(Element.Along along, Waypoint from, Waypoint to, List<FiledRoute.Segment> segments)
            throws ClearanceException {
        Airway airway = along.airway();
        String ident = airway.ident();
        for (Waypoint end : List.of(from, to)) {
            if (!airway.passes(end)) {
                throw along.word()
                        .notValid(ident + " does not pass " + end.ident() + "; its points are "
                                + Places.idents(airway.points()));
            }
        }
        if (from.equals(to)) {
            throw along.word().notValid(from.ident() + " " + ident + " " + to.ident() + " has no length");
        }
        int step = airway.points().indexOf(to) > airway.points().indexOf(from) ? 1 : -1;
        Airway.Direction barred = step > 0 ? Airway.Direction.BACKWARD : Airway.Direction.FORWARD;
        for (int i = airway.points().indexOf(from); i != airway.points().indexOf(to); i += step) {
            Waypoint here = airway.points().get(i);
            Waypoint next = airway.points().get(i + step);
            if (airway.segments().get(Math.min(i, i + step)).direction() == barred) {
                throw along.word()
                        .notValid(ident + " may not be flown from " + here.ident() + " to " + next.ident()
                                + ", only the other way");
            }
            segments.add(new FiledRoute.Segment(here, next, Optional.of(ident)));
        }
    }
}
