package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * Shapes B and C: a radial (or an NDB bearing) to intercept, that leads to an airway. A station on the airway is flown
 * TO; a station off it FROM, to the computed fix where the radial crosses the airway. Explicit words win.
 */
final class RadialAmendment {

    /** How far out a radial is followed, nautical miles; twice the largest service volume. */
    static final double RADIAL_REACH_NM = 300;

    /** A published fix so near a crossing is the crossing, nautical miles: no needle tells them apart (common practice, no source). */
    private static final double SAME_FIX_NM = 0.1;

    /** An intercept leaves at least this much of the course, nautical miles (common practice, no source). */
    private static final double ROOM_NM = 1;

    private final Chart chart;
    private final AmendmentDraft draft;
    private final AirwayPath path;
    private final RadialCrossings radials;

    RadialAmendment(Chart chart, AmendmentDraft draft, AirwayPath path) {
        this.chart = chart;
        this.draft = draft;
        this.path = path;
        this.radials = new RadialCrossings(draft, path);
    }

    void radial(Instruction.InterceptRadial said) throws ClearanceException {
        FlownLine.OnRadial line = FlownLine.of(said, chart, draft);
        draft.step(
                "radial from true north",
                "true azimuth at the station = radial + station declination",
                "%s radial %05.1f %s = %06.2f true",
                said.station().ident(),
                said.radial().deg(),
                Angles.signed(said.station().declination().orElseThrow().eastDeg(), 2),
                line.outbound().initialCourse().deg());
        work(line);
    }

    void bearing(Instruction.InterceptBearing said) throws ClearanceException {
        FlownLine.OnRadial line = FlownLine.of(said, draft);
        draft.step(
                "bearing from true north",
                "true = magnetic + today's variation at the station (an NDB has no alignment of its own)",
                "%05.1f from %s %s = %08.4f true",
                said.bearing().deg(),
                said.station().ident(),
                Angles.signed(draft.situation.variationAt(said.station()).eastDeg(), 4),
                line.outbound().initialCourse().deg());
        work(line);
    }

    private void work(FlownLine.OnRadial line) throws ClearanceException {
        Station station = line.station();
        Radial radial = line.radial();
        GeodesicLine outbound = line.outbound();
        Instruction.Sense sense = line.sense();
        Optional<RadialOfAirway> same = RadialOfAirway.of(chart, path, line);
        if (same.isPresent() && (same.get().isMet(chart, draft) || !radialGoesOn(same.get(), outbound))) {
            same.get().work(chart, draft, radial, outbound);
            return;
        }
        int onPath = path.indexOf(station);
        boolean out =
                same.filter(each -> each.direction() == Course.Direction.FROM).isPresent();
        boolean inbound =
                sense == Instruction.Sense.INBOUND || (sense == Instruction.Sense.UNSAID && onPath >= 0 && !out);
        boolean nothingAfter = draft.clearance
                .first(Instruction.StationLine.class)
                .filter(said -> RouteEnd.saysNothingAfter(said, draft.clearance.instructions()))
                .isPresent();
        if (inbound && (onPath >= 0 || nothingAfter)) {
            if (sense == Instruction.Sense.UNSAID && same.isEmpty()) {
                radials.of(outbound).stream()
                        .filter(found -> found.crossing().alongFirstNm() > 1)
                        .findFirst()
                        .ifPresent(found -> draft.choice(
                                "%s is on the route, so its %s %s is flown inbound, TO the station; outbound it would meet"
                                        + " %s %.1f NM out. Say \"outbound\" if that was meant",
                                station.ident(),
                                Angles.figures(radial.deg()),
                                station.kind() == Station.Kind.NDB ? "bearing" : "radial",
                                AirwayPath.name(found.step().segment()),
                                found.crossing().alongFirstNm()));
            }
            toStation(station, radial, outbound, onPath);
            boolean back = draft.intercept.filter(met -> met.angleDeg() > 90).isPresent();
            boolean warned = draft.warnings.stream().anyMatch(each -> each.code() == Warning.Code.CHOICE_MADE);
            if (nothingAfter && sense == Instruction.Sense.UNSAID && same.isEmpty() && back && !warned) {
                draft.choice(
                        "which way along the %s is not said; taken is inbound, TO %s, which leads back: ask",
                        line.name(), station.ident());
            }
            same.ifPresent(each -> each.noteMetBefore(draft, radial));
        } else if (nothingAfter && !meetsPathBeyond(0, outbound)) {
            untilMore(new Course(station, radial, Course.Direction.FROM, outbound));
        } else {
            toCrossing(station, radial, outbound, inbound ? Course.Direction.TO : Course.Direction.FROM);
        }
    }

