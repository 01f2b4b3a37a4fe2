package org.rejoin.console.live;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;

import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.flight.FarFromStart;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.FlightDay;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.flight.NotTaken;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.flight.UnreadFeed;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/**
 * A flight over a real socket: feed, recorder, flights and view, wired. Everything about the flight happens on the
 * feed's thread; disk and terminal have threads of their own.
 */
public final class LiveFlight implements DatagramSink, AutoCloseable {

    /** The aircraft asked for may be the last of many to be sent. */
    private static final long PATIENCE_MICROS = 10_000_000;

    /** A thread that takes longer to look at the socket is busy with what came. */
    private static final long LOOK_MILLIS = 10_000;

    /** Where a flight is listened for, and the only senders to hear; all where there are none. */
    public record Listening(InetSocketAddress bind, Set<InetAddress> senders) {}

    /** What the user named for a flight cannot be used: his to mend, other than trouble that comes later on. */
    public static final class UnusableException extends IOException {

        private static final long serialVersionUID = 1L;

        private final IOException why;

        private UnusableException(IOException cause) {
            super(cause.getMessage(), cause);
            this.why = cause;
        }

        /** {@return why it cannot be used, as the reader of it said} */
        public IOException why() {
            return why;
        }
    }

    /** Reads or opens what the user named. */
    private interface Source<T> {
        T read() throws IOException;
    }

    private final Lesson lesson;
    private final AircraftSorter sorter;
    private final LessonFlights flights;
    private final FlightView view;
    private final Optional<LivePage> page;
    private final Optional<FurtherDrills> drills;
    private final ToleranceSet set;
    private final FlightDay day;
    private final boolean several;
    private final UnreadFeed unread;
    private final Said said;
    private final UdpFeed feed;
    private final FlightThread flightThread;
    private final FeedLoad load = new FeedLoad();
    private final ScheduledExecutorService watch = Executors.newSingleThreadScheduledExecutor(work -> {
        Thread thread = new Thread(work, "load");
        thread.setDaemon(true);
        return thread;
    });

    /**
     * Nothing is taken before: what came in earlier would be missing from the recording. Until then the datagrams wait in
     * the system.
     */
    private final CompletableFuture<Boolean> ready = new CompletableFuture<>();

    private @Nullable Recording recording;
    private final AtomicLong lastReceivedNs = new AtomicLong(System.nanoTime());
    private final AtomicBoolean ended = new AtomicBoolean();
    private volatile boolean kept = true;
    private final CompletableFuture<Boolean> over = new CompletableFuture<>();
    private final AtomicBoolean lessonOver = new AtomicBoolean();
    private final Set<String> faultsSaid = new HashSet<>();
    private boolean heardSaid;
    private long heardMicros;
    private long lookedMicros;

    /**
     * Opens the socket and begins.
     *
     * @param out where to record; null for no recording
     * @param drills that follow in the same flight
     */
    public LiveFlight(
            Lesson lesson,
            Listening port,
            MicroClock clock,
            List<WireFormat> formats,
            FeedSetup setup,
            @Nullable RecordingPlace out,
            FlightView view,
            Optional<LivePage> page,
            Optional<FurtherDrills> drills)
            throws IOException {
        this.lesson = lesson;
        this.view = view;
        this.page = page;
        this.drills = drills;
        this.set = usable(() -> ToleranceSet.read(lesson.standard()));
        lesson.notes().forEach(note -> view.diagnostic("note: " + note));
        this.day = page.map(LivePage::day).orElseGet(() -> new FlightDay(lesson));
        this.said = out == null ? Said.NOTHING : usable(out::said);
        this.several = setup.following().several();
        this.flights = new LessonFlights(
                lesson, set, day, setup.following(), FlightRecord::withoutPoints, this::watchers, said);
        this.unread = new UnreadFeed(formats, port.bind().getPort());
        this.sorter = new AircraftSorter(formats, flights.choice(), flights);
        this.feed = usable(() -> UdpFeed.open(port.bind(), port.senders(), clock, this));
        this.flightThread = new FlightThread(feed::execute);
        try {
            if (out != null) {
                this.recording = out.start(lesson, setup, feed.localAddress(), view::diagnostic);
                long again = out.replay(datagram -> {
                    day.heard(datagram);
                    sorter.accept(datagram);
                });
                if (again > 0) {
                    view.diagnostic(again + " datagrams of the recording were flown again; the flight goes on");
                }
            }
            if (page.isPresent()) {
                page.get().attach(this);
            }
        } catch (IOException | RuntimeException e) {
            ended.set(true);
            ready.complete(true);
            feed.close();
            flightThread.close();
            watch.shutdownNow();
            if (recording != null) {
                recording.abandon();
            }
            throw e;
        }
        lastReceivedNs.set(System.nanoTime());
        ready.complete(true);
        Future<?> unused = watch.scheduleWithFixedDelay(this::sayLoad, 1, 1, TimeUnit.SECONDS);
    }

