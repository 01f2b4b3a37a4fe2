package org.rejoin.bridge.route;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.HoldLine;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Variation;

/**
 * Works a hold out: on which line, how it is entered, and what is flown in the wind.
 *
 * @param fix where; the said one, or the computed fix that is meant by it
 * @param arrivalTrack over the ground on reaching it
 */
record HoldPlan(Chart chart, AmendmentDraft draft, Instruction.Hold said, Waypoint fix, TrueDirection arrivalTrack) {

    /** A published inbound course this near to an airway's is the airway's, degrees (no source). */
    private static final double SAME_COURSE_DEG = 3;

    /** A course said in whole degrees this near to the published one is that one, degrees (no source). */
    private static final double SAME_LINE_DEG = 1.5;

    /** Above this the inbound leg is a minute and a half (Aeronautical Information Manual 5-3-8), feet. */
    private static final double LONGER_ABOVE_FT = 14_000;

    /** The line, and which way it is flown inbound. */
    private record Inbound(String words, Radial course, TrueDirection trueCourse, Optional<PublishedHold> published) {}

    Holding work() throws ClearanceException {
        Inbound inbound = inbound();
        boolean right = said.turns() == Instruction.TurnDirection.SHORTEST
                ? inbound.published().map(PublishedHold::right).orElse(true)
                : said.turns() == Instruction.TurnDirection.RIGHT;
        OptionalDouble nm = said.legMinutes().isPresent() ? OptionalDouble.empty() : said.legNm();
        OptionalDouble minutes = said.legMinutes();
        if (said.asPublished()) {
            asPublished(inbound);
        }
        if (nm.isEmpty() && minutes.isEmpty() && inbound.published().isPresent()) {
            nm = inbound.published().get().legNm();
            minutes = nm.isPresent()
                    ? OptionalDouble.empty()
                    : inbound.published().get().legMinutes();
        }
        if (nm.isEmpty() && minutes.isEmpty()) {
            minutes = OptionalDouble.of(draft.altitudeFt().orElse(0) > LONGER_ABOVE_FT ? 1.5 : 1);
        }
        Variation variation = draft.situation.variationAt(fix.position());
        double toMagnetic = inbound.course().deg() - inbound.trueCourse().deg();
        TrueDirection arrivalHeading = draft.situation
                .headingFor(arrivalTrack)
                .map(GroundVector.HeadingForCourse::heading)
                .orElse(arrivalTrack);
        double off = inbound.trueCourse().turnTo(arrivalHeading);
        Holding.Entry entry = Holding.entry(off, right);
        Optional<GroundVector.HeadingForCourse> wind = draft.situation.headingFor(inbound.trueCourse());
        double correction =
                wind.map(GroundVector.HeadingForCourse::correctionDeg).orElse(0.0);
        double outboundTrue = inbound.trueCourse().deg() + 180 - 3 * correction;
        OptionalDouble outboundSeconds = wind.isEmpty()
                ? OptionalDouble.empty()
                : outboundSeconds(inbound.trueCourse(), right, wind.get(), minutes, nm);
        double speed = speedLimitKt(draft.altitudeFt());
        OptionalDouble published =
                inbound.published().map(PublishedHold::maximumSpeedKt).orElse(OptionalDouble.empty());
        // Headings are by the compass, the inbound course by its station: said in one reference they differ by
        // toMagnetic.
        MagneticDirection outbound = new TrueDirection(outboundTrue).toMagnetic(variation);
        Holding holding = new Holding(
                fix,
                inbound.words(),
                inbound.course(),
                inbound.trueCourse(),
                right,
                minutes,
                nm,
                entry,
                Holding.otherEntry(off, right),
                arrivalHeading.toMagnetic(variation),
                entryHeadings(
                        entry,
                        inbound.trueCourse().toMagnetic(variation),
                        wind.map(each -> each.heading().toMagnetic(variation)),
                        right,
                        outbound),
                wind.map(each -> each.heading().toMagnetic(variation)),
                outbound,
                correction,
                outboundSeconds,
                published.isPresent() ? Math.min(speed, published.getAsDouble()) : speed,
                inbound.published().isPresent(),
                said.expectFurtherClearance(),
                said.once());
        describe(holding, off, toMagnetic);
        return holding;
    }

