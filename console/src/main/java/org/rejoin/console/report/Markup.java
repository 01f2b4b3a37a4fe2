package org.rejoin.console.report;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * Writes HTML with SVG inside, in the form that is well-formed XML too. Text and attribute values are always escaped;
 * there is no way to write a string as markup.
 */
final class Markup {

    private final StringBuilder out = new StringBuilder(1 << 16);
    private final Deque<String> open = new ArrayDeque<>();

    /**
     * Opens an element.
     *
     * @param name of the element, one of ours
     * @param attributes name, value, name, value ...
     */
    Markup start(String name, String... attributes) {
        tag(name, attributes);
        out.append('>');
        open.push(name);
        return this;
    }

    /** Closes the innermost element. */
    Markup end() {
        out.append("</").append(open.pop()).append('>');
        return this;
    }

    /** Closes the innermost element and starts a new line of the source. */
    Markup endLine() {
        end();
        out.append('\n');
        return this;
    }

    /** An element without content that HTML lets stand without an end tag, or one of SVG. */
    Markup empty(String name, String... attributes) {
        tag(name, attributes);
        out.append("/>");
        return this;
    }

    /** An element that holds text only. */
    Markup element(String name, String text, String... attributes) {
        return start(name, attributes).text(text).end();
    }

    Markup text(String text) {
        escape(CleanText.of(text));
        return this;
    }

    /**
     * A style sheet, a script or a block of data of our own making, for elements whose content is not parsed.
     *
     * @throws IllegalArgumentException if the content could end the element
     */
    Markup own(String element, String content, String... attributes) {
        if (content.contains("</") || content.contains("<!--")) {
            throw new IllegalArgumentException("the content of " + element + " must not hold \"</\" or \"<!--\"");
        }
        start(element, attributes);
        out.append(content);
        return endLine();
    }

    /** The document type; first of all. */
    Markup documentType() {
        out.append("<!DOCTYPE html>\n");
        return this;
    }

    private void tag(String name, String... attributes) {
        out.append('<').append(name);
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            escape(CleanText.of(attributes[i + 1]));
            out.append('"');
        }
    }

    private void escape(String text) {
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                default -> out.append(c);
            }
        }
    }

    /**
     * The document.
     *
     * @throws IllegalStateException if an element is still open
     */
    String document() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("still open: " + open);
        }
        return out.toString();
    }
}
