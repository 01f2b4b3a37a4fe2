package org.rejoin.bridge.geo;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;

import org.rejoin.protocol.earth.Geodetic;

/**
 * The World Magnetic Model 2025 (NOAA NCEI and British Geological Survey, December 2024; public-domain coefficients):
 * variation of the compass anywhere on Earth, 2025.0 up to 2030.0.
 *
 * <p>Spherical harmonics to degree 12, Schmidt semi-normalised, reference radius 6371.2 km, coefficients linear in time
 * (WMM2025 technical report). One-sigma error of the variation: sqrt(0.26^2 + (5417 / H)^2) degrees, H in nT.
 */
public final class MagneticModel {

    private static final int DEGREE = 12;
    private static final double REFERENCE_RADIUS_KM = 6371.2;
    private static final double A_KM = Geodetic.A / 1000;

    /** The model in use is published for the years from here, and for so many. */
    private static final int FIRST_YEAR = 2025;

    private static final int YEARS = 5;

    /** Below this horizontal intensity, nT, the compass is useless (WMM report, blackout zone). */
    public static final double BLACKOUT_NT = 2000;

    /** Below this horizontal intensity, nT, the compass is poor (WMM report, caution zone). */
    public static final double CAUTION_NT = 6000;

    /** The model for 2025 to 2030. Its epoch is checked when it is loaded. */
    public static final MagneticModel WMM2025 = load("WMM2025.COF", FIRST_YEAR);

    private final double epoch;
    private final double[][] g = new double[DEGREE + 1][DEGREE + 1];
    private final double[][] h = new double[DEGREE + 1][DEGREE + 1];
    private final double[][] gDot = new double[DEGREE + 1][DEGREE + 1];
    private final double[][] hDot = new double[DEGREE + 1][DEGREE + 1];

    private MagneticModel(double epoch) {
        this.epoch = epoch;
    }

    /**
     * The field at one place and time.
     *
     * @param northNt horizontal component toward true north, nT
     * @param eastNt horizontal component toward true east, nT
     * @param downNt vertical component, nT
     * @param decimalYear for which it was asked
     * @param insideModelYears whether the model is published for that time
     */
    public record Field(double northNt, double eastNt, double downNt, double decimalYear, boolean insideModelYears) {

        /** Horizontal intensity, nT, 0 or more. */
        public double horizontalNt() {
            return Math.hypot(northNt, eastNt);
        }

        /** {@return the variation, angle from true to magnetic north} */
        public Variation variation() {
            return new Variation(Math.toDegrees(Math.atan2(eastNt, northNt)));
        }

        /** Inclination (dip), degrees, down positive, [-90, 90]. */
        public double inclinationDeg() {
            return Math.toDegrees(Math.atan2(downNt, horizontalNt()));
        }

        /**
         * {@return what a user of the variation should be told; one sentence each; empty where the number can be trusted}
         */
        public List<String> cautions() {
            List<String> cautions = new ArrayList<>();
            if (!insideModelYears) {
                cautions.add(String.format(
                        Locale.ROOT,
                        "the magnetic model is published for %d.0 to %d.0, variation for %.1f is extrapolated",
                        FIRST_YEAR,
                        FIRST_YEAR + YEARS,
                        decimalYear));
            }
            if (horizontalNt() < BLACKOUT_NT) {
                cautions.add("this is a blackout zone of the magnetic model: compass headings mean nothing here");
            } else if (horizontalNt() < CAUTION_NT) {
                cautions.add("this is a caution zone of the magnetic model: compass headings are poor here");
            }
            return cautions;
        }
    }

    /**
     * The field at a place.
     *
     * @param position on WGS 84
     * @param heightFt height above the ellipsoid, feet; altitude above mean sea level does as well (0.001 degree)
     * @param decimalYear for example 2026.41
     * @return the field
     * @throws IllegalArgumentException if the height is outside [-20000, 2000000] feet or the year outside [1900, 2100],
     *     or either is not a number
     */
    public Field field(Position position, double heightFt, double decimalYear) {
        Range.check("height", heightFt, -20_000, 2_000_000, "feet");
        Range.check("year", decimalYear, 1900, 2100, "decimal years");
        double heightKm = heightFt * Geodesics.METRES_PER_FT / 1000;
        double latitude = Math.toRadians(position.latitudeDeg());
        double longitude = Math.toRadians(position.longitudeDeg());
        double sinLat = Math.sin(latitude);
        double cosLat = Math.cos(latitude);
        // Geodetic to geocentric spherical coordinates.
        double normal = A_KM / Math.sqrt(1 - Geodetic.E2 * sinLat * sinLat);
        double p = (normal + heightKm) * cosLat;
        double z = (normal * (1 - Geodetic.E2) + heightKm) * sinLat;
        double r = Math.hypot(p, z);
        double sinPhi = z / r;
        double cosPhi = Math.max(p / r, 1e-12);

        double[][] legendre = new double[DEGREE + 2][DEGREE + 2];
        double[][] slope = new double[DEGREE + 2][DEGREE + 2];
        legendre(sinPhi, cosPhi, legendre, slope);

        double years = decimalYear - epoch;
        double north = 0;
        double east = 0;
        double down = 0;
        double ratio = REFERENCE_RADIUS_KM / r;
        double power = ratio * ratio;
        for (int n = 1; n <= DEGREE; n++) {
            power *= ratio;
            for (int m = 0; m <= n; m++) {
                double gt = g[n][m] + years * gDot[n][m];
                double ht = h[n][m] + years * hDot[n][m];
                double cos = Math.cos(m * longitude);
                double sin = Math.sin(m * longitude);
                north -= power * (gt * cos + ht * sin) * slope[n][m];
                east += power * m * (gt * sin - ht * cos) * legendre[n][m] / cosPhi;
                down -= power * (n + 1) * (gt * cos + ht * sin) * legendre[n][m];
            }
        }
        // Back from the geocentric to the geodetic vertical.
        double tilt = Math.atan2(sinPhi, cosPhi) - latitude;
        double geodeticNorth = north * Math.cos(tilt) - down * Math.sin(tilt);
        double geodeticDown = north * Math.sin(tilt) + down * Math.cos(tilt);
        return new Field(
                geodeticNorth, east, geodeticDown, decimalYear, decimalYear >= epoch && decimalYear < epoch + YEARS);
    }

