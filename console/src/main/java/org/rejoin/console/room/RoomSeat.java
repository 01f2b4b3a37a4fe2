package org.rejoin.console.room;

import java.net.InetSocketAddress;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.drill.DrillFromHere;
import org.rejoin.console.drill.LatelyFlown;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;

import org.jspecify.annotations.Nullable;

/** One aircraft of the room: who sits there, what is flown, how its data stands. Written on the feed's thread alone. */
final class RoomSeat {

    /** Silent for longer, it was closed and started again, seconds (common practice, no source). */
    private static final double GONE_S = 15;

    /**
     * While a recording is being begun so much waits for it: ten seconds of a fast feed, and all that a port may hand over at
     * once as soon as it is known whose it is.
     */
    private static final int MOST_WAITING = 2_000 + Room.MOST_UNDECIDED;

    /** As a flight itself tells a move from a flight. */
    static final Rule.Moved MOVED = Rules.of(Limits.INSTRUMENT_RATING).of(Rule.Moved.class);

    private final String id;
    private final long sinceMicros;
    private volatile AircraftKey key;
    private final String marking;
    private volatile String label;
    private volatile Optional<Pilot> pilot;
    private volatile String lesson;
    private volatile @Nullable RoomFlight flight;
    private volatile @Nullable AircraftState last;
    private volatile long heardNs = System.nanoTime();
    private volatile long heardMicros;
    private volatile boolean named;
    private volatile long jumpedNs = Long.MIN_VALUE;
    private volatile String attempt = "";
    private volatile boolean over;
    private volatile boolean byInstructor;
    private volatile String trouble = "";
    private volatile String fromHere = "";
    private volatile @Nullable Lesson lastLesson;
    private volatile double completeAtS = Double.NaN;
    private final LatelyFlown lately = new LatelyFlown();
    private @Nullable List<Datagram> waiting;
    /** Another than the one it was first heard from; 0 while there was none. */
    private int port;

    private boolean gone;

    /** A seat where somebody sat when the room was last open, or nobody that is known. */
    RoomSeat(
            String id, AircraftKey key, String marking, String label, Optional<RoomRecords.Sat> sat, long sinceMicros) {
        this.sinceMicros = sinceMicros;
        this.heardMicros = sinceMicros; // it was heard, though no state came yet
        this.pilot = sat.map(RoomRecords.Sat::pilot);
        this.lesson = sat.map(RoomRecords.Sat::lesson).orElse("");
        this.marking = marking;
        this.id = id;
        this.key = key;
        this.label = label;
    }

    String id() {
        return id;
    }

    AircraftKey key() {
        return key;
    }

    /** Callsign as sent; empty text where unsent. */
    String marking() {
        return marking;
    }

    String label() {
        return label;
    }

    void label(String name) {
        label = name;
        named = true;
    }

    Optional<Pilot> pilot() {
        return pilot;
    }

    String lesson() {
        return lesson;
    }

    Optional<RoomFlight> flight() {
        return Optional.ofNullable(flight);
    }

    Optional<AircraftState> last() {
        return Optional.ofNullable(last);
    }

    /** Seconds since its last sample. */
    double ageS() {
        return (System.nanoTime() - heardNs) * 1e-9;
    }

    long heardMicros() {
        return heardMicros;
    }

    /** When it was first heard. */
    long sinceMicros() {
        return sinceMicros;
    }

    /** Whether nobody sits here, nothing was asked for and nobody gave it a name: nothing is lost with it. */
    boolean isUntouched() {
        return pilot.isEmpty() && lesson.isEmpty() && attempt.isEmpty() && fromHere.isEmpty() && !named && !preparing();
    }

    boolean jumped(double withinS) {
        return jumpedNs != Long.MIN_VALUE && (System.nanoTime() - jumpedNs) * 1e-9 < withinS;
    }

    /** Identifier of the attempt that is flown or was flown last; empty before the first. */
    String attempt() {
        return attempt;
    }

    boolean over() {
        return over;
    }

    boolean byInstructor() {
        return byInstructor;
    }

    /** What a drill that is to begin here waits for; empty text where none is asked for. */
    String fromHere() {
        return fromHere;
    }

    void fromHere(String words) {
        fromHere = words;
    }

    /** The lesson that is flown or was flown last. */
    Optional<Lesson> lastLesson() {
        return Optional.ofNullable(lastLesson);
    }

    /** How it flies, in the air of its lesson; empty until it was watched for a few seconds. */
    Optional<DrillFromHere.Aircraft> aircraft(Wind wind) {
        synchronized (lately) {
            return lately.aircraft(wind);
        }
    }

