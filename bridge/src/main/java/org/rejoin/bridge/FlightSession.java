package org.rejoin.bridge;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.RoundEarth;
import org.rejoin.bridge.geo.VariationMap;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.tracker.MoveWatch;
import org.rejoin.bridge.tracker.NearAirway;
import org.rejoin.bridge.tracker.NearStation;
import org.rejoin.bridge.tracker.Tracker;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.earth.GroundPoint;

import org.jspecify.annotations.Nullable;

/**
 * One pilot's flight: ordered samples in, clearances spoken when they are due, all of it told to the record. Live and
 * debrief differ only in who calls it. Confined to one thread.
 */
public final class FlightSession {

    /**
     * What a flight is flown against.
     *
     * @param amendments in the order they are spoken
     * @param date of the flight
     * @param wind as far as known; calm otherwise
     * @param feedTimeoutS see {@link Tracker}
     * @param timeOfDay against which the times of clearances are held; empty where nobody knows it
     */
    public record Setting(
            Chart chart,
            FiledRoute filed,
            List<Amendment> amendments,
            LocalDate date,
            Wind wind,
            Limits limits,
            double feedTimeoutS,
            Optional<TimeOfDay> timeOfDay) {

        /** A flight of which the time of day is not known. */
        public Setting(
                Chart chart,
                FiledRoute filed,
                List<Amendment> amendments,
                LocalDate date,
                Wind wind,
                Limits limits,
                double feedTimeoutS) {
            this(chart, filed, amendments, date, wind, limits, feedTimeoutS, Optional.empty());
        }
    }

    private final Setting setting;
    private final FlightRecord record;
    private final Rules rules;
    private final FeedQuality quality = new FeedQuality();
    private final MoveWatch moves;
    private final VariationMap variation;
    private final Standing<Entry.Issued> standing = new Standing<>();

    /** What the last clearance flown to its end left assigned; it stays so when a later one is taken back. */
    private Assigned leftAssigned = Assigned.NOTHING;

    /** How far the clearance in force had been flown when one that was taken back took its place. */
    private Clearance.Reached reachedBefore = Clearance.Reached.NOTHING;

    private Tracker tracker;
    private Schedule schedule;
    private @Nullable AircraftState first;
    private @Nullable AircraftState last;
    private double silentInDoubtS;

    /** Before which of the samples in doubt that was. */
    private int silentBefore;

    /** From when the time of day is counted, seconds flown. */
    private double dayFromS;

    /** A flight that begins with the next sample, by the standard rules. */
    public FlightSession(Setting setting, FlightRecord record) {
        this(setting, record, Rules.of(setting.limits()).with(new Rule.FeedLost(setting.feedTimeoutS())));
    }

    /** A flight that begins with the next sample. */
    public FlightSession(Setting setting, FlightRecord record, Rules rules) {
        this.setting = setting;
        this.record = record;
        this.rules = rules;
        this.schedule = new Schedule(setting.amendments(), setting.chart(), setting.filed(), 0);
        this.variation = new VariationMap(MagneticModel.WMM2025, MagneticModel.decimalYear(setting.date()));
        this.moves = new MoveWatch(rules.of(Rule.Moved.class), quality);
        this.tracker = newTracker();
    }

    private Tracker newTracker() {
        return new Tracker(setting.limits(), rules, setting.feedTimeoutS(), quality, variation);
    }

    /** {@return how good the data from the simulator is, so far} */
    public FeedQuality quality() {
        return quality;
    }

    /** Takes the next sample. */
    public void accept(AircraftState state) {
        quality.sample(state);
        switch (moves.take(state)) {
            case DOUBTFUL -> {
                return;
            }
            case FLOWN -> {}
            case STAYED -> {
                AircraftState before = moves.stayed();
                quality.flown(before);
                fly(before);
                flyOn(moves.flownThere());
            }
            case MOVED -> {
                quality.moved();
                setDown(moves.setDown());
                flyOn(moves.flownThere());
            }
        }
        quality.flown(state);
        hearSilence();
        fly(state);
    }

