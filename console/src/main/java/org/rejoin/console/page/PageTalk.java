package org.rejoin.console.page;

import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

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

    /** Threads for what may wait, for a disk or a program, so that the page's own never does. */
    static final class PageWork {

        private static final Logger LOG = LoggerFactory.getLogger(PageWork.class);

        private final ThreadPoolExecutor work;

        /**
         * Some threads.
         *
         * @param name of each
         * @param threads at most
         * @param mostWaiting tasks beyond those that are worked on
         */
        PageWork(String name, int threads, int mostWaiting) {
            this.work = new ThreadPoolExecutor(
                    threads, threads, 10, TimeUnit.SECONDS, new ArrayBlockingQueue<>(mostWaiting), task -> {
                        Thread thread = new Thread(task, name);
                        thread.setDaemon(true);
                        return thread;
                    });
            work.allowCoreThreadTimeOut(true);
        }

        /** False where too much waits already. */
        boolean later(Runnable task) {
            try {
                work.execute(task);
                return true;
            } catch (RejectedExecutionException e) {
                return false;
            }
        }

        /** Takes nothing more; what was taken is done. */
        void close() {
            work.shutdown();
        }

        /**
         * Ends what is worked on.
         *
         * @param mostS it waits for, seconds
         */
        void end(long mostS) {
            work.shutdownNow();
            try {
                if (!work.awaitTermination(mostS, TimeUnit.SECONDS)) {
                    LOG.warn("a speech program could not be ended");
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}
