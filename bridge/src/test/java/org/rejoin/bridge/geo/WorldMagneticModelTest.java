package org.rejoin.bridge.geo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;

import org.junit.jupiter.api.Test;

/** Validation: the magnetic model against the values its authors publish with it. */
public class WorldMagneticModelTest implements ExternalChecks {

    private static final String TOPIC = "Magnetic model";
    private static final String REPORT = "WMM2025 technical report, test values (NOAA NCEI, BGS, 2024)";
    private static final String PACKAGE = "WMM2025 coefficient package, test values (NOAA NCEI, BGS, 2024)";

    /** Half of the last printed digit and a little. */
    private static final double ANGLE_DEG = 0.0051;

    private static final double FIELD_NT = 0.06;

    private static final MagneticModel MODEL = MagneticModel.WMM2025;

    @Override
    public List<ExternalCheck> checks() {
        Tally angle = new Tally(TOPIC, "declination and inclination, report", REPORT, ANGLE_DEG, "°");
        Tally field = new Tally(TOPIC, "field X, Y, Z, H, report", REPORT, FIELD_NT, "nT");
        Tally change = new Tally(TOPIC, "change of declination in a year, report", REPORT, ANGLE_DEG, "°");
        for (CheckTable.Row row : CheckTable.read("wmm2025-report.csv").rows()) {
            MagneticModel.Field found = field(row, 0);
            angles(angle, row, found);
            change.add(row, change(row), row.number("dD_deg_per_year"));
            field.add(row, found.northNt(), row.number("X_nT"));
            field.add(row, found.eastNt(), row.number("Y_nT"));
            field.add(row, found.downNt(), row.number("Z_nT"));
            field.add(row, found.horizontalNt(), row.number("H_nT"));
        }
        Tally packageAngle = new Tally(TOPIC, "declination and inclination, package", PACKAGE, ANGLE_DEG, "°");
        Tally horizontal = new Tally(TOPIC, "horizontal intensity, package", PACKAGE, 0.51, "nT");
        Tally packageChange = new Tally(TOPIC, "change of declination in a year, package", PACKAGE, ANGLE_DEG, "°");
        for (CheckTable.Row row : CheckTable.read("wmm2025-package.csv").rows()) {
            MagneticModel.Field found = field(row, 0);
            angles(packageAngle, row, found);
            horizontal.add(row, found.horizontalNt(), row.number("H_nT"));
            packageChange.add(row, change(row), row.number("dD_deg_per_year"));
        }
        return List.of(
                angle.result(),
                field.result(),
                change.result(),
                packageAngle.result(),
                horizontal.result(),
                packageChange.result(),
                spotValues());
    }

    private static void angles(Tally tally, CheckTable.Row row, MagneticModel.Field found) {
        tally.add(row, found.variation().eastDeg(), row.number("D_deg_E"));
        tally.add(row, found.inclinationDeg(), row.number("I_deg"));
    }

    private static MagneticModel.Field field(CheckTable.Row row, double laterYears) {
        return MODEL.field(
                row.position("lat", "lon"),
                row.number("height_km") * 1000 / Geodesics.METRES_PER_FT,
                row.number("decimal_year") + laterYears);
    }

    /** The rate at the moment, as the report has it, by a small difference. */
    private static double change(CheckTable.Row row) {
        double step = 0.001;
        return (field(row, step).variation().eastDeg()
                        - field(row, -step).variation().eastDeg())
                / (2 * step);
    }

    private static ExternalCheck spotValues() {
        Tally tally = new Tally(
                TOPIC,
                "variation at seven places, 2026.5",
                "own table, computed with an independent spherical-harmonic evaluation",
                0.00006,
                "°");
        double[][] table = {
            {40, -75, -11.8983},
            {39, -105, 7.4531},
            {34, -118, 11.2996},
            {47.5, -122, 14.8225},
            {61, -150, 14.0207},
            {70, -150, 13.4920},
            {21, -158, 9.2525}
        };
        for (double[] spot : table) {
            double found = MODEL.field(new Position(spot[0], spot[1]), 0, 2026.5)
                    .variation()
                    .eastDeg();
            tally.add(spot[0] + "," + spot[1], found, spot[2]);
        }
        return tally.result();
    }

