package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.words.Words;

/** Which limits an aircraft is off at this moment, and since when. For whoever looks on; the grade has its own measures. */
final class Excursions {

    private final Limits limits;
    private final Map<String, Double> since = new HashMap<>();
    private final GoingAway away = new GoingAway();

    Excursions(Limits limits) {
        this.limits = limits;
    }

    /** Another route is in force: how he closed on the line before says nothing of it. */
    void rerouted() {
        away.forget();
    }

    /** Those of this moment, the longest first. */
    List<Tile.LimitOff> of(Point now) {
        List<Tile.LimitOff> off = new ArrayList<>();
        double lineLimit = now.hasLine() ? limits.courseScale() * now.fullScaleNm() : 0;
        boolean onLine = now.hasLine()
                && (now.established() || now.phase() != Point.Phase.CLOSING)
                && Math.abs(now.crossTrackNm()) > lineLimit;
        look(
                off,
                "line",
                onLine,
                now.timeS(),
                "%.1f NM %s of the line",
                Math.abs(now.crossTrackNm()),
                Words.side(now.crossTrackNm()));
        away.sinceS(now, lineLimit)
                .ifPresent(sinceS -> off.add(new Tile.LimitOff(
                        Words.say(
                                "%.1f NM %s of the line, going away",
                                Math.abs(now.crossTrackNm()), Words.side(now.crossTrackNm())),
                        sinceS)));
        look(
                off,
                "altitude",
                Math.abs(now.altitudeErrorFt()) > limits.altitudeFt(),
                now.timeS(),
                "%.0f ft %s",
                Math.abs(now.altitudeErrorFt()),
                now.altitudeErrorFt() < 0 ? "low" : "high");
        look(
                off,
                "heading",
                Math.abs(now.headingErrorDeg()) > limits.headingDeg(),
                now.timeS(),
                "heading %.0f degrees %s",
                Math.abs(now.headingErrorDeg()),
                Words.side(now.headingErrorDeg()));
        off.sort((one, other) -> Double.compare(one.sinceS(), other.sinceS()));
        return off;
    }

    private void look(
            List<Tile.LimitOff> off, String kind, boolean is, double timeS, String words, double much, String way) {
        if (!is) {
            since.remove(kind);
            return;
        }
        double began = since.computeIfAbsent(kind, unseen -> timeS);
        off.add(new Tile.LimitOff(Words.say(words, much, way), began));
    }

    /** Whether an aircraft that is to meet a line goes away from it, seen crossing it or not: a gap in the data hides the crossing. */
    private static final class GoingAway {

        /** A turn onto the line, or back to it, takes less (common practice, no source). */
        private static final double TURNED_S = 60;

        /** Nearer or farther by less is noise (common practice, no source). */
        private static final double MOVED_NM = 0.1;

        private int leg = -1;
        private double nearestNm = Double.NaN;
        private double nearestAtS;
        private double nearestFlownS;
        private double farthestNm;

        /** Another line, or none. */
        void forget() {
            nearestNm = Double.NaN;
        }

        /** Since when, seconds; empty where it does not. Asked at each sample. */
        OptionalDouble sinceS(Point now, double limitNm) {
            if (!now.hasLine() || now.established() || now.phase() != Point.Phase.CLOSING || now.legIndex() != leg) {
                forget();
                leg = now.legIndex();
            }
            if (!now.hasLine() || now.established() || now.phase() != Point.Phase.CLOSING) {
                return OptionalDouble.empty();
            }
            double offNm = Math.abs(now.crossTrackNm());
            if (Double.isNaN(nearestNm) || offNm < nearestNm || offNm < farthestNm - MOVED_NM) {
                nearestNm = offNm;
                nearestAtS = now.timeS();
                nearestFlownS = now.flownS();
                farthestNm = offNm;
            }
            farthestNm = Math.max(farthestNm, offNm);
            boolean away = offNm > limitNm && offNm > nearestNm + MOVED_NM && now.flownS() - nearestFlownS >= TURNED_S;
            return away ? OptionalDouble.of(nearestAtS) : OptionalDouble.empty();
        }
    }
}
