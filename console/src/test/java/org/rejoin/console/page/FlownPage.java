package org.rejoin.console.page;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.TimeOfDay;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.speech.Speech;
import org.rejoin.protocol.AircraftState;

/** A page with practice flights on it, without a socket for the flight: its own thread plays the feed's. */
final class FlownPage implements PageActions, AutoCloseable {

    static final String CAUTION =
            "For simulation and training only. Not for navigation. Follow local rules and your instructor.";
    static final LocalDate DATE = LocalDate.of(2026, 6, 1);

    final Lesson lesson;
    final PageServer server;
    final List<String> spoken = new CopyOnWriteArrayList<>();
    final List<String> remarks = new CopyOnWriteArrayList<>();
    final List<String> pressed = new CopyOnWriteArrayList<>();
    final List<String> warned = new CopyOnWriteArrayList<>();
    private final ToleranceSet set;
    private final ExecutorService thread = Executors.newSingleThreadExecutor();
    private final Map<String, Flown> flown = new ConcurrentHashMap<>();

    private record Flown(FlightSession seat, SeatPage page) {}

    FlownPage(String lessonName, Optional<String> token) throws Exception {
        this(lessonName, new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), token);
    }

    FlownPage(String lessonName, InetSocketAddress bind, Optional<String> token) throws Exception {
        this(lessonName, bind, token, Speech.NONE);
    }

    FlownPage(String lessonName, InetSocketAddress bind, Optional<String> token, Speech speech) throws Exception {
        lesson = LessonReader.read(lessonName);
        set = ToleranceSet.read(lesson.standard());
        server = PageServer.open(
                bind, token, new PageServer.Setting(lesson, set, () -> DATE, CAUTION, false), this, speech);
    }

    String address() {
        return "http://127.0.0.1:" + server.localAddress().getPort();
    }

    /** States of a practice flight, from its start to a time. */
    List<AircraftState> states(Habit habit, double hz) throws Exception {
        List<AircraftState> states = new ArrayList<>();
        new PracticeFlight(lesson, DATE, habit).fly(hz, states::add);
        return states;
    }

    SeatPage page(String label) {
        return seatOf(label).page();
    }

    private Flown seatOf(String label) {
        return flown.computeIfAbsent(label, name -> {
            Grader grader = new Grader(set);
            SeatPage page = server.seat(name, name, grader::grade);
            FlightRecord record = FlightRecord.whole();
            record.tell(entry -> {
                entry.readBy(grader);
                entry.readBy(page);
            });
            FlightSession seat = new FlightSession(
                    new FlightSession.Setting(
                            lesson.chart(),
                            lesson.filed(),
                            lesson.amendments(),
                            DATE,
                            lesson.wind(),
                            set.limits(),
                            5,
                            lesson.time().map(time -> new TimeOfDay(time, true))),
                    record);
            return new Flown(seat, page);
        });
    }

    /** Flies on; returns when the samples are taken. */
    void fly(String label, List<AircraftState> states) throws Exception {
        thread.submit(() -> states.forEach(state -> seatOf(label).seat().accept(state)))
                .get(60, TimeUnit.SECONDS);
    }

    void finish(String label) throws Exception {
        thread.submit(() -> seatOf(label).seat().finish()).get(10, TimeUnit.SECONDS);
    }

    void onThread(Runnable work) throws Exception {
        thread.submit(work).get(60, TimeUnit.SECONDS);
    }

    @Override
    public void execute(Runnable work, Runnable tooLate) {
        try {
            thread.execute(work);
        } catch (RejectedExecutionException e) {
            tooLate.run();
        }
    }

    @Override
    public Optional<FlightSession> seat(String label) {
        return Optional.ofNullable(flown.get(label)).map(Flown::seat);
    }

    @Override
    public void keep(InstructorFile.Note note, Consumer<Kept> done, Runnable later) {
        boolean counts = true;
        if (note instanceof InstructorFile.Spoken said) {
            spoken.add(said.seat() + " " + said.elapsedS() + " " + said.say());
        } else if (note instanceof InstructorFile.Remark remark) {
            remarks.add(remark.text());
        } else {
            counts = false;
        }
        done.accept(new Kept(counts, Optional.empty()));
    }

    @Override
    public void warned(String text) {
        warned.add(text);
    }

    @Override
    public void start() {
        pressed.add("start");
    }

    @Override
    public void stop() {
        pressed.add("stop");
    }

    @Override
    public void close() {
        thread.shutdownNow();
        server.close();
    }
}
