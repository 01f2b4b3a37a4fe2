package org.rejoin.console.grade;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/** What is measured of a flight from sample to sample: how far off, and between which two times that was judged. */
final class FlightMeasures {

    /** A heading error counts when it lasts this long, seconds (fixed by the project's contract). */
    private static final double HEADING_HELD_S = 10;

    /** An altitude error counts when it lasts this long, seconds (fixed by the project's contract). */
    static final double ALTITUDE_HELD_S = 5;

    /** A speed error counts when it lasts this long, seconds; common practice, no source. */
    static final double SPEED_HELD_S = 10;

    /** A course change above this is led as this one, degrees; common practice, no source. */
    private static final double SHARPEST_FLY_BY_DEG = 150;

    /** Crossings of the line after which the pilot is following it, however badly; common practice, no source. */
    private static final int CROSSINGS_TO_FOLLOW = 2;

    private final ToleranceSet set;
    private final Held heading = new Held(HEADING_HELD_S);
    private final Held altitude = new Held(ALTITUDE_HELD_S);
    private final Held speed = new Held(SPEED_HELD_S);
    private final Span headingSpan = new Span();
    private final Span altitudeSpan = new Span();
    private final Span speedSpan = new Span();
    private final Span courseSpan = new Span();
    private @Nullable AmendedRoute route;
    private boolean headingSeen;
    private boolean altitudeSeen;
    private boolean altitudeAssigned;
    private boolean speedSeen;
    private double courseNm;
    private double courseLimitNm = Double.NaN;
    private double groundSpeedKt;
    private double closingScaleNm;
    private int crossings;
    private double sideOfLine;
    private double farSideNm;
    private boolean fixSeen;
    private boolean afterFix;
    private double flyByNm;
    private double afterFixNm;

    FlightMeasures(ToleranceSet set) {
        this.set = set;
        this.closingScaleNm = set.limits().fullScaleAtNm(Double.POSITIVE_INFINITY);
    }

    /** From when to when something was judged. */
    static final class Span {
        private double fromS = Double.NaN;
        private double toS = Double.NaN;

        private void add(double timeS) {
            fromS = Double.isNaN(fromS) ? timeS : fromS;
            toS = timeS;
        }

        boolean empty() {
            return Double.isNaN(fromS);
        }

        double fromS() {
            return fromS;
        }

        double toS() {
            return toS;
        }
    }

    void amended(AmendedRoute now) {
        route = now;
        closingScaleNm = set.limits().fullScaleAtNm(Double.POSITIVE_INFINITY);
        crossings = 0;
        sideOfLine = 0;
        afterFix = false;
    }

    void event(FlightEvent event) {
        if (event instanceof FlightEvent.FixSequenced fix && !fixSeen) {
            fixSeen = true;
            flyByNm = flyByNm(fix.ident());
            afterFix = true;
        }
        if (event instanceof FlightEvent.Repositioned
                || event instanceof FlightEvent.FeedResumed
                || event instanceof FlightEvent.SimResumed) {
            heading.breakOff();
            altitude.breakOff();
            speed.breakOff();
        }
    }

    void sample(AircraftState state, Progress now) {
        headingSeen |=
                state.headingTrueDeg().isPresent() || state.headingMagneticDeg().isPresent();
        altitudeSeen |= state.altitudeMslFt().isPresent();
        speedSeen |= state.indicatedAirspeedKt().isPresent();
        groundSpeedKt = now.groundSpeedKt();
        hold(now.timeS(), now.headingErrorDeg(), heading, headingSpan);
        hold(now.timeS(), now.altitudeErrorFt(), altitude, altitudeSpan);
        hold(now.timeS(), now.speedErrorKt(), speed, speedSpan);
        if (now.crossTrackNm().isPresent()) {
            line(now, now.crossTrackNm().getAsDouble());
        }
    }

    private static void hold(double timeS, OptionalDouble error, Held held, Span span) {
        if (error.isPresent()) {
            held.add(timeS, Math.abs(error.getAsDouble()));
            span.add(timeS);
        } else {
            held.breakOff();
        }
    }

