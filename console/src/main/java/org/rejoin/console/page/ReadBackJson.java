package org.rejoin.console.page;

import java.io.IOException;
import java.util.Locale;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.recording.ReadBack;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.core.JsonGenerator;

/** A readback for the instructor's page: element by element, with the times it took. */
final class ReadBackJson {

    private ReadBackJson() {}

    /** Members of an object that is open. */
    static void write(ReadBack readback, JsonGenerator json) throws IOException {
        ReadBack.Talk talk = readback.talk();
        json.writeNumberField("clearance", talk.number());
        json.writeStringField("clock", Words.clock(readback.elapsedS()));
        json.writeStringField("how", talk.how());
        json.writeStringField("words", CleanText.of(readback.heard()));
        json.writeStringField("outcome", readback.outcome().name().toLowerCase(Locale.ROOT));
        number(json, "began_s", talk.beganS());
        number(json, "ended_s", talk.endedS());
        number(json, "copy_s", between(talk.issuedS(), talk.beganS()));
        number(json, "read_s", between(talk.beganS(), talk.endedS()));
        json.writeArrayFieldStart("elements");
        for (ReadBack.Element each : readback.elements()) {
            json.writeStartArray();
            json.writeString(each.what());
            json.writeString(CleanText.of(each.cleared()));
            json.writeString(CleanText.of(each.found()));
            json.writeString(each.verdict());
            json.writeBoolean(Readback.isDue(each.what()));
            json.writeEndArray();
        }
        json.writeEndArray();
    }

    private static OptionalDouble between(OptionalDouble from, OptionalDouble to) {
        return from.isPresent() && to.isPresent()
                ? OptionalDouble.of(to.getAsDouble() - from.getAsDouble())
                : OptionalDouble.empty();
    }

    private static void number(JsonGenerator json, String name, OptionalDouble value) throws IOException {
        if (value.isPresent()) {
            json.writeNumberField(name, JsonNumbers.rounded(value.getAsDouble(), 2));
        }
    }
}
