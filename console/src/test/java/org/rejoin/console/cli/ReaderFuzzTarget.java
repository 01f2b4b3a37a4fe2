package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.ChartReport;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.book.Archive;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Capture;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.xapi.Credentials;

/**
 * What a fuzzer gives its octets to: each reader of what a user, a crash or somebody else may leave in a file, or say. Read,
 * or refused in one line that names no class of this program; nothing else leaves a reader. The build runs each on damaged
 * copies of sound files ({@link ReadersFuzzTest}); a coverage-guided fuzzer finds the entry point by its name, and the
 * reader by {@code -Drejoin.fuzz.reader}.
 */
public final class ReaderFuzzTarget {

    private static final Path FOLDER = folder();
    private static final String ONLY = System.getProperty("rejoin.fuzz.reader", "lesson");

    private interface Seeds {
        List<byte[]> get() throws IOException;
    }

    private interface Reading {
        void of(byte[] octets) throws IOException, LessonException, ClearanceException, BadInput;
    }

    /** A reader, with sound input to begin with. */
    @SuppressWarnings("ImmutableEnumChecker") // its functions hold nothing that changes
    enum Reader {
        CAPTURE(
                () -> {
                    byte[] flight = Files.readAllBytes(recording().resolve("flight.pcap"));
                    return List.of(Arrays.copyOf(flight, 4_000));
                },
                octets -> {
                    try (Capture capture = Capture.read(new ByteArrayInputStream(octets), "x")) {
                        while (capture.next().isPresent()) {
                            // read to its end
                        }
                    }
                }),
        CHART(() -> List.of(resource(LessonReader.class, "open-ocean.yaml")), octets -> chart(octets)),
        ARINC_424(() -> List.of(resource(ReaderFuzzTarget.class, "ocean.424")), octets -> chart(octets)),
        LESSON(
                () -> {
                    Files.write(FOLDER.resolve("open-ocean.yaml"), resource(LessonReader.class, "open-ocean.yaml"));
                    return List.of(
                            resource(LessonReader.class, "heading-to-airway.yaml"),
                            resource(LessonReader.class, "hold-at-fix.yaml"));
                },
                octets -> LessonReader.readFile(Files.write(FOLDER.resolve("lesson.yaml"), octets))),
        TOLERANCE_SET(
                () -> List.of(resource(ToleranceSet.class, "strict.yaml")),
                octets -> ToleranceSet.read(
                        Files.write(FOLDER.resolve("set.yaml"), octets).toString())),
        FEED(() -> List.of(text("""
                        aircraft: ["1:2:3", REJOIN]
                        every_aircraft: false
                        formats: [json, profiles/1.yaml]
                        """)), octets -> {
            Path recording = Files.createDirectories(FOLDER.resolve("feed"));
            Files.writeString(recording.resolve("flight.pcap"), "");
            Files.write(recording.resolve("feed.yaml"), octets);
            FeedSetup.kept(RecordingFolder.open(recording));
        }),
        PROFILE(
                () -> List.of(
                        resource(ReaderFuzzTarget.class, "profiles/p1.yaml"),
                        resource(ReaderFuzzTarget.class, "profiles/p3.yaml")),
                octets -> Formats.named(
                        Files.write(FOLDER.resolve("profile.yaml"), octets).toString())),
        SAID(
                () -> List.of(text(
                        "{\"elapsed_s\":12.5,\"seat\":\"127.0.0.1:40000\",\"say\":\"maintain 6000\",\"altitude_ft\":6000}\n"
                                .repeat(3))),
                octets -> {
                    Path recording = Files.createDirectories(FOLDER.resolve("said"));
                    Files.write(recording.resolve("spoken.jsonl"), octets);
                    new InstructorFile(recording).read();
                }),
        CLEARANCE(
                () -> List.of(
                        text("fly heading 110, intercept the PTL 066 radial, join V40, then as filed"),
                        text("cleared direct SKU, hold west on the Petrel 245 radial, maintain 6000, expect further"
                                + " clearance at 1830")),
                octets -> {
                    Clearance read = ClearanceReader.read(string(octets), OCEAN.chart, OCEAN.filed);
                    Readback.check(read, string(octets), OCEAN.chart, OCEAN.filed);
                }),
        FILED_ROUTE(
                () -> List.of(text("XSKU DCT SKU V40 FUL DCT XFUL")),
                octets -> FiledRouteReader.read(string(octets), OCEAN.chart)),
        READBACK(
                () -> List.of(
                        text("heading one one zero, intercept petrel 066 radial, victor forty, as filed, REJOIN1")),
                octets -> {
                    Clearance said = ClearanceReader.read(
                            "fly heading 110, intercept the PTL 066 radial, join V40, then as filed",
                            OCEAN.chart,
                            OCEAN.filed);
                    Readback.check(said, string(octets), OCEAN.chart, OCEAN.filed);
                }),
        ROSTER(
                () -> List.of(text("{\"pilots\": [{\"id\": \"01ab23cd\", \"name\": \"Anna\"}, {\"id\": \"4711beef\","
                        + " \"name\": \"Bert \u00d8\"}]}")),
                octets -> {
                    HomeFolder home = HomeFolder.open(FOLDER.resolve("home"));
                    try (RecordBook book = new RecordBook(home, note -> {})) {
                        Files.write(FOLDER.resolve("home").resolve("roster.json"), octets);
                        book.roster().pilots();
                    }
                }),
        ATTEMPT(
                () -> List.of(text(
                        "{\"format\": 1, \"id\": \"20260601T120000Z-abc123\", \"pilot\": \"Anna\", \"pilot_id\": \"01ab23cd\","
                                + " \"aircraft\": \"REJOIN1\", \"lesson\": \"A lesson\", \"began_utc\": \"2026-06-01T12:00:00Z\","
                                + " \"duration_s\": 700.5, \"program\": \"Rejoin 0.1.0\", \"seat\": \"\"}")),
                octets -> {
                    Path home = FOLDER.resolve("book");
                    Path attempt = Files.createDirectories(home.resolve("attempts/2026/20260601T120000Z-abc123"));
                    Files.write(attempt.resolve("attempt.json"), octets);
                    Files.write(attempt.resolve("grade.json"), octets);
                    try (RecordBook book = new RecordBook(HomeFolder.open(home), note -> {})) {
                        book.rebuild((done, of) -> {});
                        book.list(AttemptQuery.ALL, (done, of) -> {}).troubles().stream()
                                .findFirst()
                                .ifPresent(ReaderFuzzTarget::refuse);
                    }
                }),
        PACKAGE(
                () -> {
                    ByteArrayOutputStream octets = new ByteArrayOutputStream();
                    try (ZipOutputStream zip = new ZipOutputStream(octets)) {
                        for (String name : List.of("one/lesson.yaml", "one/flight.pcap", "two/grade.json")) {
                            zip.putNextEntry(new ZipEntry(name));
                            zip.write(text(name.repeat(20)));
                            zip.closeEntry();
                        }
                    }
                    return List.of(octets.toByteArray());
                },
                octets -> {
                    Path into = Files.createTempDirectory(FOLDER, "unpacked");
                    try {
                        Archive.unpack(Files.write(FOLDER.resolve("package.zip"), octets), into);
                    } finally {
                        remove(into);
                    }
                }),
        CREDENTIALS(
                () -> List.of(text("key: a\nsecret: b\n"), text("KEY:SECRET\n")),
                octets -> Credentials.read(Files.write(FOLDER.resolve("credentials"), octets))),
        SETTINGS(
                () -> List.of(text("listen: {port: 3001, every-aircraft: true}\nfeed watch:\n  seconds: 5\n")),
                octets -> SettingsFile.read(Files.write(FOLDER.resolve("settings.yaml"), octets), Rejoin.whole()));