    /** Whether a radial flown outbound comes to the airway beyond where it is met; where it is not met, beyond so many miles. */
    private boolean meetsPathBeyond(double unmetNm, GeodesicLine outbound) {
        double met = draft.heading
                .flatMap(plan -> Intercepts.ahead(plan, outbound))
                .map(Crossing::alongSecondNm)
                .orElse(unmetNm);
        return radials.of(outbound).stream().anyMatch(found -> found.crossing().alongFirstNm() > met);
    }

    /** A vector onto a radial that leads to nothing filed (FAA Order JO 7110.65, 5-6-2): outbound until ATC says more. */
    private void untilMore(Course course) throws ClearanceException {
        draft.course = Optional.of(course);
        draft.step(
                "course to set",
                "FROM the station: the radial",
                "%s %s %s",
                Angles.figures(course.courseToSet().deg()),
                course.direction(),
                course.station().ident());
        meet(course.outbound(), RADIAL_REACH_NM);
        draft.courseLeg = draft.legs.size();
        draft.legs.add(new Leg.CourseFrom(course.station(), course.radial(), course.outbound()));
        RouteChecks.used(
                draft,
                course.station(),
                draft.intercept
                        .map(Intercept::alongCourseNm)
                        .orElseGet(() -> course.outbound()
                                .offset(draft.situation.position())
                                .alongTrackNm()));
        draft.warn(
                Warning.Code.ROUTE_ENDS_SHORT,
                "the clearance does not say how the route goes on from the %s: ask how far it is flown",
                course.name());
    }

    /**
     * Whether a radial that is not met where it is the airway is flown as a radial: to its station, and from it to where it
     * crosses the airway beyond.
     */
    private boolean radialGoesOn(RadialOfAirway same, GeodesicLine outbound) {
        return same.direction() == Course.Direction.TO
                ? path.indexOf(same.station()) >= 0
                : meetsPathBeyond(RADIAL_REACH_NM, outbound);
    }

    /** Shape B: inbound to a station on the route, or to one where the clearance ends. */
    private void toStation(Station station, Radial radial, GeodesicLine outbound, int onPath)
            throws ClearanceException {
        draft.course = Optional.of(new Course(station, radial, Course.Direction.TO, outbound));
        draft.step(
                "course to set",
                "TO the station: radial + 180",
                "%s + 180 = %s TO %s",
                Angles.figures(radial.deg()),
                Angles.figures(radial.reciprocal().deg()),
                station.ident());
        GeodesicLine inboundLine = outbound.reversed();
        meet(inboundLine, RADIAL_REACH_NM);
        double out = draft.intercept
                .map(met -> RADIAL_REACH_NM - met.alongCourseNm())
                .orElseGet(() ->
                        Math.max(1, outbound.offset(draft.situation.position()).alongTrackNm()));
        draft.courseLeg = draft.legs.size();
        draft.legs.add(new Leg.CourseToFix(
                station,
                radial.reciprocal(),
                GeodesicLine.between(outbound.pointAt(Math.max(out, 0.05)), station.position()),
                station));
        if (onPath >= 0) {
            draft.append(path.legsFromPoint(onPath), path);
        }
        RouteChecks.used(draft, station, out);
        draft.intercept.ifPresent(met -> {
            draft.step(
                    "to go on the course",
                    "distance along the geodesic from the intercept to the station",
                    "%.4f NM to %s",
                    out,
                    station.ident());
            Intercepts.roomBefore(draft, met, draft.courseLeg, out);
        });
    }

