package org.rejoin.console.speech;

import java.util.Optional;

/**
 * What this machine can say and hear.
 *
 * @param speaker says clearances; empty where no speech program is installed
 * @param wordsAMinute how fast, unless the listener asks otherwise
 */
public record Speech(Optional<Speaker> speaker, int wordsAMinute) {

    /** Neither is there. */
    public static final Speech NONE = new Speech(Optional.empty(), Speaker.USUAL);
}
