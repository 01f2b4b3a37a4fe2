package org.rejoin.console;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;

/** A lesson flown without feed, and its first clearance worked out at its start. */
public final class LessonFlight {

    private LessonFlight() {}

    /** A session that hears these clearances and tells this record. */
    public static FlightSession seat(Lesson lesson, List<Amendment> amendments, FlightRecord record)
            throws IOException {
        return new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        amendments,
                        lesson.date().orElseThrow(),
                        lesson.wind(),
                        ToleranceSet.read(lesson.standard()).limits(),
                        12),
                record);
    }

    /** The lesson's first clearance, heard at its start at that airspeed, in that wind. */
    public static AmendedRoute route(Lesson lesson, double trueAirspeedKt, Wind wind) throws ClearanceException {
        Lesson.Start start = lesson.start().orElseThrow();
        return RouteAmender.amend(
                lesson.chart(),
                lesson.filed(),
                ClearanceReader.read(lesson.amendments().get(0).say(), lesson.chart(), lesson.filed()),
                new Situation(
                        start.position(),
                        OptionalDouble.of(start.altitudeFt()),
                        trueAirspeedKt,
                        Optional.empty(),
                        wind,
                        lesson.date().orElseThrow()));
    }
}
