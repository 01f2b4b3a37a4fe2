package org.rejoin.bridge.cost;

import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Locale;

import org.rejoin.protocol.Datagram;

/**
 * What a datagram costs without its socket: decoder, clock, seat and tracker on one thread, as fast as they go. Run by
 * hand with the number of aircraft and of seconds of flight; docs/speed.md.
 */
public final class SampleCost {

    private static final int HZ = 20;

    private SampleCost() {}

    /**
     * Runs the measurement.
     *
     * @param args aircraft and seconds of flight
     * @throws Exception if the chart is not valid
     */
    public static void main(String[] args) throws Exception {
        int aircraft = Integer.parseInt(args[0]);
        int seconds = Integer.parseInt(args[1]);
        InetSocketAddress sender = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40_000);
        Traffic traffic = new Traffic();
        byte[][] octets = new byte[aircraft * seconds * HZ][];
        for (int i = 0; i < octets.length; i++) {
            int step = i / aircraft;
            octets[i] = traffic.at(i % aircraft, step * (1.0 / HZ));
        }
        var threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        for (int round = 0; round < 5; round++) {
            var sink = Receivers.pipeline();
            long allocated =
                    threads.getThreadAllocatedBytes(Thread.currentThread().getId());
            long start = threads.getCurrentThreadCpuTime();
            for (int i = 0; i < octets.length; i++) {
                sink.accept(Datagram.of((long) (i * 1e6 / aircraft / HZ), sender, octets[i]));
            }
            long took = threads.getCurrentThreadCpuTime() - start;
            System.out.printf(
                    Locale.ROOT,
                    "%d aircraft: %.2f us CPU a datagram, %.0f octets allocated%n",
                    aircraft,
                    took / 1e3 / octets.length,
                    (double) (threads.getThreadAllocatedBytes(
                                            Thread.currentThread().getId())
                                    - allocated)
                            / octets.length);
        }
    }
}
