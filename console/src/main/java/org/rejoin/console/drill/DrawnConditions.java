package org.rejoin.console.drill;

import java.util.List;
import java.util.Random;

import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.skill.Shape;

/**
 * What a drill is to be like where nobody asked: decided once from the seed, before the chart is looked at, so that a chart
 * that favours one side does not make all drills lean to it.
 *
 * @param turnsRight onto the course
 * @param thenRight at the end of the line
 * @param firstTurnDeg from the present heading to the assigned one, right positive
 */
record DrawnConditions(
        Shape shape, boolean turnsRight, boolean thenRight, double firstTurnDeg, Wind wind, Extra extra) {

    /** What is assigned beside the line, feet or not at all; half of all drills have nothing (judgement). */
    enum Extra {
        NONE(0),
        CLIMB_1000(1000),
        CLIMB_2000(2000),
        DESCEND_1000(-1000),
        DESCEND_2000(-2000),
        SPEED(0);

        /** From the present altitude to the assigned one, feet. */
        final double climbFt;

        Extra(double climbFt) {
            this.climbFt = climbFt;
        }
    }

    /** A clearance costs a turn, degrees. */
    private static final List<Integer> FIRST_TURNS_DEG = List.of(20, 30, 40, 90);

    /** Bands of wind, knots: light, ordinary, fresh (judgement). */
    private static final List<Band> WINDS_KT = List.of(new Band(0, 8), new Band(8, 18), new Band(18, 30));

    static DrawnConditions of(long seed, List<Shape> shapes) {
        Random random = new Random(mixed(seed));
        Shape shape = shapes.get(random.nextInt(shapes.size()));
        boolean right = random.nextBoolean();
        boolean thenRight = random.nextBoolean();
        double first = FIRST_TURNS_DEG.get(random.nextInt(FIRST_TURNS_DEG.size())) * (random.nextBoolean() ? 1 : -1);
        Band knots = WINDS_KT.get(random.nextInt(WINDS_KT.size()));
        Wind wind = new Wind(new TrueDirection(10.0 * random.nextInt(36)), Math.rint(knots.draw(random)));
        Extra[] extras = Extra.values();
        Extra extra = random.nextBoolean() ? Extra.NONE : extras[1 + random.nextInt(extras.length - 1)];
        return new DrawnConditions(shape, right, thenRight, first, wind, extra);
    }

    /** The draw of one try: java.util.Random is the same everywhere, by its specification. */
    static Random tryOf(long seed, int index) {
        return new Random(mixed(mixed(seed) + index));
    }

    /** Neighbouring seeds give unlike draws (the finaliser of MurmurHash3, public domain). */
    private static long mixed(long seed) {
        long z = seed + 0x9E3779B97F4A7C15L;
        z = (z ^ (z >>> 33)) * 0xff51afd7ed558ccdL;
        z = (z ^ (z >>> 33)) * 0xc4ceb9fe1a85ec53L;
        return z ^ (z >>> 33);
    }
}
