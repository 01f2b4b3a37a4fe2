package org.rejoin.bridge.tracker;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.TimeOfDay;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

/** A flight over the ocean as it was told. */
record Flown(FlightRecord record, FlightSession session) {
    List<FlightEvent> events() {
        return record.events();
    }

    <T extends FlightEvent> List<T> all(Class<T> kind) {
        return events().stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    List<Point> points() {
        return record.points().toList();
    }

    /** What stands for itself and is, or may be, a fault: without an overshoot inside its limit. */
    List<FaultCode> faults() {
        return record.entries().stream()
                .filter(Entry.Happened.class::isInstance)
                .map(Entry.Happened.class::cast)
                .filter(happened -> !happened.follows())
                .filter(happened ->
                        !(happened.event() instanceof FlightEvent.Overshoot o && o.maxCrossTrackNm() <= 0.5))
                .flatMap(happened -> happened.event().kind().fault().stream())
                .distinct()
                .toList();
    }

    List<String> names() {
        return events().stream().map(FlightEvent::name).toList();
    }

    static Flown fly(List<AircraftState> states) {
        return fly(states, Ocean.CALM);
    }

    static Flown fly(List<AircraftState> states, Wind wind) {
        return fly(states, wind, Rules.STANDARD, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)));
    }

    static Flown fly(List<AircraftState> states, Rules rules) {
        return fly(states, Ocean.CALM, rules, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)));
    }

    static Flown fly(List<AircraftState> states, List<Amendment> amendments) {
        return fly(states, Ocean.CALM, Rules.STANDARD, amendments);
    }

    static Flown fly(List<AircraftState> states, Wind wind, Rules rules, List<Amendment> amendments) {
        return fly(states, wind, rules, amendments, Optional.empty());
    }

    static Flown at(TimeOfDay day, List<AircraftState> states, List<Amendment> amendments) {
        return fly(states, Ocean.CALM, Rules.STANDARD, amendments, Optional.of(day));
    }

    private static Flown fly(
            List<AircraftState> states,
            Wind wind,
            Rules rules,
            List<Amendment> amendments,
            Optional<TimeOfDay> timeOfDay) {
        try {
            FlightRecord record = FlightRecord.whole();
            FlightSession session = new FlightSession(
                    new FlightSession.Setting(
                            Ocean.CHART,
                            FiledRouteReader.read(Ocean.FILED, Ocean.CHART),
                            amendments,
                            Ocean.DATE,
                            wind,
                            Limits.INSTRUMENT_RATING,
                            12,
                            timeOfDay),
                    record,
                    rules);
            states.forEach(session::accept);
            session.finish();
            return new Flown(record, session);
        } catch (org.rejoin.bridge.clearance.ClearanceException e) {
            throw new AssertionError(e);
        }
    }
}
