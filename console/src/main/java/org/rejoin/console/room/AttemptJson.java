package org.rejoin.console.room;

import java.io.IOException;
import java.util.Optional;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.Signature;
import org.rejoin.console.drill.KeptDrill;
import org.rejoin.console.recording.Durable;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** One attempt for the page and for other programs. */
public final class AttemptJson {

    private AttemptJson() {}

    /** Who flew what, and when. */
    static void write(ObjectNode json, Attempt attempt) {
        json.put("id", attempt.id());
        json.put("pilot", CleanText.of(attempt.pilot()));
        attempt.practicePilot().ifPresent(habit -> json.put("practice_pilot", habit));
        json.put("pilot_id", attempt.pilotId());
        json.put("aircraft", CleanText.of(attempt.aircraft()));
        json.put("lesson", CleanText.of(attempt.lesson()));
        json.put("began_utc", attempt.began().toString());
        attempt.durationS().ifPresent(seconds -> json.put("duration_s", seconds));
        json.put("instructor", CleanText.of(attempt.instructor()));
    }

    /** Who, what and when; grade or answers, signatures, own mark, remarks and readbacks. */
    public static ObjectNode of(AttemptFolder folder) throws IOException {
        Attempt attempt = folder.attempt();
        ObjectNode json = RoomDesk.JSON.createObjectNode();
        write(json, attempt);
        if (folder.isAnswered()) {
            json.put("answered", attempt.answered());
            json.set("drill", KeptDrill.of(attempt.more()).json());
        }
        Optional<JsonNode> grade = folder.grade(attempt.seat());
        if (grade.isPresent()) {
            json.set("grade", grade.get());
        }
        ArrayNode signatures = json.putArray("signatures");
        for (AttemptFolder.Checked checked : folder.checked()) {
            Signature each = checked.signature();
            ObjectNode one = signatures.addObject();
            one.put("name", CleanText.of(each.words().name()));
            one.put("certificate", CleanText.of(each.words().certificate()));
            one.put("remark", CleanText.of(each.words().remark()));
            one.put("at_utc", each.at().toString());
            ArrayNode changed = one.putArray("changed");
            checked.changed().forEach(changed::add);
        }
        folder.ownMark()
                .ifPresent(mark -> json.putObject("own_mark")
                        .put("score", mark.score())
                        .put("by", CleanText.of(mark.by()))
                        .put("reason", CleanText.of(mark.reason()))
                        .put("at_utc", mark.at().toString()));
        ArrayNode remarks = json.putArray("remarks");
        for (InstructorFile.Remark each :
                new InstructorFile(folder.place()).read().remarks()) {
            remarks.addObject().put("t", each.elapsedS()).put("text", CleanText.of(each.text()));
        }
        ArrayNode readbacks = json.putArray("readbacks");
        for (String line : Durable.lines(folder.place().resolve("readbacks.jsonl"))) {
            JsonNode readback = RoomDesk.JSON.readTree(line);
            for (JsonNode element : readback.path("elements")) {
                if (element instanceof ObjectNode one) {
                    String what = one.path("what").asText();
                    one.put(
                            "called",
                            one.path("cleared").asText().isEmpty()
                                    ? Readback.said(what, one.path("found").asText())
                                    : Readback.called(what));
                }
            }
            readbacks.add(readback);
        }
        return json;
    }
}
