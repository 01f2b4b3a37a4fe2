package org.rejoin.console.room;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.flight.FarFromStart;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.FlightDay;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.page.PageActions;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.page.PageShow;
import org.rejoin.console.page.SeatPage;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.InstructorWriter;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.recording.Said;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.Datagram;

import org.jspecify.annotations.Nullable;

/**
 * One attempt in flight: the datagrams of its aircraft from its start on, recorded, followed, shown. It works as a debrief
 * of its recording will, so that both come to the same log and grade. Confined to the feed's thread but where it says so.
 */
@SuppressWarnings("try") // a lock is held, not used
final class RoomFlight implements PageActions {

    private final Room room;
    private final RoomSeat seat;
    private final AttemptFolder folder;
    private final HomeLock lock;
    private final Lesson lesson;
    private final Recording recording;
    private final InstructorWriter writer;
    private final FlightDay day;
    private final LessonFlights desk;
    private final AircraftSorter seats;
    private final PageShow show;
    private final String label;
    private @Nullable FlownAircraft aircraft;
    private volatile @Nullable SeatPage page;
    private @Nullable Position first;
    private long taken;
    private volatile boolean over;

    /** What is flown at which seat, recorded where; the setup says which aircraft of its sender, in which formats. */
    record Plan(Room room, RoomSeat seat, AttemptFolder folder, Lesson lesson, FeedSetup setup) {}

    private RoomFlight(Plan plan, HomeLock lock, ToleranceSet set, Recording recording) {
        this.room = plan.room();
        this.seat = plan.seat();
        this.label = seat.label();
        this.folder = plan.folder();
        this.lock = lock;
        this.lesson = plan.lesson();
        this.recording = recording;
        this.writer = new InstructorWriter(new InstructorFile(plan.folder().place()));
        this.day = new FlightDay(lesson);
        this.desk = new LessonFlights(
                lesson, set, day, plan.setup().following(), FlightRecord::withoutPoints, this::watchers, Said.NOTHING);
        this.seats = new AircraftSorter(room.formats(), desk.choice(), desk);
        this.show = room.page().show(seat.id(), new PageServer.Setting(lesson, set, day, Words.CAUTION, false), this);
    }

    /**
     * Begins to record. Waits for the disk: not on the feed's thread.
     *
     * @throws IOException if the recording cannot be begun; one line, and nothing is left of it
     */
    static RoomFlight begin(Plan plan) throws IOException {
        HomeLock lock = plan.folder().flying();
        try {
            ToleranceSet set = ToleranceSet.read(plan.lesson().standard());
            Path place = plan.folder().place();
            Recording recording = Recording.start(
                    RecordingFolder.create(place),
                    plan.lesson(),
                    plan.setup(),
                    plan.room().localAddress(),
                    plan.room()::warn);
            return new RoomFlight(plan, lock, set, recording);
        } catch (IOException | RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    private List<LessonFlights.Watcher> watchers(FlownAircraft flown) {
        if (aircraft != null) {
            return List.of();
        }
        aircraft = flown;
        SeatPage shown = show.seat(flown.key().label(), label, flown.name().label(), flown::grade);
        page = shown;
        lesson.notes().forEach(shown::note);
        return List.of(recording.log(flown), shown, new FarFromStart(lesson, shown::note), new LessonFlights.Watcher() {
            @Override
            public void point(Point point) {
                first = first == null ? point.position() : first;
            }

            @Override
            public void issued(Entry.Issued issued) {
                SeatPage.notJudged(issued.route()).forEach(each -> room.warn(label + ": " + each));
            }
        });
    }

    AttemptFolder folder() {
        return folder;
    }

    Lesson lesson() {
        return lesson;
    }

    void accept(Datagram datagram) {
        day.heard(datagram);
        recording.record(datagram);
        seats.accept(datagram);
        taken++;
    }

    void advanceTo(long nowMicros) {
        seats.advanceTo(nowMicros);
    }

    boolean begun() {
        return taken > 0;
    }

    /** Whether this place is near where the exercise begins: the start of the lesson, or of this attempt. */
    boolean isNearStart(Position place, double nearNm) {
        Position began = first;
        return lesson.start()
                        .map(start -> start.position().distanceNm(place) <= nearNm)
                        .orElse(false)
                || (began != null && began.distanceNm(place) <= nearNm);
    }

    /** Whether every clearance of the lesson was spoken and the last is complete. */
    boolean complete() {
        return desk.complete();
    }

    /** The same, and no hold or heading of it goes on: silence means that the pilot has gone. */
    boolean over() {
        return desk.over();
    }

    /** Why nothing of it is recorded just now; empty where all is. */
    String notRecorded() {
        return over ? "" : recording.refusing();
    }

    void look() {
        show.notRecorded(notRecorded());
    }

    /** What its page says of it now; may be asked from any thread. */
    Optional<SeatPage> page() {
        return Optional.ofNullable(page);
    }

    /** Seconds of the flight so far. */
    double elapsedS() {
        FlownAircraft flown = aircraft;
        return flown == null ? 0 : flown.session().lastS().orElse(0);
    }

    /** The last events. Afterwards nothing more is accepted. */
    void finish() {
        if (over) {
            return;
        }
        over = true;
        seats.finish();
        desk.finish();
        room.page().over(show);
    }

    /** Closes the files; what is recorded is on the disk then. Waits for it: not on the feed's thread. */
    void close() throws IOException {
        writer.close();
        if (writer.waiting() > 0) {
            room.warn(label + ": " + Words.count(writer.waiting(), "thing")
                    + " that the instructor said or wrote could not be kept");
        }
        recording.finish(desk.flown());
        lock.close();
    }

    @Override
    public void execute(Runnable work, Runnable tooLate) {
        boolean taken = room.execute(() -> {
            if (over) {
                tooLate.run();
            } else {
                work.run();
            }
        });
        if (!taken) {
            tooLate.run();
        }
    }

    @Override
    public Optional<FlightSession> seat(String id) {
        FlownAircraft flown = aircraft;
        return flown == null || !flown.key().label().equals(id) ? Optional.empty() : Optional.of(flown.session());
    }

    @Override
    public void keep(InstructorFile.Note note, Consumer<Kept> done, Runnable later) {
        writer.keep(
                note,
                problem -> {
                    problem.ifPresent(why -> room.warn(label + ": " + note.lost() + ": " + why));
                    done.accept(new Kept(problem.isEmpty(), problem));
                },
                later);
    }

    @Override
    public void start() {
        // An attempt begins with its assignment.
    }

    @Override
    public void stop() {
        room.end(seat);
    }
}
