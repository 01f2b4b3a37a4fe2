package org.rejoin.bridge.cost;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;

import com.sun.management.OperatingSystemMXBean;

/**
 * What a datagram costs from socket to event, in CPU time of the whole process, beside a bare receiver that discards; and
 * how long it takes. The sender of the cost runs is a process of its own. Run by hand, never a test; how, and what it
 * gave: docs/speed.md.
 *
 * <p>The compiler is at work for a minute or more at such rates; {@code -Drejoin.warm-up=SECONDS} says how long to let it
 * (8 unless said).
 *
 * <p>{@code cost SEATS HZ SECONDS ROUNDS} or {@code latency RATE SECONDS ROUNDS}.
 */
public final class PipelineCost {

    private static final double WARM_UP_S = Double.parseDouble(System.getProperty("rejoin.warm-up", "8"));

    private PipelineCost() {}

    /**
     * Runs one of the measurements.
     *
     * @param args see the class
     * @throws Exception if a socket or a process fails
     */
    public static void main(String[] args) throws Exception {
        switch (args[0]) {
            case "send" -> send(Integer.parseInt(args[1]), number(args[2]), number(args[3]), number(args[4]));
            case "receive" -> receive(args[1], Integer.parseInt(args[2]), number(args[3]), number(args[4]));
            case "cost" -> cost(args);
            case "latency" -> latency(number(args[1]), number(args[2]), Integer.parseInt(args[3]));
            default -> throw new IllegalArgumentException("cost or latency");
        }
    }

    private static double number(String text) {
        return Double.parseDouble(text);
    }

    private static void cost(String[] args) throws Exception {
        for (int round = 0; round < Integer.parseInt(args[4]); round++) {
            for (String kind : List.of("bare", "whole")) {
                run("receive", kind, args[1], args[2], args[3]);
            }
        }
    }

    private static void run(String... args) throws IOException, InterruptedException {
        start(args).waitFor();
    }

