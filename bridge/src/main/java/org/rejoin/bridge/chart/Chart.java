package org.rejoin.bridge.chart;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Everything one chart shows, looked up by ident. Immutable. Idents may be shared by several points. */
public final class Chart {

    private final String name;
    private final Map<String, List<Station>> stations;
    private final Map<String, List<Fix>> fixes;
    private final Map<String, List<Airport>> airports;
    private final Map<String, Airway> airways;

    /**
     * A chart of these things.
     *
     * @param name free text
     * @param stations in the order of the file
     * @param fixes in the order of the file
     * @param airports in the order of the file
     * @param airways in the order of the file; of two with one ident the last counts
     */
    public Chart(
            String name,
            Collection<Station> stations,
            Collection<Fix> fixes,
            Collection<Airport> airports,
            Collection<Airway> airways) {
        this.name = name;
        this.stations = byIdent(stations);
        this.fixes = byIdent(fixes);
        this.airports = byIdent(airports);
        Map<String, Airway> ways = new LinkedHashMap<>();
        airways.forEach(airway -> ways.put(airway.ident(), airway));
        this.airways = Collections.unmodifiableMap(ways);
    }

    private static <T extends Waypoint> Map<String, List<T>> byIdent(Collection<T> points) {
        Map<String, List<T>> map = new LinkedHashMap<>();
        points.forEach(point ->
                map.computeIfAbsent(point.ident(), key -> new ArrayList<>(1)).add(point));
        map.replaceAll((ident, list) -> List.copyOf(list));
        return Collections.unmodifiableMap(map);
    }

    /**
     * Name of the chart.
     *
     * @return free text
     */
    public String name() {
        return name;
    }

    /**
     * All stations.
     *
     * @return in the order of the file
     */
    public List<Station> stations() {
        return stations.values().stream().flatMap(List::stream).toList();
    }

    /**
     * All fixes.
     *
     * @return in the order of the file
     */
    public List<Fix> fixes() {
        return fixes.values().stream().flatMap(List::stream).toList();
    }

    /**
     * All airports.
     *
     * @return in the order of the file
     */
    public List<Airport> airports() {
        return airports.values().stream().flatMap(List::stream).toList();
    }

    /**
     * All airways.
     *
     * @return in the order of the file
     */
    public Collection<Airway> airways() {
        return airways.values();
    }

    /**
     * An airway by ident.
     *
     * @param ident upper case
     * @return the airway, if the chart shows it
     */
    public Optional<Airway> airway(String ident) {
        return Optional.ofNullable(airways.get(ident));
    }

    /**
     * Stations by ident.
     *
     * @param ident upper case
     * @return none, one or several
     */
    public List<Station> stations(String ident) {
        return stations.getOrDefault(ident, List.of());
    }

    /**
     * Everything of that ident: stations first, then fixes, then airports.
     *
     * @param ident upper case
     * @return none, one or several
     */
    public List<Waypoint> waypoints(String ident) {
        List<Waypoint> found = new ArrayList<>();
        found.addAll(stations.getOrDefault(ident, List.of()));
        found.addAll(fixes.getOrDefault(ident, List.of()));
        found.addAll(airports.getOrDefault(ident, List.of()));
        return found;
    }
}
