package org.rejoin.bridge;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.VariationMap;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.tracker.NearStation;
import org.rejoin.bridge.tracker.Tracker;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * One pilot's flight: ordered samples in, clearances spoken when they are due, all of it told to the record. Live and
 * debrief differ only in who calls it. Confined to one thread.
 */
public final class FlightSession {

    /**
     * What a flight is flown against.
     *
     * @param chart with stations, fixes and airways
     * @param filed the route before any amendment
     * @param amendments in the order they are spoken
     * @param date of the flight
     * @param wind as far as known; calm otherwise
     * @param limits in force
     * @param feedTimeoutS see {@link Tracker}
     */
    public record Setting(
            Chart chart,
            FiledRoute filed,
            List<Amendment> amendments,
            LocalDate date,
            Wind wind,
            Limits limits,
            double feedTimeoutS) {}

    /** Farther away no station is taken for the one in a clearance, NM: the largest service volume (AIM 1-1-8). */
    private static final double MISTAKEN_NM = 130;

    private final Setting setting;
    private final FlightRecord record;
    private final Tracker tracker;
    private final Schedule schedule;
    private @Nullable AircraftState last;

    /**
     * A flight that begins with the next sample.
     *
     * @param setting what is flown against
     * @param record takes all that happens
     */
    public FlightSession(Setting setting, FlightRecord record) {
        this.setting = setting;
        this.record = record;
        this.schedule = new Schedule(setting.amendments(), setting.chart(), setting.filed());
        VariationMap variation = new VariationMap(MagneticModel.WMM2025, MagneticModel.decimalYear(setting.date()));
        this.tracker = new Tracker(
                setting.limits(),
                setting.feedTimeoutS(),
                (position, altitudeFt) -> variation.at(position, altitudeFt).eastDeg());
    }

