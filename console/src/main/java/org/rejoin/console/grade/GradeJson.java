package org.rejoin.console.grade;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;

import com.fasterxml.jackson.core.JsonGenerator;

/** A grade as JSON. Rounded, so that the same flight gives the same bytes. */
public final class GradeJson {

    private GradeJson() {}

    /** Writes a grade as an object. */
    public static void write(Grade grade, JsonGenerator json) throws IOException {
        json.writeStartObject();
        result(grade.score(), grade.verdict(), grade.notJudged(), json);
        json.writeStringField("standard", grade.standard());
        json.writeStringField("task", grade.task());
        criteria(grade.criteria(), json);
        writeFaults(grade.faults(), json);
        Json.texts(json, "notes", grade.notes());
        if (grade.feed().isPresent()) {
            feed(grade.feed().get(), json);
        }
        json.writeArrayFieldStart("attempts");
        for (AttemptGrade attempt : grade.attempts()) {
            json.writeStartObject();
            JsonNumbers.orNull(json, "from_s", attempt.fromS(), 2);
            JsonNumbers.orNull(json, "to_s", attempt.toS(), 2);
            result(attempt.score(), attempt.verdict(), attempt.notJudged(), json);
            json.writeArrayFieldStart("amendments");
            for (AmendmentGrade amendment : attempt.amendments()) {
                json.writeStartObject();
                json.writeStringField("say", amendment.say());
                JsonNumbers.orNull(json, "at_s", amendment.atS(), 2);
                result(amendment.score(), amendment.verdict(), amendment.notJudged(), json);
                criteria(amendment.criteria(), json);
                writeFaults(amendment.faults(), json);
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeEndObject();
    }

    private static void feed(FeedLine feed, JsonGenerator json) throws IOException {
        json.writeObjectFieldStart("feed");
        JsonNumbers.orNull(json, "rate_hz", feed.rateHz(), 2);
        JsonNumbers.orNull(json, "resolution_nm", feed.resolutionNm(), 4);
        json.writeNumberField("lost", feed.lost());
        json.writeNumberField("gaps", feed.gaps());
        JsonNumbers.orNull(json, "gap_s", feed.silentS(), 1);
        json.writeBooleanField("judges_track", feed.judgesTrack());
        json.writeStringField("text", feed.text());
        json.writeEndObject();
    }

    private static void result(OptionalDouble score, Verdict verdict, Optional<String> notJudged, JsonGenerator json)
            throws IOException {
        JsonNumbers.orNull(json, "score", score.orElse(Double.NaN), 1);
        writeMet(verdict, json);
        if (notJudged.isPresent()) {
            json.writeStringField("not_judged", notJudged.get());
        }
    }

    /** Writes whether a standard was met as a member. */
    public static void writeMet(Verdict verdict, JsonGenerator json) throws IOException {
        json.writeFieldName("met");
        switch (verdict) {
            case MET -> json.writeBoolean(true);
            case NOT_MET -> json.writeBoolean(false);
            case NOT_JUDGED -> json.writeNull();
        }
    }

    private static void criteria(List<Criterion> criteria, JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("criteria");
        for (Criterion criterion : criteria) {
            json.writeStartObject();
            json.writeStringField("code", criterion.code());
            json.writeStringField("title", criterion.title());
            JsonNumbers.orNull(json, "measured", criterion.measured(), 3);
            json.writeStringField("unit", criterion.unit());
            JsonNumbers.orNull(json, "limit", criterion.limit(), 3);
            JsonNumbers.orNull(json, "points", criterion.points(), 2);
            JsonNumbers.orNull(json, "max_points", criterion.maxPoints(), 2);
            writeMet(criterion.verdict(), json);
            JsonNumbers.orNull(json, "from_s", criterion.fromS(), 2);
            JsonNumbers.orNull(json, "to_s", criterion.toS(), 2);
            JsonNumbers.orNull(json, "at_s", criterion.atS(), 2);
            json.writeStringField("source", criterion.source());
            if (criterion.notJudged().isPresent()) {
                json.writeStringField("not_judged", criterion.notJudged().get());
            }
            json.writeEndObject();
        }
        json.writeEndArray();
    }

    /** Writes faults, in order of time, as a member. */
    public static void writeFaults(List<Fault> faults, JsonGenerator json) throws IOException {
        json.writeArrayFieldStart("faults");
        for (Fault fault : faults) {
            json.writeStartObject();
            json.writeStringField("code", fault.code().name());
            json.writeNumberField("at_s", JsonNumbers.rounded(fault.atS(), 2));
            json.writeStringField("text", fault.text());
            json.writeEndObject();
        }
        json.writeEndArray();
    }
}
