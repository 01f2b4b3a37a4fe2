package org.rejoin.console.room;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;

import org.rejoin.bridge.feed.DayClock;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.flight.AircraftName;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The page shows whole degrees and knots: a flight as flown is in the lesson's wind all the same. */
class WhatIfDeskTest {

    private static Wind wind(double fromDeg, double kt) {
        return new Wind(new TrueDirection(fromDeg), kt);
    }

    @ParameterizedTest
    @CsvSource({"247.5, 12.5, 248, 13", "247.4, 12.4, 247, 12", "359.6, 20, 360, 20", "270, 15, 270, 15"})
    void theLessonsWindInWholeNumbersIsTheLessonsWind(double deg, double kt, double shownDeg, double shownKt) {
        assertThat(WhatIfDesk.asGiven(wind(shownDeg, shownKt), wind(deg, kt))).isEqualTo(wind(deg, kt));
    }

    @ParameterizedTest
    @CsvSource({"249, 13", "248, 14", "246, 12", "270, 15"})
    void anotherWindStaysAnother(double deg, double kt) {
        assertThat(WhatIfDesk.asGiven(wind(deg, kt), wind(247.5, 12.5))).isEqualTo(wind(deg, kt));
    }

    /** Two seconds are no time to descend, and the model flies no heights. */
    @Test
    void anAltitudeThatTheRecordingEndsBeforeIsNotHeldAgainstTheTurn() throws Exception {
        Lesson lesson = LessonReader.read("heading-to-airway");
        ToleranceSet set = ToleranceSet.read(lesson.standard());
        LocalDate date = LocalDate.of(2026, 6, 1);
        List<AircraftState> states = new ArrayList<>();
        new PracticeFlight(lesson, date, Habit.GOOD).fly(2, states::add);
        states.removeIf(state -> state.timeS() > 500);
        DayClock clock = DayClock.receivedAt(Instant.EPOCH);
        Said said = new Said(
                List.of(new InstructorFile.Spoken(
                        498, Tryout.ALONE.label(), "descend and maintain 3000", OptionalDouble.empty())),
                List.of(),
                List.of(),
                List.of());
        FlownAircraft flown = Tryout.flown(lesson, set, () -> date, said, "PRACTICE", clock, states);
        assertThat(flown.record().issued()).hasSize(2);
        Debrief debrief = new Debrief(
                new AircraftName("PRACTICE", "PRACTICE"),
                flown.record(),
                said,
                flown.grade(),
                set,
                List.of(),
                Instant.EPOCH,
                Instant.EPOCH,
                date);
        WhatIfDesk desk = new WhatIfDesk(new RoomRecords.Grading.Again(lesson, debrief, ""));
        JsonNode turn =
                new ObjectMapper().readTree(desk.answer(Map.of())).path("turns").path(0);
        Map<String, String> asFlown = new HashMap<>();
        asFlown.put("clearance", turn.path("clearance").asText());
        asFlown.put("leg", turn.path("leg").asText());
        asFlown.put("before_nm", turn.path("flown_nm").asText());
        asFlown.put("bank_deg", turn.path("bank_deg").asText());
        asFlown.put("from_deg", turn.path("wind_from_deg").asText());
        asFlown.put("wind_kt", turn.path("wind_kt").asText());
        JsonNode grade =
                new ObjectMapper().readTree(desk.answer(asFlown)).path("other").path("grade");
        assertThat(grade.path("faults")).as(grade.toString()).isEmpty();
        assertThat(grade.path("score").asDouble()).isGreaterThan(95);
    }
}
