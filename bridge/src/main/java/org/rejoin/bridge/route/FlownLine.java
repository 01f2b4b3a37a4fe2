package org.rejoin.bridge.route;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/** A line that a station defines, on its way through a clearance: a radial, a bearing, an arc. */
sealed interface FlownLine {

    /** Its name as it is said. */
    String name();

    /** Where it is left, as said. */
    Optional<Instruction.Until> until();

    /** The course to set for it; empty for an arc, which has none. */
    Optional<Course> course();

    /** Along a whole geodesic from its start, ascending. */
    List<Double> crossings(GeodesicLine line);

    /** Whether it begins at a point: a radial at its station. */
    boolean beginsAt(Waypoint point);

    /** Distance from it, 0 or more. */
    double crossTrackNm(Position point);

    /** The point of it nearest to another. */
    Position nearest(Position point);

    /** Its course abeam a point, as said; outbound, or clockwise, where nothing is said. */
    TrueDirection courseAbeam(Position point);

    /** The course along it that is turned to from a track: as said, else the one that takes the smaller turn. */
    TrueDirection courseToward(Position point, TrueDirection track);

    /** How a track meets it, for the working. */
    String crossed();

    /** The name of a point of it: station, radial, distance. */
    String ident(Position point);

    /** Left at a fix. */
    LineEnd atFix(Waypoint fix) throws ClearanceException;

    /** Left at a distance from a station; empty where it does not come to that. */
    List<LineEnd> atDistance(Instruction.Until.AtDistance at) throws ClearanceException;

    /** Left where it meets the next line; empty where it does not. */
    List<LineEnd> atLine(FlownLine line) throws ClearanceException;

    /** Left onto a piece of the airway or of the filed route; the distances of the crossings along it. */
    List<Double> crossingsOf(AirwayPath.Step step);

    /** What is done with a line of one kind. */
    interface Case<L extends FlownLine, R> {
        /** Does it. */
        R of(L line) throws ClearanceException;
    }

    /** Meets it as what it is, so that no kind is forgotten. */
    <R> R meet(Case<OnRadial, R> onRadial, Case<OnArc, R> onArc) throws ClearanceException;

    /**
     * Where the flight is when a line has been flown.
     *
     * @param onAirway whether the airway is joined there, and so all of the route is known
     */
    record Flown(Position position, TrueDirection track, boolean onAirway) {}

    /** Works something out of the words, or refuses them. */
    interface Working<T> {
        T out() throws ClearanceException;
    }

    /** The line of an instruction. */
    static FlownLine of(Instruction.StationLine said, Chart chart, AmendmentDraft draft) throws ClearanceException {
        return said.<Working<FlownLine>>line(
                        radial -> () -> of(radial, chart, draft),
                        bearing -> () -> of(bearing, draft),
                        arc -> () -> of(arc, draft))
                .out();
    }

    /** The radial at which another line is left; which way it is flown is not said. */
    static OnRadial of(Instruction.Until.AtRadial at, Chart chart, AmendmentDraft draft) throws ClearanceException {
        return of(new Instruction.InterceptRadial(at.station(), at.radial(), Instruction.Sense.UNSAID), chart, draft);
    }

    /** An arc. */
    static OnArc of(Instruction.InterceptArc said, AmendmentDraft draft) throws ClearanceException {
        if (!said.station().kind().hasDistance()) {
            throw ClearanceException.cannotBeWorkedOut(said.station().ident() + " is of kind "
                    + said.station().kind() + " and gives no distance; an arc needs a DME");
        }
        return new OnArc(said, draft.situation);
    }

    /** A radial. */
    static OnRadial of(Instruction.InterceptRadial said, Chart chart, AmendmentDraft draft) throws ClearanceException {
        TrueDirection azimuth = said.radial()
                .toTrue(said.station()
                        .declination()
                        .orElseThrow(() -> ClearanceException.cannotBeWorkedOut(
                                said.station().ident() + " has no station declination on chart " + chart.name()
                                        + ", so its radials have no direction")));
        return of(said, said.radial(), azimuth);
    }

    /** A bearing. */
    static OnRadial of(Instruction.InterceptBearing said, AmendmentDraft draft) {
        TrueDirection azimuth = said.bearing().toTrue(draft.situation.variationAt(said.station()));
        return of(said, new Radial(said.bearing().deg()), azimuth);
    }

