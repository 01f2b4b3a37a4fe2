package org.rejoin.console.best;

import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

/** A piece of a path that has a closed form. */
sealed interface Stretch {

    /** How long it takes, seconds, 0 or more. */
    double seconds();

    /** Where the aircraft is at a time since its start, seconds. */
    Position at(double s);

    /** Length over the ground as far as a time since its start, nautical miles. */
    double lengthNm(double s);

    /** The heading at a time since its start, true. */
    TrueDirection headingAt(double s);

    /** How fast the heading changes, degrees a second, right positive: what the bank is for. */
    default double rateDegPerS() {
        return 0;
    }

    /** The heading at its end, true. */
    default TrueDirection endHeading() {
        return headingAt(seconds());
    }

    /** Whether it needs many points to be drawn. */
    boolean curved();

    /** A heading held: over the ground the geodesic of its track. */
    record OnHeading(Position start, TrueDirection heading, GroundVector ground, double seconds) implements Stretch {
        @Override
        public boolean curved() {
            return false;
        }

        @Override
        public Position at(double s) {
            return start.destination(ground.track(), lengthNm(s));
        }

        @Override
        public double lengthNm(double s) {
            return ground.groundSpeedKt() * s / 3600;
        }

        /** True north turns under a straight way: along a geodesic the true heading changes as its course does. */
        @Override
        public TrueDirection headingAt(double s) {
            if (lengthNm(s) < 1e-6) {
                return heading;
            }
            Geodesics.Inverse way = start.to(at(s));
            return new TrueDirection(heading.deg() + way.initial().turnTo(way.onward()));
        }
    }

    /**
     * A turn at a steady rate: a circle through the air, which the wind carries along. Displacement is V/w (sin h2 - sin
     * h1) north and V/w (cos h1 - cos h2) east through the air, plus wind times time; a right turn has w positive.
     */
    record Turning(Position start, TrueDirection heading, double turnDeg, Air air) implements Stretch {
        @Override
        public boolean curved() {
            return true;
        }

        private static final double LENGTH_STEP_S = 0.5;

        @Override
        public double seconds() {
            return Math.abs(turnDeg) / air.rateDegPerS();
        }

        @Override
        public double rateDegPerS() {
            return Math.copySign(air.rateDegPerS(), turnDeg);
        }

        @Override
        public TrueDirection headingAt(double s) {
            return new TrueDirection(heading.deg() + rateDegPerS() * s);
        }

        @Override
        public TrueDirection endHeading() {
            return new TrueDirection(heading.deg() + turnDeg);
        }

        @Override
        public Position at(double s) {
            double rate = Math.toRadians(rateDegPerS());
            double from = Math.toRadians(heading.deg());
            double to = from + rate * s;
            double radius = air.trueAirspeedKt() / 3600 / rate;
            double windRad = Math.toRadians(air.wind().from().deg());
            double drift = -air.wind().speedKt() * s / 3600;
            double north = radius * (Math.sin(to) - Math.sin(from)) + drift * Math.cos(windRad);
            double east = radius * (Math.cos(from) - Math.cos(to)) + drift * Math.sin(windRad);
            double distance = Math.hypot(north, east);
            return distance < 1e-12
                    ? start
                    : start.destination(new TrueDirection(Math.toDegrees(Math.atan2(east, north))), distance);
        }

        @Override
        public double lengthNm(double s) {
            double length = 0;
            int steps = (int) Math.ceil(s / LENGTH_STEP_S);
            for (int i = 0; i < steps; i++) {
                length += air.on(headingAt(s * (i + 0.5) / steps)).groundSpeedKt() * s / steps / 3600;
            }
            return length;
        }
    }

    /** A course made good along a line. */
    record OnCourse(GeodesicLine line, double fromNm, GroundVector.HeadingForCourse heading, double seconds)
            implements Stretch {
        @Override
        public boolean curved() {
            return false;
        }

        @Override
        public Position at(double s) {
            return line.pointAt(alongNm(s));
        }

        double alongNm(double s) {
            return fromNm + lengthNm(s);
        }

        @Override
        public double lengthNm(double s) {
            return heading.groundSpeedKt() * s / 3600;
        }

        @Override
        public TrueDirection headingAt(double s) {
            return heading.heading();
        }
    }

    /**
     * An arc made good. The wind comes from another side all the way round, and so the speed changes; it is summed up in
     * small steps.
     *
     * @param arc over the ground
     * @param fromNm along it
     * @param air for the wind
     * @param seconds how long
     */
    record OnArc(GeodesicArc arc, double fromNm, Air air, double seconds) implements Stretch {
        @Override
        public boolean curved() {
            return true;
        }

        private static final double STEP_S = 1;

        @Override
        public Position at(double s) {
            return arc.pointAt(fromNm + lengthNm(s));
        }

        @Override
        public double lengthNm(double s) {
            double length = 0;
            for (double done = 0; done < s; done += STEP_S) {
                double step = Math.min(STEP_S, s - done);
                double half = groundSpeedKt(fromNm + length) * step / 2 / 3600;
                length += groundSpeedKt(fromNm + length + half) * step / 3600;
            }
            return length;
        }

        /** Time to a place of the arc, seconds; not a number where the wind does not let it be flown. */
        double secondsTo(double alongNm) {
            double s = 0;
            double at = fromNm;
            double step = Math.max(1e-6, (alongNm - fromNm) / Math.ceil(Math.max(1, (alongNm - fromNm) / 0.05)));
            for (; at < alongNm - 1e-9; at += step) {
                s += step / groundSpeedKt(at + step / 2) * 3600;
            }
            return s;
        }

        private double groundSpeedKt(double alongNm) {
            return air.along(arc.courseAt(alongNm))
                    .map(GroundVector.HeadingForCourse::groundSpeedKt)
                    .orElse(Double.NaN);
        }

        @Override
        public TrueDirection headingAt(double s) {
            TrueDirection course = arc.courseAt(fromNm + lengthNm(s));
            return air.along(course).map(GroundVector.HeadingForCourse::heading).orElse(course);
        }
    }
}