    private void line(Progress now, double cross) {
        double off = Math.abs(cross);
        if (now.established()) {
            afterFix = false;
            follow(now, off);
            return;
        }
        if (afterFix && now.phase() == Progress.Phase.JOINING) {
            afterFixNm = Math.max(afterFixNm, off);
        }
        if (now.phase() != Progress.Phase.CLOSING) {
            return;
        }
        closingScaleNm = scaleNm(now);
        double side = Math.signum(cross);
        if (sideOfLine != 0 && side != 0 && side != sideOfLine) {
            crossings++;
        }
        sideOfLine = side == 0 ? sideOfLine : side;
        if (crossings % 2 == 1) {
            farSideNm = Math.max(farSideNm, off);
        }
        if (crossings >= CROSSINGS_TO_FOLLOW) {
            follow(now, off);
        }
    }

    private void follow(Progress now, double off) {
        double limit = scaleNm(now) * set.limits().courseScale();
        if (Double.isNaN(courseLimitNm) || off / limit > courseNm / courseLimitNm) {
            courseNm = off;
            courseLimitNm = limit;
        }
        courseSpan.add(now.timeS());
    }

    /** Full scale where the aircraft is: on the radial to intercept it may be angular. */
    private double scaleNm(Progress now) {
        AmendedRoute in = route;
        double distance = in == null || in.course().isEmpty() || now.legIndex() != in.courseLeg()
                ? Double.POSITIVE_INFINITY
                : in.course().get().station().position().distanceNm(now.position());
        return set.limits().fullScaleAtNm(distance);
    }

    /**
     * How far from the fix a standard-rate fly-by turn passes it: R (sec(angle/2) - 1), at the ground speed of the
     * moment; a sharper turn than the tracker's sharpest is led as that one.
     */
    private double flyByNm(String ident) {
        AmendedRoute in = route;
        List<Leg> legs = in == null ? List.of() : in.legs();
        for (int i = 0; i + 1 < legs.size(); i++) {
            Optional<GeodesicLine> leg = legs.get(i).line();
            Optional<GeodesicLine> next = legs.get(i + 1).line();
            boolean here = legs.get(i)
                    .endsAt()
                    .filter(fix -> fix.ident().equals(ident))
                    .isPresent();
            if (here && leg.isPresent() && next.isPresent()) {
                double turn = leg.get()
                        .courseAt(leg.get().lengthNm())
                        .turnTo(next.get().initialCourse());
                double half = Math.toRadians(Math.min(Math.abs(turn), SHARPEST_FLY_BY_DEG) / 2);
                return Turn.standardRadiusNm(groundSpeedKt) * (1 / Math.cos(half) - 1);
            }
        }
        return 0;
    }

    void assignAltitude() {
        altitudeAssigned = true;
    }

    boolean headingSeen() {
        return headingSeen;
    }

    boolean altitudeSeen() {
        return altitudeSeen;
    }

    boolean altitudeAssigned() {
        return altitudeAssigned;
    }

    boolean speedSeen() {
        return speedSeen;
    }

    double headingDeg() {
        return heading.largest();
    }

    double altitudeFt() {
        return altitude.largest();
    }

    double speedKt() {
        return speed.largest();
    }

    Span headingSpan() {
        return headingSpan;
    }

    Span altitudeSpan() {
        return altitudeSpan;
    }

    Span speedSpan() {
        return speedSpan;
    }

    Span courseSpan() {
        return courseSpan;
    }

    /** Largest part of its limit, and that limit. */
    double courseNm() {
        return courseNm;
    }

    double courseLimitNm() {
        return courseLimitNm;
    }

    /** Past the line, seen from where it was first met. */
    double farSideNm() {
        return farSideNm;
    }

    /** From the fix, or from the line after it until established there, beyond what a sound fly-by has anyway. */
    double pastFixNm(double lateralNm) {
        return Math.max(0, Math.max(lateralNm, afterFixNm) - flyByNm);
    }

    /** Past the line by more than this is a fault there: the set's limit, or three quarters of the scale if less. */
    double overshootLimitNm() {
        return Math.min(set.overshootNm(), 0.75 * closingScaleNm);
    }
}
