package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Validation: turns, leads and wind triangles against handbooks and public worked examples. */
public class TurnAndWindTest implements ExternalChecks {

    private static final String TURNS = "Turns and leads";
    private static final String WIND = "Wind triangle";
    private static final String PHAK = "Pilot's Handbook of Aeronautical Knowledge, FAA-H-8083-25, chapter ";
    private static final String ARITHMETIC = "own table, by arithmetic";

    /** True airspeed, bank for 3 degrees a second, radius at 3 and at 1.5 degrees a second and at 25 degrees of bank. */
    private static final double[][] RADII = {
        {80, 12.39, 0.4244, 0.8488, 0.2000},
        {90, 13.89, 0.4775, 0.9549, 0.2531},
        {100, 15.36, 0.5305, 1.0610, 0.3125},
        {120, 18.24, 0.6366, 1.2732, 0.4500},
        {140, 21.03, 0.7427, 1.4854, 0.6125},
        {150, 22.39, 0.7958, 1.5915, 0.7031},
        {180, 26.31, 0.9549, 1.9099, 1.0125},
        {250, 34.48, 1.3263, 2.6526, 1.9531}
    };

    /** Knots, course change, lead along the track, overshoot if begun on the course, the same five seconds late. */
    private static final double[][] LEADS = {
        {90, 30, 0.1279},
        {90, 45, 0.1978},
        {90, 90, 0.4775},
        {120, 30, 0.1706},
        {120, 45, 0.2637},
        {120, 60, 0.3676},
        {120, 90, 0.6366},
        {120, 120, 1.1027},
        {150, 45, 0.3296},
        {150, 90, 0.7958},
        {180, 60, 0.5513}
    };

    /** Course, true airspeed, wind from, wind speed, correction, heading, ground speed as printed. */
    private static final double[][] PRINTED_WINDS = {
        {90, 120, 45, 40, -14, 76, 88},
        {45, 110, 90, 25, 9.3, 54, 91},
        {270, 120, 180, 30, -14.5, 255.5, 116},
        {180, 100, 180, 20, 0, 180, 80},
        {0, 80, 180, 15, 0, 0, 95},
        {0, 90, 270, 10, -6, 354, 89.4}
    };

    private static final double[][] COMPUTED_WINDS = {
        {90, 120, 45, 40, -13.633, 76.367, 88.335},
        {45, 110, 90, 25, 9.248, 54.248, 90.893},
        {270, 120, 180, 30, -14.478, 255.522, 116.190},
        {180, 100, 180, 20, 0, 180, 80},
        {0, 80, 180, 15, 0, 0, 95},
        {0, 90, 270, 10, -6.379, 353.621, 89.443},
        {123, 140, 255, 35, 10.707, 133.707, 160.982},
        {30, 110, 0, 20, -5.216, 24.784, 92.224}
    };

    @Override
    public List<ExternalCheck> checks() {
        return List.of(
                handbookRadius(),
                handbookRate(),
                standardBank(),
                radii(),
                banks(),
                leads(),
                winds(PRINTED_WINDS, PHAK + "16 (first case); public training exercises and calculator", 0.5),
                winds(COMPUTED_WINDS, ARITHMETIC, 0.0006),
                tracks());
    }

    private static ExternalCheck handbookRadius() {
        // The handbook's 11.26 stands for 11.294: half a per cent is its rounding.
        Tally tally = new Tally(TURNS, "radius at 120 and 240 kt, 30° of bank", PHAK + "5", 0.5, "%");
        double first = Turn.radiusAtBankNm(120, 30) * Geodesics.FEET_PER_NM;
        double second = Turn.radiusAtBankNm(240, 30) * Geodesics.FEET_PER_NM;
        tally.add("120 kt", 100 * first / 2215, 100);
        tally.add("240 kt", 100 * second / 8861, 100);
        return tally.result();
    }

    private static ExternalCheck handbookRate() {
        Tally tally = new Tally(TURNS, "rate at 120 and 240 kt, 30° of bank", PHAK + "5", 0.5, "%");
        tally.add("120 kt", 100 * Turn.rateDegPerS(120, 30) / 5.25, 100);
        tally.add("240 kt", 100 * Turn.rateDegPerS(240, 30) / 2.62, 100);
        return tally.result();
    }

    private static ExternalCheck standardBank() {
        Tally tally = new Tally(TURNS, "bank for 3°/s at 169.8 kt", "ICAO Doc 8168, holding: 25° or 3°/s", 0.01, "°");
        tally.add("169.8 kt", Turn.bankDeg(169.8, 3), 25);
        return tally.result();
    }

    private static ExternalCheck radii() {
        Tally tally = new Tally(TURNS, "radius at 3°/s, 1.5°/s and 25° of bank", ARITHMETIC, 0.00006, "NM");
        for (double[] row : RADII) {
            tally.add(row[0], Turn.standardRadiusNm(row[0]), row[2]);
            tally.add(row[0], Turn.radiusNm(row[0], 1.5), row[3]);
            tally.add(row[0], Turn.radiusAtBankNm(row[0], 25), row[4]);
        }
        return tally.result();
    }

    private static ExternalCheck banks() {
        Tally tally = new Tally(TURNS, "bank for 3°/s", ARITHMETIC, 0.0051, "°");
        for (double[] row : RADII) {
            tally.add(row[0], Turn.bankDeg(row[0], 3), row[1]);
        }
        return tally.result();
    }