    /** Shape C: along a radial to where it crosses the airway. */
    private void toCrossing(Station station, Radial radial, GeodesicLine outbound, Course.Direction direction)
            throws ClearanceException {
        Course line = new Course(station, radial, direction, outbound);
        List<RadialCrossings.Found> found = radials.of(outbound);
        if (found.isEmpty()) {
            throw new ClearanceException(ClearanceException.Code.RADIAL_DOES_NOT_CROSS_AIRWAY, radials.whyNone(line));
        }
        draft.course = Optional.of(line);
        GeodesicLine flown = direction == Course.Direction.FROM ? outbound : outbound.reversed();
        RadialCrossings.Found fix = radials.choose(found, line);
        double out = fix.crossing().alongFirstNm();
        Radial course = draft.course.get().courseToSet();
        draft.step(
                "course to set",
                direction == Course.Direction.FROM ? "FROM the station: the radial" : "TO the station: radial + 180",
                "%s %s %s",
                Angles.figures(course.deg()),
                direction,
                station.ident());
        ComputedFix computed = computedFix(station, radial, fix, direction);
        Optional<Waypoint> published = published(fix);
        draft.computedFix = published.isPresent() ? Optional.empty() : Optional.of(computed);
        Waypoint at = published.orElse(computed.fix());
        published.ifPresent(point -> draft.note(
                "the %s crosses %s %.2f NM from %s, which is published there: that is the fix, and none is to be made",
                line.name(),
                AirwayPath.name(fix.step().segment()),
                point.position().distanceNm(computed.fix().position()),
                point.ident()));
        describe(computed, fix.crossing(), fix.step().line());
        double fixAlong = direction == Course.Direction.FROM ? out : RADIAL_REACH_NM - out;
        meet(flown, fixAlong);
        double joined = draft.intercept
                .map(Intercept::alongCourseNm)
                .orElseGet(() ->
                        Math.max(0, flown.offset(draft.situation.position()).alongTrackNm()));
        draft.courseLeg = draft.legs.size();
        if (direction == Course.Direction.FROM) {
            draft.legs.add(new Leg.FixOutbound(
                    station,
                    at,
                    course,
                    GeodesicLine.from(outbound.start(), outbound.initialCourse(), Math.max(out, 0.05)),
                    Math.min(joined, out)));
        } else {
            double begin = Math.max(RADIAL_REACH_NM - joined, out + 0.05);
            draft.legs.add(new Leg.CourseToFix(
                    at, course, GeodesicLine.between(outbound.pointAt(begin), at.position()), station));
        }
        // The point where two legs join is left along the later of them.
        int next = path.indexOf(at);
        draft.append(
                next >= 0
                        ? path.legsFromPoint(next)
                        : path.legsFrom(path.steps().indexOf(fix.step()), at, 0),
                path);
        RouteChecks.used(
                draft, station, Math.max(out, direction == Course.Direction.FROM ? joined : RADIAL_REACH_NM - joined));
        draft.intercept.ifPresent(met -> RouteChecks.roomAtFix(draft, met, fixAlong - met.alongCourseNm(), computed));
    }

    /**
     * The heading leg, and where it meets the course; proposes a heading when none is known.
     *
     * @param flown the course in the direction flown
     * @param to where on it the course is left, nautical miles from its start
     */
    private void meet(GeodesicLine flown, double to) throws ClearanceException {
        if (draft.heading.isEmpty()) {
            draft.heading = propose(flown, to);
            draft.describeHeading();
        }
        HeadingPlan plan = draft.heading.orElseThrow(() -> ClearanceException.cannotBeWorkedOut(
                "no heading from here meets the radial at a sensible angle in this wind"));
        Optional<Crossing> ahead = Intercepts.ahead(plan, flown);
        draft.intercept = ahead.map(met -> Intercepts.of(plan, met, Optional.empty()));
        draft.legs.add(Intercepts.headingLeg(plan, draft.intercept));
        Course course = draft.course.orElseThrow();
        String radialName = course.name();
        if (draft.intercept.isPresent()) {
            Intercepts.describe(draft, "the " + radialName, flown);
            double past = draft.intercept.get().alongCourseNm() - to;
            if (past > 0) {
                draft.warn(
                        Warning.Code.CROSSING_BEHIND,
                        "heading %s meets the %s %.1f NM past the computed fix: the fix lies behind",
                        Angles.figures(plan.magnetic().deg()),
                        radialName,
                        past);
            }
            return;
        }
        Offset offset = flown.offset(draft.situation.position());
        double along = offset.alongTrackNm();
        draft.headingsThatMeet = HeadingRange.thatMeet(
                draft.situation,
                other -> Intercepts.ahead(other, flown).filter(met -> met.alongSecondNm() < to - ROOM_NM));
        draft.warn(
                Warning.Code.HEADING_DOES_NOT_REACH_COURSE,
                "heading %s makes good track %s true, which does not meet the %s; it is %.1f NM away and its course is %s"
                        + " true here; %s",
                Angles.figures(plan.magnetic().deg()),
                Angles.figures(plan.ground().track().deg()),
                radialName,
                Math.abs(offset.crossTrackNm()),
                Angles.figures(offset.course().deg()),
                HeadingRange.advice(draft.headingsThatMeet));
        RouteChecks.past(
                draft,
                course,
                along - to,
                draft.computedFix
                        .map(fix -> "the computed fix")
                        .orElseGet(() -> course.station().ident()));
    }

