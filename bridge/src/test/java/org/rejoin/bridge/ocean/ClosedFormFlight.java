package org.rejoin.bridge.ocean;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;

/**
 * A flight in closed form: geodesics and exact circular arcs over the ground at one ground speed, on the ellipsoid. The
 * heading follows from the wind triangle. Knows nothing of the practice aircraft.
 */
public final class ClosedFormFlight {

    private record Piece(double fromS, double toS, Position start, double trackDeg, double rateDegPerS) {}

    /** Where the flight is: position and track, degrees true. */
    public record Point(Position position, double trackDeg) {}

    private final double groundSpeedKt;
    private final Wind wind;
    private final List<Piece> pieces = new ArrayList<>();
    private DoubleUnaryOperator altitudeFt = t -> 6000;
    private DoubleUnaryOperator noseOffDeg = t -> 0;
    private double endS;
    private Point end;

    public ClosedFormFlight(Position start, double trackDeg, double groundSpeedKt, Wind wind) {
        this.groundSpeedKt = groundSpeedKt;
        this.wind = wind;
        this.end = new Point(start, trackDeg);
    }

    public ClosedFormFlight seconds(double seconds) {
        return add(seconds, 0);
    }

    public ClosedFormFlight miles(double nm) {
        return seconds(nm / groundSpeedKt * 3600);
    }

    /** Right positive, at the rate of the standard turn. */
    public ClosedFormFlight turn(double deg) {
        return turn(deg, rateDegPerS());
    }

    /** 3 degrees a second, or 25 degrees of bank where that is less: g tan(25) / V (ICAO Doc 8168, from memory). */
    public double rateDegPerS() {
        return Math.min(3, Math.toDegrees(9.80665 * Math.tan(Math.toRadians(25)) / (groundSpeedKt * 1852 / 3600)));
    }

    public ClosedFormFlight turn(double deg, double rateDegPerS) {
        return add(Math.abs(deg) / rateDegPerS, Math.copySign(rateDegPerS, deg));
    }

    public ClosedFormFlight turnTo(double trackDeg) {
        return turn(Angles.turn(trackDeg - end.trackDeg()));
    }

    public ClosedFormFlight altitude(DoubleUnaryOperator feetAtS) {
        altitudeFt = feetAtS;
        return this;
    }

    /** The nose swings without the aircraft going elsewhere: gusts. */
    public ClosedFormFlight noseOff(DoubleUnaryOperator degAtS) {
        noseOffDeg = degAtS;
        return this;
    }

    private ClosedFormFlight add(double seconds, double rate) {
        if (seconds > 1e-9) {
            Piece piece = new Piece(endS, endS + seconds, end.position(), end.trackDeg(), rate);
            pieces.add(piece);
            endS += seconds;
            end = at(piece, endS);
        }
        return this;
    }

    public double radiusNm() {
        return groundSpeedKt / 3600 / Math.toRadians(rateDegPerS());
    }

    public double endS() {
        return endS;
    }

    public Point end() {
        return end;
    }

    public Point at(double timeS) {
        for (Piece piece : pieces) {
            if (timeS <= piece.toS()) {
                return at(piece, timeS);
            }
        }
        return end;
    }

    private Point at(Piece piece, double timeS) {
        double elapsed = timeS - piece.fromS();
        if (piece.rateDegPerS() == 0) {
            double nm = groundSpeedKt * elapsed / 3600;
            if (nm < 1e-9) {
                return new Point(piece.start(), piece.trackDeg());
            }
            GeodesicLine line = GeodesicLine.from(piece.start(), new TrueDirection(piece.trackDeg()), nm);
            return new Point(line.end(), line.courseAt(nm).deg());
        }
        double side = Math.signum(piece.rateDegPerS()) * 90;
        double radius = groundSpeedKt / 3600 / Math.toRadians(Math.abs(piece.rateDegPerS()));
        Position centre = piece.start().destination(new TrueDirection(piece.trackDeg() + side), radius);
        double azimuth = centre.to(piece.start()).initial().deg() + piece.rateDegPerS() * elapsed;
        GeodesicLine spoke = GeodesicLine.from(centre, new TrueDirection(azimuth), radius);
        return new Point(spoke.end(), new TrueDirection(spoke.courseAt(radius).deg() + side).deg());
    }

    /** Sensor noise, one standard deviation each. */
    public record Noise(double deg, double metres, double knots, Random random) {
        public static final Noise NONE = new Noise(0, 0, 0, new Random(1));

        public static Noise usual(long seed) {
            return new Noise(0.3, 5, 1, new Random(seed));
        }

        double next(double sigma) {
            return sigma == 0 ? 0 : sigma * random.nextGaussian();
        }
    }

    public List<AircraftState> sample(double hz) {
        return sample(times(hz), Noise.NONE);
    }

    public List<Double> times(double hz) {
        List<Double> times = new ArrayList<>();
        for (int i = 0; i / hz <= endS; i++) {
            times.add(i / hz);
        }
        return times;
    }

    /** A quarter of the samples lost. */
    public List<Double> lossy(double hz, long seed) {
        Random random = new Random(seed);
        return times(hz).stream()
                .filter(t -> t == 0 || random.nextDouble() >= 0.25)
                .toList();
    }

    /** As dead reckoning sends: every 5 s when straight, every 3 degrees of turn or so. */
    public List<Double> deadReckoned(long seed) {
        Random random = new Random(seed);
        List<Double> times = new ArrayList<>();
        double t = 0;
        while (t <= endS) {
            times.add(t);
            double now = t;
            boolean turning =
                    pieces.stream().anyMatch(p -> p.rateDegPerS() != 0 && p.fromS() < now + 5 && p.toS() > now);
            t += turning ? 0.7 + 0.6 * random.nextDouble() : 3 + 2 * random.nextDouble();
        }
        return times;
    }

    public List<AircraftState> sample(List<Double> times, Noise noise) {
        return times.stream().map(t -> state(t, noise)).toList();
    }

    private AircraftState state(double t, Noise noise) {
        Point point = at(t);
        double track = Math.toRadians(point.trackDeg());
        double from = Math.toRadians(wind.from().deg());
        double north = groundSpeedKt * Math.cos(track) + wind.speedKt() * Math.cos(from);
        double east = groundSpeedKt * Math.sin(track) + wind.speedKt() * Math.sin(from);
        double heading = Math.toDegrees(Math.atan2(east, north));
        Position position = noise.metres() == 0
                ? point.position()
                : point.position()
                        .destination(
                                new TrueDirection(360 * noise.random().nextDouble()),
                                Math.abs(noise.next(noise.metres())) / 1852);
        OptionalDouble none = OptionalDouble.empty();
        return new AircraftState(
                t,
                position.latitudeDeg(),
                position.longitudeDeg(),
                OptionalDouble.of(altitudeFt.applyAsDouble(t)),
                OptionalDouble.of(Angles.circle(heading + noseOffDeg.applyAsDouble(t) + noise.next(noise.deg()))),
                none,
                OptionalDouble.of(Angles.circle(point.trackDeg() + noise.next(noise.deg()))),
                OptionalDouble.of(groundSpeedKt + noise.next(noise.knots())),
                none,
                none,
                none,
                none,
                false);
    }
}
