package org.rejoin.console.practice;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.Holding;

/**
 * Flies a hold from the first passing of its fix: the entry with its headings and times, then circuits with the outbound
 * heading and time worked out for the wind (Aeronautical Information Manual 5-3-8). The habit that turns the wrong way turns
 * away from the holding side.
 */
final class HoldPilot {

    /** The first leg of a teardrop or a parallel entry, seconds, at or below 14,000 ft (AIM 5-3-8). */
    private static final double MINUTE_S = 60;

    /** Outbound where the wind leaves no time for it, seconds. */
    private static final double OUTBOUND_S = 60;

    /** Nobody flies outbound for less, seconds. */
    private static final double SHORTEST_S = 10;

    /** A turn is over this near to its heading, degrees. */
    private static final double NEAR_DEG = 3;

    /** The turn inbound leaves its way this near to the inbound course, degrees, and captures the line. */
    private static final double CAPTURE_DEG = 12;

    /** So many inbound legs are shown, and a little of what comes after the last, seconds. */
    private static final int INBOUND_LEGS = 3;

    private static final double AFTER_S = 15;

    private enum Part {
        TURNING_OUT,
        OUTBOUND,
        TURNING_IN,
        INBOUND
    }

    private final Holding holding;
    private final GeodesicLine inbound;
    private final Variation variation;
    private final boolean wrongSide;

    private Part part = Part.TURNING_OUT;
    private TrueDirection heading;
    private boolean right;
    private boolean inRight;
    private boolean entering = true;
    private double legFromS = Double.NaN;
    private double legS;
    private double outboundFlownS;
    private double inboundFromS;
    private double overFixS;
    private double lastPastNm = Double.NaN;
    private int inboundLegs;

    /**
     * Over the fix for the first time. The variation is today's there; on the wrong side he turns away from the holding
     * side.
     */
    HoldPilot(Holding holding, Variation variation, boolean wrongSide, PracticeAircraft now) {
        this.holding = holding;
        this.variation = variation;
        this.wrongSide = wrongSide;
        this.inbound = holding.inboundLine();
        MagneticDirection first = holding.entryHeadings().get(0);
        this.heading = first.toTrue(variation);
        this.legS = holding.entry() == Holding.Entry.DIRECT ? outboundS() : entryS();
        this.outboundFlownS = holding.entry() == Holding.Entry.DIRECT ? legS : 0;
        boolean pattern = holding.right() != wrongSide;
        double turn = now.heading().turnTo(heading);
        right = holding.entry() == Holding.Entry.DIRECT ? pattern : turn > 0;
        inRight = pattern != (holding.entry() == Holding.Entry.PARALLEL);
    }

    private double outboundS() {
        return holding.outboundSeconds().orElse(OUTBOUND_S);
    }

    private double entryS() {
        return holding.legMinutes().orElse(1) * MINUTE_S;
    }

    /** Whether enough of it has been shown. */
    boolean done(PracticeAircraft now) {
        return inboundLegs >= INBOUND_LEGS && now.timeS() > overFixS + AFTER_S;
    }

    /** Whether a hold that is flown once is over. */
    boolean flownOnce() {
        return holding.once() && inboundLegs > 0;
    }

    double bank(PracticeAircraft now) {
        Offset offset = inbound.offset(now.position());
        double past = offset.alongTrackNm() - inbound.lengthNm();
        boolean overFix = lastPastNm < 0 && past >= 0;
        boolean abeam = past <= 0;
        lastPastNm = past;
        return switch (part) {
            case TURNING_OUT -> turningOut(now, abeam);
            case OUTBOUND -> outbound(now, abeam);
            case TURNING_IN -> turningIn(now);
            case INBOUND -> {
                if (overFix) {
                    inboundLegs++;
                    overFixS = now.timeS();
                    circuit(now.timeS() - inboundFromS);
                    yield turningOut(now, false);
                }
                yield Guidance.bankForLine(now, inbound, 45);
            }
        };
    }

    /** The pattern itself: out with three times the correction, for longer by what the inbound leg was too short. */
    private void circuit(double inboundS) {
        boolean timed = outboundFlownS > 0 && holding.legMinutes().isPresent();
        legS = timed ? Math.max(SHORTEST_S, outboundFlownS + entryS() - inboundS) : outboundS();
        outboundFlownS = legS;
        entering = false;
        part = Part.TURNING_OUT;
        heading = holding.outboundHeading().toTrue(variation);
        right = holding.right() != wrongSide;
        inRight = right;
        legFromS = Double.NaN;
    }

    private double turningOut(PracticeAircraft now, boolean abeam) {
        if (Math.abs(now.heading().turnTo(heading)) < NEAR_DEG) {
            part = Part.OUTBOUND;
            return outbound(now, abeam);
        }
        return Guidance.bankForHeading(now, heading, right);
    }

    /**
     * Time runs from abeam the fix, or from wings level where that is later; of a teardrop or a parallel entry at once. A
     * distance is what the DME shows.
     */
    private double outbound(PracticeAircraft now, boolean abeam) {
        boolean counts = abeam || (entering && holding.entry() != Holding.Entry.DIRECT);
        if (Double.isNaN(legFromS) && counts) {
            legFromS = now.timeS();
        }
        boolean farEnough = holding.legNm().isPresent()
                ? now.position().distanceNm(holding.fix().position())
                        >= holding.legNm().getAsDouble()
                : now.timeS() - legFromS >= legS;
        if (!Double.isNaN(legFromS) && farEnough) {
            legFromS = Double.NaN;
            part = Part.TURNING_IN;
            return turningIn(now);
        }
        return Guidance.bankForHeading(now, heading);
    }

    private double turningIn(PracticeAircraft now) {
        double toGo = now.heading().turnTo(holding.inboundTrue());
        double round = inRight ? Angles.circle(toGo) : Angles.circle(-toGo);
        if (round < CAPTURE_DEG || round > 360 - CAPTURE_DEG) {
            part = Part.INBOUND;
            inboundFromS = now.timeS();
            return Guidance.bankForLine(now, inbound, 45);
        }
        return Guidance.bankForHeading(now, holding.inboundTrue(), inRight);
    }
}
