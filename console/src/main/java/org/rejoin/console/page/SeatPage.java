package org.rejoin.console.page;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.draw.Projection;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.log.EventText;
import org.rejoin.console.recording.InstructorFile.ReadBack;
import org.rejoin.console.recording.InstructorFile.Remark;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.PilotVoice;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * One seat, watched for the page. Called on the flight's thread, which it never holds up: pieces of the picture go into
 * bounded queues that the page's thread empties, and what finds no room is counted.
 */
public final class SeatPage implements LessonFlights.Watcher {

    /** Refreshes; about a second. */
    private static final int GRADED_EVERY = 20;

    /** To hear, turn and be on a heading, seconds (common practice, no source). */
    private static final double REACTION_S = 45;

    private static final int ROOM = 20_000;

    /** A sender silent for longer is shown going on by its dead reckoning, nanoseconds. */
    private static final long SILENT_NS = 200_000_000;

    /** Data older than this is greyed, nanoseconds. */
    private static final long OLD_NS = 3_000_000_000L;

    /** So long a jump is told of, nanoseconds. */
    private static final long JUMP_SHOWN_NS = 10_000_000_000L;

    private final String id;
    private final String label;
    private final Optional<String> callsign;
    private final RoutePicture picture;
    private final Limits limits;
    private final Supplier<Grade> grade;
    private final BlockingQueue<Message> messages = new ArrayBlockingQueue<>(ROOM);
    private final BlockingQueue<Row> rows = new ArrayBlockingQueue<>(ROOM);
    private final AtomicReference<@Nullable Row> latest = new AtomicReference<>();
    private final AtomicLong lost = new AtomicLong();
    private @Nullable AmendedRoute route;
    private Assigned assigned = Assigned.NOTHING;
    private final Map<Integer, Heard> heard = new ConcurrentHashMap<>();
    private final Map<Integer, Integer> again = new ConcurrentHashMap<>();
    private final List<Entry.Issued> issued = new CopyOnWriteArrayList<>();
    private final Deque<Remark> earlier = new ArrayDeque<>();
    private double clearedS = Double.NEGATIVE_INFINITY;
    /** Further clearance is expected then, flown seconds. */
    private double furtherS = Double.NaN;

    private boolean apart = true;
    private @Nullable Row before;
    private @Nullable Point last;
    private volatile PilotVoice voice = PilotVoice.STRANGER;
    private volatile boolean stale;
    private volatile boolean reckoned;
    private volatile long sampledNs;
    private volatile long heardNs;
    private volatile boolean paused;
    private volatile boolean over;
    private volatile long jumpedNs = Long.MIN_VALUE;
    private final Excursions excursions;
    private volatile Tile tile = Tile.EMPTY;
    private final Deque<Entry.Issued> inForce = new ArrayDeque<>();
    private boolean undoing;
    private final List<String> disregards = new CopyOnWriteArrayList<>();
    private double takenBackS = Double.NaN;
    /** Told to the instructor element by element: the event that follows would say it twice. */
    private int readbacksTold;

    private int refreshed;
    private int events;
    private int graded;
    private String saidNext = "";
    private String saidGrade = "";

    SeatPage(
            String id,
            String label,
            Optional<String> callsign,
            RoutePicture picture,
            Limits limits,
            Supplier<Grade> grade) {
        this.id = id;
        this.label = label;
        this.callsign = callsign;
        this.picture = picture;
        this.limits = limits;
        this.grade = grade;
        this.excursions = new Excursions(limits);
    }

    /** How the data of a seat stands. */
    enum DataState {
        /** Nothing was heard yet. */
        WAITING,
        /** Samples come, the aircraft moves. */
        FLYING,
        /** Samples come, the simulation stands. */
        PAUSED,
        /** The aircraft was put elsewhere a moment ago. */
        JUMPED,
        /** Nothing comes. */
        SILENT,
        /** The flight is over. */
        ENDED
    }

