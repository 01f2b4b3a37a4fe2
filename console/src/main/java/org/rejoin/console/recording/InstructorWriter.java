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
    private final Entries file;

    /** Where it goes; the file's own methods. */
    interface Entries {
        void keep(InstructorFile.Spoken spoken) throws IOException;

        void keep(InstructorFile.Remark remark) throws IOException;

        void keep(ReadBack readback) throws IOException;

        void keep(InstructorFile.Again again) throws IOException;

        void keep(InstructorFile.Sound sound) throws IOException;
    }

    private interface Write {
        void write() throws IOException;
    }

    /**
     * Starts the thread.
     *
     * @param file of the recording
     */
    public InstructorWriter(InstructorFile file) {
        this(new Entries() {
            @Override
            public void keep(InstructorFile.Spoken spoken) throws IOException {
                file.keep(spoken);
            }

            @Override
            public void keep(InstructorFile.Remark remark) throws IOException {
                file.keep(remark);
            }

            @Override
            public void keep(ReadBack readback) throws IOException {
                file.keep(readback);
            }

            @Override
            public void keep(InstructorFile.Again again) throws IOException {
                file.keep(again);
            }

            @Override
            public void keep(InstructorFile.Sound sound) throws IOException {
                file.keep(sound);
            }
        });
    }

    InstructorWriter(Entries file) {
        this.file = file;
        this.disk = new ThreadPoolExecutor(1, 1, 0, TimeUnit.SECONDS, new ArrayBlockingQueue<>(QUEUED), work -> {
            Thread thread = new Thread(work, "instructor-disk");
            thread.setDaemon(true);
            return thread;
        });
    }

    /**
     * Keeps a clearance; returns at once.
     *
     * @param spoken to keep
     * @param done told once: empty when it is on the disk, else why it is not; called on the disk's thread, or on the
     *     caller's where nothing is taken any more
     */
    public void keep(InstructorFile.Spoken spoken, Consumer<Optional<String>> done) {
        keep(() -> file.keep(spoken), done);
    }

    /**
     * Keeps a remark; returns at once.
     *
     * @param remark to keep
     * @param done as for a clearance
     */
    public void keep(InstructorFile.Remark remark, Consumer<Optional<String>> done) {
        keep(() -> file.keep(remark), done);
    }

    /**
     * Keeps how a clearance was read back; returns at once.
     *
     * @param readback to keep
     * @param done as for a clearance
     */
    public void keep(ReadBack readback, Consumer<Optional<String>> done) {
        keep(() -> file.keep(readback), done);
    }

    /**
     * Keeps that a clearance was asked for again; returns at once.
     *
     * @param again to keep
     * @param done as for a clearance
     */
    public void keep(InstructorFile.Again again, Consumer<Optional<String>> done) {
        keep(() -> file.keep(again), done);
    }

    /**
     * Keeps the sound of a readback; returns at once.
     *
     * @param sound to keep
     * @param done as for a clearance
     */
    public void keep(InstructorFile.Sound sound, Consumer<Optional<String>> done) {
        keep(() -> file.keep(sound), done);
    }

    private void keep(Write write, Consumer<Optional<String>> done) {
        try {
            disk.execute(() -> done.accept(written(write)));
        } catch (RejectedExecutionException e) {
            done.accept(
                    Optional.of(disk.isShutdown() ? "the recording is closed" : QUEUED + " wait for the disk already"));
        }
    }

    private static Optional<String> written(Write write) {
        try {
            write.write();
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