    /** The last one leads inbound, and holds the course in the wind where it can. */
    private static List<MagneticDirection> entryHeadings(
            Holding.Entry entry,
            MagneticDirection course,
            Optional<MagneticDirection> inbound,
            boolean right,
            MagneticDirection outbound) {
        MagneticDirection in = inbound.orElse(course);
        return switch (entry) {
            case DIRECT -> List.of(outbound, in);
            case TEARDROP -> List.of(new MagneticDirection(course.deg() + 180 + (right ? -30 : 30)), in);
            case PARALLEL -> List.of(course.reciprocal(), in);
        };
    }

    /** Speed limits of holds (Aeronautical Information Manual 5-3-8, table 5-3-1). */
    static double speedLimitKt(OptionalDouble altitudeFt) {
        double feet = altitudeFt.orElse(0);
        if (feet <= 6000) {
            return 200;
        }
        return feet <= LONGER_ABOVE_FT ? 230 : 265;
    }

    /**
     * Time outbound so that the inbound leg comes out right. Both turns displace the aircraft along the inbound course only
     * by the wind; what is left is the outbound leg against the inbound one. The time counts from abeam the fix, or from
     * wings level where that is later (Aeronautical Information Manual 5-3-8).
     */
    private OptionalDouble outboundSeconds(
            TrueDirection inbound,
            boolean right,
            GroundVector.HeadingForCourse wind,
            OptionalDouble minutes,
            OptionalDouble nm) {
        double airspeed = draft.situation.trueAirspeedKt();
        double blows = draft.situation.wind().from().deg() + 180;
        double tail = draft.situation.wind().speedKt() * Math.cos(Math.toRadians(blows - inbound.deg()));
        double outwardKt = airspeed * Math.cos(Math.toRadians(3 * wind.correctionDeg())) - tail;
        if (outwardKt < HeadingPlan.LEAST_GROUND_SPEED_KT) {
            return OptionalDouble.empty();
        }
        // At standard rate or 25 degrees of bank, whichever needs less of it (ICAO Doc 8168, volume I).
        double rate = Turn.standardTurnRateDegPerS(airspeed);
        double inboundS = minutes.orElse(1) * 60;
        // With the corrections the first turn is less than half a circle, or more, and ends ahead of the fix or behind
        // it.
        double toward = right ? wind.correctionDeg() : -wind.correctionDeg();
        double firstTurnS = (180 - 4 * toward) / rate;
        double radius = Turn.radiusNm(airspeed, rate);
        double pastFixNm = radius * (Math.sin(Math.toRadians(3 * toward)) - Math.sin(Math.toRadians(toward)))
                + tail * firstTurnS / 3600;
        double abeamLater = Math.max(0, pastFixNm) / outwardKt * 3600;
        if (nm.isPresent()) {
            // Wings level behind the fix a part of the distance is flown already.
            return OptionalDouble.of(Math.max(0, nm.getAsDouble() + Math.min(0, pastFixNm)) / outwardKt * 3600);
        }
        double fromWingsLevel = (wind.groundSpeedKt() * inboundS + 360 / rate * tail) / outwardKt;
        return OptionalDouble.of(Math.max(0, fromWingsLevel - abeamLater));
    }

    private void describe(Holding holding, double off, double toMagnetic) {
        draft.step(
                "inbound course of the hold",
                "magnetic = true + " + (holding.published() ? "as published" : "by the station of its line"),
                "%05.1f true %s = %05.1f magnetic, on %s",
                holding.inboundTrue().deg(),
                Angles.signed(Angles.turn(toMagnetic), 2),
                holding.inbound().deg(),
                holding.line());
        draft.step(
                "entry",
                "heading on arrival less inbound course; right turns: -70 to +110 direct, +110 to +180 teardrop, else"
                        + " parallel; left turns mirrored (ICAO Doc 8168)",
                "%s degrees, %s turns: %s",
                Angles.signed(off, 1),
                holding.right() ? "right" : "left",
                holding.entry().name().toLowerCase(Locale.ROOT));
        holding.outboundSeconds()
                .ifPresent(seconds -> draft.step(
                        "outbound in the wind",
                        "heading = inbound course + 180 - 3 x inbound correction; time = (GS in x inbound time + time of both"
                                + " turns x tailwind in) / GS out from wings level, less what passes before abeam where that is later",
                        "correction %s degrees inbound, heading %s out, %.0f s from wings level or abeam the fix,"
                                + " whichever is later",
                        Angles.signed(holding.correctionDeg(), 1),
                        Angles.figures(holding.outboundHeading().deg()),
                        seconds));
    }

