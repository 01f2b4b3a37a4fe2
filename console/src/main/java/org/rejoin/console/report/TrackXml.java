package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

import org.rejoin.console.words.CleanText;

/** An XML document in one namespace, written by StAX; text is cleaned of what XML cannot hold. */
final class TrackXml {

    private static final DateTimeFormatter UTC = DateTimeFormatter.ofPattern(
                    "yyyy-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private final XMLStreamWriter xml;

    private TrackXml(XMLStreamWriter xml) {
        this.xml = xml;
    }

    /** Writes the content of a document. */
    interface Content {
        void write(TrackXml xml) throws XMLStreamException;
    }

    static void document(Writer out, String root, String namespace, Content content) throws IOException {
        try {
            XMLStreamWriter writer = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(out);
            writer.writeStartDocument("UTF-8", "1.0");
            writer.writeCharacters("\n");
            writer.writeStartElement(root);
            writer.writeDefaultNamespace(namespace);
            content.write(new TrackXml(writer));
            writer.writeEndElement();
            writer.writeEndDocument();
            writer.flush();
            out.write("\n");
            out.flush();
        } catch (XMLStreamException e) {
            throw new IOException("the " + root + " document cannot be written: " + e.getMessage(), e);
        }
    }

    /** A moment as XML Schema's dateTime, to the millisecond. */
    static String utc(Instant instant) {
        return UTC.format(instant);
    }

    TrackXml start(String name) throws XMLStreamException {
        xml.writeCharacters("\n");
        xml.writeStartElement(name);
        return this;
    }

    TrackXml attribute(String name, String value) throws XMLStreamException {
        xml.writeAttribute(name, CleanText.of(value));
        return this;
    }

    TrackXml end() throws XMLStreamException {
        xml.writeEndElement();
        return this;
    }

    TrackXml element(String name, String text) throws XMLStreamException {
        xml.writeStartElement(name);
        text(text);
        xml.writeEndElement();
        return this;
    }

    TrackXml text(String text) throws XMLStreamException {
        xml.writeCharacters(CleanText.of(text));
        return this;
    }
}