    /**
     * The variation at a place on a day.
     *
     * @param position on WGS 84
     * @param altitudeFt feet, [-20000, 2000000]
     * @param date day of the flight, 1900 to 2099
     * @return angle from true to magnetic north
     * @throws IllegalArgumentException if the altitude or the year is out of range or not a number
     */
    public Variation variation(Position position, double altitudeFt, LocalDate date) {
        return field(position, altitudeFt, decimalYear(date)).variation();
    }

    /** Why the model says nothing sure of a day; empty if it is published for it. */
    public static Optional<String> notPublishedFor(LocalDate date) {
        LocalDate first = LocalDate.of(FIRST_YEAR, 1, 1);
        LocalDate after = first.plusYears(YEARS);
        return date.isBefore(first) || !date.isBefore(after)
                ? Optional.of("the magnetic model (WMM2025) is published for " + first + " to " + after.minusDays(1)
                        + ", and " + date + " is no day of it")
                : Optional.empty();
    }

    /** A day as the model counts time: year and the fraction of it that has passed at the start of the day. */
    public static double decimalYear(LocalDate date) {
        return date.getYear() + (date.getDayOfYear() - 1.0) / date.lengthOfYear();
    }

    /** Schmidt semi-normalised associated Legendre functions of sin(latitude), and their derivative by latitude. */
    private static void legendre(double sin, double cos, double[][] value, double[][] slope) {
        value[0][0] = 1;
        for (int n = 1; n <= DEGREE; n++) {
            for (int m = 0; m <= n; m++) {
                if (n == m) {
                    double factor = m == 1 ? 1 : Math.sqrt((2.0 * m - 1) / (2.0 * m));
                    value[n][m] = factor * cos * value[n - 1][m - 1];
                    slope[n][m] = factor * (cos * slope[n - 1][m - 1] - sin * value[n - 1][m - 1]);
                } else {
                    double norm = Math.sqrt((double) n * n - (double) m * m);
                    double one = (2.0 * n - 1) / norm;
                    double two = n > 1 ? Math.sqrt(((double) n - 1) * (n - 1) - (double) m * m) / norm : 0;
                    double before = n > 1 ? value[n - 2][m] : 0;
                    double beforeSlope = n > 1 ? slope[n - 2][m] : 0;
                    value[n][m] = one * sin * value[n - 1][m] - two * before;
                    slope[n][m] = one * (sin * slope[n - 1][m] + cos * value[n - 1][m]) - two * beforeSlope;
                }
            }
        }
    }

    private static MagneticModel load(String resource, double expectedEpoch) {
        try (InputStream in = Objects.requireNonNull(
                        MagneticModel.class.getResourceAsStream(resource), resource + " is missing from the jar");
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
            String header = Objects.requireNonNull(reader.readLine(), resource + " is empty");
            MagneticModel model =
                    new MagneticModel(Double.parseDouble(header.trim().split("\\s+", 2)[0]));
            if (model.epoch != expectedEpoch) {
                throw new IllegalStateException(resource + " is of epoch " + model.epoch + ", not " + expectedEpoch);
            }
            String line;
            while ((line = reader.readLine()) != null && !line.startsWith("9999")) {
                String[] field = line.trim().split("\\s+", -1);
                int n = Integer.parseInt(field[0]);
                int m = Integer.parseInt(field[1]);
                model.g[n][m] = Double.parseDouble(field[2]);
                model.h[n][m] = Double.parseDouble(field[3]);
                model.gDot[n][m] = Double.parseDouble(field[4]);
                model.hDot[n][m] = Double.parseDouble(field[5]);
            }
            return model;
        } catch (IOException e) {
            throw new UncheckedIOException(resource, e);
        }
    }
}
