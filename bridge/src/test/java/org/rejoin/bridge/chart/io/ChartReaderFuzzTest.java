package org.rejoin.bridge.chart.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Objects;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;

import org.rejoin.bridge.chart.ChartReport;

import org.junit.jupiter.api.Test;

/** Whatever a file holds: a chart with problems, or an IOException of one line, in a bounded time. Seeded. */
class ChartReaderFuzzTest {

    private static final int ROUNDS = 1000;

    private static final String YAML = """
            name: Test water
            stations:
              - {ident: AAA, name: Alpha Bank, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: -40.0, longitude_deg: -120.0, declination_deg: 21.5}
              - {ident: BBB, kind: VOR, latitude_deg: -40.0, longitude_deg: -118.0, declination_deg: 20}
            fixes:
              - {ident: ABCDE, latitude_deg: -40.1, longitude_deg: -119.0}
            airports:
              - ident: XAAA
                latitude_deg: -40.2
                longitude_deg: -117.9
            airways:
              - {ident: V31, points: [AAA, ABCDE, BBB], minimum_altitudes_ft: [4000, 5000], direction: both}
            """;

    private static final String SPECIAL = " \n\r\t:-,{}[]*&!|>'\"#%@~?0EN\u0000\u00ff";

    private static byte[] sample() throws IOException {
        try (InputStream in =
                Objects.requireNonNull(ChartReaderFuzzTest.class.getResourceAsStream("ocean-sample.424"), "sample")) {
            return in.readAllBytes();
        }
    }

    /** A few octets changed, left out, put in, or whole stretches copied or cut away. */
    private static byte[] mutated(byte[] sound, Random random) {
        byte[] octets = sound.clone();
        int changes = 1 + random.nextInt(8);
        for (int i = 0; i < changes && octets.length > 1; i++) {
            int at = random.nextInt(octets.length);
            int length = random.nextInt(Math.min(200, octets.length - at) + 1);
            switch (random.nextInt(6)) {
                case 0 -> octets[at] = (byte) random.nextInt(256);
                case 1, 2 -> octets[at] = (byte) SPECIAL.charAt(random.nextInt(SPECIAL.length()));
                case 3 -> {
                    byte[] shorter = Arrays.copyOf(octets, octets.length - length);
                    System.arraycopy(octets, at + length, shorter, at, octets.length - at - length);
                    octets = shorter;
                }
                case 4 -> {
                    byte[] longer = Arrays.copyOf(octets, octets.length + length);
                    System.arraycopy(octets, at, longer, at + length, octets.length - at);
                    octets = longer;
                }
                default -> octets = Arrays.copyOf(octets, at + 1);
            }
        }
        return octets;
    }

    private static void readSafely(byte[] octets) {
        try {
            ChartReader.Result result = ChartReader.read(new ByteArrayInputStream(octets), "fuzz");
            result.problems()
                    .forEach(problem -> assertThat(problem.what()).isNotBlank().doesNotContain("\n"));
            ChartReport report = ChartReport.of(result.chart(), result.lines());
            assertThat(report.oddities(LocalDate.of(2026, 6, 1))).isNotNull();
            assertThat(report.bounds()).isNotNull();
        } catch (IOException e) {
            assertThat(e.getMessage()).isNotBlank().doesNotContain("\n");
        }
    }

    private static void fuzz(byte[] sound, long seed) {
        Random random = new Random(seed);
        AtomicInteger round = new AtomicInteger();
        assertTimeoutPreemptively(
                Duration.ofMinutes(2),
                () -> {
                    while (round.getAndIncrement() < ROUNDS) {
                        readSafely(mutated(sound, random));
                    }
                },
                () -> "seed " + seed + ", round " + round);
    }

    @Test
    void mutatedYamlIsReadOrRefused() {
        fuzz(YAML.getBytes(StandardCharsets.UTF_8), 31);
    }

    @Test
    void mutatedRecordsAreReadOrRefused() throws IOException {
        fuzz(sample(), 424);
    }

    @Test
    void randomOctetsAreRefused() {
        Random random = new Random(7);
        for (int i = 0; i < 2000; i++) {
            byte[] octets = new byte[random.nextInt(400)];
            random.nextBytes(octets);
            readSafely(octets);
        }
    }

    @Test
    void yamlMadeToBurstAReaderIsRefusedInTime() {
        String[] hostile = {
            "[".repeat(100_000),
            "{a: ".repeat(100_000),
            "- ".repeat(100_000),
            "a: &a [x,x]\nb: &b [*a,*a]\nc: &c [*b,*b]\nname: *c\n",
            "? ".repeat(50_000),
            "name: " + "\"\\u0041".repeat(20_000) + "\"",
            "name: |\n" + " x\n".repeat(100_000),
            "name: " + "x".repeat(300_000),
            "fixes: [" + "{ident: A},".repeat(10_000) + "]",
            "!".repeat(100_000),
            "&".repeat(100_000) + " a",
            "%".repeat(100_000),
            "name: 1" + "0".repeat(300_000),
            "fixes: [{ident: A, latitude_deg: 1e999, longitude_deg: -1e-999}]",
        };
        for (String text : hostile) {
            assertTimeoutPreemptively(
                    Duration.ofMinutes(1),
                    () -> readSafely(text.getBytes(StandardCharsets.UTF_8)),
                    () -> text.substring(0, 20));
        }
    }

    @Test
    void anAirwayOfManyPointsOfOneIdentIsResolvedInTime() {
        StringBuilder text = new StringBuilder("fixes:\n");
        for (int i = 0; i < 2_000; i++) {
            text.append("  - {ident: A, latitude_deg: -")
                    .append(30 + i / 1000.0)
                    .append(", longitude_deg: -140}\n");
        }
        text.append("  - {ident: B, latitude_deg: -30, longitude_deg: -141}\nairways:\n  - {ident: V1, points: [");
        text.append("A, B, ".repeat(5_000)).append("A]}\n");
        assertTimeoutPreemptively(
                Duration.ofMinutes(1), () -> readSafely(text.toString().getBytes(StandardCharsets.UTF_8)));
    }
}