    /**
     * A seat at one look.
     *
     * @param timeS of the flight, seconds
     * @param altitudeFt MSL; empty where unsent
     * @param headingMagneticDeg empty where unsent
     * @param groundSpeedKt over ground
     * @param off which limits it is off now, since when
     * @param next what must happen next
     * @param phase of the amendment
     * @param score so far; empty while nothing was graded
     * @param faults so far
     */
    public record Tile(
            double timeS,
            OptionalDouble altitudeFt,
            OptionalDouble headingMagneticDeg,
            double groundSpeedKt,
            List<LimitOff> off,
            String next,
            String phase,
            OptionalDouble score,
            int faults) {
        static final Tile EMPTY = new Tile(
                0, OptionalDouble.empty(), OptionalDouble.empty(), 0, List.of(), "", "", OptionalDouble.empty(), 0);

        /** Copies the list. */
        public Tile {
            off = List.copyOf(off);
        }

        Tile said(String what, String where) {
            return new Tile(timeS, altitudeFt, headingMagneticDeg, groundSpeedKt, off, what, where, score, faults);
        }

        Tile graded(OptionalDouble soFar, int found) {
            return new Tile(timeS, altitudeFt, headingMagneticDeg, groundSpeedKt, off, next, phase, soFar, found);
        }
    }

    /**
     * The seat at one look.
     *
     * @return as it was at the last sample; may be asked from any thread
     */
    public Tile tile() {
        return tile;
    }

    @Override
    public void heard(AircraftState state) {
        heardNs = System.nanoTime();
        paused = state.paused();
    }

    /** How its data stands; may be asked from any thread. */
    DataState dataState() {
        long now = System.nanoTime();
        if (over) {
            return DataState.ENDED;
        }
        if (heardNs == 0) {
            return DataState.WAITING;
        }
        if (now - heardNs > OLD_NS) {
            return DataState.SILENT;
        }
        if (paused) {
            return DataState.PAUSED;
        }
        return jumpedNs != Long.MIN_VALUE && now - jumpedNs < JUMP_SHOWN_NS ? DataState.JUMPED : DataState.FLYING;
    }

    /** Age and state of its data, as told to every page; may be asked from any thread. */
    String ageLine() {
        double ageS = heardNs == 0 ? 0 : (System.nanoTime() - heardNs) * 1e-9;
        return JsonText.object("age", json -> {
            json.writeStringField("seat", id);
            json.writeNumberField("age_s", Math.round(ageS * 10) / 10.0);
            json.writeStringField("state", dataState().name());
        });
    }

    /** The clearance before the one in force; on the flight's thread. */
    Optional<Entry.Issued> before() {
        return inForce.stream().skip(1).findFirst();
    }

    /** The clearance in force; on the flight's thread. */
    Optional<Entry.Issued> current() {
        return Optional.ofNullable(inForce.peek());
    }

    /**
     * A clearance of this flight; may be asked from any thread.
     *
     * @param number 1 for the first issued
     */
    Optional<Entry.Issued> issued(int number) {
        List<Entry.Issued> all = issued;
        return number >= 1 && number <= all.size() ? Optional.of(all.get(number - 1)) : Optional.empty();
    }

    /** The number of a clearance that was issued; 0 where it was not. */
    int numberOf(Entry.Issued clearance) {
        return issued.lastIndexOf(clearance) + 1;
    }

    /**
     * What the recogniser heard of a readback, and what each element is worth so far.
     *
     * @param words as heard
     * @param elements against the clearance; unclear where it was not sure
     * @param wav its sound, where the user asked that it be kept
     */
    record Heard(String words, List<Readback.Element> elements, Optional<byte[]> wav) {
        Heard {
            elements = List.copyOf(elements);
        }
    }

    /** What was heard last for a clearance; may be asked from any thread. */
    Optional<Heard> heard(int number) {
        return Optional.ofNullable(heard.get(number));
    }

    /** Takes what was heard for a clearance; nothing counts yet. May be called on any thread. */
    void heard(int number, Heard now) {
        heard.put(number, now);
    }

    /** What was learnt of the pilot's voice. */
    PilotVoice voice() {
        return voice;
    }

    void voice(PilotVoice learnt) {
        voice = learnt;
    }

    /** Counts that a clearance was asked for again; how often it was by now. On the flight's thread. */
    int again(int number) {
        return again.merge(number, 1, Integer::sum);
    }

    /** What ATC calls the aircraft; empty where its simulator sends no callsign. */
    Optional<String> callsign() {
        return callsign;
    }

