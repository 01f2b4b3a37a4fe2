package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import javax.xml.parsers.DocumentBuilderFactory;

import org.rejoin.console.cli.Rejoin;

import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** Recordings of the repository, debriefed from the command line into a directory. */
final class Debriefed {

    static final Path RECORDINGS = Path.of("..", "recordings");

    private Debriefed() {}

    static Path of(String recording, Path out) {
        return debrief(RECORDINGS.resolve(recording), out);
    }

    /** With the lesson changed before. */
    static Path with(String recording, Path folder, UnaryOperator<String> lesson) throws Exception {
        Path changed = Files.createDirectories(folder.resolve("changed"));
        for (String name : List.of("flight.pcap", "chart")) {
            Files.copy(RECORDINGS.resolve(recording).resolve(name), changed.resolve(name));
        }
        String yaml = Files.readString(RECORDINGS.resolve(recording).resolve("lesson.yaml"));
        Files.writeString(changed.resolve("lesson.yaml"), lesson.apply(yaml));
        return debrief(changed, folder.resolve("report"));
    }

    static Path debrief(Path recording, Path out) {
        StringWriter errors = new StringWriter();
        int exit = Rejoin.run(
                new PrintWriter(new StringWriter()),
                new PrintWriter(errors, true),
                "debrief",
                recording.toString(),
                "--out",
                out.toString());
        assertThat(exit).as(errors.toString()).isZero();
        return out;
    }

    /** Parses XML, and the page too: it is written well-formed. */
    static Document parsed(Path file) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
        factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
        factory.setNamespaceAware(true);
        // Style and script are not markup in HTML; in XML they would be.
        String text = Files.readString(file)
                .replaceAll("(?s)(<style>|<script>)(.*?)(</style>|</script>)", "$1$3")
                .replaceFirst("<!DOCTYPE html>\n", "");
        return factory.newDocumentBuilder().parse(new org.xml.sax.InputSource(new java.io.StringReader(text)));
    }

    static List<Element> elements(Document document, String name) {
        return list(document.getElementsByTagName(name));
    }

    static List<Element> children(Element parent, String name) {
        return list(parent.getElementsByTagName(name));
    }

    private static List<Element> list(NodeList nodes) {
        List<Element> elements = new ArrayList<>();
        for (int i = 0; i < nodes.getLength(); i++) {
            elements.add((Element) nodes.item(i));
        }
        return elements;
    }
}
