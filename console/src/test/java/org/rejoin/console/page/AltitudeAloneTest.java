package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CopyOnWriteArrayList;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.words.RouteWords;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/** ATC assigns an altitude and nothing else while the pilot turns back to the line that he has crossed. */
class AltitudeAloneTest {

    private static final String SEAT = "127.0.0.1:40000 REJOIN";

    /** He is still to come back to the line; no heading of minutes ago leads him away from it, and its figures are not said again. */
    @Test
    void whatMustHappenNextIsTheLineStillAndTheAltitude() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty())) {
            List<AircraftState> states = flown.states(Habit.LATE, 5);
            // The line is crossed at 03:17, the turn back begins some seconds later.
            flown.fly(SEAT, states.subList(0, 1010));
            List<AmendedRoute> routes = new CopyOnWriteArrayList<>();
            flown.onThread(() -> {
                try {
                    routes.add(
                            flown.seat(SEAT).orElseThrow().issue("descend and maintain 5000", OptionalDouble.empty()));
                } catch (ClearanceException e) {
                    throw new AssertionError(e);
                }
            });
            assertThat(routes).singleElement().satisfies(route -> {
                assertThat(RouteWords.lines(route)).containsExactly("the route stays as it was");
                assertThat(route.warnings()).isEmpty();
            });
            flown.fly(SEAT, states.subList(1010, 1100));
            flown.onThread(() -> flown.page(SEAT).refresh());
            String next = flown.page(SEAT).tile().next();
            assertThat(next)
                    .contains("066 FROM PTL")
                    .endsWith("; descend to 5000 ft")
                    .doesNotContain("heading");
            assertThat(next.split("descend")).hasSize(2);
        }
    }

    /** Nobody can tell when ATC will advise: no altitude is judged, and the instructor, nobody else, must hear of it at once. */
    @Test
    void thatNoAltitudeIsJudgedIsSaidToTheInstructorAsTheClearanceIsIssued() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty())) {
            flown.fly(SEAT, flown.states(Habit.LATE, 5).subList(0, 400));
            flown.onThread(() -> {
                try {
                    flown.seat(SEAT)
                            .orElseThrow()
                            .issue(
                                    "maintain 8000 until advised, then descend and maintain 6000",
                                    OptionalDouble.empty());
                } catch (ClearanceException e) {
                    throw new AssertionError(e);
                }
            });
            assertThat(flown.page(SEAT).take().messages())
                    .filteredOn(each -> each.json().contains("no altitude of this clearance is judged"))
                    .isNotEmpty()
                    .anySatisfy(each -> {
                        assertThat(each.json()).contains("\"k\":\"note\"", "watch it yourself and make a remark");
                        assertThat(each.topic()).isEqualTo(Topic.INSTRUCTOR);
                    });
        }
    }

    /** Taken back, the line is flown on at the altitude before; it is the same clearance, not a new one. */
    @Test
    void takenBackTheAltitudeBeforeStandsAndTheLineGoesOn() throws Exception {
        try (FlownPage flown = new FlownPage("radial-outbound", Optional.empty())) {
            List<AircraftState> states = flown.states(Habit.LATE, 5);
            flown.fly(SEAT, states.subList(0, 1010));
            flown.onThread(() -> {
                try {
                    var seat = flown.seat(SEAT).orElseThrow();
                    var before = seat.record().inForce();
                    seat.issue("descend and maintain 5000", OptionalDouble.empty());
                    seat.issue("disregard the amendment", OptionalDouble.empty());
                    assertThat(seat.record().inForce().assigned()).isEqualTo(before.assigned());
                    assertThat(seat.record().inForce().route()).isEqualTo(before.route());
                } catch (ClearanceException e) {
                    throw new AssertionError(e);
                }
            });
            flown.fly(SEAT, states.subList(1010, 1100));
            flown.onThread(() -> flown.page(SEAT).refresh());
            assertThat(flown.page(SEAT).tile().next())
                    .contains("066 FROM PTL")
                    .doesNotContain("5000")
                    .doesNotContain("heading");
            assertThat(flown.page(SEAT).clearances().disregarded(1).orElseThrow())
                    .endsWith("disregard the amendment, as cleared before");
            assertThat(flown.page(SEAT).clearances().count()).isEqualTo(2);
            assertThat(flown.page(SEAT)
                            .clearances()
                            .numberOf(flown.page(SEAT).clearances().current().orElseThrow()))
                    .isEqualTo(1);
        }
    }
}
