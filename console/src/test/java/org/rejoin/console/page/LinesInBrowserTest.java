package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.practice.Habit;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** An arc and a hold on the page, in a real browser where there is one. Pictures go to target/ to be looked at. */
@Timeout(value = 150, unit = TimeUnit.SECONDS)
class LinesInBrowserTest {

    private static final String SEAT = "127.0.0.1:40000 REJOIN";

    @TempDir
    Path folder = Path.of("");

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "arc-to-airway | 480 | V40 to FUL",
                "hold-at-fix | 800 | further clearance is expected in",
            })
    void theLineIsDrawnAndWhatIsNextIsSaid(String lesson, int seconds, String next) throws Exception {
        try (FlownPage flown = new FlownPage(lesson, Optional.empty());
                Browser instructor = new Browser(folder, 1280, 720);
                Browser pilot = new Browser(folder, 820, 1180)) {
            List<AircraftState> states = flown.states(Habit.GOOD, 1);
            flown.fly(SEAT, states.subList(0, seconds));
            instructor.open(flown.address() + "/");
            instructor.untilText("#next", next);
            instructor.picture("page-" + lesson + "-1280x720");
            pilot.open(flown.address() + "/student");
            pilot.untilText("#next", next);
            pilot.picture("page-" + lesson + "-student-820x1180");
            assertThat(instructor.complaints()).isEmpty();
            assertThat(pilot.complaints()).isEmpty();
        }
    }
}
