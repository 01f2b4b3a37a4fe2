package org.rejoin.console.page;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.recording.InstructorFile.Remark;
import org.rejoin.console.recording.ReadBack;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.PilotVoice;
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

    private final String id;
    private final String label;
    private final Optional<String> callsign;
    private final RoutePicture picture;
    private final Supplier<Grade> grade;
    private final SeatMessages messages;
    private final SeatClearances clearances = new SeatClearances();
    private final SeatData data = new SeatData();
    private final SeatTrack track;
    private @Nullable AmendedRoute route;
    private Assigned assigned = Assigned.NOTHING;
    private final Deque<Remark> earlier = new ArrayDeque<>();
    private double clearedS = Double.NEGATIVE_INFINITY;
    /** Further clearance is expected then, flown seconds. */
    private double furtherS = Double.NaN;

    private @Nullable Point last;
    private volatile PilotVoice voice = PilotVoice.STRANGER;
    private volatile boolean stale;
    private final Excursions excursions;
    private volatile Tile tile = Tile.EMPTY;
    /** Told to the instructor element by element: the event that follows would say it twice. */
    private int readbacksTold;

    private int refreshed;
    private int events;
    private int graded;

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
        this.grade = grade;
        this.messages = new SeatMessages(id);
        this.track = new SeatTrack(picture, limits);
        this.excursions = new Excursions(limits);
    }

    /** {@return the seat at one look; as it was at the last sample; may be asked from any thread} */
    public Tile tile() {
        return tile;
    }

    @Override
    public void heard(AircraftState state) {
        data.heard(state);
    }

    /** What was learnt of the pilot's voice. */
    PilotVoice voice() {
        return voice;
    }

    void voice(PilotVoice learnt) {
        voice = learnt;
    }

    /** What ATC calls the aircraft; empty where its simulator sends no callsign. */
    Optional<String> callsign() {
        return callsign;
    }

    SeatClearances clearances() {
        return clearances;
    }

    /** How old its data is, and how it stands; may be asked from any thread. */
    SeatData data() {
        return data;
    }

    /** Age and state of its data, as told to every page; may be asked from any thread. */
    String ageLine() {
        return SeatMessages.age(id, data.ageS(), data.state());
    }

    /** What orders and messages name the seat by. */
    String id() {
        return id;
    }

    /** What people call it. */
    String label() {
        return label;
    }

    /** By the compass at the last sample; empty where the simulator sends none. On the flight's thread. */
    Optional<MagneticDirection> heading() {
        Point point = last;
        return point == null
                ? Optional.empty()
                : Point.given(point.headingMagneticDeg()).stream()
                        .mapToObj(MagneticDirection::new)
                        .findFirst();
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
        track.add(point, clearances);
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
        data.sampled(point.state());
        stale = true;
    }

    /** Shows the aircraft going on; asked for by the page, on the flight's thread. */
    void goOn() {
        goOn(data.sinceSampledS());
    }

    void goOn(double seconds) {
        Point point = last;
        Optional<Point> now = point == null ? Optional.empty() : DeadReckoned.of(point, seconds);
        now.ifPresentOrElse(
                onward -> {
                    track.show(onward, clearances);
                    sayNext(onward);
                },
                data::lost);
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

    private void sayNext(Point point) {
        boolean turningToHeading = point.timeS() - clearedS < REACTION_S;
        NextAction next = NextAction.of(route(), picture.chart(), point, turningToHeading, assigned);
        if (point.phase() == Point.Phase.HOLDING) {
            next = next.holdingUntil(furtherS - point.flownS());
        }
        tile = tile.said(next.text(), point.phase().words());
        messages.next(next, point.phase());
    }

    private void sayGrade() {
        Grade soFar = grade.get();
        tile = tile.graded(
                soFar.criteria().isEmpty() ? OptionalDouble.empty() : soFar.score(),
                soFar.faults().size());
        messages.grade(soFar);
    }

    @Override
    public void withdrawn(Entry.Withdrawn withdrawn) {
        stale = true;
        disregard(
                withdrawn.timeS(),
                withdrawn.clearance(),
                withdrawn.givesBack()
                        ? ", as cleared before"
                        : withdrawn.clearance().first(Instruction.Onward.class).isPresent()
                                ? ""
                                : ", continue as filed");
        asFiled(withdrawn.assigned());
    }

    /** The controller says so; the clearance that is in force again by it is not called once more. */
    private void disregard(double timeS, Clearance words, String then) {
        String spoken = Aloud.of(words, callsign, picture.chart()) + then;
        messages.disregard(clearances.disregard(spoken), timeS, spoken);
    }

    @Override
    public void restored(Entry.Restored restored) {
        stale = true;
        route = restored.route();
        assigned = restored.assigned();
        disregard(restored.timeS(), restored.clearance(), ", as cleared before");
        clearances.beside();
        clearances.current().ifPresent(stands -> {
            int number = clearances.numberOf(stands);
            messages.amended(number, stands.route(), picture);
            messages.cleared(number, stands, Aloud.of(stands.clearance(), callsign, picture.chart()), true);
        });
    }

    @Override
    public void changedOver(Entry.ChangedOver changedOver) {
        stale = true;
        assigned = changedOver.assigned();
    }

    /** No amended route any more. */
    private void asFiled(Assigned now) {
        route = null;
        excursions.rerouted();
        assigned = now;
        clearances.none();
        messages.asFiled();
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
        messages.event(event, route());
        if (event instanceof FlightEvent.Repositioned) {
            data.jumped();
            // A second try has no memory of the first.
            asFiled(Assigned.NOTHING);
        }
        if (event instanceof FlightEvent.FlightEnded) {
            data.over();
            Point point = last;
            if (point != null) {
                sayNext(point);
            }
            // The last grade; the grader hears of the last event before or after this watcher.
            sayGrade();
            messages.over();
        }
    }

    @Override
    public void issued(Entry.Issued fresh) {
        AmendedRoute now = fresh.route();
        route = now;
        assigned = fresh.assigned();
        clearances.take(fresh);
        if (!now.clearance().routeStays()) {
            excursions.rerouted();
            clearedS = fresh.timeS(); // no turn to a heading begins with an altitude alone
        }
        OptionalDouble ahead = fresh.route().furtherClearanceS();
        furtherS = ahead.isPresent()
                ? fresh.flownS() + ahead.getAsDouble()
                : fresh.clearance().routeStays() ? furtherS : Double.NaN;
        stale = true;
        notJudged(now).forEach(each -> noteToInstructor("\u25b2 clearance " + clearances.count() + ": " + each));
        messages.amended(clearances.count(), now, picture);
        messages.cleared(
                clearances.count(), fresh, Aloud.of(now.clearance(), callsign, picture.chart()), fresh.asBefore());
    }

    /**
     * What of a clearance nobody watches but the instructor, and what he can do, a line each; empty where all is
     * watched.
     */
    public static List<String> notJudged(AmendedRoute route) {
        return route.warnings().stream()
                .filter(each -> each.code() == Warning.Code.NOT_FOLLOWED)
                .map(each -> each.text() + "; " + Words.WATCH_IT)
                .toList();
    }

    @Override
    public void notIssued(Entry.NotIssued notIssued) {
        note(Words.clock(notIssued.timeS()) + "  a clearance could not be issued: " + notIssued.why());
    }

    @Override
    public void note(String text) {
        messages.note(Topic.OPEN, text);
    }

    /** Of no use to a student. May be called on any thread. */
    void noteToInstructor(String text) {
        messages.note(Topic.INSTRUCTOR, text);
    }

    /** How a clearance was read back, before the record tells it. On the flight's thread. */
    void readBack(ReadBack readback) {
        readbacksTold++;
        messages.readBack(readback);
    }

    /**
     * Remarks, in the order made, from before the program was started again; each is shown when the flight has come to
     * its time.
     */
    public void remarked(List<Remark> made) {
        earlier.addAll(made);
    }

    void remark(double timeS, String text) {
        messages.remark(timeS, text);
    }

    /** Takes what there is for the page; called on the page's thread. */
    Taken take() {
        return new Taken(messages.take(), track.take(), track.latest());
    }

    /** Pieces that found no room. */
    long lost() {
        return messages.lost() + track.lost();
    }

    /** What one seat has for the page, in order; the latest sample is empty where none came since. */
    record Taken(List<Message> messages, List<Row> rows, Optional<Row> latest) {}
}
