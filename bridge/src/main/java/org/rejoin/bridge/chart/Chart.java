package org.rejoin.bridge.chart;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;

/** Everything one chart shows, looked up by ident. Immutable. Idents may be shared by several points. */
public final class Chart {

    private final String name;
    private final Map<String, List<Station>> stations;
    private final Map<String, List<Fix>> fixes;
    private final Map<String, List<Airport>> airports;
    private final Map<String, List<Airway>> airways;
    private final List<PublishedHold> holds;
    private final Map<String, String> says;

    /** A chart of these things. */
    public Chart(
            String name,
            Collection<Station> stations,
            Collection<Fix> fixes,
            Collection<Airport> airports,
            Collection<Airway> airways) {
        this(name, stations, fixes, airports, airways, List.of());
    }

    /** A chart with holding patterns; of one airway's ident there may be several pieces. */
    public Chart(
            String name,
            Collection<Station> stations,
            Collection<Fix> fixes,
            Collection<Airport> airports,
            Collection<Airway> airways,
            Collection<PublishedHold> holds) {
        this(name, stations, fixes, airports, airways, holds, Map.of());
    }

    private Chart(
            String name,
            Collection<Station> stations,
            Collection<Fix> fixes,
            Collection<Airport> airports,
            Collection<Airway> airways,
            Collection<PublishedHold> holds,
            Map<String, String> says) {
        this.holds = List.copyOf(holds);
        this.says = Map.copyOf(says);
        this.name = name;
        this.stations = byIdent(stations, Station::ident);
        this.fixes = byIdent(fixes, Fix::ident);
        this.airports = byIdent(airports, Airport::ident);
        this.airways = byIdent(airways, Airway::ident);
    }

    /**
     * The same chart, where some names sound otherwise than they are written.
     *
     * @param sounds by ident: other words that sound so ("skew ah"), or the phones of American English in ARPAbet ("S K Y UW
     *     AH")
     * @return a chart of the same things
     */
    public Chart saying(Map<String, String> sounds) {
        return new Chart(name, stations(), fixes(), airports(), airways(), holds, sounds);
    }

    /** How the names sound that sound otherwise than they are written; by ident, as in {@link #saying}. */
    public Map<String, String> says() {
        return says;
    }

    private static <T> Map<String, List<T>> byIdent(Collection<T> things, Function<T, String> identOf) {
        Map<String, List<T>> map = new LinkedHashMap<>();
        things.forEach(thing -> map.computeIfAbsent(identOf.apply(thing), key -> new ArrayList<>(1))
                .add(thing));
        map.replaceAll((ident, list) -> List.copyOf(list));
        return Collections.unmodifiableMap(map);
    }

    /** {@return name of the chart, free text} */
    public String name() {
        return name;
    }

    /** {@return all stations, in the order of the file} */
    public List<Station> stations() {
        return stations.values().stream().flatMap(List::stream).toList();
    }

    /** {@return all fixes, in the order of the file} */
    public List<Fix> fixes() {
        return fixes.values().stream().flatMap(List::stream).toList();
    }

    /** {@return all airports, in the order of the file} */
    public List<Airport> airports() {
        return airports.values().stream().flatMap(List::stream).toList();
    }

    /** {@return all airways; every piece, those of one ident together, in the order of the file} */
    public Collection<Airway> airways() {
        return airways.values().stream().flatMap(List::stream).toList();
    }

    /**
     * An airway by ident; where it has several pieces, the one with most points, of equals the last. Who knows a point
     * or a route that is meant asks {@link #airways(String)}.
     */
    public Optional<Airway> airway(String ident) {
        Airway most = null;
        for (Airway piece : airways(ident)) {
            if (most == null || piece.points().size() >= most.points().size()) {
                most = piece;
            }
        }
        return Optional.ofNullable(most);
    }

    /**
     * The pieces of an airway by ident. One name may be given to stretches that do not meet, and to unrelated airways
     * in different parts of the world.
     */
    public List<Airway> airways(String ident) {
        return airways.getOrDefault(ident, List.of());
    }

    /** {@return all holding patterns, in the order of the file} */
    public List<PublishedHold> holds() {
        return holds;
    }

    /** The holding patterns of a fix, by identity of ident and position. */
    public List<PublishedHold> holds(Waypoint fix) {
        return holds.stream().filter(hold -> hold.fix().equals(fix)).toList();
    }

    /** Idents of all stations, fixes and airports; in no order. */
    public Set<String> idents() {
        Set<String> idents = new HashSet<>(stations.keySet());
        idents.addAll(fixes.keySet());
        idents.addAll(airports.keySet());
        return idents;
    }

    /** Stations by ident. */
    public List<Station> stations(String ident) {
        return stations.getOrDefault(ident, List.of());
    }

    /** Everything of that ident: stations first, then fixes, then airports. */
    public List<Waypoint> waypoints(String ident) {
        List<Waypoint> found = new ArrayList<>();
        found.addAll(stations.getOrDefault(ident, List.of()));
        found.addAll(fixes.getOrDefault(ident, List.of()));
        found.addAll(airports.getOrDefault(ident, List.of()));
        return found;
    }

    /** {@return every point of the chart; stations first, then fixes, then airports, those of one ident together} */
    public List<Waypoint> waypoints() {
        List<Waypoint> all = new ArrayList<>(stations());
        all.addAll(fixes());
        all.addAll(airports());
        return all;
    }

    /** The part of the chart in a region: its points, the airway legs that touch it, and the points those legs need. */
    public Chart within(Region region) {
        List<Airway> pieces = new ArrayList<>();
        airways()
                .forEach(airway ->
                        pieces.addAll(airway.piecesOf((from, to) -> region.meets(from.position(), to.position()))));
        Set<Waypoint> needed = new HashSet<>();
        pieces.forEach(piece -> needed.addAll(piece.points()));
        Predicate<Waypoint> wanted = point -> needed.contains(point) || region.contains(point.position());
        return new Chart(
                name,
                stations().stream().filter(wanted).toList(),
                fixes().stream().filter(wanted).toList(),
                airports().stream().filter(wanted).toList(),
                pieces,
                holds.stream().filter(hold -> wanted.test(hold.fix())).toList(),
                says);
    }
}
