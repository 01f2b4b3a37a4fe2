package org.rejoin.console.grade;

import java.util.List;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.protocol.AircraftState;

/** A flight's events and grade. */
record Flown(List<FlightEvent> events, Grade grade, List<Point> progress, List<AmendedRoute> routes) {
    List<FaultCode> faults() {
        return grade.faults().stream().map(Fault::code).toList();
    }

    <T extends FlightEvent> List<T> all(Class<T> kind) {
        return events.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    double score() {
        return grade.score().orElseThrow();
    }

    Criterion criterion(String code) {
        return grade.criteria().stream()
                .filter(each -> each.code().equals(code))
                .findFirst()
                .orElseThrow();
    }

    /** To the instrument rating, in calm air, under {@link Ocean#radialClearance}. */
    static Flown fly(List<AircraftState> states) {
        return fly(states, "instrument-rating");
    }

    static Flown fly(List<AircraftState> states, String standard) {
        List<Amendment> amendments = List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000));
        return fly(states, standard, amendments, Ocean.FILED, Ocean.CHART);
    }

    static Flown fly(List<AircraftState> states, List<Amendment> amendments) {
        return fly(states, amendments, Ocean.FILED);
    }

    static Flown fly(List<AircraftState> states, List<Amendment> amendments, String filed) {
        return fly(states, amendments, filed, Ocean.CHART);
    }

    static Flown fly(List<AircraftState> states, List<Amendment> amendments, String filed, Chart chart) {
        return fly(states, "instrument-rating", amendments, filed, chart);
    }

    static Flown fly(
            List<AircraftState> states, String standard, List<Amendment> amendments, String filed, Chart chart) {
        try {
            ToleranceSet set = ToleranceSet.read(standard);
            FlightRecord record = FlightRecord.whole();
            FlightSession seat = new FlightSession(
                    new FlightSession.Setting(
                            chart,
                            FiledRouteReader.read(filed, chart),
                            amendments,
                            Ocean.DATE,
                            Ocean.CALM,
                            set.limits(),
                            12),
                    record);
            states.forEach(seat::accept);
            seat.finish();
            record.entries().forEach(entry -> {
                if (entry instanceof Entry.NotIssued not) {
                    throw new AssertionError(not.why());
                }
            });
            return new Flown(
                    record.events(),
                    Grader.grade(record, set),
                    record.points().toList(),
                    record.issued().stream().map(Entry.Issued::route).toList());
        } catch (java.io.IOException | org.rejoin.bridge.clearance.ClearanceException e) {
            throw new AssertionError(e);
        }
    }
}
