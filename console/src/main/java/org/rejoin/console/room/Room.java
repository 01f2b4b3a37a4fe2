package org.rejoin.console.room;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.bridge.feed.DayClock;
import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.bridge.feed.UdpFeed;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.flight.FeedSetup;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.UnreadFeed;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.DataState;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

/**
 * The room: a feed that stays open, the aircraft that are heard on it, and an attempt for each that has a lesson. All that
 * concerns a flight happens on the feed's thread; recordings are begun and ended on a thread of their own.
 */
public final class Room implements DatagramSink, AircraftSink, AutoCloseable {

    /** An aircraft that is silent for longer has left its attempt, seconds (common practice, no source). */
    private static final double IDLE_S = 600;

    /** Likewise once the lesson is through. */
    private static final double IDLE_COMPLETE_S = 15;

    private static final double GONE_S = Rule.FeedLost.DIS.timeoutS();

    private static final long CLOSE_S = 20;

    /** From one port: the twelve seconds until it is known whose it is, of a fast feed. */
    static final int MOST_UNDECIDED = 6_000;

    /** So often the roster is looked at. */
    private static final long LOOK_MS = 1_000;

    /**
     * What a room is made of.
     *
     * @param formatNames those that the user named, kept with each recording
     * @param forAll lesson that every aircraft begins as it is heard; empty where the page assigns
     * @param warn takes one line for whoever runs the program
     */
    public record Setting(
            List<WireFormat> formats,
            List<String> formatNames,
            RoomLessons lessons,
            RoomRecords records,
            Optional<String> forAll,
            Consumer<String> warn) {}

    private final Setting setting;
    private final PageServer page;
    private final AircraftSorter seats;
    private final UdpFeed feed;
    private final UnreadFeed unread;
    private volatile List<String> unreadNow = List.of();
    private final List<RoomSeat> known = new CopyOnWriteArrayList<>();
    private final Map<AircraftKey, RoomSeat> byKey = new HashMap<>();
    /** Whose a sender's datagrams are, as found before; forgotten whenever a seat comes, or goes on from elsewhere. */
    private final Map<InetSocketAddress, List<RoomSeat>> bySender = new HashMap<>();
    /** What came from ports of which it is not known yet whose they are. */
    private final Map<InetSocketAddress, List<Datagram>> undecided = new HashMap<>();
    /** Ports that sent more than is kept of one; each is told of once. */
    private final Set<InetSocketAddress> cutShort = new HashSet<>();
    /** Callsigns of those whose seat a simulator that was started again went on with. */
    private final Map<AircraftKey, String> leftBehind = new HashMap<>();

    /** Seats so far: a number is given once. */
    private int numbersGiven;

    private final FirstHeard first = new FirstHeard();
    private final DrillsFromHere drills;
    /** Until then the datagrams wait in the system. */
    private final CompletableFuture<Boolean> ready = new CompletableFuture<>();

    private final ExecutorService disk = Executors.newSingleThreadExecutor(work -> daemon(work, "room-disk"));
    /** Looks at the roster, which a command beside the room may change; the disk's own thread may be at a long grade. */
    private final ScheduledExecutorService roster =
            Executors.newSingleThreadScheduledExecutor(work -> daemon(work, "room-roster"));

    private final ScheduledFuture<?> looking;
    private volatile Consumer<String> forgotten = pilotId -> {};
    private String rosterTrouble = "";
    private long nowMicros;
    private long lookedMicros;

    /**
     * Opens the feed.
     *
     * @param bind address and port to listen on
     * @param senders the only ones heard; all where there are none
     * @param setting what the room is made of
     * @throws IOException if the port cannot be listened on; one line
     */
    public Room(InetSocketAddress bind, Set<InetAddress> senders, MicroClock clock, Setting setting, PageServer page)
            throws IOException {
        this.setting = setting;
        this.page = page;
        this.seats = new AircraftSorter(setting.formats(), AircraftChoice.all(), this);
        this.drills = new DrillsFromHere(setting.lessons(), this::assign);
        this.unread = new UnreadFeed(setting.formats(), bind.getPort());
        this.feed = UdpFeed.open(bind, senders, clock, this);
        ready.complete(true);
        this.looking = roster.scheduleWithFixedDelay(this::lookAtRoster, LOOK_MS, LOOK_MS, TimeUnit.MILLISECONDS);
    }

