package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;

import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.skill.Calibration;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code drill calibration}: what the estimates promised against what happened. */
@Command(
        name = "calibration",
        description =
                "Compare what the estimates promised with what happened, over all attempts of the data folder: log loss and"
                        + " reliability table. The weights of difficulty are judgement until this says otherwise.")
final class DrillCalibration extends AnyCommand.Verbose {

    @Mixin
    HomeOption home = new HomeOption();

    @Option(names = "--json", description = "Print one JSON object.")
    boolean json;

    @Override
    public Integer call() throws BadInput, IOException {
        List<GradedAttempt> attempts = ForPilot.read(spec, home, AttemptFolders::all);
        Calibration found = Calibration.of(
                attempts.stream().flatMap(attempt -> attempt.marks().stream()).toList());
        PrintWriter out = out();
        if (json) {
            out.println(json(found, attempts.size()).toPrettyString());
        } else if (found.marks() == 0) {
            out.println("no marks in " + home.place() + ": nothing to compare yet");
        } else {
            out.println(Words.say(
                    "%d marks of %d attempts, difficulty weights version %d",
                    found.marks(), attempts.size(), Difficulty.BUILT_IN.version()));
            out.println(Words.say(
                    "log loss %.3f; always saying the share of right marks gives %.3f, knowing nothing 0.693",
                    found.logLoss(), found.baseLogLoss()));
            out.println("promised        marks  mean promised  right");
            found.rows()
                    .forEach(row -> out.println(Words.say(
                            "%.1f to %.1f  %9d  %13.2f  %5.2f",
                            row.from(), row.to(), row.marks(), row.promised(), row.right())));
        }
        return Rejoin.DONE;
    }

    private static ObjectNode json(Calibration found, int attempts) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("difficulty_version", Difficulty.BUILT_IN.version());
        object.put("attempts", attempts);
        object.put("marks", found.marks());
        object.put("log_loss", found.logLoss());
        object.put("base_log_loss", found.baseLogLoss());
        ArrayNode rows = object.putArray("reliability");
        found.rows()
                .forEach(row -> rows.addObject()
                        .put("from", row.from())
                        .put("to", row.to())
                        .put("marks", row.marks())
                        .put("promised", row.promised())
                        .put("right", row.right()));
        return object;
    }
}