    private static <T> T usable(Source<T> source) throws UnusableException {
        try {
            return source.read();
        } catch (IOException e) {
            throw new UnusableException(e);
        }
    }

    /** On a thread of its own: the flight's has no time when there is something to say. */
    private void sayLoad() {
        double behindS = feed.behindS();
        long lost = feed.droppedBySystem().orElse(0);
        load.look(behindS, lost).forEach(view::diagnostic);
        page.ifPresent(shown -> shown.server().load(behindS, lost));
        Recording kept = recording;
        if (kept != null) {
            page.ifPresent(shown -> shown.server().notRecorded(kept.refusing()));
        }
    }

    @Override
    public void trouble(String text) {
        view.diagnostic(text);
    }

    private List<LessonFlights.Watcher> watchers(FlownAircraft aircraft) {
        List<LessonFlights.Watcher> watchers = new ArrayList<>();
        watchers.add(view.watcher(aircraft));
        String whose = several ? aircraft.name().label() + ": " : "";
        watchers.add(new FarFromStart(lesson, text -> view.diagnostic("note: " + whose + text)));
        if (recording != null) {
            watchers.add(recording.log(aircraft));
        }
        page.ifPresent(shown ->
                watchers.add(shown.watcher(aircraft, said.to(aircraft.key().label()))));
        drills.ifPresent(more -> watchers.add(more.watcher(aircraft)));
        return watchers;
    }

    /** Recorded at once, whatever is worked on: what is recorded is accepted too. */
    @Override
    public boolean arrived(Datagram datagram) {
        ready.join();
        if (ended.get() || waiting()) {
            return false;
        }
        day.heard(datagram);
        unread.heard(datagram);
        if (recording != null) {
            recording.record(datagram);
        }
        lastReceivedNs.set(System.nanoTime());
        return true;
    }

    @Override
    public DatagramSink reader() {
        return sorter;
    }

    @Override
    public void accept(Datagram datagram) {
        sorter.accept(datagram);
    }

    @Override
    public void advanceTo(long nowMicros) {
        ready.join();
        if (!ended.get() && !waiting()) {
            sorter.advanceTo(nowMicros);
            lessonOver.set(flights.over());
            unread.look(nowMicros, sorter::senders).forEach(view::diagnostic);
            if (nowMicros - lookedMicros >= 1_000_000) {
                lookedMicros = nowMicros;
                page.ifPresent(shown -> shown.server().unread(unread.standing()));
                sayFirstFault();
                sayWhoIsHeard(nowMicros);
            }
        }
    }

    /** Who waits for an aircraft by a name that nobody sends must not learn it after the flight. */
    private void sayWhoIsHeard(long nowMicros) {
        if (heardSaid || !flights.flown().isEmpty() || feed.taken() == 0) {
            return;
        }
        heardMicros = heardMicros == 0 ? nowMicros : heardMicros;
        if (nowMicros - heardMicros >= PATIENCE_MICROS) {
            heardSaid = true;
            flights.missed().ifPresent(view::diagnostic);
        }
    }

    /** A pilot whose simulator sends what cannot be read must not learn it after the flight. */
    private void sayFirstFault() {
        for (AircraftSorter.SenderReport sender : sorter.senders()) {
            for (String fault : sender.faults()) {
                if (faultsSaid.add(sender.sender() + fault)) {
                    view.diagnostic("something that came from "
                            + sender.sender().getAddress().getHostAddress() + ":"
                            + sender.sender().getPort() + " could not be read: " + fault
                            + "; more of this is counted and said at the end");
                }
            }
        }
    }

    /** Whether the instructor has not started yet; silence counts from then on. */
    private boolean waiting() {
        if (page.map(LivePage::taking).orElse(true)) {
            return false;
        }
        lastReceivedNs.set(System.nanoTime());
        return true;
    }

