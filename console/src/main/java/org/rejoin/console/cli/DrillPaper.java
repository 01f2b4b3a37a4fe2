package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Locale;
import java.util.concurrent.Callable;

import org.rejoin.console.drill.NoDrillException;
import org.rejoin.console.drill.PaperDrill;
import org.rejoin.console.drill.PaperResult;
import org.rejoin.console.drill.Question;
import org.rejoin.console.lesson.LessonException;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code drill paper}: a clearance worked out against the clock. */
@Command(
        name = "paper",
        description = {
            "Work a clearance out on paper: the program asks, takes the time, marks each element and shows the working.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true)
final class DrillPaper implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Mixin
    Verbosity verbosity = new Verbosity();

    @Mixin
    DrillChartOption chart = new DrillChartOption();

    @Mixin
    DrillWishes wishes = new DrillWishes();

    @Mixin
    DrillKeeping keeping = new DrillKeeping();

    @Option(names = "--json", description = "Read the answers from standard input, one a line; print one JSON object.")
    boolean json;

    @Override
    public Integer call() throws IOException, BadInput, LessonException {
        keeping.check(spec);
        PaperDrill paper;
        try {
            paper = PaperDrill.draw(chart.read(), wishes.request());
        } catch (NoDrillException e) {
            throw new BadInput(String.valueOf(e.getMessage()));
        }
        PrintWriter out = spec.commandLine().getOut();
        if (!json) {
            paper.sheet().forEach(out::println);
            out.println("Answer each line; an empty line passes.");
        }
        Answers answers = new Answers();
        List<PaperResult.Item> items = new ArrayList<>();
        for (Question question : paper.questions()) {
            if (!json) {
                out.print(question.ask() + " ");
                out.flush();
            }
            Answers.Answer answer = answers.next();
            items.add(new PaperResult.Item(question, answer.text(), json ? 0 : answer.seconds()));
        }
        PaperResult result = new PaperResult(paper, items);
        keep(result);
        if (json) {
            out.println(result.json().toPrettyString());
        } else {
            print(result, out);
        }
        out.flush();
        return Rejoin.DONE;
    }

    private void keep(PaperResult result) throws IOException, BadInput {
        boolean timed = result.seconds() > 0;
        keeping.keep(
                spec,
                "Paper: " + result.paper().drill().title(),
                timed ? OptionalDouble.of(result.seconds()) : OptionalDouble.empty(),
                result.kept(),
                result::marks);
    }

    private static void print(PaperResult result, PrintWriter out) {
        out.println();
        for (PaperResult.Item item : result.items()) {
            out.println((item.right() ? "right  " : "WRONG  ") + item.question().ask());
            if (!item.right()) {
                out.println("       you said: " + (item.given().isEmpty() ? "nothing" : item.given()) + ", right is: "
                        + item.question().answer().words());
            }
            out.println("       " + item.question().working());
        }
        out.println(String.format(
                Locale.ROOT,
                "%d of %d right in %.0f s",
                result.right(),
                result.items().size(),
                result.seconds()));
        out.println(Rejoin.CAUTION);
    }
}
