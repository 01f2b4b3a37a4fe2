package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Ctrl-C and TERM, by which a flight into the record book usually ends: its attempt is closed before the program is. */
@Timeout(value = 2, unit = TimeUnit.MINUTES)
class InterruptedFlightTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    /** As by Ctrl-C, which a program begun in the background may be told to ignore. */
    private static void interrupt(RealProgram program) throws Exception {
        assumeTrue(Files.isExecutable(Path.of("/bin/kill")), "no kill on this machine");
        String process = String.valueOf(program.process().pid());
        assertThat(new ProcessBuilder("/bin/kill", "-TERM", process).start().waitFor())
                .isZero();
        assertThat(program.awaitEnd()).as(program.said()).isZero();
        assertThat(program.said()).doesNotContain("rejoin: unexpected");
    }

    private List<Path> attempts(Path home) throws Exception {
        try (Stream<Path> all = Files.walk(home.resolve("attempts"))) {
            return all.filter(each -> String.valueOf(each.getFileName()).equals("attempt.json"))
                    .toList();
        }
    }

    private void isClosed(Path home) throws Exception {
        assertThat(attempts(home)).hasSize(1);
        Path kept = attempts(home).get(0);
        JsonNode attempt = JSON.readTree(kept.toFile());
        assertThat(attempt.path("duration_s").asDouble()).isGreaterThan(5);
        assertThat(attempt.path("aircraft").asText()).isNotEmpty();
        assertThat(attempt.has("clearances")).isTrue();
        assertThat(kept.resolveSibling("grade.json")).exists();
    }

    @Test
    void aFlightOfThePracticeAircraft() throws Exception {
        Path home = folder.resolve("home");
        try (RealProgram program = RealProgram.start(
                folder, "fly", "heading-to-airway", "--rate", "20", "--as", "Tim", "--home", home.toString())) {
            // The clearance of its 30th second.
            program.awaitSaid("0:3");
            Thread.sleep(500);
            interrupt(program);
        }
        isClosed(home);
    }

    @Test
    void aFlightOfASimulator() throws Exception {
        Path home = folder.resolve("home");
        String[] more = {"heading-to-airway", "--as", "Lia", "--home", home.toString()};
        List<byte[]> flight = RealProgram.flight();
        try (RealProgram program = RealProgram.listen(folder, more)) {
            for (byte[] each : flight.subList(0, 60)) {
                program.send(each);
                Thread.sleep(5);
            }
            program.awaitSaid("0:3");
            interrupt(program);
        }
        isClosed(home);
    }

    @Test
    void aFlightThatEndsBecauseItsClearanceCannotBeIssuedHasNotGoneWell() throws Exception {
        Path lesson = HoldBehind.lesson(folder);
        Path home = folder.resolve("home");
        for (List<String> more : List.of(List.<String>of(), List.of("--home", home.toString(), "--as", "Ann"))) {
            List<String> fly = new ArrayList<>(List.of("fly", lesson.toString()));
            fly.addAll(more);
            try (RealProgram program = RealProgram.start(folder, fly.toArray(String[]::new))) {
                assertThat(program.awaitEnd()).as(program.said()).isEqualTo(2);
                assertThat(program.said())
                        .contains("cannot be issued where it is due, after 10 s")
                        .doesNotContain("CANNOT_BE_WORKED_OUT");
            }
        }
        assertThat(attempts(home)).hasSize(1);
        assertThat(attempts(home).get(0).resolveSibling("grade.json"))
                .as("what was flown until then is closed")
                .exists();
    }

    @Test
    void nothingIsLeftOfAFlightThatNobodyFlew() throws Exception {
        Path home = folder.resolve("home");
        String[] more = {"heading-to-airway", "--as", "Lia", "--home", home.toString()};
        try (RealProgram program = RealProgram.listen(folder, more)) {
            interrupt(program);
        }
        assertThat(attempts(home)).isEmpty();
    }
}
