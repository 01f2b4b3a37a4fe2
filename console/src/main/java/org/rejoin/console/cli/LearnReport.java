package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;

import org.rejoin.bridge.learn.Learned;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.live.FlightView;

/** Says what {@code feed learn} found. */
final class LearnReport {

    private LearnReport() {}

    static void text(Learned learned, Path out, PrintWriter print) {
        print.println("Feed: " + learned.framing());
        learned.notes().forEach(note -> print.println("  note: " + note));
        for (Learned.Finding finding : learned.findings()) {
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
        return Json.object(json -> {
            json.writeStringField("framing", learned.framing());
            json.writeBooleanField("complete", learned.complete());
            json.writeStringField("profile", out.toString());
            json.writeArrayFieldStart("fields");
            for (Learned.Finding finding : learned.findings()) {
                json.writeStartObject();
                json.writeStringField("is", finding.value().is().text());
                json.writeStringField("place", finding.place());
                json.writeStringField("unit", finding.value().unit().text());
                json.writeNumberField("scale", finding.value().scale());
                json.writeBooleanField("sure", finding.sure());
                json.writeStringField("confidence", finding.word());
                JsonNumbers.atMost(json, "confidence_number", finding.confidence(), 2);
                json.writeStringField("evidence", finding.evidence());
                json.writeEndObject();
            }
            json.writeEndArray();
            Json.texts(json, "missing", learned.missing());
            Json.texts(json, "questions", learned.questions());
            Json.texts(json, "notes", learned.notes());
            json.writeStringField("seen", learned.flown().seen());
            json.writeStringField("fly_next", learned.flown().next().orElse(""));
        });
    }
}
