package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;

import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.drill.NextDrill;
import org.rejoin.console.drill.NoDrillException;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.skill.Calibration;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.GradedAttempt;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code drill}: clearances drawn on a chart, to fly, to work out on paper, to read back. */
@Command(
        name = "drill",
        description = {
            "Draw clearances on your own chart: to fly, to work out on paper, to hear and read back.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true,
        subcommands = {
            DrillMake.class,
            DrillPaper.class,
            DrillListen.class,
            DrillCommand.DrillNext.class,
            DrillSitting.class,
            DrillCommand.DrillCalibration.class
        })
final class DrillCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() {
        spec.commandLine().usage(spec.commandLine().getOut());
        return Rejoin.DONE;
    }

    /** {@code drill next}: the next drill for a pilot, and why. */
    @Command(
            name = "next",
            description = {
                "Choose the next drill for a pilot from what he has shown so far, and say why. The options choose otherwise.",
                Rejoin.CAUTION
            },
            mixinStandardHelpOptions = true)
    static final class DrillNext implements Callable<Integer> {

        @Spec
        CommandSpec spec = CommandSpec.create();

        @Mixin
        Verbosity verbosity = new Verbosity();

        @Mixin
        ForPilot who = new ForPilot();

        @Mixin
        DrillChartOption chart = new DrillChartOption();

        @Mixin
        DrillWishes wishes = new DrillWishes();

        @Option(names = "--first", description = "The first of a sitting: an easy one.")
        boolean first;

        @Option(names = "--out", paramLabel = "LESSON.yaml", description = "Write it as a lesson file.")
        @Nullable
        Path out;

        @Option(names = "--json", description = "Print one JSON object.")
        boolean json;

        @Override
        public Integer call() throws IOException, BadInput, LessonException {
            DrillChart on = chart.read();
            NextDrill.Known known = who.known(spec, first);
            NextDrill next;
            try {
                next = NextDrill.choose(known, on, wishes.request());
            } catch (NoDrillException e) {
                throw new BadInput(String.valueOf(e.getMessage()));
            }
            String lesson = DrillText.lesson(next.drill(), chart.pathFrom(out), on.sha256());
            Path file = out;
            if (file != null) {
                chart.write(file, lesson);
            }
            PrintWriter to = spec.commandLine().getOut();
            if (json) {
                ObjectNode object = DrillText.json(next.drill());
                object.put("pilot", who.pilot);
                object.put("skill", next.skill().name());
                object.put("why", next.why());
                object.put("expected", Math.round(next.chance() * 100) / 100.0);
                to.println(object.toPrettyString());
            } else {
                to.println(next.why());
                to.println(next.drill().say());
                if (file == null) {
                    to.println();
                    to.print(lesson);
                }
                to.println(Rejoin.CAUTION);
            }
            to.flush();
            return Rejoin.DONE;
        }
    }

    /** {@code drill calibration}: what the estimates promised against what happened. */
    @Command(
            name = "calibration",
            description = {
                "Compare what the estimates promised with what happened, over all attempts of the data folder: log loss and"
                        + " reliability table. The weights of difficulty are judgement until this says otherwise.",
                Rejoin.CAUTION
            },
            mixinStandardHelpOptions = true)
    static final class DrillCalibration implements Callable<Integer> {

        @Spec
        CommandSpec spec = CommandSpec.create();

        @Mixin
        Verbosity verbosity = new Verbosity();

        @Mixin
        HomeOption home = new HomeOption();

        @Option(names = "--json", description = "Print one JSON object.")
        boolean json;

        @Override
        public Integer call() throws BadInput, IOException {
            List<GradedAttempt> attempts = ForPilot.read(spec, home, AttemptFolders::all);
            Calibration found = Calibration.of(attempts.stream()
                    .flatMap(attempt -> attempt.marks().stream())
                    .toList());
            PrintWriter out = spec.commandLine().getOut();
            if (json) {
                out.println(json(found, attempts.size()).toPrettyString());
            } else if (found.marks() == 0) {
                out.println("no marks in " + home.place() + ": nothing to compare yet");
            } else {
                out.println(String.format(
                        Locale.ROOT,
                        "%d marks of %d attempts, difficulty weights version %d",
                        found.marks(),
                        attempts.size(),
                        Difficulty.BUILT_IN.version()));
                out.println(String.format(
                        Locale.ROOT,
                        "log loss %.3f; always saying the share of right marks gives %.3f, knowing nothing 0.693",
                        found.logLoss(),
                        found.baseLogLoss()));
                out.println("promised        marks  mean promised  right");
                found.rows()
                        .forEach(row -> out.println(String.format(
                                Locale.ROOT,
                                "%.1f to %.1f  %9d  %13.2f  %5.2f",
                                row.from(),
                                row.to(),
                                row.marks(),
                                row.promised(),
                                row.right())));
            }
            out.flush();
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
}