    static Thread daemon(Runnable work, String name) {
        Thread thread = new Thread(work, name);
        thread.setDaemon(true);
        return thread;
    }

    /** Who is told the identifier of a pilot that was forgotten while the room is open; on any thread. */
    void whenForgotten(Consumer<String> told) {
        forgotten = told;
    }

    /** Seats say the names that their pilots have now. On any thread. */
    void called() {
        for (RoomSeat seat : known) {
            seat.pilot().ifPresent(sits -> {
                Pilot now = setting.records().calledNow(sits);
                if (!now.equals(sits)) {
                    onFeedsThread(seat, () -> seat.called(now));
                }
            });
        }
    }

    private void lookAtRoster() {
        try {
            RoomRecords.Looked looked = setting.records().look();
            Set<String> gone = looked.gone();
            called();
            for (RoomSeat seat : known) {
                if (seat.pilot().filter(pilot -> gone.contains(pilot.id())).isPresent()) {
                    forget(seat);
                }
            }
            gone.forEach(forgotten);
            if (!gone.isEmpty() || looked.renamed()) {
                disk(setting.records()::letGo);
            }
            rosterTrouble = "";
        } catch (IOException e) {
            String why = String.valueOf(e.getMessage());
            if (!why.equals(rosterTrouble)) {
                rosterTrouble = why;
                warn(why);
            }
        } catch (RuntimeException e) { // would end the looking
            warn("the roster could not be looked at: " + e);
        }
    }

    private void forget(RoomSeat seat) {
        onFeedsThread(seat, () -> {
            seat.forget();
            drills.stop(seat);
            if (seat.flight().isEmpty()) {
                page.remove(seat.id());
            }
        });
    }

    /** Runs something on the feed's thread; false if the room is closed. */
    boolean execute(Runnable work) {
        return feed.execute(work);
    }

    private void onFeedsThread(RoomSeat seat, Runnable work) {
        if (!execute(work)) {
            seat.trouble("the room is closed");
        }
    }

    /** Asks a simulator for its data, from the port that its answers are to come to. */
    public void ask(Consumer<UdpFeed> asking) {
        asking.accept(feed);
    }

    /** {@return where it listens, address and port} */
    public InetSocketAddress localAddress() {
        return feed.localAddress();
    }

    /** The seat that a pilot flies at, the one heard last; empty where there is none. */
    Optional<RoomSeat> own(String pilotId) {
        return known().stream()
                .filter(seat ->
                        seat.pilot().map(Pilot::id).filter(pilotId::equals).isPresent())
                .reduce((older, newer) -> newer.ageS() < older.ageS() ? newer : older);
    }

    /** Another seat at which a pilot is flying now: nobody flies two. */
    Optional<RoomSeat> flownBy(Pilot pilot, RoomSeat butFor) {
        return known().stream()
                .filter(seat -> !seat.equals(butFor) && seat.flight().isPresent() && seat.ageS() < GONE_S)
                .filter(seat ->
                        seat.pilot().map(Pilot::id).filter(pilot.id()::equals).isPresent())
                .findFirst();
    }

    List<RoomSeat> known() {
        return known;
    }

    List<WireFormat> formats() {
        return setting.formats();
    }

    PageServer page() {
        return page;
    }

    /** Tells whoever runs the program a line. */
    void warn(String line) {
        setting.warn().accept(line);
    }

    Optional<RoomSeat> seat(String id) {
        return known.stream().filter(each -> each.id().equals(id)).findFirst();
    }

    double behindS() {
        return feed.behindS();
    }

    long lost() {
        return feed.dropped() + feed.droppedBySystem().orElse(0);
    }

    /** What arrives and cannot be flown by, a line a sender. */
    List<String> unread() {
        return unreadNow;
    }

    long refused() {
        return feed.refused();
    }

