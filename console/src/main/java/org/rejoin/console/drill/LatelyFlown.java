package org.rejoin.console.drill;

import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;

/** How an aircraft has flown in the last seconds, and how long its last amendment has been done. For one thread. */
public final class LatelyFlown implements Entry.Reader {

    /** Rates of turn and of climb are means over this, seconds: longer than a gust, shorter than a turn (judgement). */
    private static final double LATELY_S = 4;

    /** A fast feed tells no more than this, seconds. */
    private static final double APART_S = 0.5;

    /** One moment; what is not known is NaN. */
    private record Moment(
            double timeS,
            Position position,
            double altitudeFt,
            double headingMagneticDeg,
            double rollDeg,
            double trackTrueDeg,
            double groundSpeedKt) {}

    private final Deque<Moment> moments = new ArrayDeque<>();
    private double completeS = Double.NaN;

    @Override
    public void point(Point point) {
        AircraftState state = point.state();
        later(
                new Moment(
                        point.timeS(),
                        point.position(),
                        state.altitudeMslFt().orElse(Double.NaN),
                        point.headingMagneticDeg(),
                        state.rollDeg().orElse(0),
                        point.trackTrueDeg(),
                        point.groundSpeedKt()),
                point.newPiece());
    }

    /**
     * A sample of an aircraft that flies no lesson, and whether it was put elsewhere. Track and speed are those of its
     * positions; the date is for the variation, where the feed sends true headings.
     */
    public void heard(AircraftState state, boolean moved, LocalDate date) {
        Moment last = moments.peekLast();
        double since = last == null ? Double.NaN : state.timeS() - last.timeS();
        if (since >= 0 && since < APART_S && !moved && !state.paused()) {
            return;
        }
        Position here = new Position(state.latitudeDeg(), state.longitudeDeg());
        double heading = state.headingMagneticDeg()
                .orElseGet(() -> state.headingTrueDeg().isEmpty()
                        ? Double.NaN
                        : new TrueDirection(state.headingTrueDeg().getAsDouble())
                                .toMagnetic(MagneticModel.WMM2025.variation(
                                        here, state.altitudeMslFt().orElse(0), date))
                                .deg());
        Moment before = moments.peekFirst();
        boolean other = moved || state.paused() || since < 0;
        Geodesics.Inverse way =
                before == null ? here.to(here) : before.position().to(here);
        double hours = before == null ? 0 : (state.timeS() - before.timeS()) / 3600;
        later(
                new Moment(
                        state.timeS(),
                        here,
                        state.altitudeMslFt().orElse(Double.NaN),
                        heading,
                        state.rollDeg().orElse(0),
                        hours > 0 ? way.onward().deg() : Double.NaN,
                        hours > 0 ? way.distanceNm() / hours : Double.NaN),
                other);
    }

    private void later(Moment moment, boolean other) {
        if (other) {
            moments.clear();
        }
        moments.addLast(moment);
        while (moments.size() > 2 && moment.timeS() - moments.getFirst().timeS() > 2 * LATELY_S) {
            moments.removeFirst();
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

    /** {@return how long the last amendment has been complete; seconds; empty where it is not} */
    public OptionalDouble completeForS() {
        Moment last = moments.peekLast();
        return last == null || Double.isNaN(completeS)
                ? OptionalDouble.empty()
                : OptionalDouble.of(last.timeS() - completeS);
    }

    /**
     * The aircraft as it flies now, in a wind; empty where it was not heard for long enough, or its altitude or heading is
     * not sent.
     */
    public Optional<DrillFromHere.Aircraft> aircraft(Wind air) {
        Moment now = moments.peekLast();
        Moment before = moments.peekFirst();
        if (now == null || before == null || now.timeS() - before.timeS() < LATELY_S) {
            return Optional.empty();
        }
        if (Double.isNaN(now.altitudeFt())
                || Double.isNaN(before.altitudeFt())
                || Double.isNaN(now.headingMagneticDeg())) {
            return Optional.empty();
        }
        double seconds = now.timeS() - before.timeS();
        double turned = Double.isNaN(before.headingMagneticDeg())
                ? 0
                : Angles.turn(now.headingMagneticDeg() - before.headingMagneticDeg());
        return Optional.of(new DrillFromHere.Aircraft(
                now.position(),
                now.altitudeFt(),
                new MagneticDirection(now.headingMagneticDeg()),
                trueAirspeedKt(now, air),
                now.rollDeg(),
                turned / seconds,
                (now.altitudeFt() - before.altitudeFt()) / seconds * 60,
                air));
    }

    /** Air vector = ground vector - wind. */
    private static double trueAirspeedKt(Moment now, Wind air) {
        if (Double.isNaN(now.groundSpeedKt()) || Double.isNaN(now.trackTrueDeg())) {
            return 0;
        }
        double track = Math.toRadians(now.trackTrueDeg());
        double from = Math.toRadians(air.from().deg());
        return Math.hypot(
                now.groundSpeedKt() * Math.cos(track) + air.speedKt() * Math.cos(from),
                now.groundSpeedKt() * Math.sin(track) + air.speedKt() * Math.sin(from));
    }
}
