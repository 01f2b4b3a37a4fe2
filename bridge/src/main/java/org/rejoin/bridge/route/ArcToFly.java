package org.rejoin.bridge.route;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction.ArcDirection;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/** An arc of a clearance: which way round, how far, and where it is left. */
record ArcToFly(Chart chart, AmendmentDraft draft) {

    /** An arc of less than this is none, degrees (no source). */
    private static final double LEAST_ARC_DEG = 1;

    /** An arc that goes round by more than this was hardly meant, degrees (no source). */
    private static final double LONG_ARC_DEG = 270;

    /** Two ways round lead past a side about equally well, degrees (no source). */
    private static final double SAME_SIDE_DEG = 10;

    /** Adds the leg of the arc, and those of the airway where it is left onto that. */
    FlownLine.Flown fly(FlownLine.OnArc arc, FlownLine.Flown here, Optional<FlownLine> next, Optional<AirwayPath> path)
            throws ClearanceException {
        TrueDirection entry =
                arc.station().distancePosition().to(here.position()).initial();
        List<LineEnd> ends = LineEnd.of(arc, next, path, chart, draft);
        if (ends.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut(
                    "the clearance does not say where the " + arc.name() + " is left, and "
                            + path.map(AirwayPath::name).orElse("the next line")
                            + " does not cross it: say "
                            + (arc.station().kind().hasRadials()
                                    ? "for example \"arc clockwise to the "
                                            + arc.station().ident() + " 090 radial\""
                                    : "\"arc clockwise to\" and a fix on the arc, or an airway that crosses it"));
        }
        LineEnd clockwise = nearest(arc, entry, ends, 1);
        LineEnd counter = nearest(arc, entry, ends, -1);
        boolean right = clockwise(arc, entry, clockwise, counter);
        LineEnd end = right ? clockwise : counter;
        double sweep = sweep(arc, entry, end, right ? 1 : -1);
        if (Math.abs(sweep) > LONG_ARC_DEG) {
            draft.warn(
                    Warning.Code.CROSSING_BEHIND,
                    "the arc is left only after %s round the station: where it is to be left lies behind",
                    Angles.degrees(Math.abs(sweep)));
        }
        sideOf(arc, entry, sweep);
        Waypoint to = end.fixOn(arc);
        GeodesicArc flown = new GeodesicArc(arc.station().distancePosition(), arc.radiusNm(), entry, sweep);
        draft.legs.add(new Leg.DmeArc(
                arc.station(),
                arc.said().distanceNm(),
                flown,
                arc.radialAt(here.position()),
                arc.radialAt(end.position()),
                to));
        describeArc(arc, flown);
        RouteChecks.used(draft, arc.station(), arc.radiusNm());
        RouteChecks.usedAtEnd(draft, arc, end.position());
        TrueDirection track = flown.courseAt(flown.lengthNm());
        Radial radial = arc.radialAt(end.position());
        return end.leave(to, arc.station(), radial, track, arc.radiusNm(), path, chart, draft);
    }

    private void describeArc(FlownLine.OnArc arc, GeodesicArc flown) {
        draft.step(
                "arc",
                "angle at the station x reduced length of the radius, on WGS 84",
                "%s, %s from %05.1f by %.1f degrees: %.2f NM",
                arc.name(),
                flown.clockwise() ? "clockwise" : "counterclockwise",
                flown.startAzimuth().deg(),
                Math.abs(flown.sweepDeg()),
                flown.lengthNm());
        draft.altitudeFt().ifPresent(feet -> {
            double ground = SlantRange.groundNm(
                    arc.said().distanceNm(), feet - arc.station().elevationFt());
            draft.note(
                    "a DME shows slant range: at %.0f ft, %.1f on it is %.2f NM over the ground",
                    feet, arc.said().distanceNm(), ground);
        });
        draft.heading.ifPresent(plan -> {
            double speed = plan.ground().groundSpeedKt();
            draft.step(
                    "lead onto an arc",
                    "R tan(angle / 2), R = GS / (60 pi); for 90 degrees the handbook says 0.5 % of the ground speed in NM",
                    "R = %.4f NM; half a per cent of %.0f kt is %.2f NM",
                    Turn.standardRadiusNm(speed),
                    speed,
                    speed * 0.005);
        });
    }

