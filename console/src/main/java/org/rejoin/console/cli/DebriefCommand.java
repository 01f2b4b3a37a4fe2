package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;

import org.rejoin.bridge.feed.SeatChoice;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.log.EventText;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.report.FlightTrace;
import org.rejoin.console.report.Report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code debrief}: grades a recording again. */
@Command(
        name = "debrief",
        description = {
            "Grade a recording again: prints the log and the grade. The same recording, lesson and version give the same"
                    + " bytes.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true)
final class DebriefCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Mixin
    Verbosity verbosity = new Verbosity();

    @Parameters(paramLabel = "RECORDING", description = "A directory written by --out, or a capture file.")
    Path recording = Path.of("");

    @Option(
            names = "--lesson",
            paramLabel = "LESSON",
            description = "The lesson that was flown (default: the one kept with the recording).")
    @Nullable
    String lesson;

    @Option(
            names = {"--profile", "--format"},
            paramLabel = "FILE",
            description = "A profile of the feed; dis, nmea and json are known anyway.")
    List<String> profiles = new ArrayList<>();

    @Option(names = "--aircraft", paramLabel = "NAME", description = "Which aircraft (default: the first heard).")
    @Nullable
    String aircraft;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = {
                "Write there: report.html (one page to read, sign and print), log.jsonl, grade.json; and for other"
                        + " programs track.geojson, track.gpx, track.kml, events.csv, samples.csv."
            })
    @Nullable
    Path out;

    @Option(names = "--json", description = "Print one JSON object: events, faults, grade.")
    boolean json;

    @Override
    public Integer call() throws Exception {
        RecordingFolder folder = RecordingFolder.open(recording);
        Lesson flown = lesson != null ? LessonReader.read(lesson) : kept(folder);
        FlightTrace trace = new FlightTrace();
        Debrief debrief = Debrief.of(
                folder.capture(),
                flown,
                Formats.with(profiles),
                aircraft == null ? SeatChoice.all() : SeatChoice.named(aircraft),
                List.of(trace));
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(object(debrief, trace.comparisons(debrief.events())));
            debrief.notes().forEach(note -> spec.commandLine().getErr().println("rejoin: " + note));
        } else {
            print.println("Lesson: " + flown.title());
            debrief.notes().forEach(note -> print.println("  note: " + note));
            debrief.events().forEach(event -> print.println(EventText.line(event, trace.routeAt(event.timeS()))));
            print.println();
            GradeCard.lines(debrief.grade(), debrief.set().title()).forEach(print::println);
            print.println();
            for (Comparison comparison : trace.comparisons(debrief.events())) {
                comparison.lines().forEach(print::println);
                print.println();
            }
            FlightView.cautions().forEach(print::println);
        }
        print.flush();
        if (out != null) {
            write(out, debrief);
            Report.of(flown, debrief, trace, folder.capture(), spec.root().version()[0], again())
                    .write(out);
        }
        return Rejoin.DONE;
    }

    /** The command without this machine's paths, so that the report of a recording is the same wherever it lies. */
    private String again() {
        return "debrief RECORDING"
                + (lesson == null ? "" : " --lesson LESSON")
                + (profiles.isEmpty() ? "" : " --profile FILE")
                + (aircraft == null ? "" : " --aircraft \"" + aircraft + "\"")
                + " --out DIR";
    }

    private Lesson kept(RecordingFolder folder) throws Exception {
        Path file = folder.lesson()
                .orElseThrow(() -> new ParameterException(
                        spec.commandLine(),
                        recording + " has no lesson.yaml beside it: name the lesson with --lesson"));
        return LessonReader.readFile(file);
    }

    private static String object(Debrief debrief, List<Comparison> comparisons) throws IOException {
        StringWriter text = new StringWriter();
        try (JsonGenerator generator = new JsonFactory().createGenerator(text)) {
            generator.writeStartObject();
            generator.writeArrayFieldStart("events");
            for (TrackerEvent event : debrief.events()) {
                EventJson.write(event, generator);
            }
            generator.writeEndArray();
            GradeJson.writeFaults(debrief.grade(), generator);
            generator.writeFieldName("grade");
            GradeJson.write(debrief.grade(), generator);
            generator.writeArrayFieldStart("best");
            for (Comparison comparison : comparisons) {
                comparison.write(generator);
            }
            generator.writeEndArray();
            generator.writeEndObject();
        }
        return text.toString();
    }

    private static void write(Path directory, Debrief debrief) throws IOException {
        Files.createDirectories(directory);
        Files.write(
                directory.resolve("log.jsonl"),
                debrief.events().stream().map(EventJson::line).toList(),
                StandardCharsets.UTF_8);
        Files.writeString(directory.resolve("grade.json"), Recording.gradeJson(debrief.grade()));
    }
}
