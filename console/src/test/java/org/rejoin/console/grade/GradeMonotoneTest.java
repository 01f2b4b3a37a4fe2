package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.quicktheories.QuickTheory.qt;
import static org.quicktheories.generators.SourceDSL.doubles;
import static org.quicktheories.generators.SourceDSL.integers;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;

import org.junit.jupiter.api.Test;

/** A flight worse in one respect, else equal, never scores higher; met only if every criterion is. */
class GradeMonotoneTest {

    /** The largest value seen at 1 Hz depends a little on when the samples fall, points. */
    private static final double SAMPLING = 0.2;

    private static void falls(List<Grade> grades) {
        for (int i = 1; i < grades.size(); i++) {
            assertThat(grades.get(i).score().orElseThrow())
                    .as("%d: %s after %s", i, grades.get(i), grades.get(i - 1))
                    .isLessThanOrEqualTo(grades.get(i - 1).score().orElseThrow() + SAMPLING);
        }
    }

    @Test
    void aWorseValueNeverEarnsMore() {
        qt().withExamples(300)
                .forAll(
                        doubles().between(0, 10),
                        doubles().between(0, 5),
                        doubles().between(0.1, 5))
                .checkAssert((measured, more, limit) -> {
                    Criterion a = asked(Criterion.Kind.ALTITUDE, limit).measured(measured);
                    Criterion b = asked(Criterion.Kind.ALTITUDE, limit).measured(measured + more);
                    assertThat(b.points()).isLessThanOrEqualTo(a.points()).isBetween(0.0, 10.0);
                    assertThat(a.met()).isEqualTo(measured <= limit);
                    assertThat(b.met() && !a.met()).isFalse();
                });
    }

    /** Not met by less than the card's digits show: it says so, and no limit is kept and not kept by the same number. */
    @Test
    void whatIsJustPastItsLimitIsSaidToBe() {
        Criterion.Asked asked = asked(Criterion.Kind.INTERCEPT, 0.5);
        assertThat(GradeCard.measured(asked.measured(0.503))).isEqualTo("just over 0.50 NM (limit 0.50 NM)");
        assertThat(GradeCard.measured(asked.measured(0.5))).isEqualTo("0.50 NM (limit 0.50 NM)");
        assertThat(GradeCard.measured(asked.measured(0.51))).isEqualTo("0.51 NM (limit 0.50 NM)");
    }

    /** Whatever was measured, beside a fault of the same thing not all points are left. */
    @Test
    void whatIsNotMetHasNotAllItsPoints() {
        for (Criterion.Kind kind : Criterion.Kind.values()) {
            Criterion best = asked(kind, 1).measured(0).notMet("fault");
            assertThat(best.verdict()).isEqualTo(Verdict.NOT_MET);
            assertThat(best.points()).isLessThan(kind.maxPoints());
        }
    }

    @Test
    void metOnlyIfEveryCriterionIs() {
        int all = (1 << Criterion.Kind.values().length) - 1;
        qt().withExamples(200).forAll(integers().between(0, all)).checkAssert(bits -> {
            List<Criterion> criteria = new ArrayList<>();
            Criterion.Kind[] kinds = Criterion.Kind.values();
            for (int i = 0; i < kinds.length; i++) {
                boolean met = (bits >> i & 1) == 1;
                criteria.add(asked(kinds[i], 1).measured(met ? 0.5 : 1.5));
            }
            assertThat(amendment(criteria).verdict()).isEqualTo(bits == all ? Verdict.MET : Verdict.NOT_MET);
        });
        assertThat(amendment(List.of()).verdict()).isEqualTo(Verdict.NOT_JUDGED);
    }

    /** What nobody saw has no points, and with it nothing is met. */
    @Test
    void whatWasNotSeenLeavesTheStandardNotJudged() {
        Criterion seen = asked(Criterion.Kind.INTERCEPT, 0.5).measured(0);
        Criterion notSeen = asked(Criterion.Kind.COURSE, 1.5).notJudged("not received");
        AmendmentGrade grade = amendment(List.of(seen, notSeen));
        assertThat(grade.verdict()).isEqualTo(Verdict.NOT_JUDGED);
        assertThat(grade.score().orElseThrow()).isEqualTo(100);
        assertThat(grade.notJudged()).contains("not received");
        // Less than half judged is no score at all.
        assertThat(amendment(List.of(
                                notSeen, asked(Criterion.Kind.ALTITUDE, 100).measured(0)))
                        .score())
                .isEmpty();
    }

    private static Criterion.Asked asked(Criterion.Kind kind, double limit) {
        return new Criterion.Asked(kind, limit, Span.of(0, 1), "s");
    }

    private static AmendmentGrade amendment(List<Criterion> criteria) {
        return new AmendmentGrade(
                "fly heading 100", 30, criteria, List.of(), List.of(), Optional.empty(), Optional.empty());
    }

