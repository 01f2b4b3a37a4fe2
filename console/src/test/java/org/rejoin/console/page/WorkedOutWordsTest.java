package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CopyOnWriteArrayList;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.words.RouteWords;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** What an instructor reads when a clearance is worked out at a seat, before he issues it. */
class WorkedOutWordsTest {

    private static final String SEAT = "127.0.0.1:40000 REJOIN";

    private record Worked(AmendedRoute route, List<String> lines, Optional<MagneticDirection> heading) {}

    /** On the filed route, before anything is cleared. */
    private static Worked workedOut(String words) throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty())) {
            List<AircraftState> states = flown.states(Habit.GOOD, 5);
            flown.fly(SEAT, states.subList(0, 50));
            List<Worked> routes = new CopyOnWriteArrayList<>();
            flown.onThread(() -> {
                try {
                    AmendedRoute route = flown.seat(SEAT).orElseThrow().preview(words, OptionalDouble.empty());
                    Optional<MagneticDirection> heading = flown.page(SEAT).heading();
                    routes.add(new Worked(route, RouteWords.lines(route, heading), heading));
                } catch (ClearanceException e) {
                    throw new AssertionError(e);
                }
            });
            assertThat(routes).hasSize(1);
            return routes.get(0);
        }
    }

    @Test
    void ofADirectCourseDistanceTimeAndTurnAreSaid() throws Exception {
        Worked worked = workedOut("direct PRION");
        AmendedRoute route = worked.route();
        Leg.DirectToFix direct = (Leg.DirectToFix) route.legs().get(0);
        Position here = route.situation().position();
        double nm = here.distanceNm(direct.to().position());
        assertThat(worked.lines())
                .anySatisfy(line -> assertThat(line)
                        .startsWith("direct PRION: course ")
                        .contains(String.format(Locale.ROOT, ", %.1f NM; heading for it ", nm))
                        .containsPattern("\\d+ min \\d\\d s at \\d+ kt over the ground"))
                .anySatisfy(
                        line -> assertThat(line).matches("turn (left|right) \\d+ degrees to heading \\d{3}, about .*"));
    }

    @Test
    void ofACrossingFeetAMileAndFeetAMinuteAreSaid() throws Exception {
        assertThat(workedOut("direct PRION, cross PRION at and maintain 8000").lines())
                .anySatisfy(line -> assertThat(line)
                        .startsWith("cross PRION at 8000 ft; ")
                        .contains(" NM along the route, ")
                        .containsPattern("that takes a climb of \\d+ ft a mile, \\d+ ft a minute"));
    }

    @Test
    void ofASpeedTheSpeedIsSaid() throws Exception {
        assertThat(workedOut("maintain 140 knots").lines())
                .containsExactly("the route stays as it was", "speed 140 knots, by the airspeed indicator");
    }

    /** From the heading flown to the one assigned, the way that is said; after it nothing is cleared. */
    @Test
    void ofAHeadingAloneTheTurnIsSaidAndThatNothingFollows() throws Exception {
        Worked worked = workedOut("turn left heading 350");
        double left = Angles.circle(worked.heading().orElseThrow().deg() - 350);
        assertThat(worked.lines())
                .contains("nothing is to be intercepted: fly the heading until ATC says how the route goes on")
                .anySatisfy(line -> assertThat(line)
                        .startsWith("turn left " + Angles.degrees(left) + " to heading 350, about "
                                + Math.round(left / 3) + " s"));
    }
}
