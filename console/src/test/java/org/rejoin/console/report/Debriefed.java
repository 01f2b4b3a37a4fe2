package org.rejoin.console.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import javax.xml.parsers.DocumentBuilderFactory;

import org.rejoin.console.cli.Rejoin;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.Captured;
import org.rejoin.protocol.Datagram;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
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

    /**
     * With some samples left out or changed before.
     *
     * @param samples gives each sample of the feed back, changed or not, or null to leave it out
     */
    static Path rewritten(String recording, Path folder, UnaryOperator<String> lesson, Rewriting samples)
            throws Exception {
        Path changed = Files.createDirectories(folder.resolve("changed"));
        Files.copy(RECORDINGS.resolve(recording).resolve("chart"), changed.resolve("chart"));
        String yaml = Files.readString(RECORDINGS.resolve(recording).resolve("lesson.yaml"));
        Files.writeString(changed.resolve("lesson.yaml"), lesson.apply(yaml));
        ObjectMapper json = new ObjectMapper();
        List<Datagram> all = Captured.in(RECORDINGS.resolve(recording).resolve("flight.pcap"))
                .datagrams();
        InetSocketAddress destination = new InetSocketAddress(InetAddress.getLoopbackAddress(), 3000);
        try (CaptureWriter writer = CaptureWriter.create(changed.resolve("flight.pcap"), destination)) {
            for (Datagram datagram : all) {
                byte[] octets = new byte[datagram.length()];
                datagram.payload().duplicate().get(octets);
                ObjectNode sample = samples.of((ObjectNode) json.readTree(octets));
                if (sample != null) {
                    writer.write(
                            Datagram.of(datagram.receivedMicros(), datagram.sender(), json.writeValueAsBytes(sample)));
                }
            }
        }
        return debrief(changed, folder.resolve("report"));
    }

    /** What becomes of a sample of the feed. */
    interface Rewriting {
        @Nullable
        ObjectNode of(ObjectNode sample);
    }

    /** Nothing is heard from 300 to 400 s, and meanwhile the aircraft is set down half a degree to the north. */
    static @Nullable ObjectNode heardAgainElsewhere(ObjectNode sample) {
        double time = sample.path("time_s").asDouble();
        if (time > 300.5 && time < 399.5) {
            return null;
        }
        return time < 300.5
                ? sample
                : sample.put("latitude_deg", sample.path("latitude_deg").asDouble() + 0.5);
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
