package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.atomic.AtomicInteger;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.console.practice.Habit;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** Each sample of the page tells of which clearance the route is that it is measured against. */
class RouteOfARowTest {

    private static final String SEAT = "127.0.0.1:40000 REJOIN";

    private static void issue(FlownPage flown, String words) throws Exception {
        flown.onThread(() -> {
            try {
                flown.seat(SEAT).orElseThrow().issue(words, OptionalDouble.empty());
            } catch (ClearanceException e) {
                throw new AssertionError(e);
            }
        });
    }

    private static int route(FlownPage flown) throws Exception {
        AtomicInteger route = new AtomicInteger();
        flown.onThread(() -> route.set(flown.page(SEAT).clearances().ofRoute()));
        return route.get();
    }

    @Test
    void anAltitudeLeavesTheRouteAndOneThatIsTakenBackGivesTheOneBeforeAgain() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty())) {
            List<AircraftState> states = flown.states(Habit.GOOD, 5);
            List<Integer> told = new ArrayList<>();
            flown.fly(SEAT, states.subList(0, 50));
            told.add(route(flown));
            flown.fly(SEAT, states.subList(50, 600));
            told.add(route(flown));
            issue(flown, "climb and maintain 7000");
            flown.fly(SEAT, states.subList(600, 700));
            told.add(route(flown));
            issue(flown, "fly heading 090, intercept V40, resume own navigation");
            flown.fly(SEAT, states.subList(700, 800));
            told.add(route(flown));
            issue(flown, "disregard the amendment");
            flown.fly(SEAT, states.subList(800, 900));
            told.add(route(flown));
            assertThat(told).containsExactly(0, 1, 1, 3, 1);
        }
    }
}
