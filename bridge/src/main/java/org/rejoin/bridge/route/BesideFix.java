package org.rejoin.bridge.route;

import java.util.stream.Stream;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;

/**
 * A place that is said by a distance and a side of a fix: "10 miles north of AAA".
 *
 * @param alongNm along the line that it is on
 * @param position of the place
 * @param said how it is said exactly
 * @param offDeg between its radial and the side said
 */
record BesideFix(double alongNm, Position position, RadialDistance said, double offDeg) {

    /** The places on a line, not before and not beyond two points of it, that lie so. */
    static Stream<BesideFix> on(
            GeodesicLine line, double fromNm, double toNm, Waypoint fix, Instruction.Away away, Situation situation) {
        return line.crossingsOfCircle(RadialDistance.milesFrom(fix), away.distanceNm()).stream()
                .filter(along -> along >= fromNm && along <= toNm)
                .map(along -> {
                    Position at = line.pointAt(along);
                    RadialDistance said = RadialDistance.of(fix, at, situation);
                    return new BesideFix(
                            along, at, said, Compass.offDeg(said.radial().deg(), away.compass()));
                })
                .filter(place -> Compass.isToward(place.said.radial().deg(), away.compass()));
    }
}
