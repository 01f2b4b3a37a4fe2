package org.rejoin.console.page;

import java.util.Optional;
import java.util.function.Consumer;

/** What all connections to a page share, and the thread on which what may wait for a disk is answered. */
final class PageTalk implements AutoCloseable {

    private static final int MOST_WAITING = 200;

    private final PageWork work = new PageWork("page-work", 1, MOST_WAITING);
    private final PageServer server;
    private final PageAccess access;
    private final Guesses guesses;
    private final PageFiles files;
    private final Optional<PageRoom> room;
    private final SpeechDesk speech;
    private final Consumer<String> warned;

    PageTalk(
            PageServer server,
            PageAccess access,
            Guesses guesses,
            PageFiles files,
            Optional<PageRoom> room,
            SpeechDesk speech,
            Consumer<String> warned) {
        this.server = server;
        this.access = access;
        this.guesses = guesses;
        this.files = files;
        this.room = room;
        this.speech = speech;
        this.warned = warned;
    }

    PageServer server() {
        return server;
    }

    PageAccess access() {
        return access;
    }

    Guesses guesses() {
        return guesses;
    }

    PageFiles files() {
        return files;
    }

    Optional<PageRoom> room() {
        return room;
    }

    SpeechDesk speech() {
        return speech;
    }

    void warned(String text) {
        warned.accept(text);
    }

    /** False where too much waits already. */
    boolean later(Runnable task) {
        return work.later(task);
    }

    @Override
    public void close() {
        work.close();
        speech.close();
    }
}
