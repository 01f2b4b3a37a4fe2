package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.nio.file.Path;

import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.drill.NextDrill;

import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code drill next}: the next drill for a pilot, and why. */
@Command(
        name = "next",
        description =
                "Choose the next drill for a pilot from what he has shown so far, and say why. The options choose otherwise.")
final class DrillNext extends AnyCommand.Verbose {

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
    public Integer call() throws Exception {
        DrillChart on = chart.read();
        NextDrill.Known known = who.known(spec, first);
        NextDrill next = NextDrill.choose(known, on, wishes.request());
        String lesson = DrillText.lesson(next.drill(), chart.pathFrom(out), on.sha256());
        Path file = out;
        if (file != null) {
            chart.write(file, lesson);
        }
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
            if (file == null) {
                to.println();
                to.print(lesson);
            }
            to.println(Rejoin.CAUTION);
        }
        return Rejoin.DONE;
    }
}