        /** Sound input. */
        private final Seeds seeds;

        /** Reads it, or refuses it in one line. */
        private final Reading reading;

        Reader(Seeds seeds, Reading reading) {
            this.seeds = seeds;
            this.reading = reading;
        }

        List<byte[]> seeds() throws IOException {
            return seeds.get();
        }

        void read(byte[] octets) throws IOException, LessonException, ClearanceException, BadInput {
            reading.of(octets);
        }

        /** What a user writes on the command line. */
        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    private record Ocean(Chart chart, FiledRoute filed) {
        static Ocean read() {
            try {
                Chart chart = ChartReader.read(
                                new ByteArrayInputStream(resource(LessonReader.class, "open-ocean.yaml")), "ocean")
                        .chart();
                return new Ocean(chart, FiledRouteReader.read("XSKU DCT SKU V40 FUL DCT XFUL", chart));
            } catch (IOException | ClearanceException e) {
                throw new IllegalStateException(e);
            }
        }
    }

    private static final Ocean OCEAN = Ocean.read();

    private ReaderFuzzTarget() {}

    /**
     * Writes the sound input of that reader into a folder, where a fuzzer begins: from nothing it finds no word of a lesson.
     *
     * @param args the folder
     * @throws IOException if it cannot be written
     */
    public static void main(String[] args) throws IOException {
        Path corpus = Files.createDirectories(Path.of(args[0]));
        for (Reader reader : Reader.values()) {
            if (reader.toString().equals(ONLY)) {
                for (byte[] seed : reader.seeds()) {
                    Files.write(corpus.resolve("sound-" + Arrays.hashCode(seed)), seed);
                }
            }
        }
    }

