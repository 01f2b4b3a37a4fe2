package org.rejoin.console.book;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * An attempt as a line of the record book.
 *
 * @param attempt as lists have it: of the members that are not the book's own only who of the program flew it
 * @param signedBy name of the last signature; empty if unsigned
 * @param signatureMatches whether nothing has changed since that signature; false if unsigned
 * @param changedFor who gave earlier signatures that no longer match, oldest first; who signed last is not among them
 * @param ownMark the instructor's, 0 to 100; empty if none
 * @param answered what was right of a drill that was answered and not flown, in words; empty for a flight
 */
public record AttemptRow(
        Attempt attempt,
        GradeSummary grade,
        Optional<String> signedBy,
        boolean signatureMatches,
        List<String> changedFor,
        Optional<Double> ownMark,
        Optional<String> answered,
        Path folder) {

    public AttemptRow {
        changedFor = List.copyOf(changedFor);
    }

    /** For the index; the folder is told beside it. */
    ObjectNode json() {
        ObjectNode json = BookJson.object();
        json.set("attempt", attempt.tree());
        json.set("grade", grade.json());
        signedBy.ifPresent(name -> json.put("signed_by", name));
        json.put("signature_matches", signatureMatches);
        changedFor.forEach(json.putArray("changed_for")::add);
        ownMark.ifPresent(mark -> json.put("own_mark", mark));
        answered.ifPresent(words -> json.put("answered", words));
        return json;
    }

    /** Reads what {@link #json} gives. */
    static AttemptRow read(JsonNode json, Path folder) throws IOException {
        JsonNode mark = json.path("own_mark");
        return new AttemptRow(
                Attempt.read(json.path("attempt")),
                GradeSummary.of(json.path("grade")),
                BookJson.text(json, "signed_by"),
                json.path("signature_matches").asBoolean(),
                BookJson.texts(json.path("changed_for"), ""),
                mark.isNumber() ? Optional.of(mark.asDouble()) : Optional.empty(),
                BookJson.text(json, "answered"),
                folder);
    }
}
