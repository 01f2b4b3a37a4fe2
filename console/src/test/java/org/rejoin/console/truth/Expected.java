package org.rejoin.console.truth;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * What an examiner would say of a flight: faults that must be named, faults that may be (near a threshold either verdict is
 * right), everything else must not be. Each threshold has its margin zone beside it.
 */
final class Expected {

    /** Faults of which at least one must be named. */
    final List<Set<String>> required = new ArrayList<>();

    /** Faults that may be named. */
    final Set<String> allowed = new TreeSet<>();

    private final Truth truth;

    private final boolean wellMeant;

    Expected(Truth truth, Mistake mistake) {
        this.truth = truth;
        this.wellMeant = mistake.is(Mistake.Kind.NONE);
        boolean perhapsReciprocal = truth.reciprocalS(1.05, 33, 1.5) > 12;
        crossing(perhapsReciprocal);
        shortOfTheLine();
        held("HEADING_NOT_HELD", truth.headingOffS(11, 5) > 13, truth.headingOffS(9, -5) > 7);
        held("ALTITUDE_NOT_HELD", truth.altitudeOffS(108) > 8, truth.altitudeOffS(92) > 3);
        held("WRONG_DIRECTION", truth.reciprocalS(0.95, 27, 0.7) > 18, perhapsReciprocal);
        held("WEAVING", truth.weavingCrossings(165, 13, 0.12) >= 4, truth.weavingCrossings(195, 8, 0.08) >= 3);
        endOfLeg();
        leftTheLeg();
        achieved();
    }

    private void held(String code, boolean surely, boolean perhaps) {
        if (surely) {
            required.add(Set.of(code));
            allowed.add(code);
        } else if (perhaps) {
            allowed.add(code);
        }
    }

    /** Carried past the line: half a mile, give or take 0.05; the turn 10 s after it, give or take 4 s; 15 degrees, give or take 3. */
    private void crossing(boolean perhapsReciprocal) {
        double after = truth.turnAfterCrossingS().orElse(Double.NEGATIVE_INFINITY);
        boolean surelyCarried = truth.carriedNm > 0.55;
        boolean perhapsCarried = truth.carriedNm > 0.45;
        boolean surelyThrough = after > 14 && truth.crossedAtDeg > 18;
        boolean perhapsThrough = after > 6 && truth.crossedAtDeg > 12;
        boolean surelyTurned = after < 6;
        Set<String> carried = surelyThrough
                ? Set.of("FLOWN_THROUGH")
                : surelyTurned ? Set.of("OVERSHOOT") : Set.of("FLOWN_THROUGH", "OVERSHOOT");
        if (surelyCarried && perhapsReciprocal) {
            // One mistake, one fault: the way back from the reciprocal across the line is told with it and not counted.
            Set<String> either = new TreeSet<>(carried);
            either.add("WRONG_DIRECTION");
            required.add(either);
        } else if (surelyCarried) {
            required.add(carried);
        }
        if (perhapsCarried && perhapsThrough) {
            allowed.add("FLOWN_THROUGH");
        }
        if (perhapsCarried && !surelyThrough) {
            allowed.add("OVERSHOOT");
        }
    }

    /** Parallel beyond half scale for 15 s, give or take 3 s, within 10 degrees of the course, 8 to 14. */
    private void shortOfTheLine() {
        boolean surely = truth.parallelShortS(8, 1.05) > 18;
        // At a small angle to the course, parallel is also a heading not held.
        boolean flat = Math.abs(truth.flown.task().setting().interceptDeg()) < 25;
        if (surely && flat) {
            required.add(Set.of("TURNED_EARLY", "HEADING_NOT_HELD"));
        }
        held("TURNED_EARLY", surely && !flat, truth.parallelShortS(14, 0.95) > 12);
        // Who left the heading far from the line, beyond the lead and half scale, did not hold it either.
        if (truth.turnedBeforeLeadNm() > 0.8 * Truth.HALF) {
            allowed.add("HEADING_NOT_HELD");
        }
    }

    /** The wrong way by more than 30 degrees, never by less than 8; within 15 degrees of the old course 30 s after abeam, give or take 3. */
    private void endOfLeg() {
        double against = truth.turnedAgainstDeg();
        held("WRONG_TURN", against > 30, against > 8);
        double turn = Math.abs(truth.flown.task().setting().turnDeg());
        double old = truth.oldCourseErrorDeg(30);
        boolean passed = !Double.isNaN(old);
        boolean wrongWay = against > 8;
        if (passed && turn > 22 && old < 11 && !wrongWay) {
            held("SEQUENCE_MISSED", true, true);
        } else if (passed && (old < 19 || turn < 22 || wrongWay) && truth.oldCourseErrorDeg(26) < 25) {
            allowed.add("SEQUENCE_MISSED");
        }
    }

