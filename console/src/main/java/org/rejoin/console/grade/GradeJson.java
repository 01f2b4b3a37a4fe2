package org.rejoin.console.grade;

import java.io.IOException;

import org.rejoin.console.log.EventJson;

import com.fasterxml.jackson.core.JsonGenerator;

/** A grade as JSON. Rounded, so that the same flight gives the same bytes. */
public final class GradeJson {

    private GradeJson() {}

    /**
     * Writes a grade as an object.
     *
     * @param grade any
     * @param json where to
     * @throws IOException if the generator's target fails
     */
    public static void write(Grade grade, JsonGenerator json) throws IOException {
        json.writeStartObject();
        json.writeNumberField("score", EventJson.rounded(grade.score(), 1));
        json.writeStringField("standard", grade.standard());
        json.writeBooleanField("met", grade.met());
        json.writeArrayFieldStart("criteria");
        for (Criterion criterion : grade.criteria()) {
            json.writeStartObject();
            json.writeStringField("code", criterion.code());
            json.writeStringField("title", criterion.title());
            if (criterion.measurable()) {
                json.writeNumberField("measured", EventJson.rounded(criterion.measured(), 3));
            } else {
                json.writeNullField("measured");
            }
            json.writeStringField("unit", criterion.unit());
            json.writeNumberField("limit", EventJson.rounded(criterion.limit(), 3));
            json.writeNumberField("points", EventJson.rounded(criterion.points(), 2));
            json.writeNumberField("max_points", EventJson.rounded(criterion.maxPoints(), 2));
            json.writeBooleanField("met", criterion.met());
            json.writeNumberField("from_s", EventJson.rounded(criterion.fromS(), 2));
            json.writeNumberField("to_s", EventJson.rounded(criterion.toS(), 2));
            json.writeStringField("source", criterion.source());
            json.writeEndObject();
        }
        json.writeEndArray();
        writeFaults(grade, json);
        json.writeArrayFieldStart("notes");
        for (String note : grade.notes()) {
            json.writeString(note);
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    /**
     * Writes the faults as a member.
     *
     * @param grade any
     * @param json inside an object
     * @throws IOException if the generator's target fails
     */
    public static void writeFaults(Grade grade, JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("faults");
        for (Fault fault : grade.faults()) {
            json.writeStartObject();
            json.writeStringField("code", fault.code().name());
            json.writeNumberField("at_s", EventJson.rounded(fault.atS(), 2));
            json.writeStringField("text", fault.text());
            json.writeEndObject();
        }
        json.writeEndArray();
    }
}
