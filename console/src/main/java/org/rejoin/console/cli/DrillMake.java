package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.nio.file.Path;

import org.rejoin.console.drill.Drill;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillMaker;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.drill.PaperDrill;

import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code drill make}: draws a drill. */
@Command(
        name = "make",
        description =
                "Draw a drill on a chart: a clearance that is flyable, has one meaning, and is as hard as wanted. The same"
                        + " arguments give the same drill.")
final class DrillMake extends AnyCommand.Verbose {

    @Mixin
    DrillChartOption chart = new DrillChartOption();

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
        DrillChart on = chart.read();
        Drill drill;
        PaperDrill questions = null;
        if (paper) {
            questions = PaperDrill.draw(on, wishes.request());
            drill = questions.drill();
        } else {
            drill = new DrillMaker(on).make(wishes.request());
        }
        String lesson = DrillText.lesson(drill, chart.pathFrom(out), on.sha256());
        Path file = out;
        if (file != null) {
            chart.write(file, lesson);
        }
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
        } else if (file == null) {
            to.print(lesson);
        } else {
            to.println(drill.say());
            to.println(DrillText.features(drill.features()));
            to.println("fly it with: fly " + file);
            to.println(Rejoin.CAUTION);
        }
        return Rejoin.DONE;
    }
}