    /**
     * Takes the next sample.
     *
     * @param state later than the last
     */
    public void accept(AircraftState state) {
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
                    before = Between.at(before, state, next.get().atS());
                    take(before);
                }
                speak(next.get().amendment());
                next = schedule.next(before, state);
            }
        }
        take(state);
        speakDue(before, state);
    }

    /**
     * Nothing was heard of the aircraft before the next sample, for longer than its times say.
     *
     * @param receiptS time of receipt that passed, seconds
     */
    public void silence(double receiptS) {
        tracker.silence(receiptS);
    }

    private void take(AircraftState state) {
        last = state;
        tell(tracker.accept(state));
        tracker.point().ifPresent(record::append);
    }

    private void tell(List<FlightEvent> events) {
        for (FlightEvent event : events) {
            record.append(new Entry.Happened(tracker.flownAt(event.timeS()), event));
        }
    }

    private void speakDue(AircraftState before, AircraftState now) {
        Optional<Schedule.Due> next = schedule.next(before, now);
        while (next.isPresent()) {
            speak(next.get().amendment());
            next = schedule.next(before, now);
        }
    }

    private static Position position(AircraftState state) {
        return new Position(state.latitudeDeg(), state.longitudeDeg());
    }

    private void speak(Amendment amendment) {
        schedule.spoken(amendment);
        try {
            issue(amendment.say(), amendment.altitudeFt());
        } catch (ClearanceException e) {
            double timeS = lastS().orElse(0);
            String why = e.code() + ": " + e.getMessage();
            record.append(new Entry.NotIssued(timeS, tracker.flownAt(timeS), amendment.say(), why));
            tell(List.of(new FlightEvent.ClearanceNotIssued(timeS, amendment.say(), why)));
        }
    }

    /**
     * Speaks a clearance now, at the last sample.
     *
     * @param text in ATC's words; "disregard" and the like take the amendment in force back
     * @param altitudeFt assigned beside the words, feet; empty to take the one in the words, if any
     * @return the route now in force; after taking an amendment back, the way on as filed from here
     * @throws ClearanceException if it is not understood or cannot be worked out from here; nothing changes then
     */
    public AmendedRoute issue(String text, OptionalDouble altitudeFt) throws ClearanceException {
        AmendedRoute amended = preview(text, altitudeFt);
        if (amended.clearance().disregards()) {
            withdraw(amended.clearance());
            return amended;
        }
        List<FlightEvent> events = tracker.issue(
                amended, amended.course().isPresent() ? stationsNear(amended.situation()) : List.of());
        double timeS = lastS().orElseThrow();
        record.append(new Entry.Issued(timeS, tracker.flownAt(timeS), amended, tracker.assigned()));
        tell(events);
        return amended;
    }

    private void withdraw(Clearance clearance) throws ClearanceException {
        List<FlightEvent> events = tracker.cancel(clearance);
        if (events.isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.CANNOT_BE_WORKED_OUT,
                    "there is no amended clearance in force that could be taken back");
        }
        double timeS = lastS().orElseThrow();
        record.append(new Entry.Withdrawn(timeS, tracker.flownAt(timeS), clearance, tracker.assigned()));
        tell(events);
    }

    /** The stations of the chart that may be mistaken for the one in a clearance. */
    private List<NearStation> stationsNear(Situation here) {
        List<NearStation> near = new ArrayList<>();
        for (Station station : setting.chart().stations()) {
            Position position = station.position();
            if ((!station.kind().hasRadials() && station.kind() != Station.Kind.NDB)
                    || Math.abs(position.latitudeDeg() - here.position().latitudeDeg()) > MISTAKEN_NM / 59
                    || position.distanceNm(here.position()) > MISTAKEN_NM) {
                continue;
            }
            Optional<Declination> reference = station.kind() == Station.Kind.NDB
                    ? Optional.of(new Declination(here.variationAt(position).eastDeg()))
                    : station.declination();
            reference.ifPresent(each -> near.add(new NearStation(station, each)));
        }
        return near;
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
        AircraftState now = last;
        if (now == null) {
            throw new ClearanceException(
                    ClearanceException.Code.CANNOT_BE_WORKED_OUT, "no sample of the aircraft has arrived yet");
        }
        Clearance clearance =
                ClearanceReader.read(text, setting.chart(), setting.filed()).withAltitude(altitudeFt);
        AmendedRoute worked =
                RouteAmender.amend(setting.chart(), setting.filed(), clearance, situation(now, clearance));
        return clearance.routeStays()
                ? record.inForce().route().map(inForce -> inForce.keptUnder(worked)).orElse(worked)
                : worked;
    }

    private Situation situation(AircraftState now, Clearance clearance) {
        Position position = position(now);
        Situation unsure =
                new Situation(position, now.altitudeMslFt(), 120, Optional.empty(), setting.wind(), setting.date());
        Optional<MagneticDirection> heading = now.headingMagneticDeg().isPresent()
                ? Optional.of(new MagneticDirection(now.headingMagneticDeg().getAsDouble()))
                : now.headingTrueDeg().isPresent()
                        ? Optional.of(
                                new TrueDirection(now.headingTrueDeg().getAsDouble()).toMagnetic(unsure.variation()))
                        : Optional.empty();
        return new Situation(
                position,
                now.altitudeMslFt(),
                trueAirspeedKt(now),
                RouteAmender.needsPresentHeading(clearance) ? heading : Optional.empty(),
                setting.wind(),
                setting.date());
    }

    /** Air vector = ground vector - wind; good enough for a lead, and all that every feed carries. */
    private double trueAirspeedKt(AircraftState now) {
        double speed = now.groundSpeedKt().orElse(120);
        double track = Math.toRadians(now.trackTrueDeg().orElse(0));
        double from = Math.toRadians(setting.wind().from().deg());
        double wind = now.trackTrueDeg().isPresent() ? setting.wind().speedKt() : 0;
        double north = speed * Math.cos(track) + wind * Math.cos(from);
        double east = speed * Math.sin(track) + wind * Math.sin(from);
        return Math.min(1000, Math.max(30, Math.hypot(north, east)));
    }

    /**
     * When the aircraft was last heard of, paused or not; a clearance issued now is issued then.
     *
     * @return seconds since the first sample; empty before it
     */
    public OptionalDouble lastS() {
        AircraftState now = last;
        return now == null ? OptionalDouble.empty() : OptionalDouble.of(now.timeS());
    }

    /** The flight is over: the last events. */
    public void finish() {
        tell(tracker.finish());
    }

    /**
     * The flight as it was told.
     *
     * @return what has happened so far
     */
    public FlightRecord record() {
        return record;
    }

    /**
     * Whether every scripted clearance was spoken and the last is complete or taken back.
     *
     * @return false too when there was none
     */
    public boolean complete() {
        boolean spoken = !record.issued().isEmpty();
        return schedule.done() && spoken && (record.inForce().route().isEmpty() || tracker.complete());
    }
}