    /**
     * Gives an input to the reader that {@code -Drejoin.fuzz.reader} names.
     *
     * @param input what the file holds
     */
    public static void fuzzerTestOneInput(byte[] input) {
        for (Reader reader : Reader.values()) {
            if (reader.toString().equals(ONLY)) {
                refused(reader, input);
            }
        }
    }

    /**
     * Reads it.
     *
     * @return whether it was refused, in one line that a user understands
     */
    static boolean refused(Reader reader, byte[] input) {
        try {
            reader.read(input);
            return false;
        } catch (IOException | LessonException | ClearanceException | BadInput e) {
            assertThat(e.getMessage())
                    .as(reader.toString())
                    .isNotBlank()
                    .doesNotContain("org.rejoin", "com.fasterxml", "java.", "\n");
            return true;
        }
    }

    private static void refuse(String trouble) {
        assertThat(trouble).doesNotContain("org.rejoin", "com.fasterxml", "java.", "\n");
    }

    private static void chart(byte[] octets) throws IOException {
        ChartReader.Result result = ChartReader.read(new ByteArrayInputStream(octets), "x");
        result.problems()
                .forEach(problem -> assertThat(problem.what()).isNotBlank().doesNotContain("\n"));
        ChartReport.of(result.chart(), result.lines()).oddities(LocalDate.of(2026, 6, 1));
    }

    private static byte[] resource(Class<?> beside, String name) throws IOException {
        try (InputStream in = Objects.requireNonNull(beside.getResourceAsStream(name), name)) {
            return in.readAllBytes();
        }
    }

    private static Path recording() {
        return Path.of(System.getProperty("rejoin.recordings", "../recordings")).resolve("airway-good");
    }

    private static byte[] text(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static String string(byte[] octets) {
        return new String(octets, StandardCharsets.UTF_8);
    }

    private static Path folder() {
        try {
            Path folder = Files.createTempDirectory("rejoin-fuzz");
            Runtime.getRuntime().addShutdownHook(new Thread(() -> remove(folder)));
            return folder;
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    private static void remove(Path folder) {
        try (Stream<Path> all = Files.walk(folder)) {
            List<Path> files = new ArrayList<>(all.toList());
            files.sort(Comparator.reverseOrder());
            for (Path file : files) {
                Files.delete(file);
            }
        } catch (IOException e) {
            // a folder of a test, left behind
        }
    }
}
