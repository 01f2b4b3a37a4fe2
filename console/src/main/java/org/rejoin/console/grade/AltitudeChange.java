package org.rejoin.console.grade;

import java.util.Optional;

import org.rejoin.console.words.Words;

/** How an assigned altitude was gone to: what is said of one that was not held. */
final class AltitudeChange {

    /** Farther from where it was assigned the change has begun, feet; common practice, no source. */
    private static final double BEGUN_FT = 50;

    private static final double S_PER_MIN = 60;

    /** Not changed by {@link #BEGUN_FT} for this long it is level, seconds; common practice, no source. */
    private static final double LEVEL_S = 30;

    /** Off on the far side so soon after it was passed, it was not levelled off at, seconds; common practice, no source. */
    private static final double LEVEL_OFF_S = 30;

    /** What happened where the altitude was first off. */
    private enum Kind {
        /** It was not reached when it was due. */
        SHORT,
        /** It was passed, and the level-off came late. */
        PAST,
        /** Another one was levelled off at. */
        OTHER,
        /** It was held, and left. */
        LEFT
    }

    private final double limitFt;
    private double assignedS = Double.NaN;
    private double fromFt = Double.NaN;
    private double begunS = Double.NaN;
    /** Where it last changed, and when, flown seconds. */
    private double levelFt = Double.NaN;

    private double levelFromS = Double.NaN;
    private double lowestFt = Double.POSITIVE_INFINITY;
    private double highestFt = Double.NEGATIVE_INFINITY;
    /** When it was first seen to be there, flown seconds. */
    private double withinS = Double.NaN;

    /** When to begin it is left to the pilot. */
    private boolean atDiscretion;

    private boolean off;
    /** Back since it was passed: what comes later is something else. */
    private boolean back;

    private Kind kind = Kind.LEFT;
    private String how = "";
    private boolean settled;

    /** Farther off than {@code limitFt} is a fault. */
    AltitudeChange(double limitFt) {
        this.limitFt = limitFt;
    }

    /** The same change in the next amendment: nothing has been said of it there. */
    AltitudeChange goesOn() {
        AltitudeChange next = new AltitudeChange(limitFt);
        next.assignedS = assignedS;
        next.atDiscretion = atDiscretion;
        next.fromFt = fromFt;
        next.begunS = begunS;
        next.levelFt = levelFt;
        next.levelFromS = levelFromS;
        next.lowestFt = lowestFt;
        next.highestFt = highestFt;
        next.withinS = withinS;
        next.off = off;
        return next;
    }

    /** When to begin it is left to the pilot, or is not. */
    void atDiscretion(boolean left) {
        atDiscretion = left;
    }

    /** Another altitude is assigned. */
    void assigned() {
        assignedS = Double.NaN;
        levelFt = Double.NaN;
        lowestFt = Double.POSITIVE_INFINITY;
        highestFt = Double.NEGATIVE_INFINITY;
        withinS = Double.NaN;
        off = false;
    }

    /**
     * Takes an altitude as sent.
     *
     * @param errorFt off the assigned one; NaN where that is not judged
     * @param counted whether what is off has lasted: then what is said of it stands
     */
    void point(double flownS, double sentFt, double errorFt, boolean counted) {
        if (Double.isNaN(sentFt)) {
            return;
        }
        if (Double.isNaN(assignedS)) {
            assignedS = flownS;
            fromFt = sentFt;
        }
        if (Math.abs(sentFt - fromFt) <= BEGUN_FT) {
            begunS = flownS;
        }
        if (!(Math.abs(sentFt - levelFt) <= BEGUN_FT)) {
            levelFt = sentFt;
            levelFromS = flownS;
        }
        lowestFt = Math.min(lowestFt, sentFt);
        highestFt = Math.max(highestFt, sentFt);
        settled |= counted;
        if (Double.isNaN(errorFt)) {
            return;
        }
        double wayFt = sentFt - errorFt - fromFt;
        boolean was = off;
        off = Math.abs(errorFt) > limitFt;
        back |= was && !off;
        if (off && !was && !settled) {
            back = false;
            kind = kind(flownS, errorFt * wayFt, sentFt - errorFt);
            how = kind == Kind.SHORT ? shortOf(flownS, sentFt, wayFt) : kind == Kind.PAST ? ": carried past it" : "";
        } else if (off && !back && kind == Kind.PAST && flownS - levelFromS >= LEVEL_S) {
            levelled(sentFt, sentFt - errorFt);
        }
        withinS = Double.isNaN(withinS) && !off ? flownS : withinS;
    }

    /** Above zero on the far side of it. */
    private Kind kind(double flownS, double side, double assignedFt) {
        if (side < 0) {
            // To a crossing all on the way is as good: what was judged right there was not yet at it.
            boolean neverThere = lowestFt > assignedFt + limitFt || highestFt < assignedFt - limitFt;
            return neverThere ? Kind.SHORT : Kind.LEFT;
        }
        boolean justPassed = Double.isNaN(withinS) || flownS - withinS <= LEVEL_OFF_S;
        return side > 0 && justPassed ? Kind.PAST : Kind.LEFT;
    }

    private String shortOf(double flownS, double sentFt, double wayFt) {
        String what = wayFt > 0 ? "climb" : "descent";
        double goneFt = (levelFt - fromFt) * Math.signum(wayFt);
        double takenS = levelFromS - begunS;
        if (goneFt <= BEGUN_FT || takenS <= 0) {
            return atDiscretion
                    ? Words.say(": no %s had begun when it was due", what)
                    : Words.say(": no %s had begun %.0f s after it was assigned", what, flownS - assignedS);
        }
        if (flownS - levelFromS >= LEVEL_S) {
            levelled(sentFt, fromFt + wayFt);
            return how;
        }
        double rate = (goneFt - BEGUN_FT) / takenS * S_PER_MIN;
        return atDiscretion
                ? Words.say(": the %s, at %.0f ft a minute as a mean, was begun too late for that", what, rate)
                : Words.say(
                        ": the %s began %.0f s after it was assigned, at %.0f ft a minute",
                        what, begunS - assignedS, rate);
    }

    /** Level, and not where it was to be. */
    private void levelled(double sentFt, double assignedFt) {
        kind = Kind.OTHER;
        how = Words.say(": levelled at %.0f ft, cleared %.0f", Math.round(sentFt / 10) * 10.0, assignedFt);
    }

    /** The fault of who was not at it, with what happened and what to practise against that. */
    Fault told(Fault fault) {
        Fault said = fault.adding(how);
        return practise().map(said::practising).orElse(said);
    }

    /** Empty where it was reached and left: what is said of that in general. */
    private Optional<String> practise() {
        return switch (kind) {
            case SHORT ->
                Optional.of((atDiscretion
                                ? "work out where the climb or the descent has to begin"
                                : "begin the climb or the descent when it is assigned")
                        + ", make 500 ft a minute or more, and tell ATC at once when you cannot");
            case PAST -> Optional.of("begin the level-off a tenth of the rate of climb before the altitude");
            case OTHER ->
                Optional.of(
                        "write the altitude down, read it back, and say it aloud again 1000 ft before you reach it");
            case LEFT -> Optional.empty();
        };
    }
}
