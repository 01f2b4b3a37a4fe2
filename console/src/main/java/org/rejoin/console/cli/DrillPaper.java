package org.rejoin.console.cli;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.KeptDrill;
import org.rejoin.console.drill.PaperDrill;
import org.rejoin.console.drill.PaperResult;
import org.rejoin.console.drill.Question;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.words.Words;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** {@code drill paper}: a clearance worked out against the clock. */
@Command(
        name = "paper",
        description =
                "Work a clearance out on paper: the program asks, takes the time, marks each element and shows the working.")
final class DrillPaper extends AnsweredDrill {

    @Option(
            names = "--json",
            description =
                    "Read the answers from standard input, one a line, then those to the drawings that \"drill make"
                            + " --kind paper --json\" lists; print one JSON object.")
    boolean json;

    @Override
    public Integer call() throws Exception {
        requireKeepable();
        DrillChart on = wishes.chart();
        PaperDrill paper = PaperDrill.draw(on, wishes.request());
        if (!json) {
            paper.sheet().forEach(out()::println);
            out().println("Answer each line; an empty line counts as not known.");
        }
        Terminal.Answers answers = new Terminal.Answers();
        List<PaperResult.Item> items = new ArrayList<>();
        for (Question question : paper.questions()) {
            items.add(
                    answered(question, answers, items.size(), paper.questions().size()));
        }
        if (!json) {
            out().println(
                            "Now on the chart: a place is STATION/RADIAL/DISTANCE, an ident, or LAT,LON; an empty line leaves it out, and it is"
                                    + " not counted.");
        }
        for (Question drawing : paper.drawings()) {
            drawn(paper, drawing, on.chart(), answers).ifPresent(items::add);
        }
        PaperResult result = new PaperResult(paper, items);
        keep(
                "Paper: " + paper.drill().title(),
                result.seconds() > 0 ? OptionalDouble.of(result.seconds()) : OptionalDouble.empty(),
                result.kept(on.chart()),
                result::marks);
        if (json) {
            out().println(result.json().toPrettyString());
        } else {
            print(result, on.chart());
        }
        return Rejoin.DONE;
    }

    /** A slip of the keyboard is asked again; all of it is timed. */
    private PaperResult.Item answered(Question question, Terminal.Answers answers, int answered, int asked)
            throws IOException, BadInput {
        double seconds = 0;
        while (true) {
            if (!json) {
                out().print(question.ask() + " ");
                out().flush();
            }
            Terminal.Answers.Answer answer = next(answers, answered, asked);
            seconds += answer.seconds();
            Optional<String> none = question.noAnswer(answer.text());
            if (none.isEmpty()) {
                return new PaperResult.Item(question, answer.text(), json ? 0 : seconds);
            }
            if (json) {
                throw new BadInput(question.code() + ": " + none.get());
            }
            out().println(none.get());
        }
    }

    /** What was not asked to its end was not judged: an input that ends early is no answer, as Ctrl-C is none. */
    private Terminal.Answers.Answer next(Terminal.Answers answers, int answered, int asked)
            throws IOException, BadInput {
        Optional<Terminal.Answers.Answer> next = answers.next();
        if (next.isEmpty()) {
            if (!json) {
                out().println();
            }
            throw new BadInput("the input ended after " + answered + " of " + asked
                    + " answers: nothing is marked or kept; an empty line is an answer that is not known");
        }
        return next.get();
    }

    /** What would be drawn is typed; what is no place is asked again, and all of it is timed. Passed, it is not asked at all. */
    private Optional<PaperResult.Item> drawn(PaperDrill paper, Question drawing, Chart on, Terminal.Answers answers)
            throws IOException, BadInput {
        double seconds = 0;
        while (true) {
            if (!json) {
                out().print(drawing.ask() + " " + (drawing.kind().equals("line") ? "From and to: " : "Where: "));
                out().flush();
            }
            Optional<Terminal.Answers.Answer> answer = answers.next();
            if (answer.filter(line -> !line.text().isEmpty()).isEmpty()) {
                return Optional.empty();
            }
            seconds += answer.get().seconds();
            try {
                String places = paper.drawn(drawing, answer.get().text(), on);
                return Optional.of(new PaperResult.Item(drawing, places, json ? 0 : seconds));
            } catch (LessonException e) {
                if (json) {
                    throw new BadInput(drawing.code() + ": " + e.getMessage());
                }
                out().println(e.getMessage());
            }
        }
    }

    private void print(PaperResult result, Chart on) {
        out().println();
        KeptDrill.of(result.kept(on)).lines().forEach(out()::println);
        out().println(Words.say(
                "%d of %d right in %.0f s", result.right(), result.items().size(), result.seconds()));
        out().println(Rejoin.CAUTION);
    }
}
