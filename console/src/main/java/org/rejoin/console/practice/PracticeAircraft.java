package org.rejoin.console.practice;

import java.time.LocalDate;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.protocol.AircraftState;

/**
 * A point mass in moving air: coordinated turns at g tan(bank) / V, a roll that lags and has a largest rate, a climb and a
 * speed that lag. A gust swings the nose at once and carries the aircraft with it only after a while. Immutable;
 * {@link #after} is the aircraft a moment later.
 *
 * @param timeS simulation time, seconds, from 0
 * @param position WGS 84
 * @param altitudeFt above mean sea level
 * @param heading of the path through the mean air, true; the nose stands beside it in a gust
 * @param bankDeg right positive
 * @param verticalSpeedFpm through the mean air, up positive
 * @param trueAirspeedKt knots
 * @param wind the mean wind here
 * @param gusted what gusts have done to it
 */
public record PracticeAircraft(
        double timeS,
        Position position,
        double altitudeFt,
        TrueDirection heading,
        double bankDeg,
        double verticalSpeedFpm,
        double trueAirspeedKt,
        Wind wind,
        Gusted gusted) {

    /**
     * What the pilot asks of the aircraft.
     *
     * @param bankDeg right positive; limited to {@link #STEEPEST_BANK_DEG}
     * @param altitudeFt to climb or descend to, feet above mean sea level
     * @param trueAirspeedKt to fly, knots
     */
    public record Controls(double bankDeg, double altitudeFt, double trueAirspeedKt) {}

    /** Largest bank of a well-flown turn, degrees: what a holding pattern allows (ICAO Doc 8168). */
    public static final double LARGEST_BANK_DEG = 25;

    /** Largest bank that the model takes from a pilot, degrees. */
    public static final double STEEPEST_BANK_DEG = 45;

    /** Largest roll rate, degrees a second; common practice, no source. */
    static final double ROLL_DEG_PER_S = 8;

    /** Time constant of the roll, seconds; common practice, no source. */
    static final double ROLL_LAG_S = 0.6;

    private static final double CLIMB_FPM = 700;

    /** What it can do against rising and sinking air, feet a minute; common practice, no source. */
    private static final double STEEPEST_FPM = 1500;

    private static final double CLIMB_LAG_S = 2;
    private static final double SPEED_LAG_S = 8;
    private static final double SPEED_KT_PER_S = 1.5;

    /** Time constant with which a gust carries the aircraft along, seconds; common practice, no source. */
    private static final double CARRY_LAG_S = 3;

    /** Time constant with which the nose turns into a gust, seconds; common practice, no source. */
    private static final double NOSE_LAG_S = 1;

    private static final double FPM_PER_KT = Turbulence.FPS_PER_KT * 60;

    /**
     * What gusts have done to the aircraft.
     *
     * @param northKt how fast it is carried north, knots
     * @param eastKt how fast it is carried east, knots
     * @param upFpm how fast it is carried up, feet a minute
     * @param noseDeg how far the nose stands to the right of the path, degrees
     */
    public record Gusted(double northKt, double eastKt, double upFpm, double noseDeg) {
        /** Smooth air. */
        public static final Gusted NOT = new Gusted(0, 0, 0, 0);
    }

    /** At the start of a lesson, wings level in its wind and smooth air. */
    public static PracticeAircraft at(Lesson.Start start, Wind wind, LocalDate date) {
        Variation variation = MagneticModel.WMM2025.variation(start.position(), start.altitudeFt(), date);
        return new PracticeAircraft(
                0,
                start.position(),
                start.altitudeFt(),
                start.heading().toTrue(variation),
                0,
                0,
                start.speedKt(),
                wind,
                Gusted.NOT);
    }

    /** Motion over the ground, gusts included. */
    public GroundVector ground() {
        GroundVector mean = GroundVector.onHeading(heading, trueAirspeedKt, wind);
        return gusted.equals(Gusted.NOT) ? mean : carried(mean);
    }

    private GroundVector carried(GroundVector mean) {
        double track = Math.toRadians(mean.track().deg());
        double north = mean.groundSpeedKt() * Math.cos(track) + gusted.northKt();
        double east = mean.groundSpeedKt() * Math.sin(track) + gusted.eastKt();
        return new GroundVector(new TrueDirection(Math.toDegrees(Math.atan2(east, north))), Math.hypot(north, east));
    }

    /** Where the nose points. */
    public TrueDirection nose() {
        return new TrueDirection(heading.deg() + gusted.noseDeg());
    }

    /** Bank of a well-flown turn, degrees: standard rate or 25 degrees, whichever needs less (ICAO Doc 8168). */
    public double standardBankDeg() {
        return Math.min(LARGEST_BANK_DEG, Turn.bankDeg(trueAirspeedKt, Turn.STANDARD_RATE_DEG_PER_S));
    }

    /**
     * The aircraft a moment later, seconds, at most 0.1: small against the roll. The winds are mean winds by altitude above mean sea level, feet.
     */
    public PracticeAircraft after(double stepS, Controls wanted, DoubleFunction<Wind> winds, DrydenGusts.Gust gust) {
        double bank = bankDeg + stepS * (rollDegPerS(wanted.bankDeg()) + gust.rollDegPerS());
        double rate = Turn.rateDegPerS(trueAirspeedKt, (bank + bankDeg) / 2);
        // Whoever holds an altitude sees what the air does to it.
        double asked =
                limited(limited((wanted.altitudeFt() - altitudeFt) * 6, CLIMB_FPM) - gusted.upFpm(), STEEPEST_FPM);
        double climb = verticalSpeedFpm + (asked - verticalSpeedFpm) * stepS / CLIMB_LAG_S;
        double speed = trueAirspeedKt
                + stepS * limited((wanted.trueAirspeedKt() - trueAirspeedKt) / SPEED_LAG_S, SPEED_KT_PER_S);
        Gusted next =
                gust.equals(DrydenGusts.Gust.NONE) && gusted.equals(Gusted.NOT) ? gusted : gustedAfter(stepS, gust);
        PracticeAircraft middle = new PracticeAircraft(
                timeS + stepS / 2,
                position,
                altitudeFt,
                new TrueDirection(heading.deg() + rate * stepS / 2),
                bank,
                climb,
                trueAirspeedKt,
                wind,
                next);
        GroundVector ground = middle.ground();
        double altitude = altitudeFt + (climb + next.upFpm()) * stepS / 60;
        return new PracticeAircraft(
                timeS + stepS,
                position.destination(ground.track(), ground.groundSpeedKt() * stepS / 3600),
                altitude,
                new TrueDirection(heading.deg() + rate * stepS),
                bank,
                climb,
                speed,
                winds.apply(altitude),
                next);
    }

    private double rollDegPerS(double wantedBankDeg) {
        return limited((limited(wantedBankDeg, STEEPEST_BANK_DEG) - bankDeg) / ROLL_LAG_S, ROLL_DEG_PER_S);
    }

    private Gusted gustedAfter(double stepS, DrydenGusts.Gust gust) {
        double path = Math.toRadians(heading.deg());
        double north = gust.alongKt() * Math.cos(path) - gust.acrossKt() * Math.sin(path);
        double east = gust.alongKt() * Math.sin(path) + gust.acrossKt() * Math.cos(path);
        double carriedAcross = gusted.eastKt() * Math.cos(path) - gusted.northKt() * Math.sin(path);
        double share = stepS / CARRY_LAG_S;
        // The nose points into what the air does beyond what it carries: from the right, to the right.
        double nose = Math.toDegrees(Math.atan((carriedAcross - gust.acrossKt()) / trueAirspeedKt));
        return new Gusted(
                gusted.northKt() + share * (north - gusted.northKt()),
                gusted.eastKt() + share * (east - gusted.eastKt()),
                gusted.upFpm() + share * (gust.upKt() * FPM_PER_KT - gusted.upFpm()),
                gusted.noseDeg() + stepS / NOSE_LAG_S * (nose - gusted.noseDeg()));
    }

    private static double limited(double value, double most) {
        return Math.max(-most, Math.min(most, value));
    }

    /** What a simulator would send, by the variation of the place and day. */
    public AircraftState state(Variation variation) {
        GroundVector ground = ground();
        TrueDirection nose = nose();
        MagneticDirection magnetic = nose.toMagnetic(variation);
        return new AircraftState(
                timeS,
                position.latitudeDeg(),
                position.longitudeDeg(),
                OptionalDouble.of(altitudeFt),
                OptionalDouble.of(nose.deg()),
                OptionalDouble.of(magnetic.deg()),
                OptionalDouble.of(ground.track().deg()),
                OptionalDouble.of(ground.groundSpeedKt()),
                OptionalDouble.of(verticalSpeedFpm + gusted.upFpm()),
                OptionalDouble.of(0),
                OptionalDouble.of(Angles.turn(bankDeg)),
                OptionalDouble.empty(),
                false);
    }
}