    private Optional<HeadingPlan> propose(GeodesicLine flown, double to) {
        GeodesicLine outbound = draft.course.orElseThrow().outbound();
        double bearing =
                outbound.start().to(draft.situation.position()).initial().deg();
        double off = outbound.initialCourse().turnTo(new TrueDirection(bearing));
        double wanted = Math.abs(off) > 90 ? 45 : HeadingPlan.doubleTheAngle(off);
        return ProposedHeading.at(
                        wanted,
                        draft.situation,
                        plan -> Intercepts.ahead(plan, flown)
                                .filter(met -> met.alongSecondNm() > 0 && met.alongSecondNm() < to - ROOM_NM))
                .or(() -> HeadingPlan.toward(flown, wanted, draft.situation));
    }

    /** The point of the airway that is published where the radial crosses it. */
    private static Optional<Waypoint> published(RadialCrossings.Found found) {
        FiledRoute.Segment segment = found.step().segment();
        return Stream.of(segment.to(), segment.from())
                .filter(point -> point.position().distanceNm(found.crossing().position()) <= SAME_FIX_NM)
                .findFirst();
    }

    private ComputedFix computedFix(
            Station station, Radial radial, RadialCrossings.Found found, Course.Direction direction) {
        Crossing crossing = found.crossing();
        TrueDirection inbound = direction == Course.Direction.FROM
                ? crossing.firstCourse()
                : crossing.firstCourse().reciprocal();
        RadialDistance name =
                new RadialDistance(station, radial, RadialDistance.milesFrom(station, crossing.position()));
        return new ComputedFix(
                new Fix(name.ident(), crossing.position()),
                found.step().segment(),
                crossing.alongSecondNm(),
                crossing.acuteAngleDeg(),
                inbound,
                crossing.secondCourse(),
                FixDefinitions.of(chart, station, radial, false, crossing, draft.altitudeFt()));
    }

    /** How the computed fix was worked out, step by step. */
    private void describe(ComputedFix computed, Crossing crossing, GeodesicLine line) {
        Course course = draft.course.orElseThrow();
        GeodesicLine outbound = course.outbound();
        Position at = computed.fix().position();
        draft.step(
                "computed fix",
                "crossing of the radial with " + AirwayPath.name(computed.segment()) + ", geodesics on WGS 84",
                "from %.6f, %.6f on %08.4f true, with the line from %.6f, %.6f on %08.4f true: %.6f, %.6f",
                outbound.start().latitudeDeg(),
                outbound.start().longitudeDeg(),
                outbound.initialCourse().deg(),
                line.start().latitudeDeg(),
                line.start().longitudeDeg(),
                line.initialCourse().deg(),
                at.latitudeDeg(),
                at.longitudeDeg());
        draft.step(
                "where on both lines",
                "distances along the geodesics",
                "%.4f NM from %s; %.4f NM from %s, %.4f NM to %s",
                crossing.alongFirstNm(),
                course.station().ident(),
                crossing.alongSecondNm(),
                computed.segment().from().ident(),
                line.lengthNm() - crossing.alongSecondNm(),
                computed.segment().to().ident());
        for (ComputedFix.Definition each :
                computed.definitions().subList(1, computed.definitions().size())) {
            double declination = each.station().declination().orElseThrow().eastDeg();
            draft.step(
                    "the fix from " + each.station().ident(),
                    "radial = true azimuth at the station - station declination",
                    "%08.4f %s = %08.4f, %.4f NM",
                    each.station().position().to(at).initial().deg(),
                    Angles.signed(-declination, 2),
                    each.radial().deg(),
                    each.distanceNm());
        }
        double turn = Math.min(Math.abs(computed.turnDeg()), 179);
        draft.step(
                "turn at the fix",
                "airway course - course " + course.direction()
                        + " the station, both at the fix; lead = GS / (60 pi) tan(turn / 2),"
                        + " GS on the radial in the wind",
                "%08.4f - %08.4f = %s degrees; %.4f / (60 pi) x tan(%.4f / 2) = %.4f NM",
                computed.airwayCourse().deg(),
                computed.inboundCourse().deg(),
                Angles.signed(computed.turnDeg(), 4),
                computed.groundSpeedKt(draft.situation),
                turn,
                computed.leadNm(draft.situation));
    }
}
