package org.rejoin.console.page;

import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Threads for what may wait, for a disk or a program, so that the page's own never does. */
final class PageWork {

    private static final Logger LOG = LoggerFactory.getLogger(PageWork.class);

    private final ThreadPoolExecutor work;

    /** So many threads at most, and tasks that wait beyond those that are worked on. */
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

    /** Ends what is worked on, and waits for it so many seconds at most. */
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