    @Test
    void theVariationOfADayIsThatOfItsDecimalYear() {
        // The worked clearances: aircraft at 5000 ft, stations at sea level, 2026-06-01; computed independently.
        LocalDate day = LocalDate.of(2026, 6, 1);
        assertThat(MagneticModel.decimalYear(day)).isCloseTo(2026 + 151.0 / 365, within(1e-12));
        assertThat(MagneticModel.decimalYear(LocalDate.of(2028, 12, 31))).isCloseTo(2028 + 365.0 / 366, within(1e-12));
        double[][] table = {
            {38.30, -55.70, 5000, -15.2065},
            {38.75, -55.10, 5000, -15.1929},
            {38.60, -54.90, 5000, -15.1583},
            {38.0, -55.0, 0, -15.1185},
            {39.0, -53.8, 0, -15.0713},
            {39.2, -55.0, 0, -15.2306},
            {38.4, -53.6, 0, -14.9905}
        };
        for (double[] row : table) {
            assertThat(MODEL.variation(new Position(row[0], row[1]), row[2], day)
                            .eastDeg())
                    .isCloseTo(row[3], within(0.00006));
        }
    }

    @Test
    void saysWhenItIsOutsideItsYears() {
        Position place = new Position(40, -40);
        assertThat(MODEL.field(place, 0, 2025).cautions()).isEmpty();
        assertThat(MODEL.field(place, 0, 2029.999).cautions()).isEmpty();
        assertThat(MODEL.field(place, 0, 2030).cautions())
                .singleElement()
                .asString()
                .contains("2030.0");
        assertThat(MODEL.field(place, 0, 2024.9).cautions())
                .singleElement()
                .asString()
                .contains("extrapolated");
        for (LocalDate day : List.of(LocalDate.of(2025, 1, 1), LocalDate.of(2029, 12, 31))) {
            assertThat(MagneticModel.notPublishedFor(day)).isEmpty();
        }
        for (LocalDate day : List.of(LocalDate.of(2024, 12, 31), LocalDate.of(2030, 1, 1))) {
            assertThat(MagneticModel.notPublishedFor(day).orElseThrow()).contains("2025-01-01 to 2029-12-31");
            assertThat(MODEL.field(place, 0, MagneticModel.decimalYear(day)).insideModelYears())
                    .isFalse();
        }
    }

    @Test
    void saysWhenTheCompassIsPoorOrUseless() {
        assertThat(MODEL.field(new Position(86, -140), 0, 2026).cautions())
                .singleElement()
                .asString()
                .contains("blackout");
        assertThat(MODEL.field(new Position(80, 0), 0, 2026).cautions()).isEmpty();
        assertThat(MODEL.field(new Position(80, -100), 0, 2026).cautions())
                .singleElement()
                .asString()
                .contains("caution");
    }

    @Test
    void isFiniteAndContinuousAtThePoles() {
        for (double pole : new double[] {90, -90}) {
            MagneticModel.Field at = MODEL.field(new Position(pole, 20), 0, 2026);
            MagneticModel.Field near = MODEL.field(new Position(pole * (1 - 1e-8), 20), 0, 2026);
            assertThat(at.northNt()).isCloseTo(near.northNt(), within(0.1));
            assertThat(at.eastNt()).isCloseTo(near.eastNt(), within(0.1));
            assertThat(at.downNt()).isCloseTo(near.downNt(), within(0.1));
        }
    }

    @Test
    void refusesWhatIsNotANumber() {
        Position place = new Position(40, -40);
        assertThatThrownBy(() -> MODEL.field(place, Double.NaN, 2026))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("height");
        assertThatThrownBy(() -> MODEL.field(place, 0, Double.NaN))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("year");
    }
}
