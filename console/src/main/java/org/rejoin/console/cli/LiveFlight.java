package org.rejoin.console.cli;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.Seats;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.FlightDay;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.flight.UnreadFeed;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/**
 * A flight over a real socket: feed, recorder, seats, desk and view, wired. Everything about the flight happens on the
 * feed's thread; disk and terminal have threads of their own.
 */
final class LiveFlight implements DatagramSink, AutoCloseable {

    private final Lesson lesson;
    private final Seats seats;
    private final FlightDesk desk;
    private final FlightView view;
    private final Optional<LivePage> page;
    private final ToleranceSet set;
    private final FlightDay day;
    private final UnreadFeed unread;
    private final UdpFeed feed;
    private final Errands errands;
    /** Nothing is taken before: what came in earlier would be missing from the recording. */
    private final CountDownLatch ready = new CountDownLatch(1);

    private @Nullable Recording recording;
    private final AtomicLong received = new AtomicLong();
    private final AtomicLong lastReceivedNs = new AtomicLong(System.nanoTime());
    private final AtomicBoolean ended = new AtomicBoolean();
    private final CountDownLatch over = new CountDownLatch(1);
    private final AtomicBoolean complete = new AtomicBoolean();
    private boolean faultSaid;
    private long faultLookedMicros;

    /**
     * Opens the socket and begins.
     *
     * @param out where to record; null for no recording
     */
    LiveFlight(
            Lesson lesson,
            FeedPort.Listening port,
            MicroClock clock,
            List<WireFormat> formats,
            FeedSetup setup,
            @Nullable RecordingPlace out,
            FlightView view,
            Optional<LivePage> page)
            throws IOException, BadInput {
        this.lesson = lesson;
        this.view = view;
        this.page = page;
        this.set = BadInput.in(() -> ToleranceSet.read(lesson.standard()));
        lesson.notes().forEach(note -> view.diagnostic("note: " + note));
        this.day = page.map(LivePage::day).orElseGet(() -> new FlightDay(lesson));
        List<InstructorFile.Spoken> spoken = out == null ? List.of() : BadInput.in(out::spoken);
        this.desk = new FlightDesk(lesson, set, day, setup.following(), this::watchers, spoken);
        this.unread = new UnreadFeed(formats, port.bind().getPort());
        this.seats = new Seats(formats, setup.following().choice(), desk);
        this.feed = BadInput.in(() -> UdpFeed.open(port.bind(), port.senders(), clock, this));
        this.errands = new Errands(feed::execute);
        try {
            if (out != null) {
                this.recording = out.start(lesson, setup, feed.localAddress(), view::diagnostic);
                long again = out.replay(datagram -> {
                    day.heard(datagram);
                    seats.accept(datagram);
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
            ready.countDown();
            feed.close();
            errands.close();
            if (recording != null) {
                recording.abandon();
            }
            throw e;
        }
        lastReceivedNs.set(System.nanoTime());
        ready.countDown();
    }

    private List<FlightDesk.Watcher> watchers(FlownAircraft aircraft) {
        List<FlightDesk.Watcher> watchers = new ArrayList<>();
        watchers.add(view.watcher(aircraft));
        watchers.add(new FarFromStart(lesson, text -> view.diagnostic("note: " + text)));
        if (recording != null) {
            watchers.add(recording.log(aircraft));
        }
        page.ifPresent(shown -> watchers.add(shown.watcher(aircraft)));
        return watchers;
    }

    /** Recorded at once, whatever is worked on: what is recorded is accepted too. */
    @Override
    public boolean arrived(Datagram datagram) {
        awaitReady();
        if (ended.get() || waiting()) {
            return false;
        }
        day.heard(datagram);
        if (recording != null) {
            recording.record(datagram);
        }
        lastReceivedNs.set(System.nanoTime());
        return true;
    }

    @Override
    public void accept(Datagram datagram) {
        try {
            unread.heard(datagram);
            seats.accept(datagram);
        } finally {
            received.incrementAndGet();
        }
    }

    @Override
    public void advanceTo(long nowMicros) {
        awaitReady();
        if (!ended.get() && !waiting()) {
            seats.advanceTo(nowMicros);
            complete.set(desk.complete());
            unread.look(nowMicros, seats::senders).forEach(view::diagnostic);
            sayFirstFault(nowMicros);
        }
    }

    /** A pilot whose simulator sends what cannot be read must not learn it after the flight. */
    private void sayFirstFault(long nowMicros) {
        if (faultSaid || nowMicros - faultLookedMicros < 1_000_000) {
            return;
        }
        faultLookedMicros = nowMicros;
        for (Seats.SenderReport sender : seats.senders()) {
            if (sender.firstFault().isPresent()) {
                faultSaid = true;
                view.diagnostic("something that came from "
                        + sender.sender().getAddress().getHostAddress() + ":"
                        + sender.sender().getPort() + " could not be read: "
                        + sender.firstFault().get() + "; more of this is counted and said at the end");
                return;
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

    /** The datagrams wait in the system meanwhile. */
    private void awaitReady() {
        try {
            ready.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /**
     * Runs something on the thread of the flight, between datagrams; there seats may be asked and clearances issued.
     *
     * @param tooLate run instead if the flight is over
     */
    void execute(Runnable work, Runnable tooLate) {
        errands.execute(work, tooLate);
    }

    /** Asks the simulator for its data. */
    void ask(FeedAsk ask) {
        ask.start(feed, view::diagnostic);
    }

    InetSocketAddress localAddress() {
        return feed.localAddress();
    }

    long refused() {
        return feed.refused();
    }

    long received() {
        return received.get();
    }

    /** Whether there was a sample of an aircraft; asked once the flight is over. */
    boolean flown() {
        return !desk.flown().isEmpty();
    }

    double silentS() {
        return (System.nanoTime() - lastReceivedNs.get()) * 1e-9;
    }

    /** Whether the last amendment of every aircraft was complete; may be asked from any thread. */
    boolean complete() {
        return complete.get();
    }

    @Override
    public void close() {
        end();
    }

    /**
     * Ends the flight: last events, grades, files. Safe to call from any thread, and twice: whoever comes second waits for
     * the first.
     */
    void end() {
        if (!ended.compareAndSet(false, true)) {
            awaitOver();
            return;
        }
        try {
            boolean whole = finishSeats();
            feed.close();
            errands.close();
            page.ifPresent(LivePage::keepRest);
            if (recording != null) {
                recording.finish(whole ? desk.flown() : List.of());
            }
            report(whole);
        } finally {
            over.countDown();
        }
    }

    private void awaitOver() {
        try {
            over.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** On the feed's thread; false if that does not answer: then nobody else may look at what it works on. */
    private boolean finishSeats() {
        CountDownLatch done = new CountDownLatch(1);
        Runnable last = () -> {
            try {
                errands.over();
                seats.finish();
                desk.finish();
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

    private void report(boolean whole) {
        if (whole) {
            reportFeed();
            if (desk.flown().isEmpty()) {
                view.diagnostic("no sample of an aircraft arrived: nothing to grade");
            } else {
                view.grades(desk.flown(), set.title());
            }
        }
        view.close();
    }

    private void reportFeed() {
        long malformed = 0;
        long unrecognised = 0;
        for (Seats.SenderReport sender : seats.senders()) {
            malformed += sender.malformed();
            unrecognised += sender.unrecognised();
        }
        if (malformed + unrecognised > 0) {
            view.diagnostic(malformed + " pieces of datagrams were malformed and " + unrecognised
                    + " datagrams in no known format; they were left out (--verbose shows the first)");
        }
        if (seats.leftOut() > 0) {
            view.diagnostic(seats.leftOut() + " datagrams and samples were left out: more than " + Seats.MOST
                    + " senders or aircraft");
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