    /** What was flown where the aircraft was set down, while it was in doubt that it stays there. */
    private void flyOn(List<AircraftState> there) {
        for (int i = 0; i < there.size(); i++) {
            if (i == silentBefore) {
                hearSilence();
            }
            quality.flown(there.get(i));
            fly(there.get(i));
        }
    }

    /** The next attempt begins where the aircraft was set down: the exercise again, or the clearances in force. */
    private void setDown(AircraftState down) {
        tell(tracker.close());
        tell(tracker.heardElsewhere(down));
        AircraftState from = last;
        if (from != null && from.equals(first)) {
            // Nothing was flown yet: what came first was stray, and the flight begins here.
            first = down;
        }
        AircraftState start = first;
        Tracker ended = tracker;
        boolean again = start != null
                && RoundEarth.distanceNm(start.place(), down.place())
                        <= rules.of(Rule.Moved.class).startNm();
        tracker = newTracker();
        tracker.goOnAfter(ended, again ? Assigned.NOTHING : ended.assigned());
        double jumpNm = from == null ? 0 : Point.positionOf(from).distanceNm(Point.positionOf(down));
        record.append(
                new Entry.Happened(tracker.flownAt(down.timeS()), new FlightEvent.Repositioned(down.timeS(), jumpNm)));
        if (again) {
            schedule = new Schedule(setting.amendments(), setting.chart(), setting.filed(), down.timeS());
            standing.forget();
            leftAssigned = Assigned.NOTHING;
            if (setting.timeOfDay().filter(TimeOfDay::ofLesson).isPresent()) {
                dayFromS = tracker.flownAt(down.timeS());
            }
            last = null;
            fly(down);
            return;
        }
        take(down);
        standing.again()
                .forEach(issued -> speak(
                        issued.clearance().text(), issued.clearance().altitudeFt(), Clearance.Reached.NOTHING, false));
    }

    private void fly(AircraftState state) {
        first = first == null ? state : first;
        AircraftState before = last;
        if (before == null) {
            take(state);
            speakDue(state, state);
            return;
        }
        // A clearance due between two samples is spoken at its own instant; one that fell due where nobody saw the
        // aircraft, when it is seen again.
        if (tracker.goesOnTo(state)) {
            Optional<Schedule.Due> next = schedule.next(before, state);
            while (next.isPresent() && next.get().atS() < state.timeS() - Schedule.SAME_INSTANT_S) {
                if (next.get().atS() > before.timeS() + Schedule.SAME_INSTANT_S) {
                    before = between(before, state, next.get().atS());
                    take(before);
                }
                speak(next.get().amendment());
                next = schedule.next(before, state);
            }
        }
        take(state);
        speakDue(before, state);
    }

    /** The aircraft between two samples: on the geodesic. */
    private static AircraftState between(AircraftState a, AircraftState b, double atS) {
        double share = (atS - a.timeS()) / (b.timeS() - a.timeS());
        Position here = Point.positionOf(a).toward(Point.positionOf(b), share);
        GroundPoint place = GroundPoint.at(here.latitudeDeg(), here.longitudeDeg());
        return AircraftState.between(a, b, share, place).withTimeS(atS);
    }

    /** The simulation stands still, as its sender says, with the aircraft where it was last. */
    public void stood(double timeS) {
        AircraftState from = last;
        if (from != null && !moves.inDoubt() && timeS > from.timeS()) {
            quality.stood();
            fly(from.withTimeS(timeS).asPaused());
        }
    }

    /** Nothing was heard of the aircraft before the next sample, for longer than its times say. */
    public void silence(double receiptS) {
        if (moves.inDoubt()) {
            silentInDoubtS = receiptS;
            silentBefore = moves.flownThere().size();
        } else {
            tracker.silence(receiptS);
        }
    }