    private static Process start(String... args) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx512m",
                "-Drejoin.warm-up=" + WARM_UP_S,
                "-cp",
                System.getProperty("java.class.path"),
                PipelineCost.class.getName()));
        command.addAll(Arrays.asList(args));
        return new ProcessBuilder(command).inheritIO().start();
    }

    /** Receives from a sender of its own and says what it cost. */
    private static void receive(String kind, int seats, double hz, double seconds) throws Exception {
        AtomicLong received = new AtomicLong();
        AtomicLong feedThread = new AtomicLong();
        try (Receivers.Receiver receiver = kind.equals("bare")
                ? Receivers.bare(n -> count(received, feedThread))
                : Receivers.whole(n -> count(received, feedThread))) {
            Process sender = start(
                    "send",
                    String.valueOf(receiver.port()),
                    String.valueOf(seats),
                    String.valueOf(hz),
                    String.valueOf(seconds + WARM_UP_S));
            while (received.get() == 0) {
                Thread.sleep(10);
            }
            Thread.sleep((long) (WARM_UP_S * 1000));
            var os = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
            var threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
            long cpu = os.getProcessCpuTime();
            long allocated = threads.getThreadAllocatedBytes(feedThread.get());
            long before = received.get();
            long beganNs = System.nanoTime();
            Thread.sleep((long) (seconds * 1000) - 1000);
            long count = received.get() - before;
            long due = Math.round((System.nanoTime() - beganNs) * 1e-9 * seats * hz);
            long spentNs = os.getProcessCpuTime() - cpu;
            long octets = threads.getThreadAllocatedBytes(feedThread.get()) - allocated;
            sender.waitFor();
            Thread.sleep(300);
            long expected = Math.round(seats * hz * (seconds + WARM_UP_S));
            System.out.printf(
                    Locale.ROOT,
                    "%-5s %d seats at %.0f Hz: %6.2f us CPU a datagram, %5.0f octets allocated, %4.1f %% of a core,"
                            + " %d of %d lost, %d short in the measured part%n",
                    kind,
                    seats,
                    hz,
                    spentNs / 1e3 / count,
                    (double) octets / count,
                    spentNs / 1e7 / (seconds - 1),
                    Math.max(0, expected - received.get()),
                    expected,
                    Math.max(0, due - count));
        }
    }

    private static void count(AtomicLong received, AtomicLong feedThread) {
        if (received.getAndIncrement() == 0) {
            feedThread.set(Thread.currentThread().getId());
        }
    }

    /** Evenly spaced; each aircraft at its own moment of the period. */
    private static void send(int port, double seats, double hz, double seconds) throws IOException {
        int aircraft = (int) seats;
        int steps = (int) Math.round(hz * seconds);
        byte[][] datagrams = new byte[aircraft * Math.min(steps, 4000)][];
        Traffic traffic = new Traffic();
        for (int i = 0; i < datagrams.length; i++) {
            int step = i / aircraft;
            datagrams[i] = traffic.at(i % aircraft, step / hz);
        }
        InetAddress loopback = InetAddress.getLoopbackAddress();
        try (DatagramSocket socket = new DatagramSocket()) {
            long start = System.nanoTime();
            for (int i = 0; i < datagrams.length; i++) {
                long due = start + (long) (i * 1e9 / (aircraft * hz));
                while (System.nanoTime() < due) {
                    LockSupport.parkNanos(Math.max(1, due - System.nanoTime()));
                }
                socket.send(new DatagramPacket(datagrams[i], datagrams[i].length, loopback, port));
            }
        }
    }

    /** From just before the system call that sends to the end of all work on the datagram, in one process. */
    private static void latency(double rate, double seconds, int rounds) throws Exception {
        int warmUp = (int) (rate * WARM_UP_S);
        int all = warmUp + (int) (rate * seconds);
        byte[][] datagrams = new byte[all][];
        Traffic traffic = new Traffic();
        for (int i = 0; i < all; i++) {
            int step = i / 100;
            datagrams[i] = traffic.at(i % 100, step * 100 / rate);
        }
        InetAddress loopback = InetAddress.getLoopbackAddress();
        for (int round = 0; round < rounds; round++) {
            for (String kind : List.of("bare", "whole")) {
                long[] sent = new long[all];
                long[] done = new long[all];
                try (DatagramSocket socket = new DatagramSocket();
                        Receivers.Receiver receiver = kind.equals("bare")
                                ? Receivers.bare(n -> done[(int) n] = System.nanoTime())
                                : Receivers.whole(n -> done[(int) n] = System.nanoTime())) {
                    long start = System.nanoTime();
                    for (int i = 0; i < all; i++) {
                        long due = start + (long) (i * 1e9 / rate);
                        while (System.nanoTime() < due) {
                            LockSupport.parkNanos(Math.max(1, due - System.nanoTime()));
                        }
                        sent[i] = System.nanoTime();
                        socket.send(new DatagramPacket(datagrams[i], datagrams[i].length, loopback, receiver.port()));
                    }
                    Thread.sleep(500);
                }
                report(kind, rate, sent, done, warmUp);
            }
        }
    }

    private static void report(String kind, double rate, long[] sent, long[] done, int from) {
        long[] took = new long[sent.length - from];
        int lost = 0;
        for (int i = from; i < sent.length; i++) {
            lost += done[i] == 0 ? 1 : 0;
            took[i - from] = Math.max(0, done[i] - sent[i]);
        }
        Arrays.sort(took);
        System.out.printf(
                Locale.ROOT,
                "%-5s at %.0f/s: p50 %.0f us, p99 %.0f us, p99.9 %.0f us, %d lost%n",
                kind,
                rate,
                took[took.length / 2] / 1e3,
                took[(int) (took.length * 0.99)] / 1e3,
                took[(int) (took.length * 0.999)] / 1e3,
                lost);
    }
}
