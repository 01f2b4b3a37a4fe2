package org.rejoin.bridge.route;

import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/** One leg of the amended route, named by its ARINC 424 path terminator (ARINC 424-18, chapter 5.21). */
public sealed interface Leg {

    /** What each kind of leg means to a reader of routes; a new kind is a new function here. */
    record Cases<R>(
            Function<HeadingToIntercept, R> headingToIntercept,
            Function<HeadingOnly, R> headingOnly,
            Function<CourseToFix, R> courseToFix,
            Function<FixOutbound, R> fixOutbound,
            Function<TrackToFix, R> trackToFix,
            Function<DirectToFix, R> directToFix,
            Function<DmeArc, R> dmeArc,
            Function<CourseFrom, R> courseFrom,
            Function<HoldAtFix, R> holdAtFix) {}

    /** Reads it as what it is. */
    <R> R fold(Cases<R> cases);

    /** {@return the ARINC 424 path terminator, two letters} */
    default String pathTerminator() {
        return fold(new Cases<>(
                toIntercept -> "VI",
                headingOnly -> "VM",
                toFix -> "CF",
                outbound -> "FC",
                track -> "TF",
                direct -> "DF",
                arc -> "AF",
                course -> "FM",
                hold -> hold.holding().once() ? "HF" : "HM"));
    }

    /** {@return the straight line flown over the ground; empty for a heading that meets nothing, an arc, and a hold} */
    default Optional<GeodesicLine> line() {
        return Optional.empty();
    }

    /**
     * {@return the line over the ground that the leg is flown on, straight or an arc; empty for a heading that meets
     * nothing, and a hold}
     */
    default Optional<GroundPath> groundPath() {
        return line().map(line -> line);
    }

    /** {@return the fix the leg is defined from; empty where it starts at the aircraft} */
    default Optional<Waypoint> from() {
        return Optional.empty();
    }

    /** {@return the fix the leg ends at; empty where it ends at the next leg, or not at all} */
    default Optional<Waypoint> endsAt() {
        return Optional.empty();
    }

    /** Whether it is defined from a fix. */
    default boolean beginsAt(Waypoint fix) {
        return from().filter(fix::equals).isPresent();
    }

    /** Whether it ends at a fix. */
    default boolean endsAt(Waypoint fix) {
        return endsAt().filter(fix::equals).isPresent();
    }

    /** {@return the airway the leg is part of; empty off airways} */
    default Optional<String> airway() {
        return Optional.empty();
    }

    /** Whether it is part of an airway. */
    default boolean isOn(String ident) {
        return airway().filter(ident::equals).isPresent();
    }

    /**
     * {@return how far along {@link #line()} flying begins, nautical miles, 0 or more; more where the leg is joined part-way}
     */
    default double joinedAtNm() {
        return 0;
    }

    /** A leg along a geodesic. */
    sealed interface Straight extends Leg {

        /** {@return the line over the ground} */
        GeodesicLine path();

        @Override
        default Optional<GeodesicLine> line() {
            return Optional.of(path());
        }
    }

    /** A leg that ends at a fix. */
    sealed interface ToFix extends Leg {

        /** {@return where it ends} */
        Waypoint to();

        @Override
        default Optional<Waypoint> endsAt() {
            return Optional.of(to());
        }
    }

    /**
     * VI: fly a heading, by today's variation, until it meets the next leg. The line is the predicted track.
     *
     * @param line predicted, to the meeting; empty if it meets nothing
     */
    record HeadingToIntercept(MagneticDirection heading, TrueDirection headingTrue, Optional<GeodesicLine> line)
            implements Leg {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.headingToIntercept().apply(this);
        }
    }

    /**
     * VM: fly a heading until told otherwise.
     *
     * @param after the fix that is left on it; empty where it is flown from here
     */
    record HeadingOnly(MagneticDirection heading, TrueDirection headingTrue, Optional<Waypoint> after) implements Leg {

        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.headingOnly().apply(this);
        }

        @Override
        public Optional<Waypoint> from() {
            return after;
        }
    }

    /** CF: a course to a fix; the fix is the station, or a computed fix on the radial flown inbound. */
    record CourseToFix(Waypoint to, Radial course, GeodesicLine path, Station station) implements Straight, ToFix {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.courseToFix().apply(this);
        }
    }

    /**
     * FC: a course outbound from a fix for a distance; the fix is the station, the distance ends at the computed fix.
     *
     * @param path along the radial from the station to the end
     * @param joinedAtNm from the station, where the radial is met
     */
    record FixOutbound(Waypoint station, Waypoint to, Radial course, GeodesicLine path, double joinedAtNm)
            implements Straight, ToFix {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.fixOutbound().apply(this);
        }

        @Override
        public Optional<Waypoint> from() {
            return Optional.of(station);
        }
    }

    /**
     * TF: the geodesic from one fix to the next, along an airway if one is named.
     *
     * @param joinedAtNm from the first fix, where the leg is met
     */
    record TrackToFix(Waypoint fromFix, Waypoint to, Optional<String> airway, GeodesicLine path, double joinedAtNm)
            implements Straight, ToFix {

        /** A whole segment of a route. */
        static TrackToFix along(FiledRoute.Segment segment) {
            return new TrackToFix(
                    segment.from(),
                    segment.to(),
                    segment.airway(),
                    GeodesicLine.between(segment.from().position(), segment.to().position()),
                    0);
        }

        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.trackToFix().apply(this);
        }

        @Override
        public Optional<Waypoint> from() {
            return Optional.of(fromFix);
        }
    }

    /**
     * DF: from present position direct to a fix.
     *
     * @param path from where the clearance was heard
     */
    record DirectToFix(Waypoint to, GeodesicLine path) implements Straight, ToFix {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.directToFix().apply(this);
        }
    }

    /** AF: an arc about a DME station, joined and left on radials of that station. */
    record DmeArc(Station station, double distanceNm, GeodesicArc path, Radial fromRadial, Radial toRadial, Waypoint to)
            implements ToFix {

        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.dmeArc().apply(this);
        }

        @Override
        public Optional<GroundPath> groundPath() {
            return Optional.of(path);
        }
    }

    /**
     * FM: a course outbound from a fix until told otherwise.
     *
     * @param path along it, as far as it is drawn
     */
    record CourseFrom(Waypoint fix, Radial course, GeodesicLine path) implements Straight {

        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.courseFrom().apply(this);
        }

        @Override
        public Optional<Waypoint> from() {
            return Optional.of(fix);
        }
    }

    /**
     * HM: a hold until told otherwise; HF: a hold that is left when its fix is passed inbound for the first time, which
     * turns a direct entry into one circuit and the others into a course reversal.
     */
    record HoldAtFix(Holding holding) implements Leg {

        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.holdAtFix().apply(this);
        }

        @Override
        public Optional<Waypoint> from() {
            return Optional.of(holding.fix());
        }
    }
}
