package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * A radial that is the airway's own: "intercept the AAA 075 radial, join V12", where V12 runs out from AAA on its 074.8
 * radial. It is the airway that is flown, the way it is filed.
 *
 * @param path the airway
 * @param first index of the first step on the radial
 * @param station of the radial
 * @param direction which way along the radial the airway is flown
 * @param offDeg between the radial and the airway, degrees, right positive
 */
record RadialOfAirway(AirwayPath path, int first, Station station, Course.Direction direction, double offDeg) {

    /** A radial is said in whole degrees and a station may be a degree out of true (no source). */
    static final double SAME_DEG = 2;

    /** A leg farther away than this is not named by a radial, nautical miles (the largest service volume). */
    private static final double REACH_NM = 130;

    static Optional<RadialOfAirway> of(AirwayPath path, Station station, TrueDirection azimuth) {
        for (int i = 0; i < path.steps().size(); i++) {
            AirwayPath.Step step = path.steps().get(i);
            Position from = step.segment().from().position();
            Position to = step.segment().to().position();
            double near = station.position().distanceNm(from);
            double far = station.position().distanceNm(to);
            if (step.segment().airway().isEmpty() || Math.min(near, far) > REACH_NM) {
                continue;
            }
            double off = far > near ? off(station, to, azimuth) : off(station, from, azimuth);
            boolean otherEnd =
                    Math.min(near, far) < 0.1 || Math.abs(off(station, far > near ? from : to, azimuth)) <= SAME_DEG;
            if (Math.abs(off) <= SAME_DEG && otherEnd) {
                return Optional.of(new RadialOfAirway(
                        path, i, station, far > near ? Course.Direction.FROM : Course.Direction.TO, off));
            }
        }
        return Optional.empty();
    }

    private static double off(Station station, Position point, TrueDirection azimuth) {
        return azimuth.turnTo(station.position().to(point).initial());
    }

    /** Whether the words leave it to the airway which way it is flown, or say the same. */
    boolean fits(Instruction.Sense sense) {
        return sense == Instruction.Sense.UNSAID
                || (sense == Instruction.Sense.OUTBOUND) == (direction == Course.Direction.FROM);
    }

    void work(AmendmentDraft draft, Radial radial, GeodesicLine outbound) throws ClearanceException {
        draft.notes.add(String.format(
                java.util.Locale.ROOT,
                "the %s %s radial is %s: its leg %s runs within %.1f degrees of it, and is flown as filed, %s the station",
                station.ident(),
                Angles.figures(radial.deg()),
                path.steps().get(first).segment().airway().orElse("the route"),
                AirwayPath.name(path.steps().get(first).segment()),
                Math.max(0.1, Math.abs(offDeg)),
                direction));
        AirwayPath rest = new AirwayPath(
                path.ident(), path.steps().subList(first, path.steps().size()), path.tail());
        new AirwayAmendment(draft, rest).work();
        draft.course = Optional.of(new Course(station, radial, direction, outbound));
    }
}