    /**
     * What only keeps the route is taken back, and the clearance before is in force once more. On the flight's thread.
     *
     * @param words that say so
     * @param timeS of the flight
     * @param issues brings it into force
     * @throws ClearanceException if it cannot
     */
    void undo(Clearance words, double timeS, Issuing issues) throws ClearanceException {
        undoing = true;
        try {
            issues.issue();
            disregard(timeS, words);
        } finally {
            undoing = false;
        }
    }

    /** Brings a clearance into force. */
    interface Issuing {
        void issue() throws ClearanceException;
    }

    /** What orders and messages name the seat by. */
    String id() {
        return id;
    }

    /** What people call it. */
    String label() {
        return label;
    }

    Optional<AmendedRoute> route() {
        return Optional.ofNullable(route);
    }

    @Override
    public void point(Point point) {
        last = point;
        while (!earlier.isEmpty() && earlier.getFirst().elapsedS() <= point.timeS()) {
            Remark made = earlier.removeFirst();
            remark(made.elapsedS(), made.text());
        }
        apart |= point.newPiece();
        Row row = row(point);
        // A row a quarter of a second is all that a page keeps; nobody sees more.
        if (before == null || !row.follows(before) || row.timeS() - before.timeS() >= 0.25) {
            before = row;
            apart = false;
            if (!rows.offer(row)) {
                lost.incrementAndGet();
            }
        }
        latest.set(row);
        tile = new Tile(
                point.timeS(),
                point.state().altitudeMslFt(),
                Point.given(point.headingMagneticDeg()),
                point.groundSpeedKt(),
                excursions.of(point),
                tile.next(),
                tile.phase(),
                tile.score(),
                tile.faults());
        sampledNs = System.nanoTime();
        reckoned = point.state().reckoning().isPresent();
        stale = true;
    }

    /** Whether the sender is silent, as it may be while its motion is predictable; may be asked from any thread. */
    boolean silent() {
        return reckoned && System.nanoTime() - sampledNs > SILENT_NS;
    }

    /** Shows the aircraft going on; asked for by the page, on the flight's thread. */
    void goOn() {
        goOn((System.nanoTime() - sampledNs) * 1e-9);
    }

    void goOn(double seconds) {
        Point point = last;
        Optional<Point> now = point == null ? Optional.empty() : DeadReckoned.of(point, seconds);
        reckoned = now.isPresent();
        now.ifPresent(onward -> {
            latest.set(row(onward));
            sayNext(onward);
        });
    }

    /** Whether a sample came that words and grade do not tell of yet; may be asked from any thread. */
    boolean stale() {
        return stale;
    }

    /** Says what is next, and now and then the grade; asked for by the page, on the flight's thread. */
    void refresh() {
        Point point = last;
        if (point == null) {
            return;
        }
        stale = false;
        sayNext(point);
        // At an event at once; else the last grade of a burst would never be told.
        if (events != graded || refreshed++ % GRADED_EVERY == 0) {
            graded = events;
            sayGrade();
        }
    }

    private Row row(Point point) {
        Projection.Point at = picture.of(point.position());
        return new Row(
                point.timeS(),
                picture.eastNm(at),
                picture.southNm(at),
                point.trackTrueDeg(),
                point.groundSpeedKt(),
                point.state().altitudeMslFt(),
                Point.given(point.headingMagneticDeg()),
                Point.given(point.headingErrorDeg()),
                Point.given(point.altitudeErrorFt()),
                apart,
                new Row.Line(
                        issued.size(),
                        point.legIndex(),
                        Point.given(point.crossTrackNm()),
                        Point.given(point.toGoNm()),
                        limits.courseScale() * (point.hasLine() ? point.fullScaleNm() : 0)));
    }

    private void sayNext(Point point) {
        boolean turningToHeading = point.timeS() - clearedS < REACTION_S;
        NextAction next = NextAction.of(route(), point, turningToHeading, assigned);
        if (point.phase() == Point.Phase.HOLDING) {
            next = next.holdingUntil(furtherS - point.flownS());
        }
        say(next, point);
    }

    private void say(NextAction next, Point point) {
        tile = tile.said(next.text(), point.phase().words());
        String json = JsonText.object("next", out -> {
            out.writeStringField("seat", id);
            out.writeStringField("text", next.text());
            out.writeBooleanField("now", next.inNm() == 0);
            out.writeStringField("phase", point.phase().words());
        });
        if (!json.equals(saidNext)) {
            saidNext = json;
            offer(Message.latest(Topic.NEXT, "next", json));
        }
    }

