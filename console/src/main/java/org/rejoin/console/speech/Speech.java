package org.rejoin.console.speech;

import java.util.Optional;

/**
 * What this machine can say and hear.
 *
 * @param speaker says clearances; empty where no speech program is installed
 * @param listener hears readbacks; empty unless the user asked for it
 * @param wordsAMinute how fast, unless the listener asks otherwise
 * @param keepsSound whether the sound of a readback that counts is kept with the attempt
 */
public record Speech(Optional<Speaker> speaker, Optional<Listener> listener, int wordsAMinute, boolean keepsSound) {

    /** Before anything is spoken or heard: what a run that was killed outright left behind is deleted. */
    public Speech {
        if (speaker.isPresent() || listener.isPresent()) {
            PrivateFolder.sweep();
        }
    }

    /** Neither is there. */
    public static final Speech NONE = new Speech(Optional.empty(), Optional.empty(), Speaker.USUAL, false);
}
