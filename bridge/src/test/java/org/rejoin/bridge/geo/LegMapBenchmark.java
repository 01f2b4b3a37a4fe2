package org.rejoin.bridge.geo;

import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;

import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/**
 * Cross-track, along-track and course of a point: the per-leg map against the foot-point iteration, in one run, on random
 * points within 20 NM of a leg of 200 NM. Times of short batches are sampled, so that the median is that of undisturbed
 * ones also on a busy machine. How to run it and what it gave: docs/geometry.md.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(2)
public class LegMapBenchmark {

    private static final int BATCH = 64;

    private final Position[] points = new Position[BATCH];
    private final GeodesicLine line = GeodesicLine.from(new Position(52, -31), new TrueDirection(63), 200);
    private final LegMap map = new LegMap(line);

    /** Spreads the points. */
    @Setup
    public void spreadPoints() {
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < BATCH; i++) {
            double along = random.nextDouble(line.lengthNm());
            TrueDirection right = new TrueDirection(line.courseAt(along).deg() + 90);
            points[i] = line.pointAt(along).destination(right, random.nextDouble(-20, 20));
        }
    }

    /**
     * By the map.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void map(Blackhole hole) {
        for (Position point : points) {
            hole.consume(map.offset(point));
        }
    }

    /**
     * By the foot-point iteration.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void footPointIteration(Blackhole hole) {
        for (Position point : points) {
            hole.consume(line.offset(point));
        }
    }

    /**
     * One inverse problem, for scale.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void oneInverse(Blackhole hole) {
        for (Position point : points) {
            hole.consume(line.start().distanceNm(point));
        }
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
