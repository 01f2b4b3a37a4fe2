package org.rejoin.console.grade;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/** Whether a pilot whose clearance was taken back ever went back to the filed route: nobody grades it, but he is told. */
final class WayBack {

    /** Time to be on the way back, seconds; as for what is due, where nothing is predicted. */
    private static final double BACK_S = Rules.STANDARD.of(Rule.Due.class).plusS();

    /** On the filed route: within half scale of a leg of it and along it. */
    private static final Rule.Established ON = Rules.STANDARD.of(Rule.Established.class);

    /** Nearer by this than it was, and no farther by this than it came, the aircraft is coming back, NM; common practice, no source. */
    private static final double NEARER_NM = 0.5;

    /** Looked at so often, seconds. */
    private static final double STEP_S = 1;

    private final List<GeodesicLine> legs;
    private final double halfScaleNm;
    private @Nullable Point from;
    private @Nullable Point last;
    private boolean back;
    private double beganNm = Double.NaN;
    private double nearestSinceNm = Double.POSITIVE_INFINITY;
    private double awayNm = Double.NaN;

    /**
     * From where the clearance is taken back.
     *
     * @param filed the route that is in force again
     * @param fullScaleNm of a leg of it
     */
    WayBack(FiledRoute filed, double fullScaleNm) {
        this.legs = filed.segments().stream()
                .map(segment -> GeodesicLine.between(
                        segment.from().position(), segment.to().position()))
                .toList();
        this.halfScaleNm = ON.ofScale() * fullScaleNm;
    }

    void point(Point now) {
        Point before = last;
        from = from == null ? now : from;
        if (back || (before != null && now.flownS() - before.flownS() < STEP_S)) {
            return;
        }
        last = now;
        Position here = now.position();
        awayNm = Double.POSITIVE_INFINITY;
        for (GeodesicLine leg : legs) {
            Offset offset = leg.offset(here);
            double alongNm = Math.min(Math.max(offset.alongTrackNm(), 0), leg.lengthNm());
            boolean abeam = alongNm == offset.alongTrackNm();
            double off = abeam
                    ? Math.abs(offset.crossTrackNm())
                    : leg.pointAt(alongNm).distanceNm(here);
            double error =
                    Math.abs(Angles.turn(now.trackTrueDeg() - offset.course().deg()));
            back |= abeam && off <= halfScaleNm && error <= ON.alongDeg();
            awayNm = Math.min(awayNm, off);
        }
        beganNm = Double.isNaN(beganNm) ? awayNm : beganNm;
        nearestSinceNm = Math.min(nearestSinceNm, awayNm);
    }

    /** What to tell a pilot who never went back; empty where he did, where he is coming, and where there was no time. */
    Optional<String> neverBack(double takenBackS) {
        Point began = from;
        Point now = last;
        boolean nearest = awayNm <= nearestSinceNm + NEARER_NM;
        boolean coming = awayNm <= halfScaleNm || (nearest && awayNm < beganNm - NEARER_NM);
        if (began == null || now == null || back || coming || now.flownS() - began.flownS() < BACK_S) {
            return Optional.empty();
        }
        return Optional.of(Words.say(
                "the clearance was taken back at %s, and the aircraft never went back to the filed route: %.0f s later it was"
                        + " %.1f NM from it. Practise: when a clearance is taken back, say what is in force again, and turn for"
                        + " it at once",
                Words.clock(takenBackS), now.flownS() - began.flownS(), awayNm));
    }
}
