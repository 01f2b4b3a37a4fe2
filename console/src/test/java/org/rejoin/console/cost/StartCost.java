package org.rejoin.console.cost;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Time from the command to the first word that matters, each command in turn, so that a slow minute of the machine falls on
 * all of them: a program that does nothing with the same libraries, {@code listen} until it says where it listens, and
 * {@code brief} until it is done; without and with an archive of classes. Run by hand from the project's directory once it is
 * built, with the number of rounds; docs/speed.md of bridge.
 */
public final class StartCost {

    private static final String JAR = "console/target/rejoin.jar";
    private static final String TESTS = "console/target/test-classes";
    private static final String CHART = "console/src/main/resources/org/rejoin/console/lesson/open-ocean.yaml";

    private StartCost() {}

    /** A command, and the words at which its time ends; none for its end. */
    private record Start(List<String> command, String until) {}

    /**
     * Runs the measurement.
     *
     * @param args rounds
     * @throws Exception if a process fails
     */
    public static void main(String[] args) throws Exception {
        Path scratch = Files.createTempDirectory("start");
        String archive = scratch.resolve("trivial.jsa").toString();
        String[] trivial = {"-cp", JAR + java.io.File.pathSeparator + TESTS, TrivialStart.class.getName()};
        ms(new Start(java("-XX:ArchiveClassesAtExit=" + archive, trivial), ""));
        String[] listen = {"-jar", JAR, "listen", "radial-outbound", "--port", "0"};
        String[] brief = {
            "-jar",
            JAR,
            "brief",
            "--chart",
            CHART,
            "--filed",
            "XSKU DCT SKU V40 FUL DCT XFUL",
            "--at",
            "38.20,-49.92",
            "--clearance",
            "fly heading 110, intercept the PTL 066 radial, join V40, then as filed"
        };
        String own = "-XX:SharedArchiveFile=console/target/rejoin.jsa";
        Map<String, Start> starts = new LinkedHashMap<>();
        starts.put("trivial program", new Start(java("-Xshare:auto", trivial), "ready"));
        starts.put("listen", new Start(java("-Xshare:auto", listen), "istening"));
        starts.put("brief", new Start(java("-Xshare:auto", brief), ""));
        starts.put("trivial program, archive", new Start(java("-XX:SharedArchiveFile=" + archive, trivial), "ready"));
        starts.put("listen, archive", new Start(java(own, listen), "istening"));
        starts.put("brief, archive", new Start(java(own, brief), ""));
        int rounds = Integer.parseInt(args[0]);
        Map<String, double[]> took = new LinkedHashMap<>();
        starts.keySet().forEach(name -> took.put(name, new double[rounds]));
        for (int round = 0; round < rounds; round++) {
            for (Map.Entry<String, Start> each : starts.entrySet()) {
                took.getOrDefault(each.getKey(), new double[rounds])[round] = ms(each.getValue());
            }
        }
        took.forEach((name, all) -> {
            Arrays.sort(all);
            System.out.printf(
                    Locale.ROOT,
                    "%-26s median %4.0f ms, %4.0f to %4.0f%n",
                    name,
                    all[all.length / 2],
                    all[0],
                    all[all.length - 1]);
        });
    }

    private static List<String> java(String option, String... rest) {
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), option));
        command.addAll(Arrays.asList(rest));
        return command;
    }

    private static double ms(Start start) throws IOException, InterruptedException {
        long began = System.nanoTime();
        Process process =
                new ProcessBuilder(start.command()).redirectErrorStream(true).start();
        double took = Double.NaN;
        StringBuilder said = new StringBuilder();
        try (BufferedReader out = process.inputReader()) {
            for (String line = out.readLine(); line != null; line = out.readLine()) {
                said.append(line).append('\n');
                if (!start.until().isEmpty() && line.contains(start.until())) {
                    took = (System.nanoTime() - began) / 1e6;
                    process.destroy();
                    break;
                }
            }
        }
        process.waitFor();
        if (start.until().isEmpty()) {
            return (System.nanoTime() - began) / 1e6;
        }
        if (Double.isNaN(took)) {
            throw new IOException("never said \"" + start.until() + "\": " + start.command() + "\n" + said);
        }
        return took;
    }
}
