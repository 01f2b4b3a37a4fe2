package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.words.Words;

/** The lines of a brief as they are written: titles, numbered steps with their details, paragraphs. */
final class BriefLines {

    private final List<String> lines = new ArrayList<>();
    private final int width;
    private int number;

    /** No line yet; most characters of one, where its words allow. */
    BriefLines(int width) {
        this.width = width;
    }

    List<String> all() {
        return lines;
    }

    void title(String text) {
        lines.add("");
        lines.add(text);
    }

    void line(String text) {
        lines.add(text);
    }

    void numbered(String what, String text) {
        paragraph(Words.say("  %d. %-13s", ++number, what), text);
    }

    /** Below the step numbered last. */
    void detail(String text) {
        paragraph("       ", text);
    }

    void paragraph(String indent, String text) {
        lines.addAll(Words.wrapped(indent, text, width));
    }
}
