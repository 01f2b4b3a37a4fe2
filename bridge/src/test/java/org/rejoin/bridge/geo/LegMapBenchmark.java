package org.rejoin.bridge.geo;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;

import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Cross-track, along-track and course of a point: the per-leg map against the foot-point iteration, in one run, on 1024
 * random points within 20 NM of a leg of 200 NM. How to run it and what it gave: docs/geometry.md.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(2)
public class LegMapBenchmark {

    private static final int POINTS = 1024;

    private final Position[] points = new Position[POINTS];
    private final GeodesicLine line = GeodesicLine.from(new Position(52, -31), new TrueDirection(63), 200);
    private final LegMap map = new LegMap(line);
    private int next;

    /** Spreads the points. */
    @Setup
    public void spreadPoints() {
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < POINTS; i++) {
            double along = random.nextDouble(line.lengthNm());
            TrueDirection right = new TrueDirection(line.courseAt(along).deg() + 90);
            points[i] = line.pointAt(along).destination(right, random.nextDouble(-20, 20));
        }
    }

    private Position point() {
        next = (next + 1) % POINTS;
        return points[next];
    }

    /**
     * By the map.
     *
     * @return to the harness
     */
    @Benchmark
    public Offset map() {
        return map.offset(point());
    }

    /**
     * By the foot-point iteration.
     *
     * @return to the harness
     */
    @Benchmark
    public Offset footPointIteration() {
        return line.offset(point());
    }

    /**
     * One inverse problem, for scale.
     *
     * @return to the harness
     */
    @Benchmark
    public double oneInverse() {
        return line.start().distanceNm(point());
    }

    /**
     * Making a map.
     *
     * @return to the harness
     */
    @Benchmark
    public LegMap makeMap() {
        return new LegMap(line);
    }
}
