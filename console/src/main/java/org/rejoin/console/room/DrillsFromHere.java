package org.rejoin.console.room;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;

import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.drill.Drill;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillFromHere;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.page.DataState;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * Drills that begin where the aircraft of a seat is: asked for at the seat, drawn as soon as the moment suits, and flown as an
 * attempt of their own. Until then the seat says what is waited for.
 */
final class DrillsFromHere implements AutoCloseable {

    /** Between two looks, seconds. */
    private static final long LOOK_S = 2;

    /** After a clearance is complete its graded part goes on for so long, seconds (judgement). */
    private static final double AFTER_S = 45;

    /** Where no line lies right, the next look is later: drawing and flying what is drawn costs a second of work. */
    private static final long NO_LINE_NS = 10_000_000_000L;

    private final RoomLessons lessons;
    private final Beginning begin;
    private final Map<RoomSeat, Asked> asked = new ConcurrentHashMap<>();

    /** Who is to fly the drill, and when to look again, nanoseconds. */
    private record Asked(Optional<Pilot> pilot, long lookNs) {}

    /** Begins a lesson at a seat, by its id. */
    interface Beginning {
        void begin(RoomSeat seat, Optional<Pilot> pilot, String lesson);
    }

    private final ScheduledExecutorService looking =
            Executors.newSingleThreadScheduledExecutor(work -> Room.daemon(work, "room-drills"));
    private long drawn = LocalDate.now(ZoneOffset.UTC).toEpochDay() * 1000;
    private @Nullable DrillChart chart;

    /**
     * Drills of a room.
     *
     * @param lessons keeps what is drawn until it is flown
     */
    DrillsFromHere(RoomLessons lessons, Beginning begin) {
        this.lessons = lessons;
        this.begin = begin;
        Future<?> unused = looking.scheduleWithFixedDelay(this::look, LOOK_S, LOOK_S, TimeUnit.SECONDS);
    }

    /** A drill is wanted at a seat, for that pilot or nobody. May be called on any thread. */
    void ask(RoomSeat seat, Optional<Pilot> pilot) {
        seat.fromHere("looks where the aircraft is");
        asked.put(seat, new Asked(pilot, System.nanoTime()));
        try {
            looking.execute(this::look);
        } catch (RejectedExecutionException e) {
            seat.fromHere("");
        }
    }

    /** None is wanted any more. May be called on any thread. */
    void stop(RoomSeat seat) {
        asked.remove(seat);
        seat.fromHere("");
    }

    private void look() {
        for (Map.Entry<RoomSeat, Asked> each : asked.entrySet()) {
            RoomSeat seat = each.getKey();
            if (System.nanoTime() - each.getValue().lookNs() < 0) {
                continue;
            }
            String words;
            try {
                words = look(seat);
            } catch (LessonException | RuntimeException e) {
                words = "it did not work: " + e.getMessage();
            }
            if (words.isEmpty()) {
                stop(seat);
            } else {
                String said = words;
                // In one step with the question whether it is still wanted: stop() wipes the words.
                asked.computeIfPresent(seat, (same, still) -> {
                    seat.fromHere(said);
                    return still;
                });
            }
        }
    }

    /** What is waited for; empty text once a drill begins. */
    private String look(RoomSeat seat) throws LessonException {
        Optional<String> wait = wait(seat);
        if (wait.isPresent()) {
            return wait.get();
        }
        Lesson last = seat.lastLesson().isPresent()
                ? seat.lastLesson().get()
                : LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
        // Of a seat that has flown no lesson nobody knows the wind.
        Wind wind = seat.lastLesson().map(Lesson::wind).orElse(Wind.CALM);
        Optional<DrillFromHere.Aircraft> aircraft = seat.aircraft(wind);
        if (aircraft.isEmpty()) {
            return lacking(seat);
        }
        DrillChart on = chart(last);
        DrillRequest request =
                DrillFromHere.usual(++drawn).on(last.date().orElseGet(() -> LocalDate.now(ZoneOffset.UTC)));
        Optional<FiledRoute> filed = seat.lastLesson().map(Lesson::filed);
        DrillFromHere.Answer answer = DrillFromHere.of(aircraft.get(), on, filed, request, last.lastSaid());
        if (filed.isPresent() && answer instanceof DrillFromHere.Answer.NotNow none && !none.mustWait()) {
            // An attempt of its own may be filed along another airway.
            answer = DrillFromHere.of(aircraft.get(), on, Optional.empty(), request, last.lastSaid());
        }
        if (answer instanceof DrillFromHere.Answer.NotNow none) {
            if (!none.mustWait()) {
                asked.computeIfPresent(seat, (same, now) -> new Asked(now.pilot(), System.nanoTime() + NO_LINE_NS));
            }
            return none.because()
                    + (none.noLine() ? "; meanwhile " + DrillFromHere.vector(aircraft.get(), request.seed()) : "");
        }
        Drill drill = ((DrillFromHere.Answer.Now) answer).drill();
        // Meanwhile it may have been asked for again, for another pilot.
        Asked still = asked.get(seat);
        if (still != null) {
            begin.begin(seat, still.pilot(), lessons.drawn(lesson(drill, last, on)));
        }
        return "";
    }

    private static Optional<String> wait(RoomSeat seat) {
        if (seat.ageS() > DataState.OLD_S) {
            return Optional.of("no data comes from the aircraft");
        }
        if (seat.last().map(AircraftState::paused).orElse(false)) {
            return Optional.of("the simulation is paused");
        }
        if (!seat.isFree()) {
            return Optional.of("the clearance in force is not complete yet");
        }
        return seat.flight().isPresent() && seat.completeForS() < AFTER_S
                ? Optional.of("what was flown last is still being graded")
                : Optional.empty();
    }

    private static String lacking(RoomSeat seat) {
        AircraftState last = seat.last().orElseThrow();
        if (last.altitudeMslFt().isEmpty()) {
            return "the feed does not send the altitude, and a drill needs it";
        }
        return last.headingMagneticDeg().isEmpty() && last.headingTrueDeg().isEmpty()
                ? "the feed does not send the heading, and a drill needs it"
                : "the aircraft is watched for a few seconds";
    }

    private DrillChart chart(Lesson last) {
        DrillChart known = chart;
        if (known == null || known.chart() != last.chart()) {
            known = new DrillChart(last.chart(), "");
            chart = known;
        }
        return known;
    }

    /** As it is kept with the recording: with the chart that it was drawn on. */
    private static Lesson lesson(Drill drill, Lesson last, DrillChart on) {
        return drill.lesson(
                on.chart(),
                new Lesson.Files(
                        DrillText.lesson(drill, last.files().chartName(), on.sha256()),
                        last.files().chartName(),
                        last.files().chart()));
    }

    @Override
    public void close() {
        looking.shutdownNow();
    }
}
