package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Who sits at which seat of a room, and whose datagrams are whose. */
@Timeout(60)
class SeatsOfARoomTest extends RoomWithin {

    private Path only(String file, String aircraft) throws Exception {
        try (Stream<Path> found = Files.walk(folder)) {
            for (Path each : found.filter(path -> path.endsWith(file)).toList()) {
                if (Files.readString(each.resolveSibling("attempt.json")).contains("\"" + aircraft + "\"")) {
                    return each;
                }
            }
        }
        throw new AssertionError("no " + file + " of " + aircraft);
    }

    @Test
    void aSimulatorStartedAgainAtAnotherPortGoesOnAtItsOwnSeatAndStandsInNoOtherRecording() throws Exception {
        try (Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5);
                Aircraft slow = new Aircraft("SLOW1", 38.4, 0.9)) {
            begins("BRAVO2", "Bo");
            begins("SLOW1", "Anna");
            Thread.sleep(1000);
            bravo.speaksFromAnotherPort();
            Thread.sleep(1800); // eighteen seconds of the clock
            assertThat(JSON.readTree(desk.board(INSTRUCTOR)).path("seats")).hasSize(2);
            for (String each : List.of("BRAVO2", "SLOW1")) {
                order("end", "{\"seat\":\"" + seat(each).path("id").asText() + "\"}");
                until(() -> seat(each).path("stage").asText().equals("ended"));
            }
            assertThat(slow.closed).isFalse();
        }
        room.close();
        assertThat(new String(Files.readAllBytes(only("flight.pcap", "SLOW1")), StandardCharsets.ISO_8859_1))
                .contains("SLOW1")
                .doesNotContain("BRAVO2");
        assertThat(Files.readString(only("log.jsonl", "SLOW1"))).doesNotContain("a second aircraft");
        String flown = new String(Files.readAllBytes(only("flight.pcap", "BRAVO2")), StandardCharsets.ISO_8859_1);
        // 27 s at 5 a second, less what the timers of a busy machine are late; without the silent part it would be 85.
        assertThat(flown.split("BRAVO2", -1).length).isGreaterThan(95);
        assertThat(times(flown))
                .as("none is lost where the port changed")
                .isSorted()
                .doesNotHaveDuplicates();
        List<Double> times = times(flown);
        for (int i = 1; i < times.size(); i++) {
            assertThat(times.get(i) - times.get(i - 1))
                    .as("after %s", times.get(i - 1))
                    .isLessThan(0.3);
        }
    }

    /** Its process ended, and another one sends from another port, at another place. */
    @ParameterizedTest
    @CsvSource({"BRAVO2, 15", "BRAVO2, 5", "'', 15", "'', 5"})
    void aSimulatorThatWasEndedAndStartedAgainElsewhereHasItsSeatBack(String callsign, int silentS) throws Exception {
        String label = callsign.isEmpty() ? "Seat 1" : callsign;
        try (Aircraft before = new Aircraft(callsign, 38.2, 5)) {
            begins(label, "Bo");
            assertThat(before.closed).isFalse();
        }
        String first = seat(label).path("attempt").asText();
        Thread.sleep(100L * silentS);
        try (Aircraft again = new Aircraft(callsign, 40.2, 5)) {
            until(() -> !seat(label).path("attempt").asText().equals(first));
            assertThat(again.closed).isFalse();
        }
        assertThat(seat(label).path("pilot").asText()).isEqualTo("Bo");
        assertThat(JSON.readTree(desk.board(INSTRUCTOR)).path("seats")).hasSize(1);
        until(() -> book.attempt(first).attempt().durationS().isPresent());
    }

    /** It says how many look at this seat, and no stream of the room that each page of it has beside. */
    @Test
    void aPageOfASeatIsOnePage() throws Exception {
        HttpClient browser = HttpClient.newHttpClient();
        try (Aircraft alfa = new Aircraft("ALFA1", 38.2, 5)) {
            begins("ALFA1", "Anna");
            List<Stream<String>> open = new ArrayList<>();
            for (String path : List.of("/stream/room", "/stream/s1")) {
                open.add(browser.send(
                                HttpRequest.newBuilder(URI.create(address() + path))
                                        .build(),
                                HttpResponse.BodyHandlers.ofLines())
                        .body());
            }
            String status = open.get(1)
                    .filter(line -> line.contains("\"k\":\"status\""))
                    .findFirst()
                    .orElseThrow();
            assertThat(status).contains("\"pages\":1,");
            assertThat(alfa.closed).isFalse();
        }
    }

    private static List<Double> times(String flown) {
        return Stream.of(flown.split("\"time_s\":", -1))
                .skip(1)
                .map(each -> Double.valueOf(each.substring(0, each.indexOf(','))))
                .toList();
    }

    @Test
    void aDrillFromHereIsFlownByWhoIsNamed() throws Exception {
        try (Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5)) {
            begins("BRAVO2", "Bo");
            String seat = "{\"seat\":\"" + seat("BRAVO2").path("id").asText() + "\"";
            order("end", seat + "}");
            until(() -> seat("BRAVO2").path("stage").asText().equals("ended"));
            assertThat(order("here", seat + ",\"pilot\":\"Zoe New\"}").ok()).isTrue();
            until(() -> seat("BRAVO2").path("stage").asText().equals("flying"));
            assertThat(seat("BRAVO2").path("pilot").asText()).isEqualTo("Zoe New");
            assertThat(bravo.closed).isFalse();
        }
    }

    /** Neither his own, of which the program knows no more, nor another's that was drawn since. */
    @Test
    void afterTheProgramWasStartedAgainADrillFromHereIsNotFlownAgain() throws Exception {
        drills("BRAVO2", "Bo", 38.2);
        close();
        open();
        drills("ALFA1", "Anna", 38.4);
        try (Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5)) {
            until(() -> seat("BRAVO2").path("pilot").asText().equals("Bo"));
            assertThat(order("again", "{\"seat\":\"" + seat("BRAVO2").path("id").asText() + "\"}")
                            .text())
                    .contains("cannot be flown again", "press Drill from here, or choose a lesson");
            assertThat(bravo.closed).isFalse();
        }
    }

    /** A drill from here, and the aircraft is closed. */
    private void drills(String label, String pilot, double northDeg) throws Exception {
        try (Aircraft aircraft = new Aircraft(label, northDeg, 5)) {
            until(() -> !seat(label).isMissingNode());
            String id = seat(label).path("id").asText();
            assertThat(order("here", "{\"seat\":\"" + id + "\",\"pilot\":\"" + pilot + "\"}")
                            .ok())
                    .isTrue();
            until(() -> seat(label).path("stage").asText().equals("flying"));
            assertThat(aircraft.closed).isFalse();
        }
    }

    /** By Rename on the page, and by "pilots rename" in another window. */
    @Test
    void aPilotWhoIsRenamedIsCalledSoAtHisSeatAndInWhatWasFlownAgain() throws Exception {
        try (Aircraft alfa = new Aircraft("ALFA1", 38.2, 5)) {
            begins("ALFA1", "Anna");
            Thread.sleep(500);
            String id = seat("ALFA1").path("attempt").asText();
            order("end", "{\"seat\":\"" + seat("ALFA1").path("id").asText() + "\"}");
            until(() -> book.attempt(id).grade().isPresent());
            until(() -> report(id).contains("Anna"));
            assertThat(order("rename", "{\"pilot\":\"Anna\",\"name\":\"Beatrix\"}")
                            .ok())
                    .isTrue();
            assertThat(report(id)).contains("Beatrix").doesNotContain("Anna");
            until(() -> seat("ALFA1").path("pilot").asText().equals("Beatrix"));
            try (RecordBook beside = new RecordBook(HomeFolder.existing(folder.resolve("home")), note -> {})) {
                beside.rename("Beatrix", "Cleo");
            }
            until(() -> seat("ALFA1").path("pilot").asText().equals("Cleo"));
            until(() -> report(id).contains("Cleo"));
            assertThat(alfa.closed).isFalse();
        }
    }

    private String report(String attempt) {
        return desk.ask(INSTRUCTOR, "attempt/" + attempt + "/report", Map.of(), Optional.empty())
                .text();
    }

    @Test
    void whoFliesAtAnotherSeatIsGivenNoDrillAtThisOne() throws Exception {
        try (Aircraft alfa = new Aircraft("ALFA1", 38.4, 5);
                Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5)) {
            begins("ALFA1", "Anna");
            until(() -> !seat("BRAVO2").isMissingNode());
            String seat = "{\"seat\":\"" + seat("BRAVO2").path("id").asText() + "\"";
            assertThat(order("here", seat + ",\"pilot\":\"anna\"}").text()).startsWith("Anna flies at ALFA1");
            assertThat(order("here", seat + ",\"pilot\":\"" + "x".repeat(81) + "\"}")
                            .text())
                    .contains("1 to 80 characters");
            assertThat(seat("BRAVO2").path("from_here").asText()).isEmpty();
            assertThat(alfa.closed.get() || bravo.closed.get()).isFalse();
        }
    }

    @Test
    void aDrillThatWaitsIsNotWantedAnyMoreInTheNextAttempt() throws Exception {
        try (Aircraft bravo = new Aircraft("BRAVO2", 38.2, 5)) {
            begins("BRAVO2", "Bo");
            String seat = "{\"seat\":\"" + seat("BRAVO2").path("id").asText() + "\"";
            order("here", seat + "}");
            until(() -> seat("BRAVO2").path("from_here").asText().contains("not complete yet"));
            String before = seat("BRAVO2").path("attempt").asText();
            order("again", seat + ",\"next\":true}");
            until(() -> !seat("BRAVO2").path("attempt").asText().equals(before));
            Thread.sleep(2500); // longer than between two looks
            assertThat(seat("BRAVO2").path("from_here").asText()).isEmpty();
            assertThat(bravo.closed).isFalse();
        }
    }
}