    /**
     * Off the leg beyond full scale, give or take 0.1 NM; or before the lead turned off by more than 30 degrees for 20 s, 27 to
     * 33 for 16 to 24, and off it by more than three quarters of the scale.
     */
    private void leftTheLeg() {
        double lead = truth.leadNm();
        boolean surely = truth.offLegNm(2.1, lead + 0.6)
                || (truth.offLegS(33, lead * 1.2 + 0.6, false) > 24 && truth.offLegNm(1.6, lead + 0.6));
        boolean perhaps = truth.offLegNm(1.9, lead * 0.8)
                || (truth.offLegS(27, lead * 0.8, true) > 16 && truth.offLegNm(1.4, lead * 0.8));
        held("ROUTE_LEFT", surely, perhaps);
        offTheCourse(truth.offLegNm(1.4, lead * 0.8));
    }

    /** Off the course by more than three quarters of the scale, 1.5 NM, give or take 0.1, once established: whatever else it is, too. */
    private void offTheCourse(boolean perhapsBeforeTheEnd) {
        if (truth.crossAfterEstablishedNm() > 1.6) {
            required.add(Set.of(
                    "COURSE_NOT_HELD",
                    "ROUTE_LEFT",
                    "WEAVING",
                    "TURNED_EARLY",
                    "OVERSHOOT",
                    "FLOWN_THROUGH",
                    "WRONG_DIRECTION",
                    "NOT_ACHIEVED"));
        }
        if (truth.crossAfterEstablishedNm() > 1.4 || perhapsBeforeTheEnd) {
            allowed.add("COURSE_NOT_HELD");
        }
    }

    private void achieved() {
        boolean late = truth.flown.endS() > 120;
        if (truth.onSecond < 0 || truth.established < 0) {
            if (late) {
                allowed.add("NOT_ACHIEVED");
            }
        }
    }

    /** Whether the standard is met; empty where it may be either. */
    Optional<Boolean> met() {
        if (!required.isEmpty()) {
            return Optional.of(false);
        }
        boolean heading = truth.headingOffS(4, -5) < 6;
        boolean altitude = truth.altitudeOffS(90) < 3;
        boolean course = truth.crossAfterEstablishedNm() < 1.4;
        boolean fix = truth.fixMissedNm < 0.8 * Math.max(0.5, truth.leadNm());
        double before = truth.turnedBeforeEndNm();
        fix &= before > -0.2 && before < truth.leadNm() + 0.7;
        boolean done = truth.established >= 0 && truth.onSecond >= 0;
        if (wellMeant && allowed.isEmpty() && heading && altitude && course && fix && done && truth.carriedNm < 0.45) {
            return Optional.of(true);
        }
        return Optional.empty();
    }

    /** In what the program's faults differ from these; empty where they agree. */
    String disagreement(Verdict verdict, Feed feed) {
        List<String> said = new ArrayList<>();
        boolean excused = feed.coarse() && verdict.saysNotJudged();
        Set<String> given = verdict.faultCodes();
        for (Set<String> one : required) {
            if (!excused && one.stream().noneMatch(given::contains)) {
                said.add("missing " + String.join(" or ", one));
            }
        }
        for (String code : given) {
            if (!allowed.contains(code)) {
                said.add("unfounded " + code);
            }
        }
        if (given.contains("OVERSHOOT") && given.contains("FLOWN_THROUGH")) {
            said.add("both OVERSHOOT and FLOWN_THROUGH");
        }
        for (String code : given) {
            if (verdict.faults().stream().filter(code::equals).count() > 1) {
                said.add("twice " + code);
            }
        }
        met().ifPresent(met -> {
            boolean open = excused && verdict.met().isEmpty();
            if (!open && !Optional.of(met).equals(verdict.met())) {
                said.add("met " + verdict.met().map(String::valueOf).orElse("null") + " instead of " + met);
            }
        });
        return String.join("; ", said);
    }

    @Override
    public String toString() {
        return "required " + required + " allowed " + allowed + " met "
                + met().map(String::valueOf).orElse("either");
    }
}
