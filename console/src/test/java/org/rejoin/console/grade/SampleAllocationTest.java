package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.List;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import com.sun.management.ThreadMXBean;
import org.junit.jupiter.api.Test;

/**
 * What a sample takes of memory from state to events to grade while an amendment is flown, counted by the machine and not
 * by a clock. The figure is that of docs/speed.md of the bridge.
 */
class SampleAllocationTest {

    /** On a busy machine the compiler, which takes short-lived objects away, comes late. */
    private static final int MOST_ROUNDS = 60;

    /**
     * Instant, measure and point are 200: so much in a process of its own and after the other tests of the package. After all
     * tests the compiler, which has seen other callers by then, may leave a short-lived object or two.
     */
    private static final long MOST_OCTETS = 256;

    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

    @Test
    void aSampleUnderAClearanceMakesNoMoreThanStated() throws Exception {
        ClosedFormFlight flight =
                Ocean.toRadial(45, -1, 120, Wind.CALM).toLead().turnOn().asCleared().flight;
        List<AircraftState> states = flight.sample(20);
        long least = Long.MAX_VALUE;
        for (int round = 0; round < MOST_ROUNDS && least > MOST_OCTETS; round++) {
            least = Math.min(least, medianOctets(states));
        }
        assertThat(least).as("octets a sample").isLessThanOrEqualTo(MOST_OCTETS);
    }

    private static long medianOctets(List<AircraftState> states) throws Exception {
        ToleranceSet set = ToleranceSet.read("instrument-rating");
        FlightRecord record = FlightRecord.withoutPoints();
        Grader grader = new Grader(set);
        record.tell(entry -> entry.readBy(grader));
        FlightSession session = new FlightSession(
                new FlightSession.Setting(
                        Ocean.CHART,
                        FiledRouteReader.read(Ocean.FILED, Ocean.CHART),
                        List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)),
                        Ocean.DATE,
                        Wind.CALM,
                        set.limits(),
                        12),
                record);
        long thread = Thread.currentThread().getId();
        long[] octets = new long[states.size()];
        for (int i = 0; i < octets.length; i++) {
            long before = THREADS.getThreadAllocatedBytes(thread);
            session.accept(states.get(i));
            octets[i] = THREADS.getThreadAllocatedBytes(thread) - before;
        }
        assertThat(grader.grade().last().amendments()).hasSize(1);
        Arrays.sort(octets);
        return octets[octets.length / 2];
    }
}