    private Inbound inbound() throws ClearanceException {
        if (said.line().isPresent()) {
            return onLine(said.line().get());
        }
        List<PublishedHold> shown = chart.holds(fix);
        Optional<PublishedHold> taken = shown.stream()
                .filter(hold -> said.compass().isEmpty()
                        || onSide(trueCourse(hold).reciprocal(), said.compass().get()))
                .findFirst();
        if (taken.isPresent()) {
            Radial course = inbound(taken.get());
            if (!said.asPublished()) {
                draft.note(
                        "the hold at %s is published on the chart: inbound course %s, %s turns; that is taken, but for"
                                + " what the clearance says",
                        fix.ident(), Angles.figures(course.deg()), taken.get().right() ? "right" : "left");
            }
            return new Inbound("the published pattern", course, trueCourse(taken.get()), taken);
        }
        if (said.asPublished()) {
            throw ClearanceException.cannotBeWorkedOut(
                    shown.isEmpty()
                            ? "the chart shows no holding pattern at " + fix.ident()
                                    + ": ask for the radial or course, the leg and the turns"
                            : "the pattern that the chart shows at " + fix.ident() + " lies "
                                    + words(trueCourse(shown.get(0)).reciprocal()) + " of it, not "
                                    + said.compass().orElse(""));
        }
        Variation variation = draft.situation.variationAt(fix.position());
        if (said.compass().isPresent()) {
            TrueDirection inbound =
                    new MagneticDirection(Compass.degrees(said.compass().get()) + 180).toTrue(variation);
            draft.choice(
                    "the hold names no radial, course or airway; taken is an inbound course of %s, from the %s: ask",
                    Angles.figures(inbound.toMagnetic(variation).deg()),
                    said.compass().get());
            return new Inbound(
                    "a course of your own",
                    new Radial(inbound.toMagnetic(variation).deg()),
                    inbound,
                    Optional.empty());
        }
        draft.choice(
                "the hold says neither side nor line; taken is a standard pattern on the course of arrival, as without"
                        + " instructions (AIM 5-3-8): ask");
        return new Inbound(
                "the course of arrival",
                new Radial(arrivalTrack.toMagnetic(variation).deg()),
                arrivalTrack,
                Optional.empty());
    }

    /** What is said beside "as published" and the chart must agree: nobody can fly both. */
    private void asPublished(Inbound inbound) throws ClearanceException {
        Optional<PublishedHold> shown = inbound.published()
                .or(() -> chart.holds(fix).stream()
                        .min(Comparator.comparingDouble(
                                hold -> Math.abs(trueCourse(hold).turnTo(inbound.trueCourse())))));
        if (shown.isEmpty()) {
            return;
        }
        PublishedHold hold = shown.get();
        boolean turnsRight = said.turns() == Instruction.TurnDirection.RIGHT;
        if (said.turns() != Instruction.TurnDirection.SHORTEST && turnsRight != hold.right()) {
            throw notAsPublished(
                    (hold.right() ? "right" : "left") + " turns", (turnsRight ? "right" : "left") + " turns");
        }
        String leg = leg(hold.legMinutes(), hold.legNm());
        String saidLeg = leg(said.legMinutes(), said.legNm());
        if (!leg.isEmpty() && !saidLeg.isEmpty() && !leg.equals(saidLeg)) {
            throw notAsPublished(leg, saidLeg);
        }
        if (Math.abs(trueCourse(hold).turnTo(inbound.trueCourse())) > SAME_LINE_DEG) {
            throw notAsPublished(
                    course(inbound(hold), trueCourse(hold)),
                    course(inbound.course(), inbound.trueCourse()) + " on " + inbound.words());
        }
    }

