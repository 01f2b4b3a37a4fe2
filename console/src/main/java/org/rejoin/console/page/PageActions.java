package org.rejoin.console.page;

import java.util.Optional;
import java.util.function.Consumer;

import org.rejoin.bridge.FlightSession;
import org.rejoin.console.recording.InstructorFile;

/** What the instructor can do to a flight from the page. */
public interface PageActions {

    /**
     * What became of something said or written.
     *
     * @param onDisk whether it will survive anything
     * @param problem why not; empty too where nothing is recorded
     */
    record Kept(boolean onDisk, Optional<String> problem) {}

    /** Runs something on the flight's thread, between samples; once it is over {@code tooLate}, on any thread. */
    void execute(Runnable work, Runnable tooLate);

    /** The seat that is flown; empty before its first sample. Asked on the flight's thread. */
    Optional<FlightSession> seat(String id);

    /**
     * Keeps what was issued, read back, asked for or written at the page, so that a debrief has it.
     *
     * @param done told once, on any thread
     * @param later told once where it could not be kept and is now; on any thread
     */
    void keep(InstructorFile.Note note, Consumer<Kept> done, Runnable later);

    /** Somebody at the page does what whoever runs the program should know; one line. */
    default void warned(String text) {}

    /** Begins the lesson, if it waits for that. */
    void start();

    /** Ends the lesson. */
    void stop();
}
