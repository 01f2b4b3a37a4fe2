package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
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

    /** Past the fix, so many degrees turned there in all at 3 degrees a second: whether that is a wrong turn. */
    private static boolean wrongTurn(double turnDeg, double turnedDeg) {
        return turned(turnDeg, turnedDeg).isPresent();
    }

    private static Optional<FlightEvent.WrongTurn> turned(double turnDeg, double turnedDeg) {
        Position fix = new Position(30, -45);
        GeodesicLine leg = GeodesicLine.between(fix.destination(new TrueDirection(180), 20), fix);
        FixWatch watch = new FixWatch(
                "FIX",
                true,
                new CourseLine.Straight(leg),
                new CourseLine.Straight(GeodesicLine.from(fix, new TrueDirection(Angles.circle(turnDeg)), 20)),
                false,
                false,
                0.5,
                2,
                Rules.STANDARD);
        List<FlightEvent> events = new ArrayList<>();
        CourseMeasure before = null;
        Position here = leg.pointAt(19);
        double turned = 0;
        for (int second = 0; second < 240; second++) {
            double way = second < 40 ? 0 : Math.copySign(Math.min(3, Math.abs(turnedDeg - turned)), turnedDeg);
            turned += way;
            double track = Angles.circle(leg.courseAt(19).deg() + turned);
            here = here.destination(new TrueDirection(track), GS_KT / 3600);
            CourseMeasure measured = watch.measure(Instants.at(second, here, track, 0, GS_KT, Double.NaN));
            watch.step(before, measured, null, false, false, true, events);
            before = measured;
        }
        assertThat(events).anyMatch(FlightEvent.FixSequenced.class::isInstance);
        return events.stream()
                .filter(FlightEvent.WrongTurn.class::isInstance)
                .map(FlightEvent.WrongTurn.class::cast)
                .findFirst();
    }

    /** The side that the route does not turn to; nearly straight on either is wrong, and a turn that goes on too far has none. */
    @ParameterizedTest
    @CsvSource({"90, -40, LEFT", "-90, 40, RIGHT", "40, -60, LEFT", "3, 40, ", "3, -40, ", "90, 280, "})
    void aWrongTurnSaysToWhichSide(double turnDeg, double turnedDeg, TurnDirection side) {
        FlightEvent.WrongTurn wrong = turned(turnDeg, turnedDeg).orElseThrow();
        assertThat(wrong.turned()).isEqualTo(Optional.ofNullable(side));
        // For the words alone: its form in the log is of the fix.
        Map<String, Object> form = new HashMap<>();
        wrong.writeTo(new FlightEvent.Fields() {
            @Override
            public FlightEvent.Fields number(String field, double value) {
                form.put(field, value);
                return this;
            }

            @Override
            public FlightEvent.Fields text(String field, String value) {
                form.put(field, value);
                return this;
            }

            @Override
            public FlightEvent.Fields flag(String field, boolean value) {
                form.put(field, value);
                return this;
            }
        });
        assertThat(form).isEqualTo(Map.of("ident", "FIX"));
    }

    /** A leg north to the fix and one east from it; how the watch stands second by second. */
    private static final class Corner {
        private final GeodesicLine leg;
        private final FixWatch watch;
        private final List<FlightEvent> events = new ArrayList<>();
        private Position here;
        private @Nullable CourseMeasure before;
        private int second;

        Corner(boolean direct, double toGoNm, double rightNm) {
            Position fix = new Position(30, -45);
            leg = GeodesicLine.between(fix.destination(new TrueDirection(180), 20), fix);
            watch = new FixWatch(
                    "FIX",
                    true,
                    new CourseLine.Straight(leg),
                    new CourseLine.Straight(GeodesicLine.from(fix, new TrueDirection(90), 20)),
                    direct,
                    false,
                    0.5,
                    2,
                    Rules.STANDARD);
            here = leg.pointAt(20 - toGoNm).destination(new TrueDirection(90), rightNm);
        }

        /** On a track for so many miles, on the next leg or not yet. */
        Corner fly(double trackDeg, double nm, boolean onNext) {
            for (double flown = 0; flown < nm; flown += GS_KT / 3600) {
                here = here.destination(new TrueDirection(trackDeg), GS_KT / 3600);
                CourseMeasure now = watch.measure(Instants.at(second++, here, trackDeg, 0, GS_KT, Double.NaN));
                watch.step(before, now, null, onNext, false, true, events);
                before = now;
            }
            return this;
        }
    }

    /** 3 NM inside the corner the next leg is joined before its bisector: the fix is watched until that is passed. */
    @Test
    void whoJoinsTheNextLegInsideTheCornerHasNotLeftTheFixYet() {
        Corner inside = new Corner(false, 3.2, 0).fly(0, 0.2, false).fly(90, 2, true);
        assertThat(inside.watch.sequenced()).isFalse();
        assertThat(inside.watch.left()).isFalse();
        inside.fly(90, 1.5, true);
        assertThat(inside.watch.sequenced()).isTrue();
        assertThat(inside.watch.left()).isTrue();
    }

    /** Farther than the fix reaches nothing is passed any more, and who is not on the next leg has not left. */
    @Test
    void whoJoinsItOutOfReachHasLeftTheFix() {
        assertThat(new Corner(false, 14, 0)
                        .fly(0, 0.2, false)
                        .fly(90, 1, true)
                        .watch
                        .left())
                .isTrue();
        assertThat(new Corner(false, 3.2, 0)
                        .fly(0, 0.2, false)
                        .fly(90, 2, false)
                        .watch
                        .left())
                .isFalse();
    }

    /** Round to a direct the bisector at its fix may be crossed anywhere: it counts once that course was pointed along. */
    @Test
    void theFixOfADirectIsNotPassedBeforeItsCourseWasPointedAlong() {
        assertThat(new Corner(true, 2, 0.5).fly(90, 2.5, false).watch.sequenced())
                .isFalse();
        assertThat(new Corner(false, 2, 0.5).fly(90, 2.5, false).watch.sequenced())
                .isTrue();
        assertThat(new Corner(true, 2.4, 0.5)
                        .fly(0, 0.4, false)
                        .fly(90, 2.5, false)
                        .watch
                        .sequenced())
                .isTrue();
    }

    /** Who comes by the 300 and is to go out on it turns left or right, a little more than half round, and is on it. */
    @ParameterizedTest
    @ValueSource(doubles = {176, 178, 180, -178, -176})
    void halfATurnMayBeMadeToEitherSide(double turnDeg) {
        for (int way : new int[] {1, -1}) {
            assertThat(wrongTurn(turnDeg, way * 180)).isFalse();
            assertThat(wrongTurn(turnDeg, way * 210)).isFalse();
            assertThat(wrongTurn(turnDeg, way * 345)).isFalse();
            // Half a turn past the next course.
            assertThat(wrongTurn(turnDeg, way * 370)).isTrue();
        }
    }

    /** 30 degrees the wrong way within 90 s of the fix; half a turn past the next course the right way. */
    @ParameterizedTest
    @ValueSource(doubles = {40, 90, 150})
    void anyOtherTurnHasAWrongWay(double turnDeg) {
        assertThat(wrongTurn(turnDeg, turnDeg)).isFalse();
        assertThat(wrongTurn(turnDeg, -40)).isTrue();
        assertThat(wrongTurn(turnDeg, turnDeg + 170)).isFalse();
        assertThat(wrongTurn(turnDeg, turnDeg + 190)).isTrue();
    }
}