    private boolean clockwise(FlownLine.OnArc arc, TrueDirection entry, LineEnd clockwise, LineEnd counter) {
        if (arc.said().direction() != ArcDirection.UNSAID) {
            return arc.said().direction() == ArcDirection.CLOCKWISE;
        }
        double right = sweep(arc, entry, clockwise, 1);
        double left = sweep(arc, entry, counter, -1);
        if (arc.said().bound().isPresent()) {
            double wanted = Compass.degrees(arc.said().bound().get());
            double variation = draft.situation.variationAt(arc.station()).eastDeg();
            // An arc leads where its courses at both ends point; the better of the two tells the ways apart.
            double first = entry.deg() - variation - wanted;
            double offRight = Math.min(Math.abs(Angles.turn(first + 90)), Math.abs(Angles.turn(first + 90 + right)));
            double offLeft = Math.min(Math.abs(Angles.turn(first - 90)), Math.abs(Angles.turn(first - 90 + left)));
            return offRight <= offLeft;
        }
        boolean shorterRight = right <= -left;
        Optional<Boolean> bySide = arc.said().side().flatMap(side -> bySide(arc, entry, right, left, side));
        if (bySide.isPresent()) {
            draft.note(
                    "%s of %s: so the arc is flown %s, which leads past that side",
                    arc.said().side().orElseThrow(),
                    arc.station().ident(),
                    bySide.get() ? "clockwise" : "counterclockwise");
            return bySide.get();
        }
        draft.choice(
                "which way round the arc is not said; taken is the shorter, %s by %s: ask",
                shorterRight ? "clockwise" : "counterclockwise", Angles.degrees(shorterRight ? right : -left));
        return shorterRight;
    }

    /**
     * The way round that leads past the side said: of the two arcs between the same ends the middle lies on that side of
     * one. Empty where it tells nothing, as where both ends lie on the other side and the way there goes nearly round.
     */
    private Optional<Boolean> bySide(FlownLine.OnArc arc, TrueDirection entry, double right, double left, String side) {
        double offRight = Compass.offDeg(sideDeg(arc, entry, right / 2), side);
        double offLeft = Compass.offDeg(sideDeg(arc, entry, left / 2), side);
        boolean clockwise = offRight < offLeft;
        boolean tells =
                Math.abs(offRight - offLeft) > SAME_SIDE_DEG && Math.abs(clockwise ? right : left) <= LONG_ARC_DEG;
        return tells ? Optional.of(clockwise) : Optional.empty();
    }

    /** The direction from the station of a point of the arc, as its radials are reckoned. */
    private double sideDeg(FlownLine.OnArc arc, TrueDirection entry, double sweepDeg) {
        return RadialDistance.radial(arc.station(), new TrueDirection(entry.deg() + sweepDeg), draft.situation)
                .deg();
    }

    /** An arc of a side that is flown on the other. */
    private void sideOf(FlownLine.OnArc arc, TrueDirection entry, double sweep) {
        arc.said().side().ifPresent(side -> {
            double first = sideDeg(arc, entry, 0);
            double last = sideDeg(arc, entry, sweep);
            double middle = sideDeg(arc, entry, sweep / 2);
            double toSide = Angles.circle((Compass.degrees(side) - first) * Math.signum(sweep));
            boolean past = toSide <= Math.abs(sweep) || Compass.isToward(first, side) || Compass.isToward(last, side);
            if (!past) {
                draft.choice(
                        "the arc is flown on the other side: the clearance says %s of %s, and %s from where it is met it leads"
                                + " past the %s: ask",
                        side,
                        arc.station().ident(),
                        sweep > 0 ? "clockwise" : "counterclockwise",
                        Compass.words(middle));
            }
        });
    }

    /** The end that comes first one way round. */
    private static LineEnd nearest(FlownLine.OnArc arc, TrueDirection entry, List<LineEnd> ends, int side) {
        return ends.stream()
                .min(Comparator.comparingDouble(end -> Math.abs(sweep(arc, entry, end, side))))
                .orElseThrow();
    }

    private static double sweep(FlownLine.OnArc arc, TrueDirection entry, LineEnd end, int side) {
        double azimuth =
                arc.station().distancePosition().to(end.position()).initial().deg();
        double turn = Angles.circle((azimuth - entry.deg()) * side);
        return side * (turn < LEAST_ARC_DEG ? turn + 360 - 1e-6 - turn : turn);
    }
}
