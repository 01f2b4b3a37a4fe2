package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

import org.rejoin.console.draw.LabelPlacer;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.draw.Plan;
import org.rejoin.console.draw.Projection;

/** The marks of events on a plan, each with its number beside it. Takes its room at once and is written last. */
final class EventMarks {

    private static final int MOST_CLUSTERS = 200;

    private final List<EventCluster> clusters = new ArrayList<>();

    EventMarks(List<NumberedEvent> events, Function<NumberedEvent, Projection.Point> where, LabelPlacer room) {
        double within = 9;
        List<EventCluster> all;
        do {
            all = EventCluster.of(events, where, within);
            within *= 2;
        } while (all.size() > MOST_CLUSTERS && within < 5000);
        for (EventCluster cluster : all) {
            room.keepFree(LabelPlacer.Box.around(cluster.at(), 6));
        }
        for (EventCluster cluster : all) {
            clusters.add(cluster.in(room.place(cluster.at(), cluster.width(), 20)));
        }
    }

    /** Writes them; each can be linked to by the anchor with its number. */
    void write(Markup out, Plan plan, String anchor) {
        for (EventCluster cluster : clusters) {
            plan.tie(cluster.at(), cluster.box());
        }
        for (EventCluster cluster : clusters) {
            cluster.write(out, anchor);
        }
    }
}
