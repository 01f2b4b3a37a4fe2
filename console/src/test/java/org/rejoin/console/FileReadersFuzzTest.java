package org.rejoin.console;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;

import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.RecordingFolder;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What a user or a crash may leave in a lesson, a tolerance set and the small files of a recording: read, or refused in one
 * line that names no class of this program. Seeded; a longer run by {@code -Drejoin.fuzz.rounds=N}.
 */
class FileReadersFuzzTest {

    private static final int ROUNDS = Integer.getInteger("rejoin.fuzz.rounds", 300);

    private static final List<String> PIECES = List.of(
            "\n",
            ": ",
            "- ",
            "[",
            "]",
            "{",
            "}",
            "&a ",
            "*a",
            "!!x ",
            "\"",
            "\u0000",
            "\u00e9",
            "\ud83d",
            "1e999",
            "-1",
            "null",
            "true",
            "9999999999999999999999",
            "\t",
            "? ",
            "| ",
            "> ",
            "#",
            "%",
            "<<: *a");

    @TempDir
    private Path folder;

    private interface Reader {
        void read() throws IOException, LessonException;
    }

    private static byte[] damaged(byte[] seed, SplittableRandom random) {
        byte[] octets = seed.clone();
        for (int i = random.nextInt(4); i >= 0 && octets.length > 0; i--) {
            int at = random.nextInt(octets.length);
            switch (random.nextInt(4)) {
                case 0 -> octets[at] = (byte) random.nextInt(256);
                case 1 -> octets = Arrays.copyOf(octets, at);
                case 2 -> octets = joined(octets, at, PIECES.get(random.nextInt(PIECES.size())), at);
                default -> octets = joined(octets, at, "", Math.min(octets.length, at + random.nextInt(40)));
            }
        }
        return octets;
    }

    private static byte[] joined(byte[] octets, int to, String piece, int from) {
        byte[] between = piece.getBytes(StandardCharsets.UTF_8);
        byte[] all = new byte[to + between.length + octets.length - from];
        System.arraycopy(octets, 0, all, 0, to);
        System.arraycopy(between, 0, all, to, between.length);
        System.arraycopy(octets, from, all, to + between.length, octets.length - from);
        return all;
    }

    private void readDamaged(Path file, byte[] seed, int rounds, Reader reader) throws IOException {
        int refused = 0;
        for (int round = 0; round < rounds; round++) {
            byte[] octets = damaged(seed, new SplittableRandom(round));
            Files.write(file, octets);
            try {
                reader.read();
            } catch (IOException | LessonException e) {
                refused++;
                assertThat(e.getMessage())
                        .as("round %d: %s", round, new String(octets, StandardCharsets.UTF_8))
                        .isNotBlank()
                        .doesNotContain("org.rejoin", "com.fasterxml", "java.");
            } catch (RuntimeException | Error e) {
                throw new AssertionError("round " + round + ": " + new String(octets, StandardCharsets.UTF_8), e);
            }
        }
        assertThat(refused).as("of %d rounds", rounds).isBetween(1, rounds - 1);
    }

    @Test
    void toleranceSets() throws IOException {
        Path file = folder.resolve("set.yaml");
        byte[] seed;
        try (var in = ToleranceSet.class.getResourceAsStream("strict.yaml")) {
            seed = in.readAllBytes();
        }
        readDamaged(file, seed, ROUNDS, () -> ToleranceSet.read(file.toString()));
    }

    @Test
    void whatIsKeptOfAFeed() throws IOException {
        Files.writeString(folder.resolve("flight.pcap"), "");
        RecordingFolder recording = RecordingFolder.open(folder);
        byte[] seed = "aircraft: [\"1:2:3\", REJOIN]\nevery_aircraft: false\nformats: [json, profiles/1.yaml]\n"
                .getBytes(StandardCharsets.UTF_8);
        readDamaged(folder.resolve("feed.yaml"), seed, ROUNDS, () -> FeedSetup.kept(recording));
    }

    @Test
    void whatTheInstructorSaid() throws IOException {
        byte[] seed =
                "{\"elapsed_s\":12.5,\"seat\":\"127.0.0.1:40000\",\"say\":\"maintain 6000\",\"altitude_ft\":6000}\n"
                        .repeat(3)
                        .getBytes(StandardCharsets.UTF_8);
        readDamaged(folder.resolve("spoken.jsonl"), seed, ROUNDS, () -> new InstructorFile(folder).read());
    }

    @Test
    void lessons() throws IOException {
        byte[] seed = new byte[0];
        for (String name : List.of("open-ocean.yaml", "heading-to-airway.yaml")) {
            try (var in = LessonReader.class.getResourceAsStream(name)) {
                seed = in.readAllBytes();
            }
            Files.write(folder.resolve(name), seed);
        }
        Path lesson = folder.resolve("heading-to-airway.yaml");
        readDamaged(lesson, seed, ROUNDS / 5, () -> LessonReader.readFile(lesson));
    }
}