    private static String course(Radial magnetic, TrueDirection inbound) {
        return "inbound course " + Angles.figures(magnetic.deg()) + " (" + Angles.figures(inbound.deg()) + " true)";
    }

    private static String leg(OptionalDouble minutes, OptionalDouble nm) {
        if (minutes.isEmpty() && nm.isEmpty()) {
            return "";
        }
        double length = nm.orElseGet(minutes::getAsDouble);
        return String.format(
                Locale.ROOT,
                "%s %s legs",
                length == Math.rint(length) ? String.valueOf(Math.round(length)) : String.valueOf(length),
                nm.isPresent() ? "mile" : "minute");
    }

    private ClearanceException notAsPublished(String shown, String clearance) {
        return ClearanceException.cannotBeWorkedOut("\"as published\": the chart shows " + shown + " at " + fix.ident()
                + ", the clearance says " + clearance + ": ask which is meant");
    }

    private Radial inbound(PublishedHold hold) {
        return new Radial(
                hold.inboundTrueDeg().isPresent()
                        ? trueCourse(hold)
                                .toMagnetic(draft.situation.variationAt(fix.position()))
                                .deg()
                        : hold.inboundMagnetic().deg());
    }

    /** A published course is by the station that guides it, where the fix is one, else by the variation of its day. */
    private TrueDirection trueCourse(PublishedHold hold) {
        if (hold.inboundTrueDeg().isPresent()) {
            return new TrueDirection(hold.inboundTrueDeg().getAsDouble());
        }
        return trueOf(hold.inboundMagnetic().deg());
    }

    private TrueDirection trueOf(double magneticDeg) {
        if (!(fix instanceof Station)) {
            for (Airway airway : chart.airways()) {
                Optional<TrueDirection> along = alongAirway(airway, magneticDeg);
                if (along.isPresent()) {
                    return along.get();
                }
            }
        }
        return fix instanceof Station station && station.declination().isPresent()
                ? new Radial(magneticDeg).toTrue(station.declination().get())
                : new MagneticDirection(magneticDeg).toTrue(draft.situation.variationAt(fix.position()));
    }

    /** A course that is that of an airway at the fix is by the station that guides the airway. */
    private Optional<TrueDirection> alongAirway(Airway airway, double magneticDeg) {
        for (Waypoint next : neighbours(airway)) {
            Leg.TrackToFix leg = endOfLeg(next, airway.ident());
            Optional<PublishedCourse> published = PublishedCourse.of(leg, chart, draft.situation)
                    .filter(each -> each.station().isPresent());
            double off = published
                    .map(each -> Angles.turn(magneticDeg - each.magneticDeg()))
                    .orElse(180.0);
            if (Math.abs(off) <= SAME_COURSE_DEG) {
                return Optional.of(new TrueDirection(leg.path().finalCourse().deg() + off));
            }
        }
        return Optional.empty();
    }

    /** The points of an airway next to the fix; none where it does not pass it. */
    private List<Waypoint> neighbours(Airway airway) {
        int at = airway.points().indexOf(fix);
        return IntStream.of(at - 1, at + 1)
                .filter(next -> at >= 0 && next >= 0 && next < airway.points().size())
                .mapToObj(airway.points()::get)
                .toList();
    }

    /** The leg of an airway to the fix, as it is there: its course is by the station that guides at its end. */
    private Leg.TrackToFix endOfLeg(Waypoint from, String airway) {
        Leg.TrackToFix whole = Leg.TrackToFix.along(new FiledRoute.Segment(from, fix, Optional.of(airway)));
        double joined = Math.max(0, whole.path().lengthNm() - 0.01);
        return new Leg.TrackToFix(from, fix, whole.airway(), whole.path(), joined);
    }

    private Inbound onLine(HoldLine line) throws ClearanceException {
        return line.<FlownLine.Working<Inbound>>fold(
                        radial -> () -> onRadial(radial),
                        bearing -> () -> from(
                                bearing.station(),
                                new Radial(bearing.bearing().deg()),
                                bearing.bearing().toTrue(draft.situation.variationAt(bearing.station())),
                                "the " + Angles.figures(bearing.bearing().deg()) + " bearing from "
                                        + bearing.station().ident()),
                        course -> () -> onCourse(course),
                        airway -> () -> onAirway(airway.airway()))
                .out();
    }

