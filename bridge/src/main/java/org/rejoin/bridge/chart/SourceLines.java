package org.rejoin.bridge.chart;

import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Map;

/** Where in its file the things of a chart stand. Complete and unchanging once the reader hands it out. */
public final class SourceLines {

    /** By identity: two points that are equal stand in two lines. */
    private final IdentityHashMap<Object, Integer> things = new IdentityHashMap<>();

    /** By ident, as taking a region makes new pieces of an airway. */
    private final Map<String, Integer> airways = new HashMap<>();

    /** Nothing yet; so it stays for a chart that came from no file. */
    public SourceLines() {}

    /** A point stands in a line, from 1. */
    public void add(Waypoint point, int line) {
        things.put(point, line);
    }

    /** An airway stands in a line, from 1. */
    public void add(Airway airway, int line) {
        things.put(airway, line);
        airways.putIfAbsent(airway.ident(), line);
    }

    /** Line of a point, from 1; 0 where it is not known. */
    public int of(Waypoint point) {
        return things.getOrDefault(point, 0);
    }

    /** Line of an airway, likewise. */
    public int of(Airway airway) {
        return things.getOrDefault(airway, airways.getOrDefault(airway.ident(), 0));
    }
}
