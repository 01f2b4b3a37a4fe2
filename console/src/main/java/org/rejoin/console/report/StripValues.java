package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.IntFunction;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.LegMap;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Holding;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/** What the strips show, taken from the samples. */
public final class StripValues {

    /** On the way in to the fix of a hold while the track is this near to its course, degrees (common practice, no source). */
    private static final double INBOUND_DEG = 45;

    private final List<Point> samples;
    private final List<Entry.Issued> amendments;

    /** Samples that nothing is drawn to from the one before: see {@link Point#newPiece}. */
    private final BitSet starts = new BitSet();

    private final Limits limits;

    /** Cross-track from the inbound course of a hold, at samples on the way in; NaN elsewhere. */
    private final double[] inboundNm;

    StripValues(DebriefedFlight flight) {
        this.samples = flight.samples();
        this.amendments = flight.record().issued();
        this.limits = flight.debrief().set().limits();
        int next = 0;
        for (List<Point> piece : flight.record().pieces()) {
            starts.set(next);
            next += piece.size();
        }
        this.inboundNm = inbound();
    }

    private double[] inbound() {
        double[] nm = new double[samples.size()];
        Map<Holding, LegMap> maps = new HashMap<>();
        for (int i = 0; i < nm.length; i++) {
            Point sample = samples.get(i);
            AmendedRoute route =
                    sample.phase() == Point.Phase.HOLDING && !sample.hasLine() ? route(sample.timeS()) : null;
            Holding hold = route == null ? null : route.holding().orElse(null);
            nm[i] = Double.NaN;
            if (hold != null) {
                Offset offset = maps.computeIfAbsent(hold, each -> new LegMap(each.inboundLine()))
                        .offset(sample.position());
                boolean in = Math.abs(Angles.turn(
                                        sample.trackTrueDeg() - offset.course().deg()))
                                <= INBOUND_DEG
                        && offset.alongTrackNm() < Holding.INBOUND_LINE_NM;
                nm[i] = in ? offset.crossTrackNm() : Double.NaN;
            }
        }
        return nm;
    }

    /** The line that a sample is measured from: that of its leg, or the inbound course of the hold. */
    private double crossTrack(int sample) {
        return samples.get(sample).hasLine() ? samples.get(sample).crossTrackNm() : inboundNm[sample];
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

    /** A time over which something stayed the same, seconds since the first sample. */
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
        return runs(true, i -> {
            Point sample = samples.get(i);
            AmendedRoute route = route(sample.timeS());
            int index = sample.legIndex();
            if (route != null && !Double.isNaN(inboundNm[i])) {
                return "inbound to "
                        + route.holding().map(hold -> hold.fix().ident()).orElse("the fix");
            }
            return route == null || index < 0 || index >= route.legs().size() || !sample.hasLine()
                    ? null
                    : legName(route, index);
        });
    }

    /** A leg in words, as "course 066 FROM AAA", "V31 to BBB". */
    public static String legName(AmendedRoute route, int index) {
        Leg leg = route.legs().get(index);
        if (leg instanceof Leg.DmeArc arc) {
            return Words.say(
                    "%.0f mile arc of %s", arc.distanceNm(), arc.station().ident());
        }
        if (leg instanceof Leg.HoldAtFix hold) {
            return "hold at " + hold.holding().fix().ident();
        }
        if (index == route.courseLeg() && route.firstCourse().isPresent()) {
            return "course " + RouteWords.toSet(route.firstCourse().get());
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
            piece.add(new Panel.At(sample.timeS(), crossTrack(i)));
        }
        pieces.add(piece);
        return pieces;
    }

    /** What is allowed either side of the course at each leg; on a radial it may widen with the distance. */
    List<Run<Double>> courseLimits() {
        return runs(false, i -> {
            if (samples.get(i).hasLine()) {
                return courseLimit(samples.get(i).fullScaleNm());
            }
            return Double.isNaN(inboundNm[i]) ? null : courseLimit(limits.fullScaleAtNm(Double.POSITIVE_INFINITY));
        });
    }

    private Double courseLimit(double fullScaleNm) {
        // In steps of a hundredth of a mile, so that a band is some rectangles and not thousands.
        return Math.rint(100 * limits.courseScale() * fullScaleNm) / 100;
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
                .map(sample -> new Panel.At(sample.timeS(), sample.state().altitudeMslFtOrNaN()))
                .toList();
    }

    List<Run<Band>> altitudeBands() {
        return runs(false, i -> {
            Point sample = samples.get(i);
            double assigned = Math.rint(sample.state().altitudeMslFtOrNaN() - sample.altitudeErrorFt());
            return Double.isNaN(assigned)
                    ? null
                    : new Band(assigned - limits.altitudeFt(), assigned + limits.altitudeFt());
        });
    }

    /** Whether the feed carries a heading at all. */
    boolean hasHeading() {
        return samples.stream().anyMatch(sample -> !Double.isNaN(sample.headingMagneticDeg()));
    }

    /** Magnetic heading, unrolled: a turn through north goes on past 360 or below 0. */
    List<Panel.At> headings() {
        List<Panel.At> values = new ArrayList<>();
        double last = Double.NaN;
        for (Point sample : samples) {
            double deg = sample.headingMagneticDeg();
            if (!Double.isNaN(deg)) {
                last = Double.isNaN(last) ? deg : last + Angles.turn(deg - last);
            }
            values.add(new Panel.At(sample.timeS(), Double.isNaN(deg) ? deg : last));
        }
        return values;
    }

    /** The assigned heading with its limits, unrolled like the heading, while it was judged. */
    List<Run<Band>> headingBands(List<Panel.At> unrolled) {
        List<Run<Band>> bands = new ArrayList<>();
        for (int i = 1; i < samples.size(); i++) {
            double assigned =
                    Math.rint(10 * (unrolled.get(i).value() - samples.get(i).headingErrorDeg())) / 10;
            if (!Double.isNaN(assigned)) {
                Band band = new Band(assigned - limits.headingDeg(), assigned + limits.headingDeg());
                join(bands, i, band, false);
            }
        }
        return bands;
    }

    private <T> List<Run<T>> runs(boolean across, IntFunction<@Nullable T> what) {
        List<Run<T>> runs = new ArrayList<>();
        for (int i = 0; i < samples.size(); i++) {
            T now = what.apply(i);
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
