package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Durable;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.recording.Said;
import org.rejoin.console.report.Report;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;

/**
 * A recording with all that its debrief needs: as it was kept, but for what the user says otherwise.
 *
 * @param practicePilot habit of the practice aircraft, where that flew it and no person
 */
record RecordingToGrade(
        RecordingFolder folder,
        Lesson lesson,
        Following following,
        List<WireFormat> formats,
        Said said,
        Optional<String> practicePilot) {

    /** What the user says: else lesson, profiles and aircraft are those kept with the recording. */
    record Options(CommandSpec spec, @Nullable String lesson, List<String> profiles, WhichAircraft which) {

        /** Opens a recording. */
        RecordingToGrade open(Path recording) throws BadInput, LessonException {
            RecordingFolder folder = BadInput.in(() -> RecordingFolder.open(recording));
            FeedSetup kept = BadInput.in(() -> FeedSetup.kept(folder));
            return new RecordingToGrade(
                    folder,
                    lesson != null
                            ? LessonReader.read(lesson)
                            : LessonReader.readFile(folder.kept(RecordingFolder.Part.LESSON)
                                    .orElseThrow(() -> AnyCommand.bad(
                                            spec,
                                            recording
                                                    + " has no lesson.yaml beside it: name the lesson with --lesson"))),
                    which.given() ? which.following(spec) : kept.following(),
                    BadInput.in(() -> Formats.with(profiles.isEmpty() ? kept.formats() : profiles)),
                    BadInput.in(folder::said),
                    kept.practicePilot());
        }

        private String version() {
            return spec.root().version()[0];
        }

        /** The command without this machine's paths, so that the report of a recording is the same wherever it lies. */
        private String again(Debrief debrief) {
            return "debrief RECORDING"
                    + (lesson == null ? "" : " --lesson LESSON")
                    + (profiles.isEmpty() ? "" : " --profile FILE")
                    + (which.given() ? " --aircraft \"" + debrief.aircraft().label() + "\"" : "")
                    + " --out DIR";
        }
    }

    /** Each aircraft graded again. */
    List<Debrief> debrief() throws BadInput {
        return BadInput.in(() -> Debrief.of(folder.capture(), lesson, formats, following, said));
    }

    /** Where log and grade of one aircraft belong. */
    Path place(Path out, Debrief debrief) {
        return out.resolve(seat(debrief));
    }

    /** Of a recording of several the folder of one aircraft, below that of all; else nothing. */
    String seat(Debrief debrief) {
        return following.several() ? "seats/" + debrief.aircraft().directory() : "";
    }

    /** Writes log and grade of one aircraft into the folder of an attempt. */
    void write(Path out, Debrief debrief) throws IOException {
        Path place = place(out, debrief);
        Files.createDirectories(place);
        // A page may ask for them meanwhile.
        Durable.write(place.resolve("log.jsonl"), Recording.logText(debrief.events()));
        Durable.write(place.resolve("grade.json"), Recording.gradeJson(debrief.grade()));
    }

    /** Writes what {@code debrief --out} leaves, log, grade, report and exports of each aircraft: all or nothing. */
    void export(Path out, List<Debrief> debriefs, Options options) throws IOException {
        List<OwnFiles> places = new ArrayList<>();
        try {
            for (Debrief debrief : debriefs) {
                OwnFiles place = OwnFiles.in(place(out, debrief));
                places.add(place);
                place.prepare("log.jsonl", to -> to.write(Recording.logText(debrief.events())));
                place.prepare("grade.json", to -> to.write(Recording.gradeJson(debrief.grade())));
                Report report = Report.of(
                        lesson,
                        debrief,
                        folder.capture(),
                        options.version(),
                        options.again(debrief),
                        Report.Heading.of(practicePilot));
                for (Map.Entry<String, Report.Content> file : report.files().entrySet()) {
                    place.prepare(file.getKey(), file.getValue());
                }
            }
            for (OwnFiles place : places) {
                place.require();
            }
            for (OwnFiles place : places) {
                place.place();
            }
        } finally {
            for (OwnFiles place : places) {
                place.close();
            }
        }
    }
}