    /** Of a silence after a sample in doubt it is known now to which attempt it belongs. */
    private void hearSilence() {
        if (silentInDoubtS > 0) {
            tracker.silence(silentInDoubtS);
            silentInDoubtS = 0;
        }
    }

    private void take(AircraftState state) {
        last = state;
        tell(tracker.accept(state));
        Point point = tracker.point();
        if (point != null) {
            record.append(point);
        }
    }

    private void tell(List<FlightEvent> events) {
        if (events.isEmpty()) {
            return;
        }
        for (FlightEvent event : events) {
            if (event instanceof FlightEvent.FeedLost lost) {
                quality.gap(lost.gapS());
            }
            record.append(new Entry.Happened(tracker.flownAt(event.timeS()), event, tracker.follows(event)));
            if (event instanceof FlightEvent.ChangeOver) {
                record.append(new Entry.ChangedOver(event.timeS(), tracker.flownAt(event.timeS()), tracker.assigned()));
            }
        }
    }

    private void speakDue(AircraftState before, AircraftState now) {
        Optional<Schedule.Due> next = schedule.next(before, now);
        while (next.isPresent()) {
            speak(next.get().amendment());
            next = schedule.next(before, now);
        }
    }

    private void speak(Amendment amendment) {
        schedule.spoken(amendment);
        speak(amendment.say(), amendment.altitudeFt(), Clearance.Reached.NOTHING, false);
    }

    private void speak(String text, OptionalDouble altitudeFt, Clearance.Reached reached, boolean asBefore) {
        try {
            issue(preview(text, altitudeFt, reached), asBefore);
        } catch (ClearanceException e) {
            double timeS = lastS().orElse(0);
            String why = String.valueOf(e.getMessage());
            record.append(new Entry.NotIssued(timeS, tracker.flownAt(timeS), text, why));
            record.append(
                    new Entry.Happened(tracker.flownAt(timeS), new FlightEvent.ClearanceNotIssued(timeS, text, why)));
        }
    }

    /**
     * Speaks a clearance now, at the last sample.
     *
     * @param text in ATC's words; "disregard" and the like take the amendment in force back: what is in force then says
     *     {@link Standing}, worked out from here
     * @param altitudeFt assigned beside the words, feet; empty to take the one in the words, if any
     * @return the route now in force; where none is after taking an amendment back, the way on as filed from here
     * @throws ClearanceException if it is not understood or cannot be worked out from here; nothing changes then
     */
    public AmendedRoute issue(String text, OptionalDouble altitudeFt) throws ClearanceException {
        return issue(preview(text, altitudeFt), false);
    }

    private AmendedRoute issue(AmendedRoute amended, boolean asBefore) throws ClearanceException {
        if (amended.clearance().disregards()) {
            withdraw(amended.clearance());
            return record.inForce().route().orElse(amended);
        }
        boolean flown = tracker.flownToItsEnd();
        Clearance.Reached reached = reached();
        reachedBefore = amended.clearance().routeStays() ? reachedBefore : Clearance.Reached.NOTHING;
        Assigned before = tracker.assigned();
        double reachNm = rules.of(Rule.OtherCourse.class).reachNm();
        List<FlightEvent> events = tracker.issue(
                amended,
                amended.trackedCourse().isPresent()
                        ? NearStation.within(reachNm, setting.chart(), amended.situation())
                        : List.of(),
                NearAirway.within(reachNm, setting.chart(), amended),
                asBefore);
        double timeS = lastS().orElseThrow();
        Entry.Issued issued = new Entry.Issued(timeS, tracker.flownAt(timeS), amended, tracker.assigned(), asBefore);
        boolean routeStays = amended.clearance().routeStays();
        if (!routeStays && flown) {
            leftAssigned = before;
        }
        standing.issued(issued, routeStays, flown, reached);
        // What comes before the words is the end of the amendment before.
        int words = 0;
        while (!routeStays && words < events.size() && !isWords(events.get(words))) {
            words++;
        }
        tell(events.subList(0, words));
        record.append(issued);
        tell(events.subList(words, events.size()));
        return amended;
    }

