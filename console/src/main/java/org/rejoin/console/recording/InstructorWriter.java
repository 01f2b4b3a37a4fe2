package org.rejoin.console.recording;

import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/**
 * Keeps what the instructor says and writes, on a thread of its own, so that a slow disk never holds up the flight. In the
 * order given; each is answered for when it is on the disk or cannot be.
 */
public final class InstructorWriter implements AutoCloseable {

    /** Nobody types so much while a disk is slow. */
    private static final int QUEUED = 1_000;

    private static final long CLOSE_S = 10;

    private final ThreadPoolExecutor disk;
    private final Disk file;

    /** Where it goes. */
    interface Disk {
        void keep(InstructorFile.Note note) throws IOException;
    }

    /**
     * Starts the thread.
     *
     * @param file of the recording
     */
    public InstructorWriter(InstructorFile file) {
        this(file::keep);
    }

    InstructorWriter(Disk file) {
        this.file = file;
        this.disk = new ThreadPoolExecutor(1, 1, 0, TimeUnit.SECONDS, new ArrayBlockingQueue<>(QUEUED), work -> {
            Thread thread = new Thread(work, "instructor-disk");
            thread.setDaemon(true);
            return thread;
        });
    }

    /**
     * Keeps it; returns at once.
     *
     * @param note to keep
     * @param done told once: empty when it is on the disk, else why it is not; called on the disk's thread, or on the
     *     caller's where nothing is taken any more
     */
    public void keep(InstructorFile.Note note, Consumer<Optional<String>> done) {
        try {
            disk.execute(() -> done.accept(written(note)));
        } catch (RejectedExecutionException e) {
            done.accept(
                    Optional.of(disk.isShutdown() ? "the recording is closed" : QUEUED + " wait for the disk already"));
        }
    }

    private Optional<String> written(InstructorFile.Note note) {
        try {
            file.keep(note);
            return Optional.empty();
        } catch (IOException e) {
            return Optional.of(RecordingFolder.why(e));
        } catch (RuntimeException e) { // whoever waits must hear of it
            return Optional.of(e.toString());
        }
    }

    /** Writes what is queued and ends; waits 10 s at most for a disk that does not answer. May be called again. */
    @Override
    public void close() {
        disk.shutdown();
        try {
            disk.awaitTermination(CLOSE_S, TimeUnit.SECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
