package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A fix is not passed before its turn is due, however sharp the turn and on whichever side of the course. */
class FixWatchTest {

    private static final double GS_KT = 120;

    /** Straight on, 0.8 NM inside the course, at 1 Hz; distance to go along it where the fix was sequenced. */
    private static double sequencedToGoNm(double turnDeg) {
        Position fix = new Position(30, -45);
        GeodesicLine leg = GeodesicLine.between(fix.destination(new TrueDirection(180), 20), fix);
        GeodesicLine next = GeodesicLine.from(fix, new TrueDirection(turnDeg), 20);
        FixWatch watch = new FixWatch(
                "FIX",
                true,
                new CourseLine.Straight(leg),
                new CourseLine.Straight(next),
                false,
                false,
                0.5,
                2,
                Rules.STANDARD);
        List<FlightEvent> events = new ArrayList<>();
        CourseMeasure before = null;
        for (int second = 0; second < 600; second++) {
            double alongNm = 5 + second * GS_KT / 3600;
            Position here = leg.pointAt(alongNm)
                    .destination(new TrueDirection(leg.courseAt(alongNm).deg() + 90), 0.8);
            FlightInstant now = Instants.at(second, here, leg.courseAt(alongNm).deg(), 0, GS_KT, Double.NaN);
            CourseMeasure measured = watch.measure(now);
            watch.step(before, measured, null, false, false, true, events);
            before = measured;
        }
        double atS = events.stream()
                .filter(FlightEvent.FixSequenced.class::isInstance)
                .mapToDouble(FlightEvent::timeS)
                .findFirst()
                .orElseThrow();
        return 20 - (5 + atS * GS_KT / 3600);
    }

    /** Lead of a standard-rate turn: R tan(turn / 2), R = GS / (60 pi): a tangent arc. */
    @ParameterizedTest
    @ValueSource(doubles = {20, 60, 90, 120, 150, 160})
    void neverBeforeItsLead(double turnDeg) {
        double lead = GS_KT / (60 * Math.PI) * Math.tan(Math.toRadians(Math.min(turnDeg, 150) / 2));
        assertThat(Turn.standardTurnLeadNm(GS_KT, turnDeg))
                .isCloseTo(lead, org.assertj.core.api.Assertions.within(1e-6));
        assertThat(sequencedToGoNm(turnDeg)).isBetween(-0.02, lead + 0.01);
    }
}