    private static OnRadial of(Instruction.StationLine said, Radial radial, TrueDirection azimuth) {
        return new OnRadial(
                said.station(),
                radial,
                said.sense(),
                said.until(),
                GeodesicLine.from(said.station().position(), azimuth, RadialAmendment.RADIAL_REACH_NM));
    }

    /** A radial, or a bearing of an NDB. */
    record OnRadial(
            Station station,
            Radial radial,
            Instruction.Sense sense,
            Optional<Instruction.Until> until,
            GeodesicLine outbound)
            implements FlownLine {

        /** Nearer to the station than this a radial has no direction yet, nautical miles. */
        private static final double LEAST_NM = 0.01;

        @Override
        public <R> R meet(Case<OnRadial, R> onRadial, Case<OnArc, R> onArc) throws ClearanceException {
            return onRadial.of(this);
        }

        @Override
        public String name() {
            return Course.name(station, radial);
        }

        @Override
        public Optional<Course> course() {
            Course.Direction direction =
                    sense == Instruction.Sense.INBOUND ? Course.Direction.TO : Course.Direction.FROM;
            return Optional.of(new Course(station, radial, direction, outbound));
        }

        @Override
        public List<Double> crossings(GeodesicLine line) {
            return line
                    .crossing(outbound)
                    .filter(crossing -> crossing.alongSecondNm() > 0.01
                            && crossing.alongSecondNm() <= RadialAmendment.RADIAL_REACH_NM)
                    .map(Crossing::alongFirstNm)
                    .stream()
                    .toList();
        }

        @Override
        public boolean beginsAt(Waypoint point) {
            return point.equals(station);
        }

        @Override
        public double crossTrackNm(Position point) {
            return outbound.offset(point).alongTrackNm() < 0
                    ? outbound.start().distanceNm(point)
                    : Math.abs(outbound.offset(point).crossTrackNm());
        }

        @Override
        public Position nearest(Position point) {
            return outbound.pointAt(Math.max(0.1, outbound.offset(point).alongTrackNm()));
        }

        @Override
        public TrueDirection courseAbeam(Position point) {
            TrueDirection course = outbound.offset(point).course();
            return sense == Instruction.Sense.INBOUND ? course.reciprocal() : course;
        }

        @Override
        public TrueDirection courseToward(Position point, TrueDirection track) {
            TrueDirection course = courseAbeam(point);
            boolean back = sense == Instruction.Sense.UNSAID && Math.abs(track.turnTo(course)) > 90;
            return back ? course.reciprocal() : course;
        }

        @Override
        public String crossed() {
            return "crossing of two geodesics on WGS 84";
        }

        @Override
        public String ident(Position point) {
            return new RadialDistance(station, radial, RadialDistance.milesFrom(station, point)).ident();
        }

        @Override
        public LineEnd atFix(Waypoint fix) throws ClearanceException {
            Offset offset = outbound.offset(fix.position());
            if (Math.abs(offset.crossTrackNm()) > LineEnd.ON_LINE_NM) {
                throw AmendmentDraft.refused(
                        "%s lies %.1f NM off the %s", fix.ident(), Math.abs(offset.crossTrackNm()), name());
            }
            return new LineEnd(outbound.pointAt(offset.alongTrackNm()), Optional.empty(), 0, Optional.of(fix));
        }

        @Override
        public List<LineEnd> atDistance(Instruction.Until.AtDistance at) {
            return ahead(outbound.crossingsOfCircle(at.station().distancePosition(), at.distanceNm()).stream());
        }

        @Override
        public List<LineEnd> atLine(FlownLine line) throws ClearanceException {
            // "The AAA 300 radial inbound, then the AAA 120 radial outbound" leads over AAA.
            boolean overIt = sense != Instruction.Sense.OUTBOUND
                    && line instanceof OnRadial next
                    && next.station().equals(station)
                    && next.sense() != Instruction.Sense.INBOUND;
            if (overIt) {
                return List.of(new LineEnd(station.position(), Optional.empty(), 0, Optional.of(station)));
            }
            return ahead(line.crossings(outbound).stream().filter(each -> each < RadialAmendment.RADIAL_REACH_NM));
        }

        private List<LineEnd> ahead(Stream<Double> alongNm) {
            return alongNm.filter(each -> each > LEAST_NM)
                    .map(each -> LineEnd.at(outbound.pointAt(each)))
                    .toList();
        }

        @Override
        public List<Double> crossingsOf(AirwayPath.Step step) {
            return outbound.crossing(step.line()).stream()
                    .filter(crossing -> crossing.alongFirstNm() > LEAST_NM)
                    .map(Crossing::alongSecondNm)
                    .toList();
        }
    }

