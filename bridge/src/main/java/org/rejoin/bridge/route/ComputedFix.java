package org.rejoin.bridge.route;

import java.util.List;

import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/**
 * The fix that is on no chart: where the cleared radial meets the airway.
 *
 * @param fix its name and place; the name is station, radial and distance, for example AAA078064
 * @param segment of the airway it is on, in the direction flown
 * @param alongSegmentNm from the start of that segment, nautical miles
 * @param crossingAngleDeg between radial and airway, degrees, [0, 90]
 * @param inboundCourse of the radial at the fix, in the direction flown, true
 * @param airwayCourse at the fix, in the direction flown, true
 * @param definitions first the cleared radial, then the best others
 */
public record ComputedFix(
        Fix fix,
        FiledRoute.Segment segment,
        double alongSegmentNm,
        double crossingAngleDeg,
        TrueDirection inboundCourse,
        TrueDirection airwayCourse,
        List<Definition> definitions) {

    public ComputedFix {
        definitions = List.copyOf(definitions);
    }

    /**
     * One way to name the fix by a station.
     *
     * @param station by which
     * @param radial of that station on which the fix lies
     * @param distanceNm as the station's DME measures it over the ground, nautical miles; from the station where it has no
     *     DME
     * @param crossingAngleDeg the smaller of its angles with the cleared radial and with the airway, degrees
     * @param use what it is good for
     * @param reason why it stands where it does in the list
     */
    public record Definition(
            Station station, Radial radial, double distanceNm, double crossingAngleDeg, Use use, String reason) {}

    /** What a definition is good for. */
    public enum Use {
        /** The radial of the clearance, with its distance. */
        CLEARED_RADIAL,
        /** A radial that cuts the cleared one and the airway well. */
        CROSSING_RADIAL,
        /** A distance along the airway or the radial; too flat to cut it. */
        DISTANCE
    }

    /**
     * What the turn onto the course and the one here leave of the course between them.
     *
     * @param met where the course is met, before this fix
     * @return nautical miles; below zero there is no room for both turns
     */
    public double roomNm(Intercept met, Situation situation) {
        return met.position().distanceNm(fix.position()) - met.standardTurnLeadNm() - standardTurnLeadNm(situation);
    }

    /** {@return the turn at the fix; degrees from the radial onto the airway, right positive} */
    public double turnDeg() {
        return inboundCourse.turnTo(airwayCourse);
    }

    /**
     * Ground speed toward the fix along the radial, knots; the airspeed where the wind does not let the course be made
     * good.
     */
    public double groundSpeedKt(Situation situation) {
        return situation
                .headingFor(inboundCourse)
                .map(GroundVector.HeadingForCourse::groundSpeedKt)
                .orElse(situation.trueAirspeedKt());
    }

    /** How far before the fix the turn onto the airway begins, at standard rate: R tan(turn / 2), nautical miles. */
    public double leadNm(Situation situation) {
        return Turn.leadNm(Turn.standardRadiusNm(groundSpeedKt(situation)), Math.min(Math.abs(turnDeg()), 179));
    }

    /**
     * The lead of the turn that is flown, as {@link Intercept#standardTurnLeadNm}.
     *
     * @param situation for airspeed and wind
     * @return nautical miles before the fix
     */
    public double standardTurnLeadNm(Situation situation) {
        return Turn.longerLeadNm(leadNm(situation), groundSpeedKt(situation));
    }
}