    @Override
    public void accept(Datagram datagram) {
        ready.join();
        nowMicros = datagram.receivedMicros();
        unread.heard(datagram);
        // First who it is and where: one that was put back to the start belongs to the next attempt.
        seats.accept(datagram);
        for (RoomSeat seat : of(datagram.sender())) {
            seat.take(datagram);
        }
        if (!seats.isOpen(datagram.sender())) {
            undecided.remove(datagram.sender());
            return;
        }
        List<Datagram> held = undecided.computeIfAbsent(datagram.sender(), unheard -> new ArrayList<>());
        if (held.size() < MOST_UNDECIDED) {
            held.add(datagram);
        } else if (cutShort.add(datagram.sender())) {
            warn(datagram.sender().getAddress().getHostAddress() + ":"
                    + datagram.sender().getPort() + " sent " + MOST_UNDECIDED
                    + " datagrams before it was known whose they are: more of them are in no recording");
        }
    }

    /**
     * Whose datagrams these are. Of a port with an aircraft that may be one of another port nobody's yet: whoever goes on
     * there gets them later. Of a port without an aircraft, those of its address that went silent may go on there.
     */
    private List<RoomSeat> of(InetSocketAddress sender) {
        List<RoomSeat> found = bySender.get(sender);
        if (found != null) {
            return found;
        }
        List<RoomSeat> own = known.stream()
                .filter(seat -> seat.key().sender().equals(sender) || seat.speaksFrom(sender))
                .toList();
        if (!own.isEmpty()) {
            bySender.put(sender, own);
        }
        if (!own.isEmpty() || seats.flies(sender)) {
            return own;
        }
        List<RoomSeat> silent = new ArrayList<>();
        for (RoomSeat seat : known) {
            if (seat.key().sender().getAddress().equals(sender.getAddress())
                    && nowMicros - seat.heardMicros() > 1_000_000) {
                silent.add(seat);
            }
        }
        return silent;
    }

    @Override
    public AircraftSink heard(AircraftKey key, String marking, String format, DayClock clock) {
        if (first.heard(key, marking, nowMicros)) {
            seated(key, marking);
        }
        return this;
    }

    private void seated(AircraftKey key, String marking) {
        Optional<RoomSeat> again = startedAgain(key, marking, nowMicros);
        if (again.isPresent()) {
            moveTo(key, again.get());
        } else {
            seat(key, marking);
        }
    }

    /**
     * The seat of that callsign, or of none, at this address, if nothing has come from it since before this one was first
     * heard, and for so long that it is gone. Of several, nobody could say whose it is.
     */
    private Optional<RoomSeat> startedAgain(AircraftKey key, String marking, long sinceMicros) {
        List<RoomSeat> gone = knownAs(key, marking).stream()
                .filter(each ->
                        each.key().sender().getAddress().equals(key.sender().getAddress())
                                && each.heardMicros() < sinceMicros
                                && nowMicros - each.heardMicros() >= GONE_S * 1e6)
                .toList();
        return gone.size() == 1 ? Optional.of(gone.get(0)) : Optional.empty();
    }

    /** A simulator that was started again quickly has a seat of its own until the one before is silent for long enough. */
    private void seatStartedAgain() {
        for (RoomSeat fresh : List.copyOf(known)) {
            Optional<RoomSeat> before = fresh.isUntouched() && fresh.ageS() < DataState.OLD_S
                    ? startedAgain(fresh.key(), fresh.marking(), fresh.sinceMicros())
                    : Optional.empty();
            if (before.isPresent()) {
                known.remove(fresh);
                moveTo(fresh.key(), before.get());
            }
        }
    }

    /** Where it flies now it was not flying before: what was flown there ends, and the same lesson begins anew. */
    private void moveTo(AircraftKey key, RoomSeat seat) {
        byKey.remove(seat.key());
        leftBehind.put(seat.key(), seat.marking());
        seat.startedAgain(key);
        byKey.put(key, seat);
        bySender.clear();
        if (seat.flight().isPresent()) {
            begin(seat, seat.pilot(), seat.lesson());
        }
    }

