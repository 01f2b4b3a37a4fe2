package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FlyByTest {

    private static final double METRE_NM = 1 / Geodesics.METRES_PER_NM;

    private static GeodesicLine from(Position start, double course) {
        return GeodesicLine.from(start, new TrueDirection(course), 60);
    }

    /** Worked clearance A of our own tables: heading 110 magnetic onto V31, 120 kt, standard rate; computed. */
    @Test
    void theTurnOntoAnAirwayStartsAndEndsWhereItWasWorkedOut() {
        GeodesicLine heading = from(new Position(38.30, -55.70), 94.7935);
        GeodesicLine airway = GeodesicLine.between(new Position(38, -55), new Position(39, -53.8));
        FlyBy flyBy = FlyBy.at(heading, airway, Turn.standardRadiusNm(120)).orElseThrow();
        assertThat(flyBy.leadNm()).isCloseTo(0.312427, within(METRE_NM));
        assertThat(flyBy.arc().start().distanceNm(new Position(38.232048182, -54.732957732)))
                .isLessThan(METRE_NM);
        assertThat(flyBy.arc().end().distanceNm(new Position(38.235363129, -54.721861340)))
                .isLessThan(METRE_NM);
        assertThat(flyBy.arc().right()).isFalse();
        assertThat(flyBy.fix().turnDeg()).isCloseTo(-52.2799, within(1e-4));
    }

    @Test
    void everyArcIsTangentToBothCoursesAndLedByRTanHalfTheAngle() {
        SplittableRandom random = new SplittableRandom(6);
        for (int i = 0; i < 300; i++) {
            Position fix = new Position(random.nextDouble(-80, 80), random.nextDouble(-180, 180));
            double course = random.nextDouble(360);
            double turn = random.nextDouble(5, 150) * (random.nextBoolean() ? 1 : -1);
            double radius = random.nextDouble(0.2, 5);
            GeodesicLine in = from(fix, course + 180).reversed();
            GeodesicLine out = from(fix, course + turn);
            FlyBy flyBy = FlyBy.at(in, out, radius).orElseThrow();
            TangentArc arc = flyBy.arc();
            assertThat(arc.right()).isEqualTo(turn > 0);
            assertThat(in.offset(arc.centre()).crossTrackNm() * Math.signum(turn))
                    .isCloseTo(radius, within(1e-6));
            assertThat(out.offset(arc.centre()).crossTrackNm() * Math.signum(turn))
                    .isCloseTo(radius, within(1e-6));
            assertThat(arc.start().distanceNm(arc.centre())).isCloseTo(radius, within(1e-6));
            assertThat(arc.end().distanceNm(arc.centre())).isCloseTo(radius, within(1e-6));
            // The plane's lead; an arc whose lead is as long as its radius is wide differs by centimetres.
            double plane = Turn.leadNm(radius, turn);
            double allowed = METRE_NM * Math.max(1, plane * plane / 10);
            assertThat(flyBy.leadNm()).isCloseTo(plane, within(allowed));
            assertThat(flyBy.exitNm()).isCloseTo(plane, within(allowed));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {-120, -60, -10, 10, 60, 120})
    void theBisectorRunsThroughTheCentreAndIsPassedHalfWayRound(double turn) {
        Position fix = new Position(48, 180);
        GeodesicLine in = from(fix, 350 + 180).reversed();
        GeodesicLine out = from(fix, 350 + turn);
        FlyBy flyBy = FlyBy.at(in, out, 1.2).orElseThrow();
        assertThat(fix.to(flyBy.arc().centre()).initial().turnTo(flyBy.bisector()))
                .isCloseTo(0, within(0.01));
        assertThat(flyBy.pastBisectorNm(in.pointAt(50))).isNegative();
        assertThat(flyBy.pastBisectorNm(flyBy.arc().start())).isNegative();
        assertThat(flyBy.pastBisectorNm(fix)).isCloseTo(0, within(1e-9));
        assertThat(flyBy.pastBisectorNm(flyBy.arc().end())).isPositive();
        assertThat(flyBy.pastBisectorNm(out.pointAt(10))).isPositive();
    }

    @Test
    void aFixFlownOverIsPassedAbeamAndTheTurnCarriesPastTheCourse() {
        Position fix = new Position(-20, 179.9);
        GeodesicLine in = from(fix, 100 + 180).reversed();
        GeodesicLine out = from(fix, 190);
        FlyOver flyOver = new FlyOver(in, in.crossing(out).orElseThrow());
        assertThat(flyOver.pastFixNm(in.pointAt(50))).isCloseTo(-10, within(1e-6));
        assertThat(flyOver.pastFixNm(fix.destination(new TrueDirection(190), 3)))
                .isCloseTo(0, within(0.002));
        assertThat(flyOver.carryNm(0.6366)).isCloseTo(0.6366, within(1e-6));
    }

    @Test
    void coursesThatDoNotTurnOrTurnRightRoundHaveNoArc() {
        Position fix = new Position(30, -40);
        GeodesicLine in = from(fix, 80);
        assertThat(TangentArc.between(in, in, 1)).isEmpty();
        assertThat(TangentArc.between(in, in.reversed(), 1)).isEmpty();
        assertThat(TangentArc.between(in, from(fix, 80.0005), 1)).isEmpty();
        assertThat(TangentArc.between(in, from(fix, 80 + 179.9995), 1)).isEmpty();
        assertThat(TangentArc.between(in, from(fix, 80 + 179.9), 100)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, -1, 201, Double.NaN})
    void aTurnNeedsARadius(double radiusNm) {
        GeodesicLine in = from(new Position(0, 0), 0);
        GeodesicLine out = from(new Position(0, 0), 90);
        assertThatThrownBy(() -> FlyBy.at(in, out, radiusNm))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("turn radius");
    }
}