    /** Looks on the feed's thread how long the lesson has been complete. */
    void look() {
        RoomFlight flown = flight;
        if (flown != null) {
            flown.look();
        }
        if (flown == null || !flown.complete()) {
            completeAtS = Double.NaN;
        } else if (Double.isNaN(completeAtS)) {
            completeAtS = flown.elapsedS();
        }
    }

    /** Seconds of the flight since every clearance of the lesson was complete; 0 where it is not. */
    double completeForS() {
        RoomFlight flown = flight;
        double since = completeAtS;
        return flown == null || Double.isNaN(since) ? 0 : flown.elapsedS() - since;
    }

    /** What went wrong at this seat; empty text if nothing did. */
    String trouble() {
        return trouble;
    }

    void trouble(String why) {
        trouble = why;
    }

    /** A recording is being begun: what comes meanwhile waits for it. */
    void prepare(Optional<Pilot> who, String what) {
        pilot = who;
        lesson = what;
        waiting = new ArrayList<>();
        trouble = "";
    }

    boolean preparing() {
        return waiting != null;
    }

    /** Whether no clearance is in force here. */
    boolean isFree() {
        return !preparing() && flight().filter(flown -> !flown.complete()).isEmpty();
    }

    /** The recording could not be begun. */
    void failed(String why) {
        waiting = null;
        trouble = why;
    }

    /** The recording is begun: takes what has waited. */
    void fly(RoomFlight fresh) {
        List<Datagram> held = waiting;
        waiting = null;
        flight = fresh;
        lastLesson = fresh.lesson();
        completeAtS = Double.NaN;
        attempt = fresh.folder().place().getFileName().toString();
        over = false;
        byInstructor = false;
        if (held != null) {
            held.forEach(fresh::accept);
        }
    }

    /** Whoever sits there is called so now; another who was given the seat meanwhile stays as he is. */
    void called(Pilot now) {
        pilot = pilot.map(each -> each.id().equals(now.id()) ? now : each);
    }

    /** Whoever sits there is forgotten, and what he flew with him. */
    void forget() {
        pilot = Optional.empty();
        if (flight == null) {
            attempt = "";
            over = false;
            trouble = "";
        }
    }

    void land(boolean instructorSaidSo) {
        flight = null;
        over = true;
        byInstructor = instructorSaidSo;
    }

    void take(Datagram datagram) {
        RoomFlight flown = flight;
        List<Datagram> held = waiting;
        if (held != null) {
            if (held.size() < MOST_WAITING) {
                held.add(datagram);
            }
        } else if (flown != null) {
            flown.accept(datagram);
        }
    }

    /** A sample, before its datagram is recorded; whether the aircraft was put elsewhere. */
    boolean sample(AircraftState state, long micros) {
        AircraftState before = last;
        gone = ageS() > GONE_S;
        last = state;
        heardNs = System.nanoTime();
        heardMicros = micros;
        if (before == null) {
            watched(state, false);
            return false;
        }
        double seconds = Math.max(MOVED.baseS(), state.timeS() - before.timeS());
        double knots = Math.max(
                before.groundSpeedKt().orElse(MOVED.assumedKt()),
                state.groundSpeedKt().orElse(MOVED.assumedKt()));
        double possible = (MOVED.times() * knots + MOVED.plusKt()) * seconds / 3_600;
        boolean moved = position(before).distanceNm(position(state)) > possible;
        if (moved) {
            jumpedNs = System.nanoTime();
        }
        watched(state, moved);
        return moved;
    }

    private void watched(AircraftState state, boolean moved) {
        synchronized (lately) {
            lately.heard(state, moved, LocalDate.now(ZoneOffset.UTC));
        }
    }

    /** Another port of its address goes on with it. */
    void goesOnFrom(int newPort) {
        port = newPort;
    }

    /** The simulator of that name was started again elsewhere: it is the same seat, and another flight. */
    void startedAgain(AircraftKey fresh) {
        key = fresh;
        port = 0;
    }

    boolean speaksFrom(InetSocketAddress sender) {
        return key.sender().getAddress().equals(sender.getAddress()) && port == sender.getPort();
    }

    /** Whether an aircraft without an attempt begins the next by itself: put back, or there again after it was gone. */
    boolean restarts(boolean moved) {
        return over && (moved || (gone && !byInstructor));
    }

    static Position position(AircraftState state) {
        return new Position(state.latitudeDeg(), state.longitudeDeg());
    }
}
