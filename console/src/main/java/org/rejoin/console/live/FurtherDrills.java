package org.rejoin.console.live;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillFromHere;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.drill.LatelyFlown;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.InstructorFile;

import org.jspecify.annotations.Nullable;

/**
 * Drills that follow a lesson in the same flight: when the last amendment has been done for a while and the aircraft flies
 * level and straight, one is drawn from where it is and spoken. Where no line lies right for it, a vector is given first.
 */
public final class FurtherDrills {

    /** So long after an amendment is complete its graded part is over, seconds of the flight. */
    private static final double AFTER_S = 45;

    /** Between two looks, nanoseconds. */
    private static final long LOOK_NS = 2_000_000_000L;

    private final Lesson lesson;
    private final DrillChart chart;
    private final DrillRequest request;
    private final int count;
    private final Consumer<InstructorFile.Spoken> keep;
    private final Consumer<String> say;
    private final LatelyFlown lately = new LatelyFlown();
    private final Object lock = new Object();

    private @Nullable FlownAircraft flown;
    private int spoken;
    private int refused;
    private boolean pending;
    private boolean vectored;
    private long lookedNs;
    private String said = "";
    private String drilled;

    /**
     * Drills to come.
     *
     * @param keep what was spoken, so that a debrief has it too
     * @param say one line
     */
    public FurtherDrills(
            Lesson lesson, int count, long seed, Consumer<InstructorFile.Spoken> keep, Consumer<String> say) {
        this.lesson = lesson;
        this.drilled = lesson.lastSaid();
        this.chart = new DrillChart(lesson.chart(), "");
        this.request = DrillFromHere.usual(seed).on(lesson.date().orElse(DrillRequest.USUAL_DATE));
        this.count = count;
        this.keep = keep;
        this.say = say;
    }

    /** Called on the flight's thread. */
    LessonFlights.Watcher watcher(FlownAircraft aircraft) {
        synchronized (lock) {
            flown = aircraft;
        }
        return new LessonFlights.Watcher() {
            @Override
            public void point(Point point) {
                synchronized (lock) {
                    lately.point(point);
                }
            }

            @Override
            public void issued(Entry.Issued issued) {
                synchronized (lock) {
                    lately.issued(issued);
                }
            }

            @Override
            public void happened(Entry.Happened happened) {
                synchronized (lock) {
                    lately.happened(happened);
                }
            }
        };
    }

    /** Whether more are to come, so that the flight is not over yet. */
    public boolean more() {
        synchronized (lock) {
            return spoken < count;
        }
    }

    /** Looks whether it is time for the next; called again and again on a thread that may take a second. */
    public void look(LiveFlight live) {
        long now = System.nanoTime();
        if (!more() || now - lookedNs < LOOK_NS) {
            return;
        }
        lookedNs = now;
        Optional<DrillFromHere.Aircraft> aircraft;
        FlownAircraft whose;
        long seed;
        boolean wasVectored;
        String last;
        synchronized (lock) {
            if (pending) {
                return;
            }
            seed = request.seed() + spoken + refused;
            wasVectored = vectored;
            last = drilled;
            whose = flown;
            aircraft = lately.completeForS().orElse(0) >= AFTER_S ? lately.aircraft(lesson.wind()) : Optional.empty();
        }
        if (aircraft.isEmpty() || whose == null) {
            return;
        }
        DrillFromHere.Answer answer =
                DrillFromHere.of(aircraft.get(), chart, Optional.of(lesson.filed()), request.withSeed(seed), last);
        if (answer instanceof DrillFromHere.Answer.Now drill) {
            give(live, whose, drill.drill().say(), () -> {
                spoken++;
                drilled = drill.drill().say();
                vectored = false;
            });
        } else if (answer instanceof DrillFromHere.Answer.NotNow wait) {
            if (wait.noLine() && !wasVectored) {
                give(live, whose, DrillFromHere.vector(aircraft.get(), seed), () -> vectored = true);
            } else if (!wait.because().equals(said)) {
                said = wait.because();
                say.accept("the next drill waits: " + said);
            }
        }
    }

    /** Counts it when it was given; one that was not is followed by another. */
    private void give(LiveFlight live, FlownAircraft whose, String words, Runnable given) {
        synchronized (lock) {
            pending = true;
        }
        live.execute(
                () -> {
                    boolean issued = false;
                    try {
                        issued = speak(whose, words);
                    } finally {
                        done(issued ? given : () -> refused++);
                    }
                },
                () -> done(() -> {}));
    }

    private void done(Runnable counted) {
        synchronized (lock) {
            pending = false;
            counted.run();
        }
    }

    private boolean speak(FlownAircraft whose, String words) {
        double atS = whose.session().lastS().orElse(0);
        try {
            whose.session().issue(words, OptionalDouble.empty());
            keep.accept(new InstructorFile.Spoken(atS, whose.key().label(), words, OptionalDouble.empty()));
            return true;
        } catch (ClearanceException e) {
            say.accept("the next drill could not be given: " + e.getMessage());
            return false;
        }
    }
}
