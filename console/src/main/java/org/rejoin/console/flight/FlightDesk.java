package org.rejoin.console.flight;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.Seat;
import org.rejoin.bridge.feed.SeatKey;
import org.rejoin.bridge.feed.SeatSink;
import org.rejoin.bridge.feed.TimeBase;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;

import org.jspecify.annotations.Nullable;

/**
 * Follows the first aircraft of a feed through a lesson: hands its states to a {@link Seat}, its events to a {@link
 * Grader} and to whoever watches. The same for a live flight and for a recording. Confined to the thread that feeds it.
 */
public final class FlightDesk implements SeatSink {

    /** DIS senders may stay silent for 5 s and time out at 12 (IEEE 1278.1); others are lost sooner. */
    private static final double DIS_TIMEOUT_S = 12;

    private static final double OTHER_TIMEOUT_S = 5;

    /** Sees a flight go by, with what the feed has to say. */
    public interface Watcher extends Seat.Listener {
        /**
         * Something about the feed that the flight did not do.
         *
         * @param text one line
         */
        default void note(String text) {}
    }

    private final Lesson lesson;
    private final ToleranceSet set;
    private final LocalDate date;
    private final Function<SeatKey, Optional<String>> formatOf;
    private final List<Watcher> watchers;
    private final Grader grader;
    private @Nullable SeatKey following;
    private @Nullable Seat seat;
    private boolean stopped;
    private final List<SeatKey> others = new ArrayList<>();

    /**
     * A desk.
     *
     * @param lesson flown
     * @param set graded against
     * @param date for the magnetic model
     * @param formatOf the wire format an aircraft is heard in
     * @param watchers in the order they are told
     */
    public FlightDesk(
            Lesson lesson,
            ToleranceSet set,
            LocalDate date,
            Function<SeatKey, Optional<String>> formatOf,
            List<Watcher> watchers) {
        this.lesson = lesson;
        this.set = set;
        this.date = date;
        this.formatOf = formatOf;
        this.watchers = List.copyOf(watchers);
        this.grader = new Grader(set);
    }

    @Override
    public void state(SeatKey key, AircraftState state) {
        Seat flying = seat;
        if (flying == null) {
            following = key;
            flying = begin(key);
            seat = flying;
        }
        if (key.equals(following)) {
            flying.accept(stopped ? state.asPaused() : state);
        } else if (!others.contains(key) && others.size() < 100) {
            others.add(key);
            note("a second aircraft, " + key.label() + ", is heard and not followed; this flight is of "
                    + (following == null ? "" : following.label()));
        }
    }

    private Seat begin(SeatKey key) {
        double timeout = formatOf.apply(key).filter("dis"::equals).isPresent() ? DIS_TIMEOUT_S : OTHER_TIMEOUT_S;
        return new Seat(
                new Seat.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        lesson.amendments(),
                        date,
                        lesson.wind(),
                        set.limits(),
                        timeout),
                new ToAll());
    }

    @Override
    public void timeBase(SeatKey key, double timeS, TimeBase base) {
        if (following == null || key.equals(following)) {
            note("times are " + (base.clock() == TimeBase.Clock.SENDER ? "the sender's" : "those of receipt") + ": "
                    + base.reason());
        }
    }

    @Override
    public void control(SeatKey key, double timeS, Decoded.Control.What what) {
        if (key.equals(following)) {
            stopped = what == Decoded.Control.What.PAUSED;
            if (what == Decoded.Control.What.REMOVED) {
                note("the sender took the aircraft out of the simulation");
            }
        }
    }

    @Override
    public void note(SeatKey key, double timeS, String text) {
        if (key.equals(following)) {
            note(text);
        }
    }

    private void note(String text) {
        watchers.forEach(watcher -> watcher.note(text));
    }

    /** The flight is over. */
    public void finish() {
        if (seat != null) {
            seat.finish();
        }
    }

    /**
     * The seat that is flown.
     *
     * @return empty until the first sample
     */
    public Optional<Seat> seat() {
        return Optional.ofNullable(seat);
    }

    /**
     * The grade so far.
     *
     * @return final once {@link #finish} was called
     */
    public Grade grade() {
        return grader.grade();
    }

    /**
     * All events so far.
     *
     * @return in order of time
     */
    public List<TrackerEvent> events() {
        return grader.events();
    }

    private final class ToAll implements Seat.Listener {
        @Override
        public void sample(AircraftState state, Progress progress) {
            grader.sample(state, progress);
            watchers.forEach(watcher -> watcher.sample(state, progress));
        }

        @Override
        public void event(TrackerEvent event) {
            grader.event(event);
            watchers.forEach(watcher -> watcher.event(event));
        }

        @Override
        public void amended(AmendedRoute route) {
            grader.amended(route);
            watchers.forEach(watcher -> watcher.amended(route));
        }

        @Override
        public void problem(double timeS, String why) {
            watchers.forEach(watcher -> watcher.problem(timeS, why));
        }
    }
}
