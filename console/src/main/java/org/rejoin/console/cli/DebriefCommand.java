package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.live.AircraftView;
import org.rejoin.console.live.FlightView;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.why.Explainer;
import org.rejoin.console.why.Explanation;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.core.JsonGenerator;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code debrief}: grades a recording again. */
@Command(
        name = "debrief",
        description =
                "Grade a recording again: prints the log and the grade. The same recording, lesson and version give the same"
                        + " bytes.")
final class DebriefCommand extends AnyCommand.Verbose {

    @Parameters(
            paramLabel = "RECORDING",
            description =
                    "A directory written by --out, a capture file, or a directory of such recordings: then one line for"
                            + " each aircraft of each.")
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
                        + " programs track.geojson, track.gpx, track.kml, events.csv, samples.csv.",
                "A file of those names that this program did not write, or that was changed since, is not overwritten.",
                "samples.csv has no row for samples sent while the simulator was paused."
            })
    @Nullable
    Path out;

    @Option(
            names = "--why",
            paramLabel = "TIME",
            description =
                    "Explain the event near TIME (seconds, or the clock of the log) instead: the flight around it,"
                            + " its geometry and the rule that fired.")
    @Nullable
    String why;

    @Option(names = "--json", description = "Print one JSON object: events, faults, grade.")
    boolean json;

    @Override
    public Integer call() throws Exception {
        OptionalDouble askedS = why == null ? OptionalDouble.empty() : Explainer.timeS(why);
        if (why != null && askedS.isEmpty()) {
            throw new BadInput("--why " + why
                    + " is no time of a flight: give seconds, as 209.5, or the clock of the log, as 03:29.5");
        }
        ManyRecordings.Found many = BadInput.in(() -> ManyRecordings.Found.under(recording));
        if (many.recordings().isEmpty() && !many.unreadable().isEmpty()) {
            throw new BadInput(many.unreadable().get(0));
        }
        if (!many.recordings().isEmpty() && why != null) {
            throw new BadInput(recording + " holds several recordings: --why needs one");
        }
        if (!many.recordings().isEmpty()) {
            return new ManyRecordings(spec, recording, many, options(), out, json).debrief();
        }
        RecordingToGrade graded = options().open(recording);
        Optional<String> other = lesson == null ? Optional.empty() : otherLesson(graded.folder(), graded.lesson());
        boolean several = graded.following().several();
        List<Debrief> debriefs = graded.debrief();
        other.ifPresent(note -> err().println("rejoin: note: " + CleanText.line(note)));
        if (askedS.isPresent()) {
            explain(askedS.getAsDouble(), debriefs, several);
        } else {
            print(graded.lesson(), debriefs, several);
        }
        if (out != null) {
            graded.export(out, debriefs, options());
        }
        return Rejoin.DONE;
    }

    /** For each aircraft that has an event near; refuses where none has. */
    private void explain(double askedS, List<Debrief> debriefs, boolean several) throws BadInput {
        Map<Debrief, List<Explanation>> found = new LinkedHashMap<>();
        String refusal = "";
        for (Debrief debrief : debriefs) {
            try {
                found.put(
                        debrief,
                        Explainer.explanations(
                                debrief.record(), askedS, debrief.set().limits()));
            } catch (Explainer.NothingNearException e) {
                refusal = refusal.isEmpty() ? String.valueOf(e.getMessage()) : refusal;
            }
        }
        if (found.isEmpty()) {
            throw new BadInput(refusal);
        }
        PrintWriter print = out();
        if (json) {
            print.println(explained(found, several));
            return;
        }
        found.forEach((debrief, explanations) -> {
            if (several) {
                print.println(debrief.aircraft().label());
            }
            Explainer.lines(explanations).forEach(print::println);
            print.println();
        });
        print.println(Rejoin.CAUTION);
    }

    private static String explained(Map<Debrief, List<Explanation>> found, boolean several) {
        return Json.object(json -> {
            json.writeArrayFieldStart("why");
            for (Map.Entry<Debrief, List<Explanation>> each : found.entrySet()) {
                for (Explanation explanation : each.getValue()) {
                    if (several) {
                        json.writeStartObject();
                        json.writeStringField("seat", each.getKey().aircraft().label());
                        json.writeFieldName("explanation");
                    }
                    explanation.write(json);
                    if (several) {
                        json.writeEndObject();
                    }
                }
            }
            json.writeEndArray();
        });
    }

    private void print(Lesson flown, List<Debrief> debriefs, boolean several) throws IOException {
        PrintWriter print = out();
        if (json) {
            print.println(object(debriefs, several));
            PrintWriter err = err();
            debriefs.forEach(debrief -> debrief.notes()
                    .forEach(note -> err.println("rejoin: " + prefix(debrief, several) + CleanText.line(note))));
            return;
        }
        print.println("Lesson: " + CleanText.line(flown.title()));
        print.println("Filed: " + CleanText.line(flown.filed().text()));
        for (Debrief debrief : debriefs) {
            String prefix = prefix(debrief, several);
            debrief.notes().forEach(note -> print.println(prefix + "  note: " + CleanText.line(note)));
            lines(debrief, prefix).forEach(line -> print.println(CleanText.of(line)));
            debrief.said()
                    .remarks()
                    .forEach(remark -> print.println(
                            prefix + Words.clock(remark.elapsedS()) + "  remark: " + CleanText.line(remark.text())));
            print.println();
        }
        for (Debrief debrief : debriefs) {
            if (several) {
                print.println(CleanText.line(debrief.aircraft().label()));
            }
            GradeCard.lines(debrief.grade(), debrief.set().title()).forEach(line -> print.println(CleanText.of(line)));
            print.println();
            for (Comparison comparison : Comparison.all(debrief.record())) {
                comparison.lines().forEach(line -> print.println(CleanText.of(line)));
                print.println();
            }
        }
        FlightView.cautions().forEach(print::println);
    }

    /** The events and clearances as they were shown live; notes stand above them. */
    private static List<String> lines(Debrief debrief, String prefix) {
        List<String> lines = new ArrayList<>();
        AircraftView words = new AircraftView(lines::add, prefix);
        debrief.record().entries().stream()
                .filter(entry -> !(entry instanceof Entry.NotIssued))
                .forEach(entry -> entry.readBy(words));
        return lines;
    }

    private static String prefix(Debrief debrief, boolean several) {
        return several ? CleanText.line(debrief.aircraft().label()) + "  " : "";
    }

    private RecordingToGrade.Options options() {
        return new RecordingToGrade.Options(spec, lesson, profiles, which);
    }

    /** A sentence where the recording was made with a lesson that is not the one it is graded with. */
    private static Optional<String> otherLesson(RecordingFolder folder, Lesson graded) {
        if (folder.kept(RecordingFolder.Part.LESSON).isEmpty()) {
            return Optional.empty();
        }
        try {
            Lesson flown = LessonReader.readFile(
                    folder.kept(RecordingFolder.Part.LESSON).get());
            boolean same = flown.filed().text().equals(graded.filed().text())
                    && flown.amendments().equals(graded.amendments());
            return same
                    ? Optional.empty()
                    : Optional.of("the recording was made with the lesson \"" + flown.title()
                            + "\" and is graded with \"" + graded.title() + "\"");
        } catch (LessonException e) {
            return Optional.of("the lesson kept with the recording cannot be read: " + e.getMessage());
        }
    }

    /** The debrief of one aircraft; of several in one object, with a name for each. */
    private static String object(List<Debrief> debriefs, boolean several) {
        return Json.value(generator -> {
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
        });
    }

    private static void write(Debrief debrief, boolean several, JsonGenerator generator) throws IOException {
        generator.writeStartObject();
        if (several) {
            generator.writeStringField("seat", debrief.aircraft().label());
        }
        generator.writeArrayFieldStart("events");
        for (FlightEvent event : debrief.events()) {
            EventJson.write(event, generator);
        }
        generator.writeEndArray();
        if (!debrief.said().remarks().isEmpty()) {
            generator.writeArrayFieldStart("remarks");
            for (InstructorFile.Remark remark : debrief.said().remarks()) {
                generator.writeStartObject();
                JsonNumbers.write(generator, "time_s", remark.elapsedS());
                generator.writeStringField("text", remark.text());
                generator.writeEndObject();
            }
            generator.writeEndArray();
        }
        GradeJson.writeFaults(debrief.grade().faults(), generator);
        generator.writeFieldName("grade");
        GradeJson.write(debrief.grade(), generator);
        generator.writeArrayFieldStart("best");
        for (Comparison comparison : Comparison.all(debrief.record())) {
            comparison.write(generator);
        }
        generator.writeEndArray();
        generator.writeEndObject();
    }
}