    private RoomSeat seat(AircraftKey key, String marking) {
        int number = ++numbersGiven;
        String name = knownAs(key, marking).isEmpty()
                ? setting.records().nameOf(key, marking, number)
                : RoomRecords.ownName(marking, number);
        // Two simulators may have one callsign.
        String label =
                known.stream().anyMatch(each -> each.label().equals(name)) ? name + " (seat " + number + ")" : name;
        RoomSeat seat = new RoomSeat(
                "s" + number, key, marking, label, setting.records().sat(key, marking), nowMicros);
        known.add(seat);
        byKey.put(key, seat);
        bySender.clear();
        setting.forAll().ifPresent(lesson -> begin(seat, seat.pilot(), lesson));
        return seat;
    }

    @Override
    public void state(AircraftKey key, AircraftState state) {
        first.spoke(key, nowMicros).ifPresent(marking -> seated(key, marking));
        RoomSeat seat = byKey.get(key);
        if (seat == null) {
            // Whoever took over its seat was another aircraft after all.
            String marking = leftBehind.remove(key);
            if (marking == null) {
                return;
            }
            seat = seat(key, marking);
        }
        boolean moved = seat.sample(state, nowMicros);
        Optional<RoomFlight> flown = seat.flight();
        if (moved && flown.isPresent() && flown.get().isNearStart(RoomSeat.position(state), RoomSeat.MOVED.startNm())) {
            begin(seat, seat.pilot(), seat.lesson());
        } else if (setting.forAll().isPresent() && flown.isEmpty() && !seat.preparing() && seat.restarts(moved)) {
            begin(seat, seat.pilot(), seat.lesson().isEmpty() ? setting.forAll().get() : seat.lesson());
        }
    }

    @Override
    public void goesOnFrom(AircraftKey key, int port) {
        first.goesOn(key);
        RoomSeat seat = byKey.get(key);
        if (seat != null) {
            seat.goesOnFrom(port);
            bySender.clear();
            undecided
                    .getOrDefault(new InetSocketAddress(key.sender().getAddress(), port), List.of())
                    .forEach(seat::take);
        }
    }

    @Override
    public void trouble(String text) {
        warn(text);
    }

    @Override
    public void advanceTo(long now) {
        ready.join();
        nowMicros = now;
        seats.advanceTo(now);
        unread.look(now, seats::senders).forEach(setting.warn());
        boolean look = now - lookedMicros >= 1_000_000;
        lookedMicros = look ? now : lookedMicros;
        for (RoomSeat seat : known) {
            Optional<RoomFlight> flown = seat.flight();
            flown.ifPresent(flight -> flight.advanceTo(now));
            if (look) {
                seat.look();
            }
            if (look
                    && flown.isPresent()
                    && flown.get().begun()
                    && seat.ageS() > (flown.get().over() ? IDLE_COMPLETE_S : IDLE_S)) {
                land(seat, false);
            }
        }
        if (look) {
            seatStartedAgain();
            undecided.keySet().removeIf(sender -> !seats.isOpen(sender));
            first.look(now).forEach(setting.warn());
            unreadNow = Stream.concat(unread.standing().stream(), first.standing().stream())
                    .toList();
            page.load(feed.behindS(), lost());
        }
    }

    /** Gives a seat a pilot, or nobody, and a lesson; what is flown there ends. May be called on any thread. */
    void assign(RoomSeat seat, Optional<Pilot> pilot, String lesson) {
        onFeedsThread(seat, () -> {
            if (known.contains(seat)) {
                begin(seat, pilot, lesson);
                return;
            }
            // Its simulator had a seat from before, where whoever sat there sits still.
            RoomSeat goesOn = byKey.get(seat.key());
            if (goesOn == null) {
                warn(seat.label() + ": that seat is not there any more, and nothing was begun at it: order it again");
            } else {
                begin(goesOn, pilot.or(goesOn::pilot), lesson);
            }
        });
    }

    /** Drills that begin where an aircraft is. May be asked on any thread. */
    DrillsFromHere drills() {
        return drills;
    }

    /** The instructor ends the attempt of a seat. May be called on any thread. */
    void end(RoomSeat seat) {
        onFeedsThread(seat, () -> {
            if (seat.flight().isPresent()) {
                land(seat, true);
            }
        });
    }

