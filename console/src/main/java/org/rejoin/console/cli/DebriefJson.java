package org.rejoin.console.cli;

import java.io.IOException;
import java.util.List;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.recording.InstructorFile;

import com.fasterxml.jackson.core.JsonGenerator;

/** What {@code debrief --json} prints. */
final class DebriefJson {

    private DebriefJson() {}

    /**
     * The debrief of one aircraft, or of several.
     *
     * @param several whether to wrap them in one object with a name for each
     */
    static String text(List<Debrief> debriefs, boolean several) {
        return Json.value(generator -> {
            if (several) {
                generator.writeStartObject();
                generator.writeArrayFieldStart("seats");
            }
            for (Debrief debrief : debriefs) {
                write(debrief, several, generator);
            }
            if (several) {
                generator.writeEndArray();
                generator.writeEndObject();
            }
        });
    }

    private static void write(Debrief debrief, boolean several, JsonGenerator generator) throws IOException {
        generator.writeStartObject();
        if (several) {
            generator.writeStringField("seat", debrief.aircraft().label());
        }
        generator.writeArrayFieldStart("events");
        for (FlightEvent event : debrief.events()) {
            EventJson.write(event, generator);
        }
        generator.writeEndArray();
        if (!debrief.said().remarks().isEmpty()) {
            generator.writeArrayFieldStart("remarks");
            for (InstructorFile.Remark remark : debrief.said().remarks()) {
                generator.writeStartObject();
                JsonNumbers.write(generator, "time_s", remark.elapsedS());
                generator.writeStringField("text", remark.text());
                generator.writeEndObject();
            }
            generator.writeEndArray();
        }
        GradeJson.writeFaults(debrief.grade().faults(), generator);
        generator.writeFieldName("grade");
        GradeJson.write(debrief.grade(), generator);
        generator.writeArrayFieldStart("best");
        for (Comparison comparison : Comparison.all(debrief.record())) {
            comparison.write(generator);
        }
        generator.writeEndArray();
        generator.writeEndObject();
    }
}
