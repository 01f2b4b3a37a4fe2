package org.rejoin.console.cli;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.bridge.Seat;
import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.SeatChoice;
import org.rejoin.bridge.feed.SeatKey;
import org.rejoin.bridge.feed.Seats;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.console.flight.Recording;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/**
 * A flight over a real socket: feed, recorder, seats, desk and view, wired. Everything about the flight happens on the
 * feed's thread; disk and terminal have threads of their own.
 */
final class LiveFlight implements DatagramSink, AutoCloseable {

    private final Seats seats;
    private final FlightDesk desk;
    private final FlightView view;
    private final ToleranceSet set;
    private final UdpFeed feed;
    private final @Nullable Recording recording;
    private final AtomicLong received = new AtomicLong();
    private final AtomicLong lastReceivedNs = new AtomicLong(System.nanoTime());
    private final AtomicBoolean ended = new AtomicBoolean();
    private final AtomicBoolean complete = new AtomicBoolean();

    LiveFlight(
            Lesson lesson,
            InetSocketAddress bind,
            Set<InetAddress> senders,
            MicroClock clock,
            List<WireFormat> formats,
            SeatChoice choice,
            @Nullable Path out,
            FlightView view)
            throws IOException {
        this.view = view;
        this.set = ToleranceSet.read(lesson.standard());
        lesson.notes().forEach(note -> view.diagnostic("note: " + note));
        LocalDate date = lesson.date()
                .orElseGet(() -> Instant.ofEpochMilli(clock.micros() / 1000)
                        .atOffset(ZoneOffset.UTC)
                        .toLocalDate());
        List<FlightDesk.Watcher> watchers = new ArrayList<>();
        watchers.add(view);
        watchers.add(new FlightDesk.Watcher() {
            @Override
            public void event(TrackerEvent event) {
                log(event);
            }
        });
        this.desk = new FlightDesk(lesson, set, date, this::formatOf, watchers);
        this.seats = new Seats(formats, choice, desk);
        this.feed = UdpFeed.open(bind, senders, clock, this);
        try {
            this.recording = out == null ? null : Recording.start(out, lesson, feed.localAddress(), view::diagnostic);
        } catch (IOException e) {
            feed.close();
            throw e;
        }
    }

    /** The desk is there before the seats are. */
    private Optional<String> formatOf(SeatKey key) {
        return seats.formatOf(key);
    }

    private void log(TrackerEvent event) {
        if (recording != null) {
            recording.log(event);
        }
    }

    @Override
    public void accept(Datagram datagram) {
        if (ended.get()) {
            return;
        }
        if (recording != null) {
            recording.record(datagram);
        }
        received.incrementAndGet();
        lastReceivedNs.set(System.nanoTime());
        seats.accept(datagram);
        complete.set(desk.seat().map(Seat::complete).orElse(false));
    }

    @Override
    public void advanceTo(long nowMicros) {
        if (!ended.get()) {
            seats.advanceTo(nowMicros);
        }
    }

    InetSocketAddress localAddress() {
        return feed.localAddress();
    }

    long received() {
        return received.get();
    }

    double silentS() {
        return (System.nanoTime() - lastReceivedNs.get()) * 1e-9;
    }

    /** Whether the last amendment was complete at the last sample; may be asked from any thread. */
    boolean complete() {
        return complete.get();
    }

    @Override
    public void close() {
        end();
    }

    /** Ends the flight: last events, grade, files. Safe to call from any thread, and twice. */
    void end() {
        if (!ended.compareAndSet(false, true)) {
            return;
        }
        CountDownLatch done = new CountDownLatch(1);
        Runnable last = () -> {
            try {
                seats.finish();
                desk.finish();
            } finally {
                done.countDown();
            }
        };
        if (feed.execute(last)) {
            try {
                if (!done.await(10, TimeUnit.SECONDS)) {
                    view.diagnostic("the feed's thread did not answer; the flight ends without its last events");
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        } else {
            last.run();
        }
        feed.close();
        if (recording != null) {
            recording.finish(desk.grade(), desk.events());
        }
        report();
    }

    private void report() {
        long malformed = seats.senders().stream()
                .mapToLong(Seats.SenderReport::malformed)
                .sum();
        long unrecognised = seats.senders().stream()
                .mapToLong(Seats.SenderReport::unrecognised)
                .sum();
        if (malformed + unrecognised > 0) {
            view.diagnostic(malformed + " pieces of datagrams were malformed and " + unrecognised
                    + " datagrams in no known format; they were left out (--verbose shows the first)");
        }
        if (feed.refused() > 0) {
            view.diagnostic(feed.refused() + " datagrams came from addresses that are not allowed");
        }
        if (desk.events().isEmpty()) {
            view.diagnostic("no sample of an aircraft arrived: nothing to grade");
        } else {
            view.grade(desk.grade(), set.title());
        }
        view.close();
    }
}
