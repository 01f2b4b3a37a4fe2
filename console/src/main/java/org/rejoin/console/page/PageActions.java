package org.rejoin.console.page;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;

import org.rejoin.bridge.FlightSession;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.ReadBack;

/** What the instructor can do to a flight from the page. */
public interface PageActions {

    /**
     * What became of something said or written.
     *
     * @param onDisk whether it will survive anything
     * @param problem why not; empty too where nothing is recorded
     */
    record Kept(boolean onDisk, Optional<String> problem) {}

    /**
     * Runs something on the flight's thread, between samples.
     *
     * @param work what to run
     * @param tooLate run instead, on any thread, if the flight is over
     */
    void execute(Runnable work, Runnable tooLate);

    /**
     * The seat that is flown. Asked on the flight's thread.
     *
     * @param id of the seat
     * @return empty before its first sample
     */
    Optional<FlightSession> seat(String id);

    /**
     * Keeps a clearance that was issued from the page, so that a debrief issues it again.
     *
     * @param seat id
     * @param elapsedS time of the sample it was issued at, seconds since the first
     * @param say in ATC's words
     * @param altitudeFt assigned with it, feet; empty to take the one in the words
     * @param done told once, on any thread
     */
    void spoken(String seat, double elapsedS, String say, OptionalDouble altitudeFt, Consumer<Kept> done);

    /**
     * Keeps a remark.
     *
     * @param seat id
     * @param elapsedS moment it is about, seconds since the first sample
     * @param text free
     * @param done told once, on any thread
     */
    void remarked(String seat, double elapsedS, String text, Consumer<Kept> done);

    /**
     * Somebody at the page does what whoever runs the program should know.
     *
     * @param text one line
     */
    default void warned(String text) {}

    /** Begins the lesson, if it waits for that. */
    void start();

    /** Ends the lesson. */
    void stop();

    /**
     * Keeps how a clearance was read back.
     *
     * @param seat id
     * @param readback when, and how each element was read back
     * @param done told once, on any thread
     */
    default void readBack(String seat, ReadBack readback, Consumer<Kept> done) {
        done.accept(new Kept(false, Optional.empty()));
    }

    /**
     * Keeps that a clearance was asked for again.
     *
     * @param seat id
     * @param again when, and which
     * @param done told once, on any thread
     */
    default void saidAgain(String seat, InstructorFile.Again again, Consumer<Kept> done) {
        done.accept(new Kept(false, Optional.empty()));
    }

    /**
     * Keeps the sound of a readback, which the user asked for.
     *
     * @param seat id
     * @param sound of which clearance
     * @param done told once, on any thread
     */
    default void sound(String seat, InstructorFile.Sound sound, Consumer<Kept> done) {
        done.accept(new Kept(false, Optional.empty()));
    }

    /** For a flight that is over: nothing can be done to it. */
    PageActions NONE = new PageActions() {
        @Override
        public void execute(Runnable work, Runnable tooLate) {
            tooLate.run();
        }

        @Override
        public Optional<FlightSession> seat(String id) {
            return Optional.empty();
        }

        @Override
        public void spoken(String seat, double elapsedS, String say, OptionalDouble altitudeFt, Consumer<Kept> done) {
            done.accept(new Kept(false, Optional.empty()));
        }

        @Override
        public void remarked(String seat, double elapsedS, String text, Consumer<Kept> done) {
            done.accept(new Kept(false, Optional.empty()));
        }

        @Override
        public void start() {}

        @Override
        public void stop() {}
    };
}
