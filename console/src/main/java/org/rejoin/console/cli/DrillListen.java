package org.rejoin.console.cli;

import java.util.List;
import java.util.OptionalDouble;
import java.util.concurrent.locks.LockSupport;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.drill.Drill;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillMaker;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** {@code drill listen}: a clearance shown once for as long as a controller speaks it, then read back. */
@Command(
        name = "listen",
        description =
                "A clearance is shown once, for as long as a controller takes to say it, and then hidden: copy it, type the"
                        + " readback, see each element marked.")
final class DrillListen extends AnsweredDrill {

    /** At most 100 words a minute (ICAO Annex 10, volume II, 5.2.1.5.3 b; from memory). */
    private static final double WORDS_A_SECOND = 100 / 60.0;

    /** Up one line, clear it (ECMA-48: CUU, EL). */
    private static final String HIDE = "\u001b[1A\u001b[2K";

    @Option(names = "--json", description = "Read the readback from standard input, one line; print one JSON object.")
    boolean json;

    @Override
    public Integer call() throws Exception {
        requireKeepable();
        DrillChart on = wishes.chart();
        Drill drill = new DrillMaker(on).makeForPaper(wishes.request());
        if (!json) {
            show(drill);
        }
        Terminal.Answers.Answer readback = new Terminal.Answers()
                .next()
                .orElseThrow(() -> new BadInput("the input ended before the readback: nothing is marked or kept"));
        List<Readback.Element> elements =
                Readback.check(drill.route().clearance(), readback.text(), on.chart(), drill.filed());
        boolean right = Readback.outcome(elements) == Readback.Outcome.RIGHT;
        ObjectNode result = json(drill, readback.text(), elements);
        double difficulty = Difficulty.BUILT_IN.readOnce(drill.features());
        keep(
                "Listening: " + drill.title(),
                json ? OptionalDouble.empty() : OptionalDouble.of(readback.seconds()),
                result,
                (name, now) -> List.of(new Mark(name, now, Skill.HEAR, difficulty, right, 0, false)));
        if (json) {
            out().println(result.toPrettyString());
        } else {
            out().println("ATC said: " + drill.say());
            elements.forEach(element -> out().println(words(element)));
            out().println(Rejoin.CAUTION);
        }
        return Rejoin.DONE;
    }

    private void show(Drill drill) {
        out().println("Filed: " + drill.filed().text());
        out().println("ATC: " + drill.say());
        out().flush();
        if (Terminal.attached()) {
            double seconds = drill.say().split("[ ,]+", -1).length / WORDS_A_SECOND;
            LockSupport.parkNanos((long) (seconds * 1e9));
            out().print(HIDE);
        }
        out().print("Your readback: ");
        out().flush();
    }

    private static String words(Readback.Element element) {
        String what = Readback.called(element.what());
        return switch (element.verdict()) {
            case RIGHT -> "right    " + what + ": " + element.expected();
            case MISSING -> (element.must() ? "MISSING  " : "left out ") + what + ": " + element.expected();
            case UNCLEAR -> "unclear  " + what + ": " + element.expected();
            case WRONG ->
                "WRONG    " + what + ": you said " + element.found()
                        + (element.expected().isEmpty()
                                ? ", which ATC did not say"
                                : ", cleared was " + element.expected());
        };
    }

    static ObjectNode json(Drill drill, String text, List<Readback.Element> elements) {
        ObjectNode object = DrillText.json(drill);
        object.put("kind", "listening");
        object.put("drill", drill.filed().text() + ": " + drill.say());
        object.put("readback", text);
        Readback.Outcome outcome = Readback.outcome(elements);
        object.put("right", outcome == Readback.Outcome.RIGHT);
        object.put("outcome", outcome.name().toLowerCase(java.util.Locale.ROOT));
        ArrayNode array = object.putArray("elements");
        elements.forEach(element -> array.addObject()
                .put("what", element.what())
                .put("must", element.must())
                .put("verdict", element.verdict().name().toLowerCase(java.util.Locale.ROOT))
                .put("expected", element.expected())
                .put("found", element.found()));
        return object;
    }
}
