package org.rejoin.console.flight;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Warning;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/** Finds what makes one doubt that a recording is the whole flight of its lesson. What can be graded is graded anyway. */
final class FlightDoubts implements FlightDesk.Watcher {

    /** Farther from every point of the chart it is another place; common practice, no source. */
    private static final double FAR_NM = 300;

    /** Half the standard rate, degrees a second: less is not a turn; common practice, no source. */
    private static final double TURNING_DEG_S = 1.5;

    /** Sooner nobody has turned to a heading and met a course; the tracker takes 5 s to be sure. */
    private static final double AT_ONCE_S = 10;

    private final Lesson lesson;
    private final List<String> doubts = new ArrayList<>();
    private @Nullable Progress last;
    private double turnDegS;
    private double clearedS = Double.NEGATIVE_INFINITY;
    private boolean headed;
    private boolean heading;
    private boolean altitude;

    FlightDoubts(Lesson lesson) {
        this.lesson = lesson;
    }

    @Override
    public void event(FlightEvent event) {
        if (event instanceof FlightEvent.ClearanceIssued) {
            clearedS = event.timeS();
        } else if (event instanceof FlightEvent.InterceptAchieved && headed && event.timeS() - clearedS < AT_ONCE_S) {
            doubts.add(
                    "the aircraft was on the course already as the clearance was heard: did the recording begin after the"
                            + " intercept?");
        }
    }

    @Override
    public void sample(AircraftState state, Progress now) {
        Progress before = last;
        if (before == null) {
            place(now.position());
        } else if (now.timeS() > before.timeS()) {
            turnDegS = Angles.turn(now.trackTrueDeg() - before.trackTrueDeg()) / (now.timeS() - before.timeS());
        }
        heading |=
                state.headingTrueDeg().isPresent() || state.headingMagneticDeg().isPresent();
        altitude |= state.altitudeMslFt().isPresent();
        last = now;
    }

    private void place(Position first) {
        double nearestNm = Double.POSITIVE_INFINITY;
        for (Waypoint point : lesson.chart().waypoints()) {
            nearestNm = Math.min(nearestNm, first.distanceNm(point.position()));
        }
        if (nearestNm > FAR_NM) {
            doubts.add(String.format(
                    Locale.ROOT,
                    "the flight begins %.0f NM from the nearest point of the lesson's chart: is it the recording of another"
                            + " lesson?",
                    nearestNm));
        }
    }

    @Override
    public void amended(AmendedRoute route) {
        headed = route.assignedHeading().isPresent();
        if (route.warnings().stream().anyMatch(FlightDoubts::isBehind)) {
            doubts.add("where the clearance \"" + route.clearance().text()
                    + "\" was heard, its course was not ahead any more: did the recording begin after the intercept, or is"
                    + " it of another lesson?");
        }
    }

    private static boolean isBehind(Warning warning) {
        return warning.code() == Warning.Code.HEADING_DOES_NOT_REACH_COURSE
                || warning.code() == Warning.Code.CROSSING_BEHIND;
    }

    /** All doubts, the flight being over. */
    List<String> found() {
        Progress end = last;
        List<String> found = new ArrayList<>(doubts);
        if (end != null && !heading) {
            found.add("the feed carries no heading: what needs one was not graded");
        }
        if (end != null && !altitude) {
            found.add("the feed carries no altitude: it was not graded");
        }
        if (end != null && end.phase() != Progress.Phase.COMPLETE && Math.abs(turnDegS) > TURNING_DEG_S) {
            found.add("the recording ends in a turn, before the amendment was complete: it may have been cut short");
        }
        return found;
    }
}
