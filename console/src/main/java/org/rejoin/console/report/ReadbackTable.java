package org.rejoin.console.report;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.ReadBack;
import org.rejoin.console.recording.Said;
import org.rejoin.console.words.Words;

/** How the clearances were read back: when, how it came, how long it took, each element, and what the instructor changed. */
record ReadbackTable(Markup out, Said said) {

    private static final List<String> HEADS =
            List.of("Time", "Clearance", "How it came", "Copied in", "Read back in", "Elements", "As a whole");

    boolean isEmpty() {
        return said.readbacks().isEmpty() && said.again().isEmpty();
    }

    void write() {
        if (!said.readbacks().isEmpty()) {
            out.start("table", "class", "log").tableHead(HEADS).start("tbody");
            said.readbacks().forEach(this::row);
            out.end().endLine();
        }
        said.again().stream().map(InstructorFile.Again::number).distinct().forEach(number -> {
            long times = said.again().stream()
                    .filter(again -> again.number() == number)
                    .count();
            out.element(
                    "p",
                    "Clearance " + number + " was asked for again " + (times == 1 ? "once" : times + " times") + ".");
        });
    }

    private void row(ReadBack readback) {
        ReadBack.Talk talk = readback.talk();
        out.start("tr");
        out.element("td", Words.clock(readback.elapsedS()), "class", "figure");
        out.element("td", talk.number() == 0 ? "" : String.valueOf(talk.number()));
        out.element(
                "td", way(talk.how()) + (readback.heard().isEmpty() ? "" : ": \u201c" + readback.heard() + "\u201d"));
        out.element("td", seconds(talk.copiedInS()), "class", "figure");
        out.element("td", seconds(talk.readInS()), "class", "figure");
        out.start("td");
        for (ReadBack.Element each : readback.elements()) {
            out.element("div", text(each));
        }
        out.end();
        out.element("td", readback.outcome().name().toLowerCase(Locale.ROOT));
        out.end();
    }

    private static String way(String how) {
        return switch (how) {
            case "heard" -> "by voice";
            case "tapped" -> "as the instructor tapped it";
            case "marked" -> "changed by the instructor";
            default -> how;
        };
    }

    private static String seconds(OptionalDouble time) {
        return time.isPresent() ? Words.say("%.1f s", time.getAsDouble()) : "";
    }

    private static String text(ReadBack.Element element) {
        String cleared = element.cleared().isEmpty() ? "" : ", cleared " + element.cleared();
        String found = element.found().isEmpty() ? "" : " " + element.found();
        String what = Readback.called(element.what());
        return switch (element.verdict()) {
            case "right" -> "\u2713 " + what + found;
            case "unclear" -> "? " + what + ": not clear" + cleared;
            case "missing" ->
                Readback.isDue(element.what())
                        ? "\u25b2 " + what + ": missing" + cleared
                        : what + ": left out, as it may be";
            default ->
                element.cleared().isEmpty()
                        ? "\u25b2 " + Readback.said(element.what(), element.found()) + ": no part of the clearance"
                        : "\u25b2 " + what + ":" + found + cleared;
        };
    }
}
