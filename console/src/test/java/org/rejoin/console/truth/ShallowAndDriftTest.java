package org.rejoin.console.truth;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Near the line is not on it while a heading still closes on it; carried off it by the wind is not past it. */
class ShallowAndDriftTest {

    @TempDir
    Path folder = Path.of("");

    private Verdict fly(Setting setting, Mistake mistake) throws Exception {
        return Verdict.of(Flown.by(Task.of(setting), Pilot.Kind.AUTOPILOT, mistake, 1), Feed.JSON_2, folder);
    }

    /** The truth is where the true trajectory comes within a tenth of a mile of the line. */
    @ParameterizedTest
    @CsvSource({"AIRWAY, 8", "AIRWAY, 10", "RADIAL_OUTBOUND, -7", "RADIAL_INBOUND, 9"})
    void aShallowInterceptIsAchievedWhereTheLineIsMet(Setting.Shape shape, double angleDeg) throws Exception {
        Setting setting = Setting.everyday(shape).withIntercept(angleDeg).withLeg(16);
        Flown flown = Flown.by(Task.of(setting), Pilot.Kind.AUTOPILOT, Mistake.NONE, 1);
        Track track = new Track(flown);
        int near = Track.firstHeld(Truth.at(Task.CLEARED_S), track.size(), 0.2, i -> Math.abs(track.crossNm[i]) < 0.1);
        Verdict verdict = Verdict.of(flown, Feed.JSON_2, folder);
        assertThat(verdict.times("intercept_achieved"))
                .singleElement()
                .satisfies(time -> assertThat(time).isBetween(Truth.seconds(near), Truth.seconds(near) + 45));
        assertThat(verdict.met()).as("%s", verdict).contains(true);
        assertThat(verdict.measured("HEADING")).isPresent();
        assertThat(verdict.measured("COURSE").orElseThrow()).isLessThan(0.2);
    }

    @ParameterizedTest
    @CsvSource({"15", "30", "50"})
    void driftAfterTheTurnOntoTheCourseIsNoOvershoot(double windKt) throws Exception {
        Setting everyday = Setting.everyday(Setting.Shape.AIRWAY).withLeg(18);
        Verdict verdict =
                fly(everyday.withWind(everyday.windFromDeg(), windKt), new Mistake(Mistake.Kind.WIND_IGNORED, windKt));
        assertThat(verdict.faultCodes()).doesNotContain("OVERSHOOT", "FLOWN_THROUGH", "TURNED_EARLY");
        assertThat(verdict.measured("INTERCEPT").orElseThrow()).isLessThan(0.3);
        // The pilot lets it go to 1.2 NM, and is carried a little farther while he turns back.
        assertThat(verdict.measured("COURSE").orElseThrow()).isBetween(1.15, 1.5);
        assertThat(verdict.grade().path("notes").toString()).contains("the wind carried the aircraft");
    }

    @Test
    void aRouteLeftForAMinuteCostsAllOfIt() throws Exception {
        Setting setting = Setting.everyday(Setting.Shape.RADIAL_OUTBOUND).withLeg(18);
        Verdict verdict = fly(setting, new Mistake(Mistake.Kind.FIX_EARLY, 140));
        assertThat(verdict.faultCodes()).contains("ROUTE_LEFT");
        for (JsonNode each : verdict.grade().path("criteria")) {
            if (each.path("code").asText().equals("FAULTS")) {
                assertThat(each.path("points").asDouble()).isLessThan(0.01);
            }
        }
    }
}
