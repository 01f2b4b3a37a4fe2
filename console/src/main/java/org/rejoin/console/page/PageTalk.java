package org.rejoin.console.page;

import java.util.Optional;
import java.util.function.Consumer;

/**
 * What all connections to a page share.
 *
 * @param work where what may wait for a disk is answered
 * @param warned takes one line for whoever runs the program
 */
record PageTalk(
        PageServer server,
        PageAccess access,
        Guesses guesses,
        PageFiles files,
        Optional<PageRoom> room,
        SpeechDesk speech,
        PageWork work,
        Consumer<String> warned)
        implements AutoCloseable {

    @Override
    public void close() {
        work.close();
        speech.close();
    }
}