    private static boolean isWords(FlightEvent event) {
        return event instanceof FlightEvent.ClearanceIssued || event instanceof FlightEvent.ClearanceAsBefore;
    }

    /** How far the clearance in force was flown, by what was told of it. */
    private Clearance.Reached reached() {
        List<Entry> entries = record.entries();
        Clearance.Reached reached = reachedBefore;
        for (int i = entries.size() - 1; i >= 0; i--) {
            Entry entry = entries.get(i);
            if (entry instanceof Entry.Issued issued && !issued.clearance().routeStays()) {
                break;
            }
            if (entry instanceof Entry.Happened happened) {
                if (happened.event() instanceof FlightEvent.AirwayJoined) {
                    return Clearance.Reached.AIRWAY;
                }
                if (happened.event() instanceof FlightEvent.InterceptAchieved && reached == Clearance.Reached.NOTHING) {
                    reached = Clearance.Reached.LINE;
                }
            }
        }
        return reached;
    }

    private void withdraw(Clearance clearance) throws ClearanceException {
        boolean asFiled = clearance.first(Instruction.Onward.class).isPresent();
        List<Entry.Issued> stands = standing.besideTakenBack(asFiled);
        if (stands.isEmpty()) {
            withdrawRoute(clearance, asFiled);
            return;
        }
        Entry.Issued under = stands.get(stands.size() - 1);
        List<FlightEvent> events = tracker.restore(
                clearance,
                under.assigned(),
                stands.stream().map(Entry.Issued::clearance).toList(),
                under.route(),
                under.flownS());
        double timeS = lastS().orElseThrow();
        record.append(new Entry.Restored(timeS, tracker.flownAt(timeS), clearance, under.route(), tracker.assigned()));
        tell(events);
    }

    private void withdrawRoute(Clearance clearance, boolean asFiled) throws ClearanceException {
        boolean flown = tracker.flownToItsEnd();
        Standing.Again<Entry.Issued> stands = standing.standsAgain(asFiled, flown);
        if (!stands.each().isEmpty() && tracker.goesOnBefore() && saysNothingElse(clearance)) {
            goOn(clearance, standing.takenBack(asFiled, flown));
            return;
        }
        // What stands again may name no altitude, and stood under one that was assigned before it.
        Assigned before = stands.each().stream()
                .reduce((first, second) -> second)
                .map(Entry.Issued::assigned)
                .orElse(leftAssigned);
        List<FlightEvent> events = tracker.cancel(clearance, before);
        if (events.isEmpty()) {
            throw ClearanceException.cannotBeWorkedOut(
                    "there is no amended clearance in force that could be taken back");
        }
        Standing.Again<Entry.Issued> again = standing.takenBack(asFiled, flown);
        double timeS = lastS().orElseThrow();
        record.append(new Entry.Withdrawn(
                timeS,
                tracker.flownAt(timeS),
                clearance,
                tracker.assigned(),
                again.each().stream().limit(1).anyMatch(each -> canStandAgain(each, again.reached()))));
        tell(events);
        for (Entry.Issued each : again.each()) {
            // What is said with the disregard counts, and not what was assigned before.
            OptionalDouble said = clearance.altitudeFt();
            speak(
                    each.clearance().text(),
                    said.isPresent() ? said : each.clearance().altitudeFt(),
                    again.reached(),
                    true);
        }
    }

    private static boolean saysNothingElse(Clearance clearance) {
        return clearance.altitudes().isEmpty() && clearance.speeds().isEmpty();
    }

