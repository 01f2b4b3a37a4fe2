package org.rejoin.console.draw;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Objects;
import java.util.function.Consumer;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.CleanText;

/**
 * Writes HTML with SVG inside, in the form that is well-formed XML too. Text and attribute values are always escaped, by
 * the platform's XML writer; there is no way to write a string as markup.
 */
public final class Markup {

    private final Writer out;
    private final Deque<String> open = new ArrayDeque<>();
    private final XMLStreamWriter xml;

    /** An empty document. */
    public Markup() {
        this(new StringWriter(1 << 16));
    }

    private Markup(Writer out) {
        this.out = out;
        try {
            this.xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out);
        } catch (XMLStreamException e) {
            throw new IllegalStateException("no XML can be written: " + e.getMessage(), e);
        }
    }

    /**
     * Writes a whole document of XML in one namespace.
     *
     * @param content of the root element
     * @param attributes of the root element, as of {@link #start}
     * @throws IOException if it cannot be written
     */
    public static void document(
            Writer out, String root, String namespace, Consumer<Markup> content, String... attributes)
            throws IOException {
        Markup xml = new Markup(out);
        try {
            xml.write(() -> xml.xml.writeStartDocument("UTF-8", "1.0"));
            xml.startLine(root, "xmlns", namespace).write(() -> xml.attributes(attributes));
            content.accept(xml);
            xml.endLine().write(xml.xml::flush);
            out.flush();
        } catch (UncheckedIOException e) {
            throw new IOException(
                    "the " + root + " document cannot be written: "
                            + Objects.requireNonNull(e.getCause()).getMessage(),
                    e);
        }
    }

    /** One call of the writer; it fails on a broken target alone. */
    private interface Call {
        void make() throws XMLStreamException, IOException;
    }

    private Markup write(Call call) {
        try {
            call.make();
        } catch (XMLStreamException e) {
            throw new UncheckedIOException(new IOException(e.getMessage(), e));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return this;
    }

    /** Opens an element of ours; its attributes are name, value, name, value ... */
    public Markup start(String name, String... attributes) {
        open.push(name);
        return write(() -> {
            xml.writeStartElement(name);
            attributes(attributes);
        });
    }

    /** Opens an element on a new line of the source. */
    public Markup startLine(String name, String... attributes) {
        return text("\n").start(name, attributes);
    }

    private void attributes(String... attributes) throws XMLStreamException {
        for (int i = 0; i < attributes.length; i += 2) {
            xml.writeAttribute(attributes[i], CleanText.of(attributes[i + 1]));
        }
    }

    /** Closes the innermost element. */
    public Markup end() {
        open.pop();
        return write(xml::writeEndElement);
    }

    /** Closes the innermost element and starts a new line of the source. */
    public Markup endLine() {
        return end().text("\n");
    }

    /**
     * An element without content that HTML lets stand without an end tag, or one of SVG; attributes as of {@link
     * #start}.
     */
    public Markup empty(String name, String... attributes) {
        return write(() -> {
            xml.writeEmptyElement(name);
            attributes(attributes);
        });
    }

    /** An element that holds text only; attributes as of {@link #start}. */
    public Markup element(String name, String text, String... attributes) {
        return start(name, attributes).text(text).end();
    }

    /** The head of a table that is open, a column each. */
    public Markup tableHead(List<String> columns) {
        start("thead").start("tr");
        columns.forEach(column -> element("th", column, "scope", "col"));
        return end().end();
    }

    /** An entry of a list of definitions that is open. */
    public Markup entry(String name, String text) {
        return element("dt", name).element("dd", text);
    }

    /** Text, made fit to be shown. */
    public Markup text(String text) {
        return write(() -> xml.writeCharacters(CleanText.of(text)));
    }

    /** A line of a drawing in its units, y down positive; the style is its class, as of all that follow. */
    public Markup line(String style, double x1, double y1, double x2, double y2) {
        return empty("line", "class", style, "x1", xy(x1), "y1", xy(y1), "x2", xy(x2), "y2", xy(y2));
    }

    /** A rectangle of a drawing, from its upper left corner. */
    public Markup box(String style, double x, double y, double width, double height) {
        return empty("rect", "class", style, "x", xy(x), "y", xy(y), "width", xy(width), "height", xy(height));
    }

    /** Words in a drawing, from where they begin on their base line. */
    public Markup words(String style, double x, double y, String text) {
        return element("text", text, "class", style, "x", xy(x), "y", xy(y));
    }

    /** Words in a drawing whose "middle" or "end" is at their place. */
    public Markup words(String style, double x, double y, String anchor, String text) {
        return element("text", text, "class", style, "x", xy(x), "y", xy(y), "text-anchor", anchor);
    }

    /**
     * A style sheet, a script or a block of data of our own making, for elements whose content is not parsed.
     *
     * @throws IllegalArgumentException if the content could end the element
     */
    public Markup own(String element, String content, String... attributes) {
        if (content.contains("</") || content.contains("<!--")) {
            throw new IllegalArgumentException("the content of " + element + " must not hold \"</\" or \"<!--\"");
        }
        // The empty text ends the start tag.
        return start(element, attributes)
                .text("")
                .write(xml::flush)
                .write(() -> out.write(content))
                .endLine();
    }

    /** The document type; first of all. */
    public Markup documentType() {
        return write(() -> xml.writeDTD("<!DOCTYPE html>")).text("\n");
    }

    /** The text of the document, whose elements are all closed. */
    public String document() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("still open: " + open);
        }
        write(xml::flush);
        return out.toString();
    }

    /** A plain decimal with at most so many digits after the point, without trailing zeros, never "-0": "12.5". */
    public static String plain(double value, int digits) {
        BigDecimal decimal = JsonNumbers.rounded(value, digits).stripTrailingZeros();
        return decimal.signum() == 0 ? "0" : decimal.toPlainString();
    }

    /** A coordinate in a drawing, to a tenth of a unit. */
    public static String xy(double value) {
        return plain(value, 1);
    }
}
