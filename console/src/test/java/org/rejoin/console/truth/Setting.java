package org.rejoin.console.truth;

import java.util.SplittableRandom;

/**
 * What a task is made of.
 *
 * @param shape of the clearance
 * @param latitudeDeg of the end of the intercepted leg
 * @param longitudeDeg of it
 * @param courseDeg of the intercepted leg, true, near enough
 * @param interceptDeg angle between track and course, right positive: the aircraft comes from the left
 * @param speedKt true airspeed
 * @param windFromDeg true
 * @param windKt at 6,000 ft
 * @param shearKtPer1000Ft stronger with height
 * @param gustsKt wind at 20 ft that makes the gusts
 * @param legNm from where the line is met to its end
 * @param turnDeg at that end, right positive
 * @param minutesToLine from the clearance
 * @param headingBeforeDeg how far the heading before the clearance stands from the assigned one
 */
record Setting(
        Shape shape,
        double latitudeDeg,
        double longitudeDeg,
        double courseDeg,
        double interceptDeg,
        double speedKt,
        double windFromDeg,
        double windKt,
        double shearKtPer1000Ft,
        double gustsKt,
        double legNm,
        double turnDeg,
        double minutesToLine,
        double headingBeforeDeg) {

    /** The three shapes of an amendment. */
    enum Shape {
        AIRWAY,
        RADIAL_INBOUND,
        RADIAL_OUTBOUND
    }

    /** The same everyday task for each shape: 140 kt, 45 degrees, a breeze, 12 NM on the leg. */
    static Setting everyday(Shape shape) {
        return new Setting(shape, 38.4, -49.4, 60, 45, 140, 330, 15, 0, 0, 12, 55, 3, 30);
    }

    /** Anything in the envelope. */
    static Setting drawn(Shape shape, SplittableRandom random) {
        double speed = 70 + 230 * Math.pow(random.nextDouble(), 1.3);
        double wind = Math.min(random.nextDouble() * 60, speed * 0.45);
        double intercept = side(random) * between(random, 10, 110);
        double turn = side(random) * between(random, 15, 100);
        double radiusNm = speed / 3600 / Math.toRadians(Math.min(3, 1092 * Math.tan(Math.toRadians(25)) / speed));
        double leads = radiusNm
                * (2 * Math.tan(Math.toRadians(Math.abs(intercept)) / 2)
                        + Math.tan(Math.toRadians(Math.abs(turn)) / 2));
        double settle = speed / 3600 * 75;
        double leg = Math.max(3, leads + settle) + random.nextDouble() * 9;
        double longitude =
                random.nextInt(5) == 0 ? side(random) * between(random, 179.7, 180) : between(random, -180, 180);
        return new Setting(
                shape,
                between(random, -60, 70),
                longitude,
                random.nextDouble() * 360,
                intercept,
                speed,
                random.nextDouble() * 360,
                wind,
                between(random, 0, 4),
                random.nextInt(3) == 0 ? between(random, 5, 18) : 0,
                leg,
                turn,
                between(random, 1.6, 3),
                side(random) * random.nextDouble() * 60);
    }

    private static double between(SplittableRandom random, double least, double most) {
        return least + (most - least) * random.nextDouble();
    }

    private static int side(SplittableRandom random) {
        return random.nextBoolean() ? 1 : -1;
    }

    Setting withSpeed(double kt) {
        return new Setting(
                shape,
                latitudeDeg,
                longitudeDeg,
                courseDeg,
                interceptDeg,
                kt,
                windFromDeg,
                windKt,
                shearKtPer1000Ft,
                gustsKt,
                legNm,
                turnDeg,
                minutesToLine,
                headingBeforeDeg);
    }

    Setting withWind(double fromDeg, double kt) {
        return new Setting(
                shape,
                latitudeDeg,
                longitudeDeg,
                courseDeg,
                interceptDeg,
                speedKt,
                fromDeg,
                kt,
                shearKtPer1000Ft,
                gustsKt,
                legNm,
                turnDeg,
                minutesToLine,
                headingBeforeDeg);
    }

    Setting withGusts(double kt) {
        return new Setting(
                shape,
                latitudeDeg,
                longitudeDeg,
                courseDeg,
                interceptDeg,
                speedKt,
                windFromDeg,
                windKt,
                shearKtPer1000Ft,
                kt,
                legNm,
                turnDeg,
                minutesToLine,
                headingBeforeDeg);
    }

    Setting withLeg(double nm) {
        return new Setting(
                shape,
                latitudeDeg,
                longitudeDeg,
                courseDeg,
                interceptDeg,
                speedKt,
                windFromDeg,
                windKt,
                shearKtPer1000Ft,
                gustsKt,
                nm,
                turnDeg,
                minutesToLine,
                headingBeforeDeg);
    }

    Setting withIntercept(double deg) {
        return new Setting(
                shape,
                latitudeDeg,
                longitudeDeg,
                courseDeg,
                deg,
                speedKt,
                windFromDeg,
                windKt,
                shearKtPer1000Ft,
                gustsKt,
                legNm,
                turnDeg,
                minutesToLine,
                headingBeforeDeg);
    }
}