    private Inbound onRadial(HoldLine.OnRadial on) throws ClearanceException {
        if (on.station().declination().isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut(on.station().ident()
                    + " has no station declination on the chart, so its radials have no direction");
        }
        return from(
                on.station(),
                on.radial(),
                on.radial().toTrue(on.station().declination().get()),
                "the " + on.station().ident() + " " + Angles.figures(on.radial().deg()) + " radial");
    }

    private Inbound onCourse(HoldLine.OnCourse on) throws ClearanceException {
        TrueDirection course = trueOf(on.inbound().deg());
        String name = "the inbound course " + Angles.figures(on.inbound().deg());
        side(course.reciprocal(), name);
        return new Inbound(name, new Radial(on.inbound().deg()), course, Optional.empty());
    }

    /** A radial through the fix: of the fix itself it is held on that radial; of another station on the side said. */
    private Inbound from(Station station, Radial radial, TrueDirection azimuth, String name) throws ClearanceException {
        double away = station.position().distanceNm(fix.position());
        if (away < 0.1) {
            side(azimuth, name);
            return new Inbound(name, radial.reciprocal(), azimuth.reciprocal(), Optional.empty());
        }
        double off = station.position().to(fix.position()).initial().turnTo(azimuth);
        if (Math.abs(off) > 3) {
            throw AmendmentDraft.refused(
                    "%s passes %s by %.1f degrees: it is not a line to hold on there",
                    name, fix.ident(), Math.abs(off));
        }
        TrueDirection outward = station.position().to(fix.position()).onward();
        boolean beyond = said.compass()
                .map(compass -> Math.abs(outward.turnTo(compassTrue(compass))) <= 90)
                .orElseGet(() -> Math.abs(outward.turnTo(arrivalTrack)) > 90);
        if (said.compass().isEmpty()) {
            draft.choice("on which side of %s is not said; taken is the side you come from: ask", fix.ident());
        }
        side(beyond ? outward : outward.reciprocal(), name);
        return beyond
                ? new Inbound(name, radial.reciprocal(), outward.reciprocal(), Optional.empty())
                : new Inbound(name, radial, outward, Optional.empty());
    }

    private Inbound onAirway(String ident) throws ClearanceException {
        Waypoint best = null;
        double nearest = 180;
        TrueDirection wanted = said.compass().map(this::compassTrue).orElseGet(arrivalTrack::reciprocal);
        for (Airway airway : chart.airways(ident)) {
            for (Waypoint other : neighbours(airway)) {
                double off = Math.abs(
                        wanted.turnTo(fix.position().to(other.position()).initial()));
                if (off < nearest) {
                    nearest = off;
                    best = other;
                }
            }
        }
        if (best == null) {
            throw ClearanceException.cannotBeWorkedOut(
                    ident + " does not pass " + fix.ident() + ", so it is no line to hold on there");
        }
        side(fix.position().to(best.position()).initial(), ident);
        Leg.TrackToFix leg = endOfLeg(best, ident);
        double course = PublishedCourse.magneticDeg(leg, chart, draft.situation).orElseThrow();
        return new Inbound(ident, new Radial(course), leg.path().finalCourse(), Optional.empty());
    }

    /** The side said and the line must agree: nobody can fly both. */
    private void side(TrueDirection outward, String line) throws ClearanceException {
        if (said.compass().isPresent() && !onSide(outward, said.compass().get())) {
            throw AmendmentDraft.refused(
                    "the hold on %s lies %s of %s, not %s: ask which is meant",
                    line, words(outward), fix.ident(), said.compass().get());
        }
    }

    /** Sides of a fix are magnetic directions. */
    private boolean onSide(TrueDirection outward, String compass) {
        return Compass.isToward(radial(outward), compass);
    }

    private TrueDirection compassTrue(String compass) {
        double north = radial(new TrueDirection(0));
        return new TrueDirection(Compass.degrees(compass) - north);
    }

    private String words(TrueDirection outward) {
        return Compass.words(radial(outward));
    }

    private double radial(TrueDirection outward) {
        return RadialDistance.radial(fix, outward, draft.situation).deg();
    }
}
