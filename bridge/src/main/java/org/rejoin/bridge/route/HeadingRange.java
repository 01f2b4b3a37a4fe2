package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Crossing;
import org.rejoin.bridge.geo.MagneticDirection;

/**
 * Headings that meet a course at a sensible angle.
 *
 * @param from first of them, clockwise
 * @param to last of them; may be the first, and may lie past north
 */
public record HeadingRange(MagneticDirection from, MagneticDirection to) {

    /** Headings are assigned in fives (common practice, no source). */
    private static final int STEP_DEG = 5;

    private static final int ALL = 360 / STEP_DEG;

    /** {@return the range in words; "095 to 150", or one heading} */
    public String words() {
        String first = Angles.figures(from.deg());
        String last = Angles.figures(to.deg());
        return first.equals(last) ? first : first + " to " + last;
    }

    /**
     * Runs of headings, in fives and in order round the compass, on which a course is met at 20 to 90 degrees where it
     * may still be joined, in the wind of the moment; none if none does.
     */
    static List<HeadingRange> thatMeet(Situation situation, Function<HeadingPlan, Optional<Crossing>> meets) {
        boolean[] good = new boolean[ALL];
        int bad = -1;
        for (int i = 0; i < ALL; i++) {
            HeadingPlan plan = HeadingPlan.of(HeadingPlan.Origin.PROPOSED, heading(i), situation);
            good[i] = plan.ground().groundSpeedKt() >= HeadingPlan.LEAST_GROUND_SPEED_KT
                    && meets.apply(plan)
                            .map(crossing -> Math.abs(crossing.turnDeg()))
                            .filter(angle -> angle >= Intercepts.SHALLOW_DEG && angle <= Intercepts.STEEP_DEG)
                            .isPresent();
            bad = good[i] ? bad : i;
        }
        if (bad < 0) {
            return List.of(new HeadingRange(heading(0), heading(ALL - 1)));
        }
        List<HeadingRange> ranges = new ArrayList<>();
        int first = -1;
        for (int step = 1; step <= ALL; step++) { // from a bad one round to itself, so that no run is cut at north
            int i = (bad + step) % ALL;
            if (good[i] && first < 0) {
                first = i;
            } else if (!good[i] && first >= 0) {
                ranges.add(new HeadingRange(heading(first), heading(i - 1)));
                first = -1;
            }
        }
        return ranges;
    }

    /** What to ask for instead, as the end of a sentence. */
    static String advice(List<HeadingRange> ranges) {
        return ranges.isEmpty()
                ? "no heading from here meets it at 20 to 90 degrees: ask for direct a fix instead"
                : "at 20 to 90 degrees it is met on headings "
                        + String.join(
                                " or ", ranges.stream().map(HeadingRange::words).toList());
    }

    /** {@return the headings that are assigned, in order from north} */
    static Stream<MagneticDirection> inFives() {
        return IntStream.range(0, ALL).mapToObj(HeadingRange::heading);
    }

    private static MagneticDirection heading(int index) {
        return new MagneticDirection(index * STEP_DEG);
    }
}