    /**
     * Runs something on the thread of the flight, between datagrams; there sessions may be asked and clearances issued.
     *
     * @param tooLate run instead if the flight is over
     */
    void execute(Runnable work, Runnable tooLate) {
        flightThread.execute(work, tooLate);
    }

    /** Asks the simulator for its data, from the port that its answers are to come to. */
    public void ask(Consumer<UdpFeed> asking) {
        asking.accept(feed);
    }

    public InetSocketAddress localAddress() {
        return feed.localAddress();
    }

    public long refused() {
        return feed.refused();
    }

    public long received() {
        return feed.taken();
    }

    /** Whether there was a sample of an aircraft; asked once the flight is over. */
    public boolean flown() {
        return !flights.flown().isEmpty();
    }

    /** Whether all that was to be recorded is on the disk; asked once the flight is over. */
    public boolean kept() {
        return kept;
    }

    public double silentS() {
        return (System.nanoTime() - lastReceivedNs.get()) * 1e-9;
    }

    /**
     * Whether nothing has come for so long. This program may have stood still meanwhile, and the datagrams wait in the
     * socket: that is looked at first.
     */
    public boolean silentFor(double seconds) throws InterruptedException {
        return silentS() > seconds && feed.lookAgain(LOOK_MILLIS) && silentS() > seconds;
    }

    /** Whether every aircraft is through with the lesson, and no hold of it goes on; may be asked from any thread. */
    public boolean over() {
        return lessonOver.get();
    }

    @Override
    public void close() {
        end();
    }

    /**
     * Ends the flight: last events, grades, files. Safe to call from any thread, and twice: whoever comes second waits for
     * the first.
     */
    public void end() {
        if (!ended.compareAndSet(false, true)) {
            over.join();
            return;
        }
        try {
            long lost = feed.droppedBySystem().orElse(0); // a closed socket has no count
            boolean whole = finishSeats();
            watch.shutdownNow();
            feed.close();
            flightThread.close();
            page.ifPresent(LivePage::keepRest);
            if (recording != null) {
                kept = recording.finish(whole ? flights.flown() : List.of());
            }
            report(whole, lost);
        } finally {
            over.complete(true);
        }
    }

    /** Whether it has ended, or somebody stopped it at its page. */
    public boolean stopped() {
        return ended.get() || page.map(LivePage::stopped).orElse(false);
    }

    /** Ends it, and shows the end of it on its page, if it has one, for a while. */
    public void conclude() throws InterruptedException {
        end();
        if (page.isPresent()) {
            page.get().over();
        }
    }

    /** The program is about to end: the flight ends in order, its page at once. */
    public void cutOff() {
        end();
        page.ifPresent(LivePage::cutOff);
    }

    /** On the feed's thread; false if that does not answer: then nobody else may look at what it works on. */
    private boolean finishSeats() {
        CountDownLatch done = new CountDownLatch(1);
        Runnable last = () -> {
            try {
                flightThread.over();
                sorter.finish();
                flights.finish();
            } finally {
                done.countDown();
            }
        };
        if (!feed.execute(last)) {
            last.run();
            return true;
        }
        try {
            if (done.await(10, TimeUnit.SECONDS)) {
                return true;
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        view.diagnostic("the flight's thread did not answer: it ends without its last events and without a grade;"
                + " debrief grades the recording");
        return false;
    }

    private void report(boolean whole, long lost) {
        if (whole) {
            reportFeed(lost);
            if (flights.flown().isEmpty()) {
                view.diagnostic(flights.missed().orElse("no sample of an aircraft arrived") + ": nothing to grade");
            } else {
                flights.missed().ifPresent(view::diagnostic);
                view.grades(flights.flown(), set.title());
            }
        }
        view.close();
    }

    private void reportFeed(long lost) {
        NotTaken.of(sorter).forEach(view::diagnostic);
        if (lost > 0) {
            view.diagnostic(
                    lost + " datagrams were lost in the system before this program could take them; they are missing"
                            + " from the recording and from this grade");
        }
        if (feed.dropped() > 0) {
            view.diagnostic(feed.dropped() + " datagrams came faster than they could be followed and are missing from"
                    + " this grade; debrief grades the recording with them");
        }
        if (feed.refused() > 0) {
            view.diagnostic(feed.refused() + " datagrams came from addresses that are not allowed");
        }
    }
}