    private void sayGrade() {
        Grade soFar = grade.get();
        tile = tile.graded(
                soFar.criteria().isEmpty() ? OptionalDouble.empty() : soFar.score(),
                soFar.faults().size());
        String json = JsonText.object("grade", out -> {
            out.writeStringField("seat", id);
            out.writeFieldName("grade");
            GradeJson.write(soFar, out);
        });
        if (!json.equals(saidGrade)) {
            saidGrade = json;
            offer(Message.latest(Topic.GRADE, "grade", json));
        }
    }

    @Override
    public void withdrawn(Entry.Withdrawn withdrawn) {
        stale = true;
        takenBackS = withdrawn.timeS();
        disregard(withdrawn.timeS(), withdrawn.clearance());
        asFiled(withdrawn.assigned());
    }

    /** The controller says so; the clearance that is in force again by it is not called once more. */
    private void disregard(double timeS, Clearance words) {
        String spoken = Aloud.of(words, callsign, picture.chart());
        disregards.add(spoken);
        int number = disregards.size();
        offer(Message.latest(Topic.OPEN, "disregard", JsonText.object("disregard", json -> {
            json.writeStringField("seat", id);
            json.writeNumberField("number", number);
            json.writeNumberField("t", JsonNumbers.rounded(timeS, 2));
            json.writeStringField("spoken", spoken);
        })));
    }

    /**
     * What the controller says when he takes a clearance back; may be asked from any thread.
     *
     * @param number 1 for the first time
     */
    Optional<String> disregarded(int number) {
        return number >= 1 && number <= disregards.size() ? Optional.of(disregards.get(number - 1)) : Optional.empty();
    }

    /** What came into force by the words of a disregard is no new clearance. */
    private boolean isGivenBack(Entry.Issued fresh) {
        return undoing
                || (fresh.timeS() == takenBackS
                        && issued.stream().anyMatch(each -> each.clearance().equals(fresh.clearance())));
    }

    /** No amended route any more. */
    private void asFiled(Assigned now) {
        route = null;
        assigned = now;
        inForce.clear();
        offer(Message.latest(
                Topic.OPEN, "cleared", JsonText.object("cleared", json -> json.writeStringField("seat", id))));
        offer(Message.latest(
                Topic.ROUTE, "amended", JsonText.object("amended", json -> json.writeStringField("seat", id))));
    }

    private static Topic topic(FlightEvent event) {
        if (event instanceof FlightEvent.ClearanceIssued) {
            return Topic.WORDS;
        }
        return event instanceof FlightEvent.ReadBack ? Topic.GRADE : Topic.OPEN;
    }

    @Override
    public void happened(Entry.Happened happened) {
        FlightEvent event = happened.event();
        if (event instanceof FlightEvent.ReadBack && readbacksTold > 0) {
            readbacksTold--;
            return;
        }
        events++;
        stale = true;
        String[] line = EventText.line(event, route()).split(" {2}", 2);
        offer(Message.kept(topic(event), JsonText.object("event", json -> {
            json.writeStringField("seat", id);
            json.writeNumberField("t", JsonNumbers.rounded(event.timeS(), 2));
            json.writeStringField("name", event.name());
            json.writeStringField("clock", line[0]);
            json.writeStringField("text", CleanText.of(line[1]));
        })));
        if (event instanceof FlightEvent.Repositioned) {
            jumpedNs = System.nanoTime();
            // A second try has no memory of the first.
            asFiled(Assigned.NOTHING);
        }
        if (event instanceof FlightEvent.FlightEnded) {
            over = true;
            reckoned = false;
            Point point = last;
            if (point != null) {
                sayNext(point);
            }
            over();
        }
    }

    /** The last grade; the grader hears of the last event before or after this watcher. */
    private void over() {
        sayGrade();
        offer(Message.latest(Topic.OPEN, "over", JsonText.object("over", json -> json.writeStringField("seat", id))));
    }

