package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.report.Report;
import org.rejoin.console.report.ReportHeading;

import org.jspecify.annotations.Nullable;

/** What {@code debrief --out} writes of one recording: log, grade, report and exports of each aircraft. */
final class DebriefFiles {

    private final Options options;

    /**
     * What the user said, as far as the report repeats it.
     *
     * @param version of the program
     * @param lesson named by the user; null for the one kept with the recording
     * @param profiles named by the user
     * @param which aircraft, if the user says so
     */
    record Options(String version, @Nullable String lesson, List<String> profiles, WhichAircraft which) {

        /** The command without this machine's paths, so that the report of a recording is the same wherever it lies. */
        private String again(Debrief debrief) {
            return "debrief RECORDING"
                    + (lesson == null ? "" : " --lesson LESSON")
                    + (profiles.isEmpty() ? "" : " --profile FILE")
                    + (which.given() ? " --aircraft \"" + debrief.aircraft().label() + "\"" : "")
                    + " --out DIR";
        }
    }

    DebriefFiles(Options options) {
        this.options = options;
    }

    /**
     * Writes all or nothing.
     *
     * @throws IOException if a file that is not this program's would be overwritten; nothing is written then
     */
    void write(RecordingToGrade graded, Path out, List<Debrief> debriefs) throws IOException {
        List<OwnFiles> places = new ArrayList<>();
        try {
            for (Debrief debrief : debriefs) {
                OwnFiles place = OwnFiles.in(graded.place(out, debrief));
                places.add(place);
                place.prepare("log.jsonl", to -> to.write(Recording.logText(debrief.events())));
                place.prepare("grade.json", to -> to.write(Recording.gradeJson(debrief.grade())));
                Report report = Report.of(
                        graded.lesson(),
                        debrief,
                        graded.folder().capture(),
                        options.version(),
                        options.again(debrief),
                        ReportHeading.of(graded.practicePilot()));
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
