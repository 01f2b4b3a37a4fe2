package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;

import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.flight.SeatName;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.log.EventText;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.report.CleanText;
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

    @Mixin
    WhichAircraft which = new WhichAircraft();

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
        Following following = which.following(spec);
        Map<SeatName, FlightTrace> traces = new HashMap<>();
        InstructorFile.Said said =
                Files.isDirectory(recording) ? new InstructorFile(recording).read() : InstructorFile.Said.NOTHING;
        List<Debrief> debriefs =
                Debrief.of(folder.capture(), flown, Formats.with(profiles), following, said, aircraft -> {
                    FlightTrace trace = new FlightTrace();
                    traces.put(aircraft.name(), trace);
                    return List.of(trace);
                });
        print(flown, debriefs, traces, following.several());
        if (out != null) {
            for (Debrief debrief : debriefs) {
                Path place = following.several()
                        ? out.resolve("seats").resolve(debrief.seat().directory())
                        : out;
                write(place, debrief);
                FlightTrace trace = traces.getOrDefault(debrief.seat(), new FlightTrace());
                Report.of(flown, debrief, trace, folder.capture(), spec.root().version()[0], again(debrief))
                        .write(place);
            }
        }
        return Rejoin.DONE;
    }

    private void print(Lesson flown, List<Debrief> debriefs, Map<SeatName, FlightTrace> traces, boolean several) throws IOException {
        PrintWriter print = spec.commandLine().getOut();
        if (json) {
            print.println(object(debriefs, several));
            PrintWriter err = spec.commandLine().getErr();
            debriefs.forEach(debrief ->
                    debrief.notes().forEach(note -> err.println("rejoin: " + prefix(debrief, several) + note)));
            print.flush();
            return;
        }
        print.println("Lesson: " + flown.title());
        for (Debrief debrief : debriefs) {
            String prefix = prefix(debrief, several);
            debrief.notes().forEach(note -> print.println(prefix + "  note: " + note));
            FlightTrace trace = traces.getOrDefault(debrief.seat(), new FlightTrace());
            debrief.events()
                    .forEach(event -> print.println(prefix + EventText.line(event, trace.routeAt(event.timeS()))));
            debrief.said()
                    .remarks()
                    .forEach(remark -> print.println(
                            prefix + EventText.clock(remark.elapsedS()) + "  remark: " + CleanText.of(remark.text())));
            print.println();
        }
        for (Debrief debrief : debriefs) {
            if (several) {
                print.println(debrief.seat().label());
            }
            GradeCard.lines(debrief.grade(), debrief.set().title()).forEach(print::println);
            print.println();
        }
        FlightView.cautions().forEach(print::println);
        print.flush();
    }

    private static String prefix(Debrief debrief, boolean several) {
        return several ? debrief.seat().label() + "  " : "";
    }

    /** The command without this machine's paths, so that the report of a recording is the same wherever it lies. */
    private String again(Debrief debrief) {
        return "debrief RECORDING"
                + (lesson == null ? "" : " --lesson LESSON")
                + (profiles.isEmpty() ? "" : " --profile FILE")
                + (which.given() ? " --aircraft \"" + debrief.seat().label() + "\"" : "")
                + " --out DIR";
    }

    private Lesson kept(RecordingFolder folder) throws Exception {
        Path file = folder.lesson()
                .orElseThrow(() -> new ParameterException(
                        spec.commandLine(),
                        recording + " has no lesson.yaml beside it: name the lesson with --lesson"));
        return LessonReader.readFile(file);
    }

    private static String object(List<Debrief> debriefs, boolean several) throws IOException {
        StringWriter text = new StringWriter();
        try (JsonGenerator generator = new JsonFactory().createGenerator(text)) {
            if (several) {
                generator.writeStartObject();
                generator.writeArrayFieldStart("seats");
            }
            for (Debrief debrief : debriefs) {
                write(debrief, several, generator);
            }
            if (several) {
                generator.writeEndArray();
                generator.writeEndObject();
            }
        }
        return text.toString();
    }

    private static void write(Debrief debrief, boolean several, JsonGenerator generator) throws IOException {
        generator.writeStartObject();
        if (several) {
            generator.writeStringField("seat", debrief.seat().label());
        }
        generator.writeArrayFieldStart("events");
        for (TrackerEvent event : debrief.events()) {
            EventJson.write(event, generator);
        }
        generator.writeEndArray();
        if (!debrief.said().remarks().isEmpty()) {
            generator.writeArrayFieldStart("remarks");
            for (InstructorFile.Remark remark : debrief.said().remarks()) {
                generator.writeStartObject();
                generator.writeNumberField("time_s", EventJson.rounded("time_s", remark.elapsedS()));
                generator.writeStringField("text", remark.text());
                generator.writeEndObject();
            }
            generator.writeEndArray();
        }
        GradeJson.writeFaults(debrief.grade(), generator);
        generator.writeFieldName("grade");
        GradeJson.write(debrief.grade(), generator);
        generator.writeEndObject();
    }

    private static void write(Path directory, Debrief debrief) throws IOException {
        Files.createDirectories(directory);
        Files.writeString(directory.resolve("log.jsonl"), Recording.logText(debrief.events()));
        Files.writeString(directory.resolve("grade.json"), Recording.gradeJson(debrief.grade()));
    }
}
