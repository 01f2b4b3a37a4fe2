package org.rejoin.bridge.chart.io;

import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;

/**
 * What reading a chart of 126,000 ARINC 424 records costs, the first time in a process and again. Run by hand, never a
 * test; how, and what it gave: docs/speed.md.
 *
 * <p>{@code write FILE} makes such a chart of open ocean, {@code read FILE TIMES} reads it.
 */
public final class ChartCost {

    private static final int WAYPOINTS = 50_000;
    private static final int STATIONS = 8_000;
    private static final int AIRPORTS = 8_000;
    private static final int AIRWAYS = 3_000;
    private static final int FIXES_OF_AN_AIRWAY = 20;

    private ChartCost() {}

    /**
     * Runs it.
     *
     * @param args see the class
     * @throws Exception if the file cannot be read or written
     */
    public static void main(String[] args) throws Exception {
        Path file = Path.of(args[1]);
        switch (args[0]) {
            case "write" -> Files.write(file, chart().octets("\n"));
            case "read" -> read(file, Integer.parseInt(args[2]));
            default -> throw new IllegalArgumentException("write or read");
        }
    }

    private static void read(Path file, int times) throws Exception {
        for (int i = 0; i < times; i++) {
            long cpu = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
            long began = System.nanoTime();
            ChartReader.Result result = ChartReader.read(file);
            System.out.printf(
                    Locale.ROOT,
                    "%d fixes, %d airways, %d problems: %.0f ms, %.0f ms CPU of the thread%n",
                    result.chart().fixes().size(),
                    result.chart().airways().size(),
                    result.problems().size(),
                    (System.nanoTime() - began) / 1e6,
                    (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - cpu) / 1e6);
        }
    }

    private static ArincWriter chart() {
        ArincWriter writer = new ArincWriter();
        for (int i = 0; i < STATIONS; i++) {
            writer.vhf(
                    ident(i, 3),
                    region(i),
                    i % 3 == 0 ? "VTHW " : "VDHW ",
                    108 + i % 100 / 10.0,
                    place(i),
                    -12 + i % 9);
        }
        for (int i = 0; i < AIRPORTS; i++) {
            writer.airport(ident(i, 4), region(i), place(i + STATIONS), i % 3000);
        }
        for (int i = 0; i < WAYPOINTS; i++) {
            writer.waypoint(ident(i, 5), region(i), place(i));
        }
        for (int airway = 0; airway < AIRWAYS; airway++) {
            for (int i = 0; i < FIXES_OF_AN_AIRWAY; i++) {
                int fix = (airway * 16 + i) % WAYPOINTS;
                OptionalDouble distanceNm = i + 1 == FIXES_OF_AN_AIRWAY
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(place(fix).distanceNm(place((fix + 1) % WAYPOINTS)));
                writer.add(writer.fix("Z" + airway, 10 * (i + 1), ident(fix, 5), region(fix), "EA", distanceNm));
            }
        }
        return writer;
    }

    private static Position place(int i) {
        return new Position(-60 + i / 500 % 240 * 0.5, -170 + i % 500 * 0.68);
    }

    private static String region(int i) {
        return "Z" + (char) ('A' + i % 26);
    }

    private static String ident(int i, int letters) {
        StringBuilder text = new StringBuilder();
        for (int rest = i; text.length() < letters; rest /= 26) {
            text.insert(0, (char) ('A' + rest % 26));
        }
        return text.toString();
    }
}
