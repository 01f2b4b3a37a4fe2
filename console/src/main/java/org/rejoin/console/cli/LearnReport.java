package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Locale;

import org.rejoin.bridge.feed.learn.Finding;
import org.rejoin.bridge.feed.learn.Learned;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;

/** Says what {@code feed learn} found. */
final class LearnReport {

    private LearnReport() {}

    static void text(Learned learned, Path out, PrintWriter print) {
        print.println("Feed: " + learned.framing());
        learned.notes().forEach(note -> print.println("  note: " + note));
        for (Finding finding : learned.findings()) {
            print.printf(
                    Locale.ROOT,
                    "  %-18s %-6s %4.2f  %s%s%n",
                    finding.value().is().text(),
                    finding.sure() ? finding.word() : "UNSURE",
                    finding.confidence(),
                    finding.evidence(),
                    finding.sure() ? "" : " (left out)");
        }
        if (!learned.complete()) {
            print.println("Not settled: " + String.join(", ", learned.missing()));
            learned.flown()
                    .next()
                    .ifPresent(
                            next -> print.println("  flown " + learned.flown().seen() + "; next: " + next));
            learned.questions().forEach(question -> print.println("  " + question));
        }
        print.println("Profile: " + out);
        FlightView.cautions().forEach(print::println);
        print.flush();
    }

    static String json(Learned learned, Path out) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
            json.writeStartObject();
            json.writeStringField("framing", learned.framing());
            json.writeBooleanField("complete", learned.complete());
            json.writeStringField("profile", out.toString());
            json.writeArrayFieldStart("fields");
            for (Finding finding : learned.findings()) {
                json.writeStartObject();
                json.writeStringField("is", finding.value().is().text());
                json.writeStringField("place", finding.place());
                json.writeStringField("unit", finding.value().unit().text());
                json.writeNumberField("scale", finding.value().scale());
                json.writeBooleanField("sure", finding.sure());
                json.writeStringField("confidence", finding.word());
                json.writeNumberField("confidence_number", Math.rint(finding.confidence() * 100) / 100);
                json.writeStringField("evidence", finding.evidence());
                json.writeEndObject();
            }
            json.writeEndArray();
            texts(json, "missing", learned.missing());
            texts(json, "questions", learned.questions());
            texts(json, "notes", learned.notes());
            json.writeStringField("seen", learned.flown().seen());
            json.writeStringField("fly_next", learned.flown().next().orElse(""));
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    private static void texts(JsonGenerator json, String name, Iterable<String> texts) throws IOException {
        json.writeArrayFieldStart(name);
        for (String one : texts) {
            json.writeString(one);
        }
        json.writeEndArray();
    }
}
