package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.report.Report;

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

    void write(RecordingToGrade graded, Path out, List<Debrief> debriefs) throws IOException {
        for (Debrief debrief : debriefs) {
            Report.of(graded.lesson(), debrief, graded.folder().capture(), options.version(), options.again(debrief))
                    .write(graded.write(out, debrief));
        }
    }
}
