package org.rejoin.bridge.chart;

/** Where in its file a thing of a chart stands. */
public interface SourceLines {

    /** For a chart that came from no file. */
    SourceLines NONE = new SourceLines() {
        @Override
        public int of(Waypoint point) {
            return 0;
        }

        @Override
        public int of(Airway airway) {
            return 0;
        }
    };

    /** Line of a point, from 1; 0 where it is not known. */
    int of(Waypoint point);

    /** Line of an airway, likewise. */
    int of(Airway airway);
}
