package org.rejoin.console.flight;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/** Finds what makes one doubt that a recording is the whole flight of its lesson. What can be graded is graded anyway. */
final class FlightDoubts implements Entry.Reader {

    /** Farther from every point of the chart it is another place; common practice, no source. */
    private static final double FAR_NM = 300;

    /** Half the standard rate, degrees a second: less is not a turn; common practice, no source. */
    private static final double TURNING_DEG_S = 1.5;

    /** Sooner nobody has turned to a heading and met a course; the tracker takes 5 s to be sure. */
    private static final double AT_ONCE_S = 10;

    private final Lesson lesson;
    private final List<String> doubts = new ArrayList<>();
    private @Nullable Point last;
    private double turnDegS;
    private double clearedS = Double.NEGATIVE_INFINITY;
    private boolean headed;
    private boolean heading;
    private boolean altitude;

    private FlightDoubts(Lesson lesson) {
        this.lesson = lesson;
    }

    /** One sentence each; none where the recording is beyond doubt. */
    static List<String> of(FlightRecord record, Lesson lesson) {
        FlightDoubts doubts = new FlightDoubts(lesson);
        record.entries().forEach(entry -> entry.readBy(doubts));
        return doubts.found();
    }

    @Override
    public void happened(Entry.Happened happened) {
        if (happened.event() instanceof FlightEvent.InterceptAchieved
                && headed
                && happened.timeS() - clearedS < AT_ONCE_S) {
            doubts.add(
                    "the aircraft was on the course already as the clearance was heard: did the recording begin after the"
                            + " intercept?");
        }
    }

    @Override
    public void point(Point now) {
        Point before = last;
        if (before == null) {
            place(now.position());
        } else if (now.timeS() > before.timeS()) {
            turnDegS = Angles.turn(now.trackTrueDeg() - before.trackTrueDeg()) / (now.timeS() - before.timeS());
        }
        heading |= now.state().hasHeading();
        altitude |= now.state().altitudeMslFt().isPresent();
        last = now;
    }

    private void place(Position first) {
        double nearestNm = Double.POSITIVE_INFINITY;
        for (Waypoint point : lesson.chart().waypoints()) {
            nearestNm = Math.min(nearestNm, first.distanceNm(point.position()));
        }
        if (nearestNm > FAR_NM) {
            doubts.add(Words.say(
                    "the flight begins %.0f NM from the nearest point of the lesson's chart: is it the recording of another"
                            + " lesson?",
                    nearestNm));
        }
    }

    @Override
    public void issued(Entry.Issued issued) {
        AmendedRoute route = issued.route();
        // Of later clearances the recording had begun before.
        boolean earliest = clearedS == Double.NEGATIVE_INFINITY;
        clearedS = issued.timeS();
        headed = earliest && route.assignedHeading().isPresent();
        if (earliest && route.warnings().stream().anyMatch(FlightDoubts::isBehind)) {
            doubts.add("where the clearance \"" + route.clearance().words()
                    + "\" was heard, its course was not ahead any more: did the recording begin after the intercept, or is"
                    + " it of another lesson?");
        }
    }

    private static boolean isBehind(Warning warning) {
        return warning.code() == Warning.Code.HEADING_DOES_NOT_REACH_COURSE
                || warning.code() == Warning.Code.CROSSING_BEHIND;
    }

    private List<String> found() {
        Point end = last;
        List<String> found = new ArrayList<>(doubts);
        if (end != null && !heading) {
            found.add("the feed carries no heading: what needs one was not graded");
        }
        if (end != null && !altitude) {
            found.add("the feed carries no altitude: it was not graded");
        }
        if (end != null && end.phase() != Point.Phase.COMPLETE && Math.abs(turnDegS) > TURNING_DEG_S) {
            found.add("the recording ends in a turn, before the amendment was complete: it may have been cut short");
        }
        return found;
    }
}
