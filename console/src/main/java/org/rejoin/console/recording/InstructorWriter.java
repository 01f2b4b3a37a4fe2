package org.rejoin.console.recording;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.Iterator;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;

/**
 * Keeps what the instructor says and writes, on a thread of its own, so that a slow disk never holds up the flight. In the
 * order given; each is answered for when it is on the disk or cannot be. What a disk refuses waits in memory and is tried
 * again until the recording is closed, so that with room again nothing is lost.
 */
public final class InstructorWriter implements AutoCloseable {

    /** Nobody types so much while a disk is slow. */
    private static final int QUEUED = 1_000;

    private static final long CLOSE_S = 10;
    private static final long TRY_EVERY_MS = 500;

    private final ScheduledThreadPoolExecutor disk;
    private final Disk file;
    private final AtomicInteger queued = new AtomicInteger();
    /** What the disk refused, oldest first; on its thread alone. */
    private final Deque<Held> held = new ArrayDeque<>();

    private volatile int waiting;

    private record Held(InstructorFile.Note note, Runnable later) {}

    interface Disk {
        void keep(InstructorFile.Note note) throws IOException;
    }

    public InstructorWriter(InstructorFile file) {
        this(file::keep);
    }

    @SuppressWarnings("FutureReturnValueIgnored") // ends with the thread
    InstructorWriter(Disk file) {
        this.file = file;
        this.disk = new ScheduledThreadPoolExecutor(1, work -> {
            Thread thread = new Thread(work, "instructor-disk");
            thread.setDaemon(true);
            return thread;
        });
        disk.scheduleWithFixedDelay(this::tryAgain, TRY_EVERY_MS, TRY_EVERY_MS, TimeUnit.MILLISECONDS);
    }

    /**
     * Keeps it; returns at once.
     *
     * @param done told once: empty when it is on the disk, else why it is not; called on the disk's thread, or on the
     *     caller's where nothing is taken any more
     * @param later told once where the disk refused it first and has it now; on the disk's thread
     */
    public void keep(InstructorFile.Note note, Consumer<Optional<String>> done, Runnable later) {
        if (queued.get() + waiting >= QUEUED) {
            done.accept(Optional.of(QUEUED + " wait for the disk already"));
            return;
        }
        queued.incrementAndGet();
        try {
            disk.execute(() -> {
                queued.decrementAndGet();
                done.accept(written(note, later));
            });
        } catch (RejectedExecutionException e) {
            queued.decrementAndGet();
            done.accept(Optional.of("the recording is closed"));
        }
    }

    private Optional<String> written(InstructorFile.Note note, Runnable later) {
        tryAgain(); // in the order given
        if (held.stream().anyMatch(each -> isBeside(each.note(), note))) {
            hold(note, later);
            return Optional.of("what was before it waits for the disk still; it is tried again");
        }
        try {
            file.keep(note);
            return Optional.empty();
        } catch (IOException e) {
            hold(note, later);
            return Optional.of(Durable.bare(e) + "; it is tried again");
        } catch (IllegalArgumentException e) { // it can never be kept
            return Optional.of(String.valueOf(e.getMessage()));
        } catch (RuntimeException e) { // whoever waits must hear of it
            return Optional.of(e.toString());
        }
    }

    /** Whether both go into one file. */
    private static boolean isBeside(InstructorFile.Note one, InstructorFile.Note other) {
        return one.getClass().equals(other.getClass());
    }

    private void hold(InstructorFile.Note note, Runnable later) {
        held.add(new Held(note, later));
        waiting = held.size();
    }

    private void tryAgain() {
        Set<Class<?>> refused = new HashSet<>();
        for (Iterator<Held> each = held.iterator(); each.hasNext(); ) {
            Held next = each.next();
            if (refused.contains(next.note().getClass())) {
                continue;
            }
            try {
                file.keep(next.note());
            } catch (IOException | RuntimeException e) {
                refused.add(next.note().getClass());
                continue;
            }
            each.remove();
            waiting = held.size();
            next.later().run();
        }
    }

    /** {@return how many the disk has refused so far and wait to be tried again; after {@link #close} they are lost} */
    public int waiting() {
        return waiting;
    }

    /** Writes what is queued, tries once more what was refused, and ends; waits 10 s at most for a disk that does not answer. May be called again. */
    @Override
    public void close() {
        try {
            disk.execute(this::tryAgain);
        } catch (RejectedExecutionException e) {
            return; // it was closed before
        }
        disk.shutdown();
        try {
            disk.awaitTermination(CLOSE_S, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
