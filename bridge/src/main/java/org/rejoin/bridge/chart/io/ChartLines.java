package org.rejoin.bridge.chart.io;

import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.bridge.chart.Waypoint;

/** Where in the file the things of a chart stand. Complete and unchanging once the reader hands it out. */
final class ChartLines implements SourceLines {

    /** By identity: two points that are equal stand in two lines. */
    private final IdentityHashMap<Object, Integer> things = new IdentityHashMap<>();

    /** By ident, as taking a region makes new pieces of an airway. */
    private final Map<String, Integer> airways = new HashMap<>();

    void add(Waypoint point, int line) {
        things.put(point, line);
    }

    void add(Airway airway, int line) {
        things.put(airway, line);
        airways.putIfAbsent(airway.ident(), line);
    }

    @Override
    public int of(Waypoint point) {
        return things.getOrDefault(point, 0);
    }

    @Override
    public int of(Airway airway) {
        return things.getOrDefault(airway, airways.getOrDefault(airway.ident(), 0));
    }
}
