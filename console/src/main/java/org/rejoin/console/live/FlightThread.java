package org.rejoin.console.live;

import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Predicate;

/**
 * Work for the flight's thread. Each piece is either done while the flight lasts or told that it is too late, never both
 * and never neither, however it races with the end.
 */
public final class FlightThread {

    private final Predicate<Runnable> thread;
    private final Set<Task> waiting = ConcurrentHashMap.newKeySet();
    private volatile boolean over;

    /** Nothing waits yet; {@code thread} takes work for the flight's thread, false if it takes none any more. */
    FlightThread(Predicate<Runnable> thread) {
        this.thread = thread;
    }

    private final class Task implements Runnable {
        private final Runnable work;
        private final Runnable tooLate;
        private final AtomicBoolean taken = new AtomicBoolean();

        Task(Runnable work, Runnable tooLate) {
            this.work = work;
            this.tooLate = tooLate;
        }

        @Override
        public void run() {
            take(over ? tooLate : work);
        }

        void take(Runnable what) {
            waiting.remove(this);
            if (taken.compareAndSet(false, true)) {
                what.run();
            }
        }
    }

    /** Does it on the flight's thread; {@code tooLate} instead, on any thread, when the flight is over. */
    void execute(Runnable work, Runnable tooLate) {
        Task task = new Task(work, tooLate);
        waiting.add(task);
        if (over || !thread.test(task)) {
            task.take(tooLate);
        }
    }

    /** The flight is over; on its thread, before its last events: nothing comes after those. */
    void over() {
        over = true;
    }

    /** The thread has ended: whoever still waits is told. */
    void close() {
        over = true;
        for (Task task : List.copyOf(waiting)) {
            task.take(task.tooLate);
        }
    }
}
