package org.rejoin.console.drill;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Wind;

/** How an aircraft has flown in the last seconds, and how long its last amendment has been done. For one thread. */
public final class LatelyFlown implements Entry.Reader {

    /** Rates of turn and of climb are means over this, seconds: longer than a gust, shorter than a turn (judgement). */
    private static final double LATELY_S = 4;

    private final Wind wind;
    private final Deque<Point> points = new ArrayDeque<>();
    private double completeS = Double.NaN;

    /**
     * Nothing was flown yet.
     *
     * @param wind of the place, as the lesson has it
     */
    public LatelyFlown(Wind wind) {
        this.wind = wind;
    }

    @Override
    public void point(Point point) {
        if (point.newPiece()) {
            points.clear();
        }
        points.addLast(point);
        while (points.size() > 2 && point.timeS() - points.getFirst().timeS() > 2 * LATELY_S) {
            points.removeFirst();
        }
    }

    @Override
    public void issued(Entry.Issued issued) {
        completeS = Double.NaN;
    }

    @Override
    public void happened(Entry.Happened happened) {
        if (happened.event() instanceof FlightEvent.AmendmentComplete) {
            completeS = happened.timeS();
        } else if (happened.event() instanceof FlightEvent.Repositioned) {
            completeS = Double.NaN; // what was done belongs to the attempt before
        }
    }

    /**
     * How long the last amendment has been complete.
     *
     * @return seconds; empty where it is not
     */
    public OptionalDouble completeForS() {
        Point last = points.peekLast();
        return last == null || Double.isNaN(completeS)
                ? OptionalDouble.empty()
                : OptionalDouble.of(last.timeS() - completeS);
    }

    /**
     * The aircraft as it flies now.
     *
     * @return empty where it was not heard for long enough, or its altitude or heading is not sent
     */
    public Optional<DrillFromHere.Aircraft> aircraft() {
        Point now = points.peekLast();
        Point before = points.peekFirst();
        if (now == null || before == null || now.timeS() - before.timeS() < LATELY_S) {
            return Optional.empty();
        }
        OptionalDouble altitude = now.state().altitudeMslFt();
        OptionalDouble earlier = before.state().altitudeMslFt();
        if (altitude.isEmpty() || earlier.isEmpty() || Double.isNaN(now.headingMagneticDeg())) {
            return Optional.empty();
        }
        double seconds = now.timeS() - before.timeS();
        double turned = Double.isNaN(before.headingMagneticDeg())
                ? 0
                : Angles.turn(now.headingMagneticDeg() - before.headingMagneticDeg());
        return Optional.of(new DrillFromHere.Aircraft(
                now.position(),
                altitude.getAsDouble(),
                new MagneticDirection(now.headingMagneticDeg()),
                trueAirspeedKt(now),
                now.state().rollDeg().orElse(0),
                turned / seconds,
                (altitude.getAsDouble() - earlier.getAsDouble()) / seconds * 60,
                wind));
    }

    /** Air vector = ground vector - wind. */
    private double trueAirspeedKt(Point now) {
        if (Double.isNaN(now.groundSpeedKt()) || Double.isNaN(now.trackTrueDeg())) {
            return 0;
        }
        double track = Math.toRadians(now.trackTrueDeg());
        double from = Math.toRadians(wind.from().deg());
        return Math.hypot(
                now.groundSpeedKt() * Math.cos(track) + wind.speedKt() * Math.cos(from),
                now.groundSpeedKt() * Math.sin(track) + wind.speedKt() * Math.sin(from));
    }
}
