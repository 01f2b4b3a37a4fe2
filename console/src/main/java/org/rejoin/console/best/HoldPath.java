package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleFunction;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.Holding;

/**
 * The best way from the first passing of a holding fix to the second: the entry with its times (Aeronautical Information
 * Manual 5-3-8), for a direct entry the whole circuit. The heading outbound begins at three times the correction, or at the
 * entry's, and is bettered until the turn inbound rolls out on the inbound course.
 */
final class HoldPath {

    /** The first leg of a teardrop or a parallel entry, seconds for each minute of the inbound leg. */
    private static final double MINUTE_S = 60;

    /** A parallel entry comes back to the inbound course at this angle, degrees (common practice, no source). */
    private static final double BACK_DEG = 45;

    private final Holding hold;
    private final Variation variation;
    private final Air air;
    private final GeodesicLine inbound;
    private final double way;
    private final List<Stretch> stretches = new ArrayList<>();

    private HoldPath(Holding hold, Variation variation, Air air) {
        this.hold = hold;
        this.variation = variation;
        this.air = air;
        this.inbound = hold.inboundLine();
        this.way = hold.right() ? 1 : -1;
    }

    /**
     * From the fix to the fix, in the order flown, from that true heading over it; none where the wind is too strong
     * for it.
     */
    static List<Stretch> of(Holding hold, Variation variation, Air air, TrueDirection arriving) {
        return new HoldPath(hold, variation, air).fly(arriving);
    }

    private List<Stretch> fly(TrueDirection arriving) {
        Optional<TrueDirection> in = air.along(hold.inboundTrue()).map(GroundVector.HeadingForCourse::heading);
        if (in.isEmpty() || hold.outboundSeconds().isEmpty()) {
            return List.of();
        }
        TrueDirection out = hold.entryHeadings().get(0).toTrue(variation);
        if (hold.entry() == Holding.Entry.PARALLEL) {
            outbound(arriving, out);
            return backOver(in.get()) ? List.copyOf(stretches) : List.of();
        }
        double nominal = out.deg();
        double before = nominal;
        double now = nominal + 1;
        double missBefore = missNm(arriving, before, in.get());
        double miss = missNm(arriving, now, in.get());
        for (int i = 0; i < TurnStart.MOST_STEPS && Math.abs(miss) > TurnStart.CONVERGED_NM; i++) {
            double next = now - miss * (now - before) / (miss - missBefore);
            if (!(Math.abs(next - nominal) < 90)) {
                return List.of();
            }
            before = now;
            missBefore = miss;
            now = next;
            miss = missNm(arriving, now, in.get());
        }
        return toFix() ? List.copyOf(stretches) : List.of();
    }

    /** Flies it with a heading outbound; how far to the right of the inbound course it rolls out, nautical miles. */
    private double missNm(TrueDirection arriving, double outDeg, TrueDirection in) {
        stretches.clear();
        outbound(arriving, new TrueDirection(outDeg));
        turn(way * Angles.circle(way * (in.deg() - last().endHeading().deg())));
        return inbound.offset(here()).crossTrackNm();
    }

    private void outbound(TrueDirection arriving, TrueDirection out) {
        double shortWay = arriving.turnTo(out);
        boolean direct = hold.entry() == Holding.Entry.DIRECT;
        double round = direct ? way * Angles.circle(way * (out.deg() - arriving.deg())) : shortWay;
        stretches.add(new Stretch.Turning(hold.fix().position(), arriving, round, air));
        GroundVector ground = air.on(last().endHeading());
        double seconds = hold.legMinutes().orElse(1) * MINUTE_S;
        if (direct) {
            // From abeam the fix, or from wings level where that is later.
            double pastNm = inbound.offset(here()).alongTrackNm() - inbound.lengthNm();
            seconds = hold.outboundSeconds().orElseThrow()
                    + Math.max(0, pastNm) / Math.max(1, ground.groundSpeedKt()) * 3600;
        }
        stretches.add(new Stretch.OnHeading(here(), last().endHeading(), ground, seconds));
    }

    /** Round over the holding side, and back to the inbound course at an angle. */
    private boolean backOver(TrueDirection in) {
        double back = in.deg() - way * BACK_DEG;
        turn(-way * Angles.circle(-way * (back - last().endHeading().deg())));
        TrueDirection heading = last().endHeading();
        Position from = here();
        DoubleFunction<Stretch.OnHeading> straight = s -> new Stretch.OnHeading(from, heading, air.on(heading), s);
        Optional<TurnStart> start = TurnStart.onto(
                inbound,
                air,
                s -> straight.apply(s).at(s),
                s -> straight.apply(s).headingAt(s),
                TurnStart.LONGEST_S);
        if (start.isEmpty()) {
            return false;
        }
        stretches.add(straight.apply(start.get().seconds()));
        turn(start.get().turnDeg());
        return toFix();
    }

    private boolean toFix() {
        Offset here = inbound.offset(here());
        Optional<GroundVector.HeadingForCourse> along = air.along(here.course());
        double toGoNm = inbound.lengthNm() - here.alongTrackNm();
        if (along.isEmpty() || toGoNm < 0 || Math.abs(here.crossTrackNm()) > 1e-3) {
            return false;
        }
        stretches.add(new Stretch.OnCourse(
                inbound, here.alongTrackNm(), along.get(), toGoNm / along.get().groundSpeedKt() * 3600));
        return true;
    }

    private void turn(double deg) {
        stretches.add(new Stretch.Turning(here(), last().endHeading(), deg, air));
    }

    private Stretch last() {
        return stretches.get(stretches.size() - 1);
    }

    private Position here() {
        return last().at(last().seconds());
    }
}
