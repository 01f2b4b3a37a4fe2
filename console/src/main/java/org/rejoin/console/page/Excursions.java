package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.Comparator;
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
        double crossNm = now.crossTrackNm();
        double lineLimit = now.hasLine() ? limits.courseScale() * now.fullScaleNm() : 0;
        boolean flown = now.hasLine() && (now.established() || now.phase() != Point.Phase.CLOSING);
        String line = "%.1f NM " + Words.side(crossNm) + " of the line";
        look(off, now, "line", flown ? crossNm : 0, lineLimit, line);
        away.sinceS(now, lineLimit)
                .ifPresent(sinceS ->
                        off.add(new Tile.LimitOff(Words.say(line + ", going away", Math.abs(crossNm)), sinceS)));
        double altitudeFt = now.altitudeErrorFt();
        look(off, now, "altitude", altitudeFt, limits.altitudeFt(), "%.0f ft " + (altitudeFt < 0 ? "low" : "high"));
        double headingDeg = now.headingErrorDeg();
        look(off, now, "heading", headingDeg, limits.headingDeg(), "heading %.0f degrees " + Words.side(headingDeg));
        off.sort(Comparator.comparingDouble(Tile.LimitOff::sinceS));
        return off;
    }

    /** NaN where it is not judged, which is off no limit. */
    private void look(List<Tile.LimitOff> off, Point now, String kind, double error, double limit, String words) {
        if (Math.abs(error) > limit) {
            double began = since.computeIfAbsent(kind, unseen -> now.timeS());
            off.add(new Tile.LimitOff(Words.say(words, Math.abs(error)), began));
        } else {
            since.remove(kind);
        }
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
            boolean closing = now.hasLine() && !now.established() && now.phase() == Point.Phase.CLOSING;
            if (!closing || now.legIndex() != leg) {
                forget();
                leg = now.legIndex();
            }
            if (!closing) {
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
