package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;

/** The manoeuvres of the learning page, flown in wind and light turbulence over the open ocean, as sensors see them. */
final class FlownScript {

    static final double YEAR = 2026.4;

    /** What is true at one time; degrees, feet, knots, feet a minute. */
    record Moment(
            double timeS,
            double latitude,
            double longitude,
            double altitude,
            double heading,
            double magneticHeading,
            double track,
            double groundSpeed,
            double verticalSpeed,
            double roll,
            double pitch,
            double airspeed) {}

    private static final double STEP_S = 0.05;
    private static final double G_KT_S = 9.80665 * 3600 / 1852;

    private final Random random;
    private final List<Moment> moments = new ArrayList<>();
    private double variation;

    private double latitude;
    private double longitude;
    private double altitude;
    private double heading;
    private double airspeed;
    private double bank;
    private double climb;
    private double windNorth;
    private double windEast;
    private double gust;
    private double timeS;

    FlownScript(Random random, double rateHz, double windKt) {
        this.random = random;
        do {
            latitude = -58 + 116 * random.nextDouble();
            longitude = -179 + 358 * random.nextDouble();
            variation = MagneticModel.WMM2025
                    .field(new Position(latitude, longitude), 0, YEAR)
                    .variation()
                    .eastDeg();
        } while (Math.abs(variation) < 3.5);
        altitude = 2500 + 7000 * random.nextDouble();
        heading = 360 * random.nextDouble();
        airspeed = 90 + 50 * random.nextDouble();
        double from = 2 * Math.PI * random.nextDouble();
        windNorth = windKt * Math.cos(from);
        windEast = windKt * Math.sin(from);
        fly(rateHz);
    }

    List<Moment> moments() {
        return moments;
    }

    double variation() {
        return variation;
    }

    private void fly(double rateHz) {
        double turnBank = (19 + 6 * random.nextDouble()) * (random.nextBoolean() ? 1 : -1);
        double rate = Math.toDegrees(G_KT_S * Math.tan(Math.toRadians(Math.abs(turnBank))) / airspeed);
        double climbFpm = 700 + 500 * random.nextDouble();
        hold(8, 0, 0, airspeed, rateHz);
        hold(365 / rate, turnBank, 0, airspeed, rateHz);
        hold(5, 0, 0, airspeed, rateHz);
        hold(30, 0, climbFpm, airspeed, rateHz);
        hold(5, 0, 0, airspeed, rateHz);
        hold(12, 0, 0, airspeed + 18, rateHz);
        hold(12, -turnBank, 0, airspeed, rateHz);
        hold(Math.max(20, 180 - timeS), 0, -600, airspeed, rateHz);
    }

    private void hold(double seconds, double wantedBank, double wantedClimb, double wantedSpeed, double rateHz) {
        for (double end = timeS + seconds; timeS < end; timeS += STEP_S) {
            gust += -gust * STEP_S / 2 + 0.5 * Math.sqrt(STEP_S) * random.nextGaussian();
            bank += limited(wantedBank - bank, 6 * STEP_S) + 0.5 * gust * STEP_S;
            climb += limited(wantedClimb - climb, 150 * STEP_S);
            airspeed += limited(wantedSpeed - airspeed, 1.5 * STEP_S);
            heading += Math.toDegrees(G_KT_S * Math.tan(Math.toRadians(bank)) / airspeed) * STEP_S;
            double north = airspeed * Math.cos(Math.toRadians(heading)) + windNorth;
            double east = airspeed * Math.sin(Math.toRadians(heading)) + windEast;
            double phi = Math.toRadians(latitude);
            double w2 = 1 - 0.00669437999 * Math.sin(phi) * Math.sin(phi);
            double prime = 6_378_137 / Math.sqrt(w2) / 1852;
            latitude += Math.toDegrees(north / 3600 * STEP_S / (prime * (1 - 0.00669437999) / w2));
            longitude += Math.toDegrees(east / 3600 * STEP_S / (prime * Math.cos(phi)));
            altitude += climb / 60 * STEP_S;
            double attack = 3 * Math.pow(110 / airspeed, 2) / Math.cos(Math.toRadians(bank));
            double path = Math.toDegrees(Math.atan(climb / 60 / (airspeed * 1852 / 3600 / 0.3048)));
            int tick = (int) Math.round(timeS / STEP_S);
            if (tick % Math.max(1, (int) Math.round(1 / rateHz / STEP_S)) == 0) {
                seen(north, east, path + attack);
            }
        }
    }

    private void seen(double north, double east, double pitch) {
        double metresNorth = 0.8 * random.nextGaussian();
        double metresEast = 0.8 * random.nextGaussian();
        double nose = heading + 0.2 * random.nextGaussian();
        moments.add(new Moment(
                timeS,
                latitude + metresNorth / 111_200,
                Math.IEEEremainder(longitude + metresEast / 111_200 / Math.cos(Math.toRadians(latitude)), 360),
                altitude + 2 * random.nextGaussian(),
                turn(nose),
                turn(nose - variation + 0.3),
                turn(Math.toDegrees(Math.atan2(east, north)) + 0.3 * random.nextGaussian()),
                Math.hypot(north, east) + 0.3 * random.nextGaussian(),
                climb + 20 * random.nextGaussian(),
                bank + 0.3 * random.nextGaussian(),
                pitch + 0.2 * random.nextGaussian(),
                airspeed + 0.3 * random.nextGaussian()));
    }

    private static double limited(double value, double limit) {
        return Math.max(-limit, Math.min(limit, value));
    }

    private static double turn(double deg) {
        double reduced = deg % 360;
        return reduced < 0 ? reduced + 360 : reduced;
    }
}
