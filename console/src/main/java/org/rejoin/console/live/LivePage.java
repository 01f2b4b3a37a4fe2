package org.rejoin.console.live;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BiConsumer;
import java.util.function.Consumer;

import org.rejoin.bridge.FlightSession;
import org.rejoin.console.flight.FlightDay;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.page.PageActions;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.page.SeatPage;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.InstructorWriter;
import org.rejoin.console.recording.Said;
import org.rejoin.console.speech.Speech;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/** A live flight and its page, wired: what the page asks for is done on the flight's thread and kept in the recording. */
public final class LivePage implements PageActions, AutoCloseable {

    /**
     * How the page begins and ends.
     *
     * @param waits whether the lesson waits for the instructor's start
     * @param lingerS how long it is served after the flight while someone looks, seconds
     * @param speech what this machine can say and hear
     */
    public record Manner(boolean waits, double lingerS, Speech speech) {}

    /** A stranger must not be able to fill the terminal. */
    private static final int MOST_WARNINGS = 20;

    private final PageServer server;
    private final Manner manner;
    private final FlightView view;
    private final Optional<InstructorWriter> kept;
    private final Map<String, FlownAircraft> flown = new ConcurrentHashMap<>();
    private final FlightDay day;
    private final CountDownLatch started;
    private final AtomicInteger warnings = new AtomicInteger();
    private final AtomicBoolean stopped = new AtomicBoolean();
    private final AtomicReference<@Nullable LiveFlight> live = new AtomicReference<>();
    private volatile BiConsumer<String, OptionalDouble> hearing = (say, feet) -> {};

    public LivePage(
            InetSocketAddress bind,
            Optional<String> token,
            Manner manner,
            Lesson lesson,
            @Nullable RecordingPlace out,
            FlightView view)
            throws IOException {
        this.manner = manner;
        this.view = view;
        this.kept = Optional.ofNullable(out)
                .map(place -> new InstructorWriter(place.folder().instructor()));
        this.day = new FlightDay(lesson);
        this.started = new CountDownLatch(manner.waits() ? 1 : 0);
        this.server = PageServer.open(
                bind,
                token,
                new PageServer.Setting(
                        lesson, ToleranceSet.read(lesson.standard()), day, Words.CAUTION, manner.waits()),
                this,
                manner.speech());
        announce(token);
    }

    private void announce(Optional<String> token) {
        InetSocketAddress at = server.localAddress();
        InetAddress address = at.getAddress();
        String name = address.isAnyLocalAddress() ? "ADDRESS-OF-THIS-MACHINE" : address.getHostAddress();
        String root = "http://" + (name.indexOf(':') >= 0 ? "[" + name + "]" : name) + ":" + at.getPort();
        // The part after # never leaves the browser that opens it.
        view.diagnostic("page for the instructor: " + root
                + token.map(each -> "/enter#" + each).orElse("/"));
        view.diagnostic("page for the pilot: " + root
                + server.studentToken().map(each -> "/enter#" + each).orElse("/student"));
    }

    /** The flight whose page this is. */
    void attach(LiveFlight flight) {
        live.set(flight);
    }

    /** Also tells a pilot of this program what is spoken. */
    public void tell(BiConsumer<String, OptionalDouble> pilot) {
        hearing = pilot;
    }

    /** Who shows an aircraft; {@code said} was said at it before, where a flight is gone on with. */
    LessonFlights.Watcher watcher(FlownAircraft aircraft, Said said) {
        String id = aircraft.key().label();
        flown.put(id, aircraft);
        SeatPage seat = server.seat(id, aircraft.name().label(), aircraft::grade);
        seat.remarked(said.remarks());
        return seat;
    }

    /** The page itself, to be told how the feed and the recording stand. */
    PageServer server() {
        return server;
    }

    FlightDay day() {
        return day;
    }

    boolean taking() {
        return started.getCount() == 0;
    }

    boolean stopped() {
        return stopped.get();
    }

    public void awaitStart() throws InterruptedException {
        while (!stopped.get() && !started.await(100, TimeUnit.MILLISECONDS)) {
            Thread.onSpinWait();
        }
    }

    @Override
    public void execute(Runnable work, Runnable tooLate) {
        LiveFlight flight = live.get();
        if (flight == null) {
            tooLate.run();
        } else {
            flight.execute(work, tooLate);
        }
    }

    @Override
    public Optional<FlightSession> seat(String label) {
        return Optional.ofNullable(flown.get(label)).map(FlownAircraft::session);
    }

    @Override
    public void keep(InstructorFile.Note note, Consumer<Kept> done, Runnable later) {
        if (note instanceof InstructorFile.Spoken spoken) {
            hearing.accept(spoken.say(), spoken.altitudeFt());
        }
        kept.ifPresentOrElse(
                disk -> disk.keep(
                        note,
                        problem -> {
                            problem.ifPresent(why -> view.diagnostic(note.lost() + ": " + why));
                            done.accept(new Kept(problem.isEmpty(), problem));
                        },
                        later),
                () -> done.accept(new Kept(false, Optional.empty())));
    }

    /** Nothing more will be said: waits until all of it is on the disk. */
    void keepRest() {
        kept.ifPresent(disk -> {
            disk.close();
            if (disk.waiting() > 0) {
                view.diagnostic(
                        Words.count(disk.waiting(), "thing") + " that the instructor said or wrote could not be kept");
            }
        });
    }

    @Override
    public void warned(String text) {
        if (warnings.getAndIncrement() < MOST_WARNINGS) {
            view.diagnostic(text);
        }
    }

    @Override
    public void start() {
        started.countDown();
        server.began();
    }

    @Override
    public void stop() {
        stopped.set(true);
    }

    /** The flight is over: shows the end of it, and stays a while if someone looks. */
    void over() throws InterruptedException {
        server.over();
        long untilNs = System.nanoTime() + (long) (manner.lingerS() * 1e9);
        while (server.open() > 0 && System.nanoTime() < untilNs) {
            Thread.sleep(100);
        }
    }

    /** The program is about to end: no program that speaks or hears is left, and no sound. */
    void cutOff() {
        server.close();
    }

    @Override
    public void close() {
        keepRest();
        if (server.dropped() > 0) {
            view.diagnostic(server.dropped() + " pages were let go because they did not read");
        }
        server.close();
    }
}
