package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.function.Function;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/** What the strips show, taken from the samples. */
public final class StripValues {

    private final List<Point> samples;
    private final List<Entry.Issued> amendments;

    /** Samples that nothing is drawn to from the one before: see {@link Point#newPiece}. */
    private final BitSet starts = new BitSet();

    private final Limits limits;

    StripValues(DebriefedFlight flight) {
        this.samples = flight.samples();
        this.amendments = flight.record().issued();
        this.limits = flight.debrief().set().limits();
        int next = 0;
        for (List<Point> piece : flight.record().pieces()) {
            starts.set(next);
            next += piece.size();
        }
    }

    /** A line of one value a sample, in the pieces it was flown in. */
    List<List<Panel.At>> pieces(List<Panel.At> line) {
        List<List<Panel.At>> pieces = new ArrayList<>();
        for (int from = 0; from < line.size(); ) {
            int next = starts.nextSetBit(from + 1);
            int to = next < 0 ? line.size() : next;
            pieces.add(line.subList(from, to));
            from = to;
        }
        return pieces;
    }

    /**
     * A time over which something stayed the same.
     *
     * @param fromS seconds since the first sample
     * @param toS likewise
     * @param what stayed the same
     * @param <T> kind of it
     */
    record Run<T>(double fromS, double toS, T what) {}

    /** A band around a value. */
    record Band(double low, double high) {}

    /** The amended route that a sample of this time was measured against. */
    @Nullable
    AmendedRoute route(double timeS) {
        int index = amendment(timeS);
        return index < 0 ? null : amendments.get(index).route();
    }

    private int amendment(double timeS) {
        int index = -1;
        for (int i = 0; i < amendments.size(); i++) {
            // The sample a clearance was issued at was still flown under the one before.
            index = amendments.get(i).timeS() < timeS - 1e-6 ? i : index;
        }
        return index;
    }

    /** The leg that cross-track was measured from, in words; the same one goes on across a gap. */
    List<Run<String>> legs() {
        return runs(true, sample -> {
            AmendedRoute route = route(sample.timeS());
            int index = sample.legIndex();
            return route == null || index < 0 || index >= route.legs().size() || !sample.hasLine()
                    ? null
                    : legName(route, index);
        });
    }

    /**
     * A leg in words.
     *
     * @param route amended
     * @param index of the leg
     * @return for example "course 066 FROM AAA", "V31 to BBB"
     */
    public static String legName(AmendedRoute route, int index) {
        Leg leg = route.legs().get(index);
        if (leg instanceof Leg.DmeArc arc) {
            return Words.say(
                    "%.0f mile arc of %s", arc.distanceNm(), arc.station().ident());
        }
        if (leg instanceof Leg.HoldAtFix hold) {
            return "hold at " + hold.holding().fix().ident();
        }
        if (index == route.courseLeg() && route.course().isPresent()) {
            return "course " + RouteWords.toSet(route.course().get());
        }
        return leg.airway().orElse("direct")
                + leg.endsAt().map(end -> " to " + end.ident()).orElse("");
    }

    /** Cross-track, in pieces by leg and as they were flown. */
    List<List<Panel.At>> crossTrack() {
        List<List<Panel.At>> pieces = new ArrayList<>();
        List<Panel.At> piece = new ArrayList<>();
        int leg = Integer.MIN_VALUE;
        int amendment = -1;
        for (int i = 0; i < samples.size(); i++) {
            Point sample = samples.get(i);
            int now = amendment(sample.timeS());
            if (starts.get(i) || sample.legIndex() != leg || now != amendment) {
                pieces.add(piece);
                piece = new ArrayList<>();
                leg = sample.legIndex();
                amendment = now;
            }
            piece.add(new Panel.At(sample.timeS(), Point.given(sample.crossTrackNm())));
        }
        pieces.add(piece);
        return pieces;
    }

    /** What is allowed either side of the course at each leg; on a radial it may widen with the distance. */
    List<Run<Double>> courseLimits() {
        return runs(false, sample -> sample.hasLine() ? courseLimit(sample) : null);
    }

    private double courseLimit(Point sample) {
        // In steps of a hundredth of a mile, so that a band is some rectangles and not thousands.
        return Math.rint(100 * limits.courseScale() * sample.fullScaleNm()) / 100;
    }

