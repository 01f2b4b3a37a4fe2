package org.rejoin.console.truth;

import java.util.NavigableSet;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;

import org.rejoin.console.cli.Rejoin;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;

/** What {@code debrief} says of a recording, read from its JSON as any script would. */
final class Verdict {

    private static final ObjectMapper JSON = new ObjectMapper();

    private final JsonNode root;

    private Verdict(JsonNode root) {
        this.root = root;
    }

    /** Grades a flight as one feed brings it; the files go into a folder of its own and are removed. */
    static Verdict of(Flown flown, Feed feed, Path folder) throws IOException {
        return of(flown.task(), folder, file -> feed.write(flown, file));
    }

    /** Writes a recording. */
    interface Recording {
        void write(Path file) throws IOException;
    }

    static Verdict of(Task task, Path folder, Recording recording) throws IOException {
        return of(task.chart(), task.lesson(), folder, recording);
    }

    static Verdict of(String chart, String lessonText, Path folder, Recording recording) throws IOException {
        Path place = Files.createTempDirectory(folder, "flight");
        Path lesson = Files.writeString(place.resolve("lesson.yaml"), lessonText);
        Files.writeString(place.resolve("chart.yaml"), chart);
        Path pcap = place.resolve("flight.pcap");
        recording.write(pcap);
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int exit = Rejoin.run(
                new PrintWriter(out),
                new PrintWriter(err),
                "debrief",
                pcap.toString(),
                "--lesson",
                lesson.toString(),
                "--json");
        if (exit != 0) {
            throw new AssertionError("debrief ended with " + exit + ": " + err + "\n" + lessonText);
        }
        Verdict verdict = new Verdict(JSON.readTree(out.toString()));
        Files.delete(pcap);
        return verdict;
    }

    double score() {
        return grade().path("score").asDouble(Double.NaN);
    }

    /** True, false, or empty where the standard was not judged. */
    Optional<Boolean> met() {
        JsonNode met = grade().path("met");
        return met.isBoolean() ? Optional.of(met.asBoolean()) : Optional.empty();
    }

    List<String> faults() {
        List<String> codes = new ArrayList<>();
        root.path("faults").forEach(fault -> codes.add(fault.path("code").asText()));
        return codes;
    }

    NavigableSet<String> faultCodes() {
        return new TreeSet<>(faults());
    }

    OptionalDouble measured(String criterion) {
        for (JsonNode each : grade().path("criteria")) {
            if (each.path("code").asText().equals(criterion)
                    && each.path("measured").isNumber()) {
                return OptionalDouble.of(each.path("measured").asDouble());
            }
        }
        return OptionalDouble.empty();
    }

    /** Whether something is said not to be judged: no verdict, a criterion without a number, or a note. */
    boolean saysNotJudged() {
        boolean without = false;
        for (JsonNode each : grade().path("criteria")) {
            without |= !each.path("measured").isNumber();
        }
        return met().isEmpty() || without || grade().hasNonNull("not_judged");
    }

    /** Attempts of the flight, each with its amendments. */
    JsonNode attempts() {
        return grade().path("attempts");
    }

    JsonNode grade() {
        return root.path("grade");
    }

    JsonNode events() {
        return root.path("events");
    }

    /** Times at which an event was logged, seconds. */
    List<Double> times(String event) {
        List<Double> times = new ArrayList<>();
        for (JsonNode each : events()) {
            if (each.path("event").asText().equals(event)) {
                times.add(each.path("time_s").asDouble());
            }
        }
        return times;
    }

    @Override
    public String toString() {
        StringBuilder said = new StringBuilder();
        said.append(score())
                .append(" met ")
                .append(grade().path("met").asText())
                .append(' ')
                .append(faults());
        for (JsonNode each : grade().path("criteria")) {
            said.append(' ')
                    .append(each.path("code").asText())
                    .append('=')
                    .append(each.path("measured").asText())
                    .append('/')
                    .append(each.path("points").asText());
        }
        return said.toString();
    }
}
