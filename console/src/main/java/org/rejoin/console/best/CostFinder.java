package org.rejoin.console.best;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * Compares a flight with the best path.
 *
 * @param flown under the clearance of the best path, one or more, in order of time
 * @param events under it, likewise
 */
record CostFinder(BestPath best, List<Point> flown, List<FlightEvent> events) {

    /** Rolled out on the heading this long after it counts as taken up, seconds; common practice, no source. */
    private static final double STEADY_S = 5;

    /** The turn onto the course has begun when the track has left the heading's by so much, degrees. */
    private static final double LEFT_DEG = 3;

    /** And stays away for so long, seconds; both common practice, no source. */
    private static final double LEFT_S = 5;

    /** Less than this toward the course, and come back from, is wandering; common practice, no source. */
    private static final double TURN_DEG = 15;

    /** Its first degree is where it began. */
    private static final double BEGAN_DEG = 1;

    Comparison.Cost cost() {
        return new Comparison.Cost(turnedLateS(), pastLineNm(), lost());
    }

    private <T extends FlightEvent> OptionalDouble first(Class<T> kind) {
        return events.stream()
                .filter(kind::isInstance)
                .mapToDouble(FlightEvent::timeS)
                .findFirst();
    }

    private Optional<GroundPath> course() {
        return best.route().legs().get(best.route().courseLeg()).groundPath();
    }

    /** A turn from the heading as flown, with the air and the wind as known, against the course. */
    private OptionalDouble turnedLateS() {
        OptionalDouble taken = first(FlightEvent.HeadingEstablished.class);
        OptionalDouble onCourse = first(FlightEvent.InterceptAchieved.class);
        Optional<GroundPath> line = course();
        if (taken.isEmpty() || onCourse.isEmpty() || line.isEmpty()) {
            return OptionalDouble.empty();
        }
        int steady = Recorded.indexAt(flown, taken.getAsDouble() + STEADY_S);
        double trackDeg = flown.get(steady).trackTrueDeg();
        double needed = Angles.turn(
                line.get().offset(flown.get(steady).position()).course().deg() - trackDeg);
        double toward = needed < 0 ? -1 : 1;
        double turnDeg = Math.min(TURN_DEG, Math.abs(needed) / 2);
        int left = -1;
        for (int i = steady; i < flown.size() && flown.get(i).timeS() < onCourse.getAsDouble(); i++) {
            double turned = toward * Angles.turn(flown.get(i).trackTrueDeg() - trackDeg);
            if (Math.abs(turned) <= LEFT_DEG) {
                left = -1; // back on the heading: what was before was no turn onto the course
            } else if (left < 0 && turned > 0) {
                left = i;
            }
            if (left >= 0
                    && turned >= turnDeg
                    && flown.get(i).timeS() - flown.get(left).timeS() >= LEFT_S) {
                break;
            }
        }
        if (left < 0 || onCourse.getAsDouble() - flown.get(left).timeS() < LEFT_S) {
            return OptionalDouble.empty();
        }
        while (left > steady && Math.abs(Angles.turn(flown.get(left).trackTrueDeg() - trackDeg)) > BEGAN_DEG) {
            left--;
        }
        Point began = flown.get(left);
        GroundVector ground = Recorded.ground(began);
        Air air = Air.behind(ground, best.route().situation().wind());
        TrueDirection heading = air.headingOf(ground);
        Offset offset = line.get().offset(began.position());
        Optional<TrueDirection> wanted = air.along(offset.course()).map(GroundVector.HeadingForCourse::heading);
        if (wanted.isEmpty()) {
            return OptionalDouble.empty();
        }
        Stretch.Turning turning = new Stretch.Turning(began.position(), heading, heading.turnTo(wanted.get()), air);
        double missNm = line.get().offset(turning.at(turning.seconds())).crossTrackNm();
        double closingNmPerS = began.groundSpeedKt()
                / 3600
                * Math.sin(Math.toRadians(
                        Angles.turn(began.trackTrueDeg() - offset.course().deg())));
        return Math.abs(closingNmPerS) < 1e-4 ? OptionalDouble.empty() : OptionalDouble.of(missNm / closingNmPerS);
    }