    /** The farthest from the line since it was first met; 0 if it never was. */
    double farthestSinceMetNm() {
        boolean met = false;
        double before = 0;
        double most = 0;
        for (int i = 0; i < samples.size(); i++) {
            Point sample = samples.get(i);
            // Set down on the other side is not flown across.
            before = starts.get(i) ? 0 : before;
            if (sample.hasLine()) {
                double now = sample.crossTrackNm();
                met |= sample.established() || before * now < 0;
                before = now;
                most = met ? Math.max(most, Math.abs(now)) : most;
            }
        }
        return most;
    }

    List<Panel.At> altitude() {
        return samples.stream()
                .map(sample -> new Panel.At(sample.timeS(), sample.state().altitudeMslFt()))
                .toList();
    }

    List<Run<Band>> altitudeBands() {
        return runs(false, sample -> {
            AircraftState state = sample.state();
            OptionalDouble error = Point.given(sample.altitudeErrorFt());
            if (state.altitudeMslFt().isEmpty() || error.isEmpty()) {
                return null;
            }
            double assigned = Math.rint(state.altitudeMslFt().getAsDouble() - error.getAsDouble());
            return new Band(assigned - limits.altitudeFt(), assigned + limits.altitudeFt());
        });
    }

    /** Whether the feed carries a heading at all. */
    boolean hasHeading() {
        return samples.stream().anyMatch(sample -> heading(sample).isPresent());
    }

    /** Magnetic heading, unrolled: a turn through north goes on past 360 or below 0. */
    List<Panel.At> headings() {
        List<Panel.At> values = new ArrayList<>();
        double last = Double.NaN;
        for (Point sample : samples) {
            OptionalDouble heading = heading(sample);
            if (heading.isPresent()) {
                double deg = heading.getAsDouble();
                last = Double.isNaN(last) ? deg : last + Angles.turn(deg - last);
                values.add(new Panel.At(sample.timeS(), OptionalDouble.of(last)));
            } else {
                values.add(new Panel.At(sample.timeS(), OptionalDouble.empty()));
            }
        }
        return values;
    }

    /** The assigned heading with its limits, unrolled like the heading, while it was judged. */
    List<Run<Band>> headingBands(List<Panel.At> unrolled) {
        List<Run<Band>> bands = new ArrayList<>();
        for (int i = 1; i < samples.size(); i++) {
            OptionalDouble error = Point.given(samples.get(i).headingErrorDeg());
            OptionalDouble heading = unrolled.get(i).value();
            if (error.isPresent() && heading.isPresent()) {
                double assigned = Math.rint(10 * (heading.getAsDouble() - error.getAsDouble())) / 10;
                Band band = new Band(assigned - limits.headingDeg(), assigned + limits.headingDeg());
                join(bands, i, band, false);
            }
        }
        return bands;
    }

    /** By the compass. */
    static OptionalDouble heading(Point sample) {
        return Point.given(sample.headingMagneticDeg());
    }

    private <T> List<Run<T>> runs(boolean across, Function<Point, @Nullable T> what) {
        List<Run<T>> runs = new ArrayList<>();
        for (int i = 0; i < samples.size(); i++) {
            T now = what.apply(samples.get(i));
            if (now != null) {
                join(runs, i, now, across);
            }
        }
        return runs;
    }

    /** Adds what holds from the sample before to this one, or at this one only where the track breaks between them. */
    private <T> void join(List<Run<T>> runs, int sample, T what, boolean across) {
        double before = samples.get(Math.max(0, sample - 1)).timeS();
        double now = samples.get(sample).timeS();
        boolean broken = starts.get(sample);
        int last = runs.size() - 1;
        if (last >= 0
                && (across || !broken)
                && Objects.equals(runs.get(last).what(), what)
                && runs.get(last).toS() >= before - 1e-6) {
            runs.set(last, new Run<>(runs.get(last).fromS(), now, what));
        } else {
            double from = broken ? now : before;
            runs.add(new Run<>(last >= 0 ? Math.max(from, runs.get(last).toS()) : from, now, what));
        }
    }
}
