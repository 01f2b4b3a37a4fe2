package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.Situation;

/**
 * A station whose radials (or bearings) may be mistaken for those of the one in the clearance.
 *
 * @param station of the chart, one that gives radials or bearings
 * @param reference of its zero radial: its declination, or for an NDB today's variation there
 */
public record NearStation(Station station, Declination reference) {

    /**
     * The stations of a chart that may be mistaken for the one in a clearance, which is among them, no farther than so
     * many nautical miles.
     */
    public static List<NearStation> within(double reachNm, Chart chart, Situation here) {
        List<NearStation> near = new ArrayList<>();
        for (Station station : chart.stations()) {
            Position position = station.position();
            if ((!station.kind().hasRadials() && station.kind() != Station.Kind.NDB)
                    || !position.isWithin(reachNm, here.position())) {
                continue;
            }
            Optional<Declination> reference = station.kind() == Station.Kind.NDB
                    ? Optional.of(new Declination(here.variationAt(position).eastDeg()))
                    : station.declination();
            reference.ifPresent(each -> near.add(new NearStation(station, each)));
        }
        return near;
    }
}