    private static ExternalCheck leads() {
        Tally tally = new Tally(TURNS, "lead", ARITHMETIC, 0.00006, "NM");
        for (double[] row : LEADS) {
            double radius = Turn.standardRadiusNm(row[0]);
            tally.add(row[0] + " kt, " + row[1], Turn.leadNm(radius, row[1]), row[2]);
        }
        return tally.result();
    }

    private static ExternalCheck winds(double[][] table, String source, double tolerance) {
        Tally tally = new Tally(WIND, "correction, heading (°), ground speed (kt) for a course", source, tolerance, "");
        for (double[] row : table) {
            GroundVector.HeadingForCourse found = GroundVector.forCourse(new TrueDirection(row[0]), row[1], wind(row))
                    .orElseThrow();
            tally.add(row[0], found.correctionDeg(), row[4]);
            tally.add(row[0], found.heading(), new TrueDirection(row[5]));
            tally.add(row[0], found.groundSpeedKt(), row[6]);
        }
        return tally.result();
    }

    private static ExternalCheck tracks() {
        Tally tally = new Tally(WIND, "track (°) and ground speed (kt) on a heading", ARITHMETIC, 0.001, "");
        for (double[] row : COMPUTED_WINDS) {
            GroundVector found = GroundVector.onHeading(new TrueDirection(row[5]), row[1], wind(row));
            tally.add(row[0], found.track(), new TrueDirection(row[0]));
            tally.add(row[0], found.groundSpeedKt(), row[6]);
        }
        return tally.result();
    }

    private static Wind wind(double[] row) {
        return new Wind(new TrueDirection(row[2]), row[3]);
    }

    @Test
    void aWindTooStrongGivesNoHeading() {
        TrueDirection north = new TrueDirection(0);
        Wind west = new Wind(new TrueDirection(270), 100);
        assertThat(GroundVector.forCourse(north, 99, west)).isEmpty();
        assertThat(GroundVector.forCourse(north, 100, new Wind(north, 100))).isEmpty();
        assertThat(GroundVector.forCourse(north, 0, Wind.CALM)).isEmpty();
        assertThat(GroundVector.forCourse(north, 0, west)).isEmpty();
    }

    @Test
    void anAircraftThatHoversHasItsHeadingForTrack() {
        TrueDirection north = new TrueDirection(0);
        assertThat(GroundVector.onHeading(north, 50, new Wind(north, 50))).isEqualTo(new GroundVector(north, 0));
    }

    @Test
    void theSignOfACourseChangeMakesNoDifferenceToLeadAndCarry() {
        assertThat(Turn.leadNm(1, -60)).isEqualTo(Turn.leadNm(1, 60));
        assertThat(Turn.leadNm(1, 180)).isFinite();
        assertThat(Turn.rateDegPerS(120, -30)).isCloseTo(-Turn.rateDegPerS(120, 30), within(1e-12));
    }

    @Test
    void whatIsNotANumberOrMakesNoCircleIsRefused() {
        TrueDirection north = new TrueDirection(0);
        refused(() -> Turn.radiusNm(Double.NaN, 3), "ground speed");
        refused(() -> Turn.radiusNm(120, 0), "rate of turn");
        refused(() -> Turn.standardRadiusNm(-1), "ground speed");
        refused(() -> Turn.radiusAtBankNm(120, 0), "bank");
        refused(() -> Turn.radiusAtBankNm(120, 90), "bank");
        refused(() -> Turn.rateDegPerS(0, 30), "true airspeed");
        refused(() -> Turn.bankDeg(Double.POSITIVE_INFINITY, 3), "true airspeed");
        refused(() -> Turn.leadNm(1, 181), "course change");
        refused(() -> GroundVector.onHeading(north, Double.NaN, Wind.CALM), "true airspeed");
        refused(() -> GroundVector.forCourse(north, -1, Wind.CALM), "true airspeed");
        refused(() -> new GroundVector(north, Double.NaN), "ground speed");
        refused(() -> new Wind(north, Double.NaN), "wind speed");
        refused(() -> new Wind(north, 301), "wind speed");
    }

    private static void refused(Runnable call, String name) {
        assertThatThrownBy(call::run)
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining(name);
    }

    /**
     * R = V^2 / (g tan(bank)), lead = R tan(angle / 2) (Pilot's Handbook of Aeronautical Knowledge, chapter 5; Instrument
     * Flying Handbook): 25 degrees of bank and 80 degrees, worked by hand. Below 170 kt it is the turn at standard rate.
     */
    @ParameterizedTest
    @CsvSource({"120, 0.5342", "160, 0.7123", "250, 1.639", "338, 2.996", "480, 6.041"})
    void theLeadOfTheStandardTurnIsThatOf25DegreesOfBankWhereStandardRateNeedsMore(double kt, double leadNm) {
        double atStandardRate = Turn.leadNm(Turn.standardRadiusNm(kt), 80);
        assertThat(Turn.longerLeadNm(atStandardRate, kt)).isCloseTo(leadNm, within(0.001));
        assertThat(Turn.standardTurnLeadNm(kt, 80)).isCloseTo(leadNm, within(0.001));
    }
}
