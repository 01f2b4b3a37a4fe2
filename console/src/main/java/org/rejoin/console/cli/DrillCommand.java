package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;

import org.rejoin.console.drill.AttemptFolders;
import org.rejoin.console.drill.Drill;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillMaker;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.drill.NextDrill;
import org.rejoin.console.drill.PaperDrill;
import org.rejoin.console.skill.Calibration;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code drill}: clearances drawn on a chart. */
@Command(
        name = "drill",
        description = "Draw clearances on your own chart: to fly, to work out on paper, to hear and read back.",
        subcommands = {
            DrillCommand.Make.class,
            DrillPaper.class,
            DrillListen.class,
            DrillCommand.Next.class,
            DrillSitting.class,
            DrillCommand.Calibrated.class
        })
final class DrillCommand extends AnyCommand {

    @Command(
            name = "make",
            description =
                    "Draw a drill on a chart: a clearance that is flyable, has one meaning, and is as hard as wanted. The same"
                            + " arguments give the same drill.")
    static final class Make extends Verbose {

        @Mixin
        DrillWishes wishes = new DrillWishes();

        @Option(
                names = "--kind",
                paramLabel = "flown|paper",
                defaultValue = "flown",
                description = "To fly, or to work out on paper (default: flown).")
        String kind = "flown";

        @Option(names = "--out", paramLabel = "LESSON.yaml", description = "Write it as a lesson file.")
        @Nullable
        Path out;

        @Option(names = "--json", description = "Print one JSON object.")
        boolean json;

        @Override
        public Integer call() throws Exception {
            boolean paper = kind.equals("paper");
            if (!paper && !kind.equals("flown")) {
                throw new BadInput("--kind \"" + kind + "\" is neither flown nor paper");
            }
            DrillChart on = wishes.chart();
            Drill drill;
            PaperDrill questions = null;
            if (paper) {
                questions = PaperDrill.draw(on, wishes.request());
                drill = questions.drill();
            } else {
                drill = new DrillMaker(on).make(wishes.request());
            }
            String lesson = wishes.lesson(drill, on, out);
            PrintWriter to = out();
            if (json) {
                ObjectNode object = DrillText.json(drill);
                object.put("kind", kind);
                if (questions != null) {
                    object.set("questions", questions.questionsJson());
                    object.set("drawings", questions.drawingsJson());
                    object.put("say", questions.say());
                }
                to.println(object.toPrettyString());
            } else if (out == null) {
                to.print(lesson);
            } else {
                to.println(drill.say());
                to.println(DrillText.features(drill.features()));
                to.println("fly it in your simulator with: rejoin listen " + Hints.typed(out)
                        + "; see it flown with: rejoin fly " + Hints.typed(out));
                to.println(Rejoin.CAUTION);
            }
            return Rejoin.DONE;
        }
    }

    @Command(
            name = "next",
            description =
                    "Choose the next drill for a pilot from what he has shown so far, and say why. The options choose otherwise.")
    static final class Next extends Verbose {

        @Mixin
        ForPilot who = new ForPilot();

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
        public Integer call() throws Exception {
            DrillChart on = wishes.chart();
            NextDrill.Known known = new NextDrill.Known(who.attempts(spec), who.goal(), Instant.now(), first);
            NextDrill next = NextDrill.choose(known, on, wishes.request());
            String lesson = wishes.lesson(next.drill(), on, out);
            PrintWriter to = out();
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
                if (out == null) {
                    to.println();
                    to.print(lesson);
                }
                to.println(Rejoin.CAUTION);
            }
            return Rejoin.DONE;
        }
    }

    @Command(
            name = "calibration",
            description =
                    "Compare what the estimates promised with what happened, over all attempts of the data folder: log loss and"
                            + " reliability table. The weights of difficulty are judgement until this says otherwise.")
    static final class Calibrated extends Verbose {

        @Mixin
        HomeOption home = new HomeOption();

        @Option(names = "--json", description = "Print one JSON object.")
        boolean json;

        @Override
        public Integer call() throws BadInput, IOException {
            List<GradedAttempt> attempts = ForPilot.read(spec, home, AttemptFolders::all);
            Calibration found = Calibration.of(GradedAttempt.marks(attempts));
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
}