    /**
     * An arc.
     *
     * @param situation for the variation where the station has no radials
     */
    record OnArc(Instruction.InterceptArc said, Situation situation) implements FlownLine {

        @Override
        public <R> R meet(Case<OnRadial, R> onRadial, Case<OnArc, R> onArc) throws ClearanceException {
            return onArc.of(this);
        }

        Station station() {
            return said.station();
        }

        double radiusNm() {
            return said.distanceNm();
        }

        /** The radial of a point, in the station's reference. */
        Radial radialAt(Position point) {
            return RadialDistance.of(station(), point, situation).radial();
        }

        @Override
        public String name() {
            return String.format(Locale.ROOT, "%s %.0f mile arc", station().ident(), said.distanceNm());
        }

        @Override
        public Optional<Instruction.Until> until() {
            return said.until();
        }

        @Override
        public Optional<Course> course() {
            return Optional.empty();
        }

        @Override
        public List<Double> crossings(GeodesicLine line) {
            return line.crossingsOfCircle(station().distancePosition(), radiusNm());
        }

        @Override
        public boolean beginsAt(Waypoint point) {
            return false;
        }

        @Override
        public double crossTrackNm(Position point) {
            return Math.abs(station().distancePosition().distanceNm(point) - radiusNm());
        }

        @Override
        public Position nearest(Position point) {
            return station()
                    .distancePosition()
                    .destination(station().distancePosition().to(point).initial(), radiusNm());
        }

        @Override
        public TrueDirection courseAbeam(Position point) {
            TrueDirection out = station().distancePosition().to(point).onward();
            return new TrueDirection(
                    out.deg() + (said.direction() == Instruction.ArcDirection.COUNTERCLOCKWISE ? -90 : 90));
        }

        @Override
        public TrueDirection courseToward(Position point, TrueDirection track) {
            TrueDirection course = courseAbeam(point);
            if (said.direction() != Instruction.ArcDirection.UNSAID) {
                return course;
            }
            double other = said.bound()
                    .map(bound -> Compass.degrees(bound)
                            + situation.variationAt(station()).eastDeg())
                    .orElse(track.deg());
            return Math.abs(Angles.turn(course.deg() - other)) > 90 ? course.reciprocal() : course;
        }

        @Override
        public String crossed() {
            return "crossing of a geodesic with a geodesic circle on WGS 84";
        }

        @Override
        public String ident(Position point) {
            return new RadialDistance(station(), radialAt(point), said.distanceNm()).ident();
        }

        @Override
        public LineEnd atFix(Waypoint fix) throws ClearanceException {
            if (crossTrackNm(fix.position()) > LineEnd.ON_LINE_NM) {
                throw AmendmentDraft.refused(
                        "%s is %.1f NM from %s and so not on the %s",
                        fix.ident(),
                        fix.position().distanceNm(station().distancePosition()),
                        station().ident(),
                        name());
            }
            return new LineEnd(nearest(fix.position()), Optional.empty(), 0, Optional.of(fix));
        }

        @Override
        public List<LineEnd> atDistance(Instruction.Until.AtDistance at) throws ClearanceException {
            throw ClearanceException.cannotBeWorkedOut(
                    "an arc is left at a radial, an airway or a fix, not at a distance");
        }

        @Override
        public List<LineEnd> atLine(FlownLine line) throws ClearanceException {
            return line.meet(this::onRadial, other -> {
                throw ClearanceException.cannotBeWorkedOut("the " + name()
                        + " is not left onto another arc: say" + " the radial where it is left, and the "
                        + other.name() + " as a clearance of its own");
            });
        }

        private List<LineEnd> onRadial(FlownLine.OnRadial radial) {
            boolean aroundItsStart = radial.station().equals(station())
                    && radial.station().dmePosition().isEmpty();
            return aroundItsStart
                    ? List.of(LineEnd.at(radial.station()
                            .distancePosition()
                            .destination(radial.outbound().initialCourse(), radiusNm())))
                    : crossings(radial.outbound()).stream()
                            .filter(along -> along > 0 && along < RadialAmendment.RADIAL_REACH_NM)
                            .map(along -> LineEnd.at(radial.outbound().pointAt(along)))
                            .toList();
        }

        @Override
        public List<Double> crossingsOf(AirwayPath.Step step) {
            return crossings(step.line());
        }
    }
}