    /** The largest value held: adding to any stretch of a flight never lowers it. */
    @Test
    void heldNeverFallsWhenAnErrorGrows() {
        qt().withExamples(200)
                .forAll(
                        integers().between(0, 1_000_000),
                        integers().between(0, 59),
                        doubles().between(0, 20))
                .checkAssert((seed, at, more) -> {
                    java.util.Random random = new java.util.Random(seed);
                    Worst a = new Worst.Held(10);
                    Worst b = new Worst.Held(10);
                    for (int t = 0; t < 60; t++) {
                        double value = 15 * random.nextDouble();
                        a.add(t, t, value);
                        b.add(t, t, t >= at && t < at + 12 ? value + more : value);
                    }
                    assertThat(b.largest()).isGreaterThanOrEqualTo(a.largest() - 1e-9);
                });
    }

    @Test
    void aLaterTurnNeverScoresHigher() {
        List<Grade> grades = new ArrayList<>();
        for (double late = -7; late <= 22; late += 1) {
            Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
            double ideal = 6 - leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5));
            leg.flight.miles(ideal).seconds(7 + late);
            leg.turnOn().flight.seconds(12);
            leg.sidestep().asCleared();
            grades.add(Flown.fly(leg.flight.sample(1)).grade());
        }
        falls(grades);
        assertThat(grades.get(0).verdict()).isEqualTo(Verdict.MET);
        assertThat(grades.get(grades.size() - 1).verdict()).isEqualTo(Verdict.NOT_MET);
    }

    /** Principle: two flights that differ by a tenth of a mile differ by at most 12 points; here by half of that. */
    private static void fallsWithoutACliff(List<Grade> grades) {
        fallsInSteps(grades, 6);
    }

    private static void fallsInSteps(List<Grade> grades, double largest) {
        falls(grades);
        for (int i = 1; i < grades.size(); i++) {
            assertThat(grades.get(i).score().orElseThrow())
                    .as("%d: %s after %s", i, grades.get(i), grades.get(i - 1))
                    .isGreaterThanOrEqualTo(grades.get(i - 1).score().orElseThrow() - largest);
        }
    }

    /** At 30 degrees the line is long crossed before the aircraft is half a mile past it. */
    @Test
    void flownThroughAtASmallAngleBeginsAtNothing() {
        List<Grade> grades = new ArrayList<>();
        for (double pastNm = 0.3; pastNm < 1.2; pastNm += 0.05) {
            Leg leg = Ocean.toRadial(30, -1, 120, Ocean.CALM);
            double a = Math.toRadians(30);
            leg.flight.miles(6 - leg.flight.radiusNm() * Math.tan(a / 2) + pastNm / Math.sin(a));
            leg.turnOn().sidestep().asCleared();
            grades.add(Flown.fly(leg.flight.sample(1)).grade());
        }
        fallsWithoutACliff(grades);
        assertThat(grades.get(0).verdict()).isEqualTo(Verdict.MET);
        assertThat(grades.get(grades.size() - 1).faults())
                .extracting(Fault::code)
                .containsExactly(FaultCode.FLOWN_THROUGH);
    }

    /** From where one is established beside it to where one never is: one mistake, and no step between them. */
    @Test
    void besideTheRadialIsOneMistakeHoweverFar() {
        List<Grade> grades = new ArrayList<>();
        for (double shortNm = 0.8; shortNm < 2.6; shortNm += 0.05) {
            Leg leg = Ocean.toRadial(60, -1, 120, Ocean.CALM);
            double a = Math.toRadians(60);
            leg.flight.miles(6 - leg.flight.radiusNm() * Math.tan(a / 2) - shortNm / Math.sin(a));
            leg.turnOn().asCleared();
            grades.add(Flown.fly(leg.flight.sample(1)).grade());
        }
        fallsWithoutACliff(grades);
        assertThat(grades).allSatisfy(grade -> assertThat(grade.faults()).hasSizeLessThan(2));
        assertThat(grades.get(grades.size() - 1).faults()).hasSize(1);
    }

    /**
     * Turned back from the vector for half a minute, ever farther from the line. Near it that may be a turn onto the course that
     * was overdone; farther out it is a vector not held. Nothing falls where one becomes the other, and it does not earn more.
     */
    @Test
    void turningBackFromTheVectorCostsTheMoreTheFartherOut() {
        for (double turn : new double[] {-90, -135, -180, 170}) {
            List<Grade> grades = new ArrayList<>();
            for (double nearNm = 1.4; nearNm < 3.5; nearNm += 0.1) {
                Leg leg = new Leg(45, -1, 120, Ocean.CALM, 12);
                leg.flight.miles(12 - nearNm / Math.sin(Math.toRadians(45)));
                double vector = leg.flight.end().trackDeg();
                leg.flight.turn(turn).seconds(30).turnTo(vector);
                double lead = leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5));
                leg.flight.miles(-leg.crossNm() / Math.sin(Math.toRadians(45)) - lead);
                leg.turnOn().asCleared();
                grades.add(Flown.fly(leg.flight.sample(1)).grade());
            }
            fallsInSteps(grades, 12);
            assertThat(grades.get(grades.size() - 1).faults())
                    .extracting(Fault::code)
                    .containsExactly(FaultCode.HEADING_NOT_HELD);
        }
    }

    /**
     * Turned onto the reciprocal, 25 degrees beside it, and found out after some time, then round and back: 0.8 NM past the line and
     * more, which is a fault by itself. On the reciprocal for long enough that is the fault, and no milder one.
     */
    @Test
    void whoStaysOnTheReciprocalLongerNeverEarnsMore() {
        List<Grade> grades = new ArrayList<>();
        for (double seconds = 0; seconds <= 60; seconds += 2) {
            Leg leg = Ocean.toRadial(45, -1, 70, Ocean.CALM);
            leg.toCourse(0);
            leg.flight.turnTo(leg.courseHere() + 155).seconds(seconds).turn(-155);
            leg.sidestep().asCleared();
            grades.add(Flown.fly(leg.flight.sample(1)).grade());
        }
        fallsInSteps(grades, 12);
        assertThat(grades.get(0).faults()).extracting(Fault::code).containsExactly(FaultCode.OVERSHOOT);
        assertThat(grades.get(grades.size() - 1).faults())
                .extracting(Fault::code)
                .containsExactly(FaultCode.WRONG_DIRECTION);
    }

    @Test
    void aLargerHeadingOrAltitudeErrorNeverScoresHigher() {
        List<Grade> headings = new ArrayList<>();
        List<Grade> altitudes = new ArrayList<>();
        for (int error = 0; error <= 24; error += 3) {
            Leg leg = new Leg(45, -1, 120, Ocean.CALM, 9);
            leg.flight.seconds(30).turn(-error).seconds(20).turn(error).seconds(10);
            double toLine = Math.abs(leg.crossNm()) / Math.sin(Math.toRadians(45));
            leg.flight.miles(toLine - leg.flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
            leg.turnOn().asCleared();
            headings.add(Flown.fly(leg.flight.sample(1)).grade());
            double feet = error * 10;
            Leg high = Ocean.toRadial(45, 1, 120, Ocean.CALM).toLead().turnOn().asCleared();
            high.flight.altitude(t -> 6000 + feet * Math.max(0, Math.sin((t - 60) / 30)));
            altitudes.add(Flown.fly(high.flight.sample(1)).grade());
        }
        falls(headings);
        falls(altitudes);
    }

    /** Ever less of the clearance done: what was not due is not judged, so nothing is met by stopping. */
    @Test
    void stoppingEarlierNeverMeetsTheStandard() {
        Leg leg = Ocean.toRadial(60, -1, 120, Ocean.CALM).toCourse(7).turnOn();
        leg.flight.seconds(10);
        leg.sidestep().asCleared();
        List<Grade> grades = new ArrayList<>();
        var states = leg.flight.sample(1);
        for (double share : new double[] {1, 0.9, 0.5, 0.3, 0.2, 0.1}) {
            Flown flown = Flown.fly(states.subList(0, (int) (states.size() * share)));
            grades.add(flown.grade());
        }
        for (Grade grade : grades.subList(1, grades.size())) {
            assertThat(grade.verdict()).isNotEqualTo(Verdict.MET);
        }
    }

    /**
     * The published tolerances: FAA-S-ACS-8C, IR.V.A.S6 (three quarters of the scale), IR.V.B.S7 (10 degrees, 100 ft),
     * IR.V.A.S5 (5 degrees while intercepting).
     */
    @Test
    void toleranceSetsAgreeWithThePublishedStandard() throws Exception {
        for (String name : List.of("instrument-rating", "gps", "vor", "strict")) {
            ToleranceSet set = ToleranceSet.read(name);
            Limits limits = set.limits();
            for (String key : List.of("full_scale_nm", "course", "heading", "altitude", "overshoot", "fix_lateral")) {
                assertThat(set.sources())
                        .as("%s names the source of %s", name, key)
                        .containsKey(key);
            }
            boolean strict = name.equals("strict");
            assertThat(limits.courseScale()).isEqualTo(strict ? 0.5 : 0.75);
            assertThat(limits.headingDeg()).isEqualTo(5);
            assertThat(set.task()).contains("IR.V.A");
            assertThat(limits.altitudeFt()).isEqualTo(strict ? 50 : 100);
            assertThat(set.overshootNm()).isEqualTo(strict ? 0.25 : 0.5);
        }
        // En-route 2 NM, terminal 1 NM each side (AIM 1-1-17); VOR 10 degrees each side (AIM 1-1-3).
        assertThat(ToleranceSet.read("instrument-rating").limits().fullScaleNm())
                .isEqualTo(2);
        assertThat(ToleranceSet.read("gps").limits().fullScaleNm()).isEqualTo(1);
        Limits vor = ToleranceSet.read("vor").limits();
        assertThat(vor.fullScaleDeg()).isEqualTo(10);
        assertThat(vor.fullScaleAtNm(10)).isCloseTo(1.763, org.assertj.core.data.Offset.offset(0.001));
    }
}
