package org.rejoin.console.skill;

import java.io.IOException;
import java.util.List;

/** Where a pilot's attempts come from: the record book, or the folders themselves. */
public interface AttemptSource {

    /**
     * All attempts of a pilot.
     *
     * @param pilot name as on the roster
     * @return in order of time; empty where there are none
     * @throws IOException one line: what cannot be read, and why
     */
    List<GradedAttempt> of(String pilot) throws IOException;
}
