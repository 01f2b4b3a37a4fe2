package org.rejoin.console.best;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.protocol.AircraftState;

/**
 * A recorded flight as far as one of its turns, and straight on from where that was begun. In another wind the aircraft has
 * the same headings at the same times and is carried by the difference of the winds. Pure.
 */
final class Recorded {

    private static final double STEP_S = 1;

    private final List<Point> flown;
    private final double untilS;
    private final double heardS;
    private final Wind wind;
    private final Wind other;

    /**
     * A flight.
     *
     * @param flown in order of time, one or more
     * @param turnS when its turn began; empty where it never turned
     * @param heardS when the clearance was heard: the other wind blows from here on
     * @param wind that it was flown in
     * @param other wind
     */
    Recorded(List<Point> flown, OptionalDouble turnS, double heardS, Wind wind, Wind other) {
        this.flown = flown;
        this.untilS = Math.min(
                turnS.orElse(Double.POSITIVE_INFINITY),
                flown.get(flown.size() - 1).timeS());
        this.heardS = heardS;
        this.wind = wind;
        this.other = other;
    }

    /** The aircraft at a moment: its true heading, its true airspeed in knots. */
    record Moment(Position position, TrueDirection heading, double trueAirspeedKt) {}

    static GroundVector ground(Point at) {
        return new GroundVector(new TrueDirection(at.trackTrueDeg()), at.groundSpeedKt());
    }

    boolean inOtherWind() {
        return !wind.equals(other);
    }

    double heardS() {
        return heardS;
    }

    /** Where it is, seconds since the first sample. */
    Moment at(double timeS) {
        double recordedS = Math.min(timeS, untilS);
        int index = indexAt(flown, recordedS);
        Point point = flown.get(index);
        Air air = Air.behind(ground(point), wind);
        TrueDirection heading = air.headingOf(ground(point));
        Position position = carried(position(flown, recordedS), recordedS);
        if (timeS > untilS) {
            GroundVector ground = GroundVector.onHeading(heading, air.trueAirspeedKt(), other);
            Stretch.OnHeading straight = new Stretch.OnHeading(position, heading, ground, timeS - untilS);
            return new Moment(straight.at(straight.seconds()), straight.endHeading(), air.trueAirspeedKt());
        }
        return new Moment(position, heading, air.trueAirspeedKt());
    }

    /** Where the aircraft was, along the geodesic from one sample to the next; at the last one after it. */
    static Position position(List<Point> flown, double timeS) {
        int index = indexAt(flown, timeS);
        Point at = flown.get(index);
        if (index + 1 >= flown.size() || timeS <= at.timeS()) {
            return at.position();
        }
        Point next = flown.get(index + 1);
        double nm = at.position().distanceNm(next.position());
        double share = (timeS - at.timeS()) / (next.timeS() - at.timeS());
        return nm < 1e-9
                ? at.position()
                : at.position().destination(at.position().to(next.position()).initial(), nm * share);
    }

    /** Displacement = (other wind - wind) * time. */
    private Position carried(Position position, double timeS) {
        double hours = Math.max(0, timeS - heardS) / 3600;
        double north = hours * (north(other) - north(wind));
        double east = hours * (east(other) - east(wind));
        double nm = Math.hypot(north, east);
        return nm < 1e-9
                ? position
                : position.destination(new TrueDirection(Math.toDegrees(Math.atan2(east, north))), nm);
    }

    private static double north(Wind wind) {
        return -wind.speedKt() * Math.cos(Math.toRadians(wind.from().deg()));
    }

    private static double east(Wind wind) {
        return -wind.speedKt() * Math.sin(Math.toRadians(wind.from().deg()));
    }

    /**
     * When it first comes so near to the line of a turn, nautical miles square to it and negative past it; seconds
     * since the first sample, empty where it never comes there.
     */
    Optional<Double> beginS(FlownTurns.Found turn, double beforeNm) {
        double from = turn.fromS();
        if (missNm(turn, from) <= beforeNm) {
            return Optional.of(from);
        }
        for (double s = from; s < from + TurnStart.LONGEST_S; s += STEP_S) {
            if (missNm(turn, s + STEP_S) <= beforeNm) {
                return Optional.of(TurnStart.begins(s, s + STEP_S, middleS -> missNm(turn, middleS) <= beforeNm));
            }
        }
        return Optional.empty();
    }

    private double missNm(FlownTurns.Found turn, double timeS) {
        return turn.near() * turn.line().offset(at(timeS).position()).crossTrackNm();
    }

    /** Its states before a time, as recorded where nothing is different. */
    List<AircraftState> before(double timeS) {
        List<AircraftState> states = new ArrayList<>();
        for (Point point : flown) {
            if (point.timeS() < timeS && point.timeS() <= untilS) {
                states.add(
                        inOtherWind() && point.timeS() > heardS
                                ? as(point.timeS(), at(point.timeS()), Double.NaN)
                                : point.state());
            }
        }
        for (double s = untilS + Comparison.EVERY_S; s < timeS; s += Comparison.EVERY_S) {
            states.add(as(s, at(s), 0));
        }
        return states;
    }

    private AircraftState as(double timeS, Moment moment, double bankDeg) {
        return state(
                timeS,
                moment.position(),
                moment.heading(),
                GroundVector.onHeading(moment.heading(), moment.trueAirspeedKt(), other),
                bankDeg);
    }

    /**
     * A state on another path; heights and what else has nothing to do with the path as recorded at that time.
     *
     * @param timeS seconds since the first sample
     * @param position there
     * @param heading true
     * @param ground motion
     * @param bankDeg right positive; NaN for the recorded one
     * @return with those members that the feed sends
     */
    AircraftState state(double timeS, Position position, TrueDirection heading, GroundVector ground, double bankDeg) {
        AircraftState sent = flown.get(indexAt(flown, timeS)).state();
        boolean headed =
                sent.headingTrueDeg().isPresent() || sent.headingMagneticDeg().isPresent();
        return new AircraftState(
                timeS,
                position.latitudeDeg(),
                position.longitudeDeg(),
                sent.altitudeMslFt(),
                headed ? OptionalDouble.of(heading.deg()) : OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(ground.track().deg()),
                OptionalDouble.of(ground.groundSpeedKt()),
                sent.verticalSpeedFpm(),
                sent.pitchDeg(),
                sent.rollDeg().isEmpty() || Double.isNaN(bankDeg) ? sent.rollDeg() : OptionalDouble.of(bankDeg),
                sent.indicatedAirspeedKt(),
                false);
    }

    /** The last sample at or before a time; the first where there is none. */
    static int indexAt(List<Point> flown, double timeS) {
        int low = 0;
        int high = flown.size() - 1;
        while (low < high) {
            int middle = (low + high + 1) / 2;
            if (flown.get(middle).timeS() <= timeS) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }
}
