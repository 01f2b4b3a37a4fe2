package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Optional;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;

/**
 * A recording with all that its debrief needs: as it was kept, but for what the user says otherwise.
 *
 * @param folder of the recording
 * @param lesson to grade it with
 * @param following which aircraft
 * @param formats to recognise, in this order
 * @param said by the instructor in flight
 * @param practicePilot habit of the practice aircraft, where that flew it and no person
 */
record RecordingToGrade(
        RecordingFolder folder,
        Lesson lesson,
        Following following,
        List<WireFormat> formats,
        Said said,
        Optional<String> practicePilot) {

    /**
     * Opens a recording.
     *
     * @param recording directory or capture
     * @param lesson named by the user; null for the one kept with it
     * @param profiles named by the user; none for those kept with it
     * @param which aircraft, if the user says so
     * @throws BadInput if something of it cannot be read
     * @throws LessonException if the lesson is not valid
     * @throws ParameterException if the user names no lesson and none was kept
     */
    static RecordingToGrade of(
            CommandSpec spec, Path recording, @Nullable String lesson, List<String> profiles, WhichAircraft which)
            throws BadInput, LessonException {
        RecordingFolder folder = BadInput.in(() -> RecordingFolder.open(recording));
        FeedSetup kept = BadInput.in(() -> FeedSetup.kept(folder));
        return new RecordingToGrade(
                folder,
                lesson != null
                        ? LessonReader.read(lesson)
                        : LessonReader.readFile(folder.lesson()
                                .orElseThrow(() -> new ParameterException(
                                        spec.commandLine(),
                                        recording + " has no lesson.yaml beside it: name the lesson with --lesson"))),
                which.given() ? which.following(spec) : kept.following(),
                BadInput.in(() -> Formats.with(profiles.isEmpty() ? kept.formats() : profiles)),
                BadInput.in(folder::said),
                kept.practicePilot());
    }

    /** Each aircraft graded again. */
    List<Debrief> debrief() throws BadInput {
        return BadInput.in(() -> Debrief.of(folder.capture(), lesson, formats, following, said));
    }

    /** Where log and grade of one aircraft belong. */
    Path place(Path out, Debrief debrief) {
        return following.several()
                ? out.resolve("seats").resolve(debrief.aircraft().directory())
                : out;
    }

    /** Writes log and grade of one aircraft into the folder of an attempt. */
    void write(Path out, Debrief debrief) throws IOException {
        Path place = place(out, debrief);
        Files.createDirectories(place);
        keep(place.resolve("log.jsonl"), Recording.logText(debrief.events()));
        keep(place.resolve("grade.json"), Recording.gradeJson(debrief.grade()));
    }

    private static void keep(Path file, String text) throws IOException {
        Files.writeString(
                file,
                text,
                StandardOpenOption.CREATE,
                StandardOpenOption.TRUNCATE_EXISTING,
                StandardOpenOption.WRITE,
                LinkOption.NOFOLLOW_LINKS);
    }
}