    /** Taken back before anybody had to act on it: what stands again was never left, and is not worked out anew. */
    private void goOn(Clearance clearance, Standing.Again<Entry.Issued> again) {
        List<Entry.Issued> each = again.each();
        List<Clearance> clearances = each.stream().map(Entry.Issued::clearance).toList();
        List<FlightEvent> events = tracker.cancelForBefore(
                clearance, clearances, each.get(each.size() - 1).route());
        double timeS = lastS().orElseThrow();
        double flownS = tracker.flownAt(timeS);
        record.append(new Entry.Withdrawn(timeS, flownS, clearance, tracker.assigned(), true));
        tell(events);
        events = tracker.goOn(clearances);
        reachedBefore = again.reached();
        for (Entry.Issued before : each) {
            Entry.Issued issued = new Entry.Issued(timeS, flownS, before.route(), tracker.assigned(), true);
            standing.issued(issued, before.clearance().routeStays(), false, Clearance.Reached.NOTHING);
            record.append(issued);
        }
        tell(events);
    }

    private boolean canStandAgain(Entry.Issued issued, Clearance.Reached reached) {
        try {
            preview(issued.clearance().text(), issued.clearance().altitudeFt(), reached);
            return true;
        } catch (ClearanceException e) {
            return false;
        }
    }

    /** Something was said on the radio, at the last sample or between it and the next. */
    public void heard(FlightEvent event) {
        record.append(new Entry.Happened(tracker.flownAt(event.timeS()), event));
    }

    /**
     * Works a clearance out from the present position without issuing it.
     *
     * @param text in ATC's words
     * @param altitudeFt assigned beside the words, feet; empty to take the one in the words, if any
     * @return the route it would give
     * @throws ClearanceException if it is not understood or cannot be worked out from here
     */
    public AmendedRoute preview(String text, OptionalDouble altitudeFt) throws ClearanceException {
        return preview(text, altitudeFt, Clearance.Reached.NOTHING);
    }

    private AmendedRoute preview(String text, OptionalDouble altitudeFt, Clearance.Reached reached)
            throws ClearanceException {
        AircraftState now = last;
        if (now == null) {
            throw ClearanceException.cannotBeWorkedOut("no sample of the aircraft has arrived yet");
        }
        Clearance clearance = ClearanceReader.read(text, setting.chart(), setting.filed())
                .left(reached)
                .withAltitude(altitudeFt);
        AmendedRoute worked = RouteAmender.amend(
                setting.chart(), setting.filed(), clearance, SituationNow.of(now, clearance, setting, timeOfDay()));
        return clearance.routeStays()
                ? record.inForce()
                        .route()
                        .map(inForce -> inForce.keptUnder(worked))
                        .orElse(worked)
                : worked;
    }

    /**
     * {@return the time of day at the last sample; Coordinated Universal Time; empty before the first sample and where
     * nobody knows it}
     */
    public Optional<LocalTime> timeOfDay() {
        AircraftState now = last;
        return now == null
                ? Optional.empty()
                : setting.timeOfDay().map(day -> day.after(tracker.flownAt(now.timeS()) - dayFromS));
    }

    /**
     * {@return when the aircraft was last heard of, paused or not; a clearance issued now is issued then; seconds since the
     * first sample; empty before it}
     */
    public OptionalDouble lastS() {
        AircraftState now = last;
        return now == null ? OptionalDouble.empty() : OptionalDouble.of(now.timeS());
    }

    /** The flight is over: the last events. */
    public void finish() {
        moves.finish();
        tell(tracker.finish());
    }

    /** {@return the flight as it was told so far} */
    public FlightRecord record() {
        return record;
    }

    /**
     * {@return whether every scripted clearance was spoken and the last is complete or taken back; false too when there was
     * none}
     */
    public boolean complete() {
        return schedule.done()
                && record.anyIssued()
                && (record.inForce().route().isEmpty() || tracker.complete());
    }

    /**
     * Whether silence means that the pilot has gone: complete, and nothing of it goes on until ATC says more, as a hold
     * does; false too while the last clearance is still flown.
     */
    public boolean over() {
        return complete() && (record.inForce().route().isEmpty() || tracker.flownToItsEnd());
    }
}
