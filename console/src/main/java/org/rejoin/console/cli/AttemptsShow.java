package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.GradeSummary;
import org.rejoin.console.book.OwnMark;
import org.rejoin.console.book.Signature;
import org.rejoin.console.drill.KeptDrill;
import org.rejoin.console.room.AttemptJson;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.JsonNode;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code attempts show}: one attempt with its signatures, each compared with what lies there now. */
@Command(name = "show", description = "Show attempts with their signatures, and whether what was signed is unchanged.")
final class AttemptsShow extends AttemptsCommand.Part {

    @Parameters(arity = "1..*", paramLabel = "ID", description = "Attempts, as the list names them.")
    List<String> ids = new ArrayList<>();

    @Option(names = "--json", description = "Print one JSON object a line.")
    boolean json;

    @Override
    public Integer call() throws Exception {
        return HomeOption.in(attempts.home.toRead(spec), book -> {
            for (String id : ids) {
                show(BadInput.in(() -> book.attempt(id)));
            }
            return Rejoin.DONE;
        });
    }

    private void show(AttemptFolder folder) throws Exception {
        PrintWriter print = out();
        if (json) {
            print.println(AttemptJson.of(folder));
            folder.damage().forEach(each -> err().println("rejoin: note: " + CleanText.line(each)));
            return;
        }
        Attempt attempt = folder.attempt();
        line(print, "Attempt: " + attempt.id());
        line(print, "Pilot: " + (attempt.pilot().isEmpty() ? "not named" : attempt.pilot()));
        attempt.practicePilot().ifPresent(habit -> line(print, Words.flownByPractice(habit)));
        line(print, "Lesson: " + attempt.lesson());
        line(print, "Began: " + attempt.began());
        Optional<JsonNode> grade = folder.grade(attempt.seat());
        GradeSummary summary = grade.map(GradeSummary::of).orElse(GradeSummary.NONE);
        if (folder.isAnswered()) {
            answered(print, attempt);
        } else {
            line(
                    print,
                    "Score: "
                            + (summary.score().isPresent()
                                    ? String.valueOf(summary.score().getAsDouble())
                                    : attempt.durationS().isEmpty()
                                            ? AttemptLines.IN_FLIGHT
                                            : grade.isPresent() ? "no score" : "not graded"));
        }
        Optional<OwnMark> mark = folder.ownMark();
        mark.ifPresent(own -> line(
                print, "Own mark: " + own.score() + (own.by().isBlank() ? "" : ", " + own.by()) + ": " + own.reason()));
        for (AttemptFolder.Checked checked : folder.checked()) {
            Signature signature = checked.signature();
            Signature.Words words = signature.words();
            List<String> changed = checked.changed();
            line(
                    print,
                    "Signed: " + signature.at() + " by " + words.name()
                            + (words.certificate().isEmpty() ? "" : ", " + words.certificate())
                            + (words.remark().isEmpty() ? "" : ": " + words.remark())
                            + (changed.isEmpty()
                                    ? " (unchanged since)"
                                    : " (NO LONGER MATCHES: changed since: " + String.join(", ", changed) + ")"));
        }
        line(print, (folder.isAnswered() ? "Folder: " : "Recording: ") + folder.place());
        folder.damage().forEach(each -> err().println("rejoin: note: " + CleanText.line(each)));
    }

    /** A drill that was not flown: what stood before the pilot, and each answer with the right one. */
    private static void answered(PrintWriter print, Attempt attempt) {
        KeptDrill drill = KeptDrill.of(attempt.more());
        line(print, "Result: " + attempt.answered());
        drill.sheet().forEach(each -> line(print, each));
        if (!drill.readback().isEmpty()) {
            line(print, "Readback: " + drill.readback());
        }
        drill.lines().forEach(each -> print.println("  " + each));
    }

    private static void line(PrintWriter print, String text) {
        print.println(CleanText.line(text));
    }
}