    private double pastLineNm() {
        Optional<GroundPath> line = course();
        Optional<BestPath.TurnOnto> turn = best.ontoCourse();
        if (line.isEmpty() || turn.isEmpty() || best.route().heading().isEmpty()) {
            return 0;
        }
        double near = Math.signum(line.get().offset(turn.get().begins()).crossTrackNm());
        double untilS = first(FlightEvent.InterceptAchieved.class)
                .orElse(first(FlightEvent.FixSequenced.class).orElse(Double.POSITIVE_INFINITY));
        return flown.stream()
                .filter(at -> at.timeS() <= untilS)
                .mapToDouble(at -> -near * line.get().offset(at.position()).crossTrackNm())
                .reduce(0, Math::max);
    }

    /** Both are established at the later of the two roll-outs along the leg. */
    private Optional<Comparison.Cost.Lost> lost() {
        // What a hold takes is no time lost: compared is where the line that leads to it is reached.
        OptionalDouble complete = best.route().holding().isPresent()
                ? first(FlightEvent.InterceptAchieved.class)
                : first(FlightEvent.AmendmentComplete.class);
        if (complete.isEmpty()) {
            return Optional.empty();
        }
        double completeS = complete.getAsDouble();
        if (events.stream().anyMatch(event -> event.timeS() <= completeS && breaks(event))) {
            return Optional.empty();
        }
        double alongNm = best.line().offset(Recorded.position(flown, completeS)).alongTrackNm();
        double bestS = best.completeS();
        double flownS = completeS;
        double moreNm = alongNm - best.completeAlongNm();
        if (moreNm >= 0) {
            bestS += moreNm / best.groundSpeedKt() * 3600;
        } else {
            flownS = passingS(best.completeAlongNm(), completeS);
        }
        double bestNm = best.lengthNm() + Math.max(0, moreNm);
        double endS = flown.get(flown.size() - 1).timeS();
        double flownNm = lengthNm(Math.min(flownS, endS)) + Math.max(0, flownS - endS) * best.groundSpeedKt() / 3600;
        return Optional.of(new Comparison.Cost.Lost(flownS - bestS - pausedS(completeS), flownNm - bestNm));
    }

    /** Not flown through: set elsewhere, or not seen. */
    private static boolean breaks(FlightEvent event) {
        return event instanceof FlightEvent.Repositioned || event instanceof FlightEvent.FeedResumed;
    }

    /** Time in which the simulation stood still, since the first point. */
    private double pausedS(double untilS) {
        Point end = flown.get(Recorded.indexAt(flown, untilS));
        Point start = flown.get(0);
        return end.timeS() - end.flownS() - (start.timeS() - start.flownS());
    }

    /** When the flight passes abeam a point of the leg; beyond the last sample as fast as the best path. */
    private double passingS(double alongNm, double fromS) {
        double beforeNm = best.line().offset(Recorded.position(flown, fromS)).alongTrackNm();
        double beforeS = fromS;
        for (int i = Recorded.indexAt(flown, fromS) + 1; i < flown.size(); i++) {
            double hereNm = best.line().offset(flown.get(i).position()).alongTrackNm();
            double hereS = flown.get(i).timeS();
            if (hereNm >= alongNm) {
                return beforeS + (hereS - beforeS) * (alongNm - beforeNm) / (hereNm - beforeNm);
            }
            beforeNm = hereNm;
            beforeS = hereS;
        }
        return beforeS + (alongNm - beforeNm) / best.groundSpeedKt() * 3600;
    }

    private double lengthNm(double untilS) {
        double length = 0;
        Position before = Recorded.position(flown, best.heardS());
        double beforeS = best.heardS();
        for (Point at : flown) {
            if (at.timeS() > beforeS && at.timeS() <= untilS) {
                length += before.distanceNm(at.position());
                before = at.position();
                beforeS = at.timeS();
            }
        }
        return length + before.distanceNm(Recorded.position(flown, untilS));
    }
}