    /** On the feed's thread: what comes from here on belongs to the new attempt. */
    private void begin(RoomSeat seat, Optional<Pilot> pilot, String lesson) {
        if (seat.preparing()) {
            return;
        }
        drills.stop(seat); // asked for in what ends here, or of whoever sat there
        if (seat.flight().isPresent()) {
            land(seat, false);
        }
        seat.prepare(pilot, lesson);
        disk(() -> {
            try {
                setting.records().sits(seat.key(), seat.marking(), alone(seat) ? pilot : Optional.empty(), lesson);
                RoomFlight fresh = made(seat, pilot, lesson);
                if (!feed.execute(() -> seat.fly(fresh))) {
                    fresh.close();
                    setting.records().discard(fresh.folder());
                }
            } catch (IOException | LessonException e) {
                String why = String.valueOf(e.getMessage());
                warn(seat.label() + ": " + why);
                boolean told = feed.execute(() -> seat.failed(why));
                if (!told) {
                    seat.trouble(why);
                }
            }
        });
    }

    /** Of two that are known by the same, nobody could say later which was whose. */
    boolean alone(RoomSeat seat) {
        return knownAs(seat.key(), seat.marking()).size() == 1;
    }

    private List<RoomSeat> knownAs(AircraftKey key, String marking) {
        String who = RoomRecords.who(key, marking);
        return known.stream()
                .filter(each -> RoomRecords.who(each.key(), each.marking()).equals(who))
                .toList();
    }

    private RoomFlight made(RoomSeat seat, Optional<Pilot> pilot, String lessonId) throws IOException, LessonException {
        Lesson lesson = setting.lessons().read(lessonId);
        AttemptFolder folder = setting.records().begin(pilot, seat.label(), lesson.title());
        boolean alone = known.stream()
                        .filter(each -> each.key().sender().equals(seat.key().sender()))
                        .count()
                < 2;
        Following following = alone || seat.key().aircraft().isEmpty()
                ? Following.FIRST
                : new Following(List.of(seat.key().aircraft()), false);
        try {
            FeedSetup setup = new FeedSetup(following, setting.formatNames());
            return RoomFlight.begin(new RoomFlight.Plan(this, seat, folder, lesson, setup));
        } catch (IOException | RuntimeException e) {
            setting.records().discard(folder);
            throw e;
        }
    }

    /** On the feed's thread. */
    private void land(RoomSeat seat, boolean instructor) {
        drills.stop(seat);
        RoomFlight flown = seat.flight().orElseThrow();
        double atS = flown.elapsedS();
        flown.finish();
        seat.land(instructor);
        disk(() -> close(flown, instructor ? Optional.of(atS) : Optional.empty()));
    }

    /** What was recorded is graded and entered; what was not is taken out again. */
    private void close(RoomFlight flown, Optional<Double> endedAtS) {
        try {
            flown.close();
            if (!flown.folder().isRecorded()) {
                setting.records().discard(flown.folder());
                return;
            }
            if (endedAtS.isPresent()) {
                new InstructorFile(flown.folder().place())
                        .keep(new InstructorFile.Remark(
                                endedAtS.get(),
                                "",
                                "The instructor ended the attempt here: what was not due by then is not judged."));
            }
            setting.records().end(flown.folder());
        } catch (IOException e) {
            warn(String.valueOf(e.getMessage()));
        }
    }

    private void disk(Runnable work) {
        try {
            disk.execute(work);
        } catch (RejectedExecutionException e) {
            warn("the room is closed: what was asked for last was not done");
        }
    }

    /** Ends every attempt, in order: last events, recordings, grades. */
    @Override
    public void close() {
        drills.close();
        looking.cancel(false);
        roster.shutdown();
        CountDownLatch done = new CountDownLatch(1);
        Runnable last = () -> {
            known.forEach(seat -> seat.flight().ifPresent(flown -> land(seat, false)));
            done.countDown();
        };
        if (!feed.execute(last)) {
            last.run();
        }
        try {
            if (!done.await(CLOSE_S, TimeUnit.SECONDS)) {
                warn("the feed's thread did not answer: attempts are graded when the room is next opened");
            }
            disk.shutdown();
            if (!disk.awaitTermination(CLOSE_S, TimeUnit.SECONDS)) {
                warn("the disk did not answer: attempts are graded when the room is next opened");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        feed.close();
    }
}
