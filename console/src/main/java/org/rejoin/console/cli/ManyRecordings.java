package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.grade.Fault;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.protocol.WireFormat;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Many recordings graded at once, on all cores: each as it would be alone.
 *
 * @param root directory they lie under
 * @param recordings directories, in the order in which they are told of
 * @param out directory for log and grade of each, as they lie under the root; null for none
 */
record ManyRecordings(
        CommandSpec spec,
        Path root,
        List<Path> recordings,
        @Nullable String lesson,
        List<String> profiles,
        WhichAircraft which,
        @Nullable Path out,
        boolean json) {

    private static final long EVERY_NS = 1_000_000_000;

    /** What came of one recording: its aircraft, or why it could not be graded. */
    private record Outcome(
            String name,
            List<Debrief> debriefs,
            boolean several,
            @Nullable String refused) {}

    /**
     * The recordings below a directory that is none itself.
     *
     * @return directories, sorted; empty if the path is a recording, a file, or has none
     */
    static List<Path> under(Path path) throws IOException {
        if (!Files.isDirectory(path) || Files.exists(path.resolve("flight.pcap"))) {
            return List.of();
        }
        try (Stream<Path> files = Files.walk(path, 4)) {
            return files.filter(file -> file.endsWith("flight.pcap"))
                    .map(file -> file.resolveSibling(""))
                    .sorted()
                    .toList();
        }
    }

    /** Grades all and prints a line for each aircraft; the exit code. */
    int debrief() throws InterruptedException, IOException {
        ExecutorService pool = Executors.newFixedThreadPool(
                Math.min(recordings.size(), Runtime.getRuntime().availableProcessors()));
        try {
            List<Future<Outcome>> pending = new ArrayList<>();
            recordings.forEach(recording -> pending.add(pool.submit(() -> one(recording))));
            List<Outcome> outcomes = new ArrayList<>();
            long toldNs = System.nanoTime();
            for (Future<Outcome> each : pending) {
                outcomes.add(each.get());
                if (System.nanoTime() - toldNs > EVERY_NS) {
                    toldNs = System.nanoTime();
                    err().println("rejoin: " + outcomes.size() + " of " + recordings.size() + " recordings");
                }
            }
            return print(outcomes);
        } catch (ExecutionException e) {
            throw new IOException(String.valueOf(e.getCause()), e);
        } finally {
            pool.shutdownNow();
        }
    }

    private Outcome one(Path recording) throws IOException {
        String name = root.relativize(recording).toString().replace('\\', '/');
        try {
            RecordingFolder folder = BadInput.in(() -> RecordingFolder.open(recording));
            FeedSetup kept = BadInput.in(() -> FeedSetup.kept(folder));
            Following following = which.given() ? which.following(spec) : kept.following();
            List<WireFormat> formats = BadInput.in(() -> Formats.with(profiles.isEmpty() ? kept.formats() : profiles));
            Lesson flown = lesson(folder, recording);
            List<Debrief> debriefs = BadInput.in(() -> Debrief.of(
                    folder.capture(),
                    flown,
                    formats,
                    following,
                    folder.instructor().read(),
                    aircraft -> List.of()));
            if (out != null) {
                write(out.resolve(name), debriefs, following.several());
            }
            return new Outcome(name, debriefs, following.several(), null);
        } catch (BadInput | LessonException e) {
            return new Outcome(name, List.of(), false, e.getMessage());
        }
    }

    private Lesson lesson(RecordingFolder folder, Path recording) throws LessonException, BadInput {
        if (lesson != null) {
            return LessonReader.read(lesson);
        }
        Path file = folder.lesson().orElse(null);
        if (file == null) {
            throw new BadInput(recording + " has no lesson.yaml beside it: name the lesson with --lesson");
        }
        return LessonReader.readFile(file);
    }

    private static void write(Path directory, List<Debrief> debriefs, boolean several) throws IOException {
        for (Debrief debrief : debriefs) {
            Path place =
                    several ? directory.resolve("seats").resolve(debrief.seat().directory()) : directory;
            Files.createDirectories(place);
            Files.writeString(place.resolve("log.jsonl"), Recording.logText(debrief.events()));
            Files.writeString(place.resolve("grade.json"), Recording.gradeJson(debrief.grade()));
        }
    }

    private int print(List<Outcome> outcomes) throws IOException {
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(object(outcomes));
        } else {
            print.println("recording,seat,score,met,faults");
            for (Outcome outcome : outcomes) {
                outcome.debriefs().forEach(debrief -> print.println(row(outcome.name(), debrief)));
            }
        }
        print.flush();
        boolean refused = false;
        for (Outcome outcome : outcomes) {
            if (outcome.refused() != null) {
                refused = true;
                err().println("rejoin: " + outcome.name() + ": " + outcome.refused());
            }
        }
        return refused ? Rejoin.BAD_INPUT : Rejoin.DONE;
    }

    private static String row(String name, Debrief debrief) {
        return quoted(name) + "," + quoted(debrief.seat().label()) + ","
                + EventJson.rounded(debrief.grade().score(), 1) + ","
                + debrief.grade().met() + ","
                + faults(debrief).stream().collect(Collectors.joining(" "));
    }

    private static List<String> faults(Debrief debrief) {
        return debrief.grade().faults().stream()
                .map(Fault::code)
                .map(Fault.Code::name)
                .toList();
    }

    /** RFC 4180. */
    private static String quoted(String text) {
        return text.chars().anyMatch(c -> c == ',' || c == '"' || c < ' ')
                ? '"' + text.replace("\"", "\"\"") + '"'
                : text;
    }

    private static String object(List<Outcome> outcomes) throws IOException {
        StringWriter text = new StringWriter();
        try (JsonGenerator generator = new JsonFactory().createGenerator(text)) {
            generator.writeStartObject();
            generator.writeArrayFieldStart("recordings");
            for (Outcome outcome : outcomes) {
                for (Debrief debrief : outcome.debriefs()) {
                    generator.writeStartObject();
                    generator.writeStringField("recording", outcome.name());
                    generator.writeStringField("seat", debrief.seat().label());
                    generator.writeNumberField(
                            "score", EventJson.rounded(debrief.grade().score(), 1));
                    generator.writeBooleanField("met", debrief.grade().met());
                    generator.writeArrayFieldStart("faults");
                    for (String fault : faults(debrief)) {
                        generator.writeString(fault);
                    }
                    generator.writeEndArray();
                    generator.writeEndObject();
                }
                if (outcome.refused() != null) {
                    generator.writeStartObject();
                    generator.writeStringField("recording", outcome.name());
                    generator.writeStringField("refused", outcome.refused());
                    generator.writeEndObject();
                }
            }
            generator.writeEndArray();
            generator.writeEndObject();
        }
        return text.toString();
    }

    private PrintWriter err() {
        return spec.commandLine().getErr();
    }
}
