package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

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
}
