package org.rejoin.console.book;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * An attempt as a line of the record book.
 *
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
}