    @Override
    public void issued(Entry.Issued fresh) {
        AmendedRoute now = fresh.route();
        boolean givenBack = isGivenBack(fresh);
        route = now;
        assigned = fresh.assigned();
        if (undoing) {
            inForce.pollFirst();
            inForce.pollFirst();
        }
        inForce.push(fresh);
        issued.add(fresh);
        clearedS = fresh.timeS();
        OptionalDouble ahead = fresh.route().furtherClearanceS();
        furtherS = ahead.isPresent()
                ? fresh.flownS() + ahead.getAsDouble()
                : fresh.clearance().routeStays() ? furtherS : Double.NaN;
        stale = true;
        offer(Message.latest(Topic.ROUTE, "amended", JsonText.object("amended", json -> {
            json.writeStringField("seat", id);
            json.writeNumberField("clearance", issued.size());
            picture.writeRoute(json, now);
        })));
        // The pilot is called whatever he is shown; the words are what a voice of his browser speaks.
        offer(Message.latest(Topic.OPEN, "cleared", JsonText.object("cleared", json -> {
            json.writeStringField("seat", id);
            json.writeNumberField("clearance", issued.size());
            json.writeNumberField("t", JsonNumbers.rounded(fresh.timeS(), 2));
            json.writeStringField("spoken", Aloud.of(now.clearance(), callsign, picture.chart()));
            json.writeBooleanField("given_back", givenBack);
        })));
    }

    @Override
    public void notIssued(Entry.NotIssued notIssued) {
        note(Words.clock(notIssued.timeS()) + "  a clearance could not be issued: " + notIssued.why());
    }

    @Override
    public void note(String text) {
        note(Topic.OPEN, text);
    }

    /** Of no use to a student. May be called on any thread. */
    void noteToInstructor(String text) {
        note(Topic.INSTRUCTOR, text);
    }

    private void note(Topic topic, String text) {
        offer(Message.kept(topic, JsonText.object("note", json -> {
            json.writeStringField("seat", id);
            json.writeStringField("text", CleanText.of(text));
        })));
    }

    /** How a clearance was read back, before the record tells it. On the flight's thread. */
    void readBack(ReadBack readback) {
        readbacksTold++;
        String text = readback.elements().stream()
                .map(each -> switch (each.verdict()) {
                    case "right" -> "\u2713 " + each.what();
                    case "missing" -> "missing: " + each.what() + " " + each.cleared();
                    case "unclear" -> "unclear: " + each.what() + " " + each.cleared();
                    default -> "wrong: " + each.what() + " " + each.cleared();
                })
                .collect(Collectors.joining(", "));
        offer(Message.kept(Topic.INSTRUCTOR, JsonText.object("remark", json -> {
            json.writeStringField("seat", id);
            json.writeNumberField("t", JsonNumbers.rounded(readback.elapsedS(), 2));
            json.writeStringField("clock", Words.clock(readback.elapsedS()));
            json.writeStringField("kind", "readback");
            json.writeStringField("text", CleanText.of(text));
        })));
        int number = readback.talk().number();
        offer(Message.latest(Topic.INSTRUCTOR, "readback " + number, JsonText.object("readback", json -> {
            json.writeStringField("seat", id);
            ReadBackJson.write(readback, json);
        })));
    }

    /**
     * Remarks that were made before the program was started again; each is shown when the flight has come to its time.
     *
     * @param made in the order made
     */
    public void remarked(List<Remark> made) {
        earlier.addAll(made);
    }

    void remark(double timeS, String text) {
        offer(Message.kept(Topic.INSTRUCTOR, JsonText.object("remark", json -> {
            json.writeStringField("seat", id);
            json.writeNumberField("t", JsonNumbers.rounded(timeS, 2));
            json.writeStringField("clock", Words.clock(timeS));
            json.writeStringField("text", CleanText.of(text));
        })));
    }

    private void offer(Message message) {
        if (!messages.offer(message)) {
            lost.incrementAndGet();
        }
    }

    /** Takes what there is for the page; called on the page's thread. */
    Taken take() {
        List<Message> said = new ArrayList<>();
        messages.drainTo(said);
        List<Row> track = new ArrayList<>();
        rows.drainTo(track);
        return new Taken(said, track, Optional.ofNullable(latest.getAndSet(null)));
    }

    /** Pieces that found no room. */
    long lost() {
        return lost.get();
    }

    /**
     * What one seat has for the page.
     *
     * @param messages in order
     * @param rows for the track, in order
     * @param latest sample; empty where none came since
     */
    record Taken(List<Message> messages, List<Row> rows, Optional<Row> latest) {}
}
