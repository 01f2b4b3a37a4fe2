package org.rejoin.console.truth;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;

/**
 * One mistake in fine steps, everything else the same: 140 kt, smooth air, flown by the autopilot.
 *
 * @param title for the page
 * @param kind of mistake
 * @param from smallest size
 * @param to largest size
 * @param step between two flights
 * @param shape of the clearance
 */
record Sweep(String title, Mistake.Kind kind, double from, double to, double step, Setting.Shape shape) {

    /** What two neighbours may differ by at most. */
    static final double LARGEST_STEP = 12;

    /** A score may rise this little with the mistake: it is noise of the turn, not of the grade. */
    static final double NOISE = 0.5;

    static final List<Sweep> ALL = List.of(
            new Sweep("Delay of the turn", Mistake.Kind.TURN_DELAYED, 0, 60, 2, Setting.Shape.RADIAL_OUTBOUND),
            new Sweep("Distance carried past", Mistake.Kind.CARRIED_PAST, 0, 1.6, 0.1, Setting.Shape.AIRWAY),
            new Sweep("Time parallel, 1.4 NM short", Mistake.Kind.SHORT_FOR, 0, 60, 2, Setting.Shape.RADIAL_INBOUND),
            new Sweep("Distance short, parallel for 40 s", Mistake.Kind.SHORT_BY, 0.5, 3.9, 0.1, Setting.Shape.AIRWAY),
            new Sweep("Heading error", Mistake.Kind.HEADING_OFF, 0, 24, 2, Setting.Shape.RADIAL_OUTBOUND),
            new Sweep("Weaving", Mistake.Kind.WEAVING, 0.02, 0.5, 0.04, Setting.Shape.AIRWAY),
            new Sweep("Offset while tracking", Mistake.Kind.OFFSET, 0, 1.9, 0.1, Setting.Shape.RADIAL_INBOUND),
            new Sweep("Distance past the fix", Mistake.Kind.PAST_FIX, 0, 4, 0.1, Setting.Shape.RADIAL_OUTBOUND),
            // Not from 0 s: whoever breaks the turn off before the reciprocal comes back the other way round, another
            // flight.
            new Sweep("Time on the reciprocal", Mistake.Kind.RECIPROCAL, 2, 60, 2, Setting.Shape.RADIAL_INBOUND),
            new Sweep("Reaction to the clearance", Mistake.Kind.REACTION, 2, 62, 2, Setting.Shape.AIRWAY),
            new Sweep("Turn at the fix begun early", Mistake.Kind.FIX_EARLY, 28, 68, 4, Setting.Shape.RADIAL_OUTBOUND),
            new Sweep(
                    "Another radial tracked", Mistake.Kind.OTHER_RADIAL, 3, 7.25, 0.25, Setting.Shape.RADIAL_OUTBOUND),
            // Not from less: that drift is not seen before the turn at the fix, another flight.
            new Sweep("Wind not corrected", Mistake.Kind.WIND_IGNORED, 12, 56, 4, Setting.Shape.AIRWAY),
            new Sweep(
                    "Distance beside the line that was met",
                    Mistake.Kind.GOES_BESIDE,
                    1,
                    1.9,
                    0.1,
                    Setting.Shape.RADIAL_INBOUND));

    /**
     * One flight of a sweep.
     *
     * @param size of the mistake
     * @param score given
     * @param met true, false or null, as written
     * @param faults named
     */
    record Point(double size, double score, String met, List<String> faults) {}

    List<Point> fly(Path folder) {
        int count = (int) Math.round((to - from) / step) + 1;
        return IntStream.range(0, count)
                .parallel()
                .mapToObj(i -> point(from + i * step, folder))
                .toList();
    }

    private Point point(double size, Path folder) {
        Setting everyday = Setting.everyday(shape).withLeg(18);
        Setting setting =
                kind == Mistake.Kind.WIND_IGNORED ? everyday.withWind(everyday.windFromDeg(), size) : everyday;
        Flown flown = Flown.by(Task.of(setting), Pilot.Kind.AUTOPILOT, new Mistake(kind, size), 1);
        try {
            Verdict verdict = Verdict.of(flown, Feed.JSON_2, folder);
            return new Point(
                    size, verdict.score(), verdict.grade().path("met").asText(), List.copyOf(verdict.faultCodes()));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Where the score rises with the mistake. */
    List<String> rises(List<Point> points) {
        List<String> said = new ArrayList<>();
        double least = Double.MAX_VALUE;
        for (Point now : points) {
            if (now.score() > least + NOISE) {
                said.add(String.format(
                        Locale.ROOT,
                        "%s: from %.1f to %.1f at %.2f %s",
                        title,
                        least,
                        now.score(),
                        now.size(),
                        kind.unit()));
            }
            least = Math.min(least, now.score());
        }
        return said;
    }

    /** Where two neighbours differ by too much. */
    List<String> cliffs(List<Point> points) {
        List<String> said = new ArrayList<>();
        for (int i = 1; i < points.size(); i++) {
            Point before = points.get(i - 1);
            Point now = points.get(i);
            if (Math.abs(now.score() - before.score()) > LARGEST_STEP) {
                said.add(String.format(
                        Locale.ROOT,
                        "%s: %.1f, then %.1f at %.2f %s %s",
                        title,
                        before.score(),
                        now.score(),
                        now.size(),
                        kind.unit(),
                        now.faults()));
            }
        }
        return said;
    }
}
