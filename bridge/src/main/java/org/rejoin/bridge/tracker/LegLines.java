package org.rejoin.bridge.tracker;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.route.Leg;

import org.jspecify.annotations.Nullable;

/** The lines of the amended route's legs; a direct has none until the aircraft points at its fix. */
final class LegLines {

    /** A leg still counts this far beyond its ends while it is decided which is met, NM; common practice, no source. */
    private static final double MARGIN_NM = 0.5;

    /** Within this many full scales the track decides which leg is met, before that the prediction; no source. */
    private static final double NEAR_SCALES = 3;

    private final List<@Nullable CourseLine> lines = new ArrayList<>();
    private final double alongDeg;
    private final List<@Nullable DirectAim> aims = new ArrayList<>();

    /** The lines of legs; {@code ordered} is the turn to the fix of the first, null where it may be made either way. */
    LegLines(List<Leg> legs, @Nullable OrderedTurn ordered, Rules rules) {
        this.alongDeg = rules.of(Rule.Established.class).alongDeg();
        for (Leg leg : legs) {
            lines.add(line(leg));
            aims.add(
                    leg instanceof Leg.DirectToFix direct
                            ? new DirectAim(direct.to().position(), aims.isEmpty() ? ordered : null, rules)
                            : null);
        }
    }

    private static @Nullable CourseLine line(Leg leg) {
        if (leg instanceof Leg.DmeArc arc) {
            return new CourseLine.Arc(
                    arc.path(), arc.distanceNm(), arc.station().elevationFt());
        }
        boolean aimed = leg instanceof Leg.DirectToFix;
        return leg.line().filter(line -> !aimed).map(CourseLine.Straight::new).orElse(null);
    }

    /** The line of a leg; null where there is none. */
    @Nullable
    CourseLine at(int index) {
        return index >= 0 && index < lines.size() ? lines.get(index) : null;
    }

    private @Nullable DirectAim aimAt(int index) {
        return index >= 0 && index < aims.size() ? aims.get(index) : null;
    }

    /** Another line is flown on a leg than the way direct that it was begun with. */
    void instead(int index, CourseLine line) {
        lines.set(index, line);
        aims.set(index, null);
    }

    /** Takes a step toward a fix; what came of it in this step. A course that began when it was due may begin anew. */
    DirectAim.@Nullable Aimed aim(int index, @Nullable FlightInstant before, FlightInstant now, boolean onHeading) {
        DirectAim aim = aimAt(index);
        if (aim == null || aim.over()) {
            return null;
        }
        DirectAim.Aimed aimed = aim.step(before, now, onHeading);
        if (aimed != null) {
            lines.set(index, new CourseLine.Straight(aimed.line()));
        }
        return aimed;
    }

    /** Turn that is left to the fix of a direct that has no line yet, degrees, right positive; NaN where there is none. */
    double toTurnDeg(int index) {
        DirectAim aim = aimAt(index);
        return aim == null || lines.get(index) != null ? Double.NaN : aim.toTurnDeg();
    }

    /** Distance to the fix of a direct that has no line yet; NaN where there is none. */
    double toGoNm(int index) {
        DirectAim aim = aimAt(index);
        return aim == null ? Double.NaN : aim.toGoNm();
    }

    void breakOff() {
        for (DirectAim aim : aims) {
            if (aim != null) {
                aim.breakOff();
            }
        }
    }

    /** The leg, from an index on, that is being flown: within half scale and along it; -1 if none is. */
    int flownAt(FlightInstant now, int from, double halfScaleNm) {
        int found = -1;
        double nearest = halfScaleNm;
        for (int i = from; i < lines.size(); i++) {
            CourseLine line = lines.get(i);
            if (line == null) {
                continue;
            }
            CourseMeasure m = line.measure(now);
            boolean abeam = m.alongNm() >= 0 && m.alongNm() <= line.lengthNm();
            if (abeam && Math.abs(m.crossTrackNm()) <= nearest && Math.abs(m.trackErrorDeg()) < 30) {
                nearest = Math.abs(m.crossTrackNm());
                found = i;
            }
        }
        return found;
    }

    /**
     * The leg of an airway that is being met: the one abeam within half scale, else the one the present track comes to
     * first; in the plane, which is exact enough so near. Where it comes to none near by, the leg that is active stays as long
     * as the track leads to it, between its ends; else it is the one that was predicted.
     */
    int metAt(FlightInstant now, List<Integer> candidates, int active, int predicted, double fullScaleNm) {
        int best = active;
        boolean leadsToActive = false;
        double soonest = Double.MAX_VALUE;
        for (int index : candidates) {
            CourseLine line = lines.get(index);
            if (line == null) {
                continue;
            }
            CourseMeasure m = line.measure(now);
            double cross = Math.abs(m.crossTrackNm());
            double error = Math.toRadians(m.trackErrorDeg());
            double distance = Double.MAX_VALUE;
            // Parallel to the leg that is active the aircraft has turned for that one, if too early.
            boolean alongActive = index == active && Math.abs(m.trackErrorDeg()) < alongDeg;
            if (cross < (alongActive ? NEAR_SCALES * fullScaleNm : fullScaleNm / 2) && within(m.alongNm(), line)) {
                distance = cross;
            } else if (Math.sin(error) * m.crossTrackNm() < 0) {
                double ahead = cross / Math.abs(Math.sin(error));
                boolean leads = within(m.alongNm() + ahead * Math.cos(error), line);
                leadsToActive |= leads && index == active;
                distance = leads && cross < NEAR_SCALES * fullScaleNm ? ahead : Double.MAX_VALUE;
            }
            // A tie stays with the leg that is active.
            if (distance < soonest || (distance == soonest && index == active)) {
                soonest = distance;
                best = index;
            }
        }
        return soonest < Double.MAX_VALUE ? best : leadsToActive ? active : predicted;
    }

    /** Whether a place abeam of a line lies before the airway begins there, by more than the lead of the turn onto it. */
    static boolean before(CourseMeasure here) {
        double leadNm = Turn.standardTurnLeadNm(here.instant().groundSpeedKt(), here.trackErrorDeg());
        return here.alongNm() < -MARGIN_NM - leadNm;
    }

    private static boolean within(double alongNm, CourseLine line) {
        return alongNm > -MARGIN_NM && alongNm < line.lengthNm() + MARGIN_NM;
    }
}
