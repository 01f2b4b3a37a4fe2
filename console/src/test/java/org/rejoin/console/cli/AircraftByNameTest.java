package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Aircraft are asked for by the names that they send, and by those that the program prints. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class AircraftByNameTest {

    @TempDir
    private Path folder;

    /** Two entities of one DIS sender with the same marking; the entity's number stands at octets 16 and 17. */
    private static List<byte[]> twoAircraft() throws Exception {
        List<byte[]> sent = new ArrayList<>();
        WireFormat.Encoder encoder = new DisFormat().newEncoder();
        new PracticeFlight(LessonReader.read("heading-to-airway"), LocalDate.of(2026, 6, 1), Habit.GOOD)
                .fly(
                        1,
                        state -> encoder.encode(state).forEach(pdu -> {
                            for (short entity = 7; entity <= 8; entity++) {
                                sent.add(ByteBuffer.wrap(pdu.clone())
                                        .putShort(16, entity)
                                        .array());
                            }
                        }));
        return sent.subList(0, 400);
    }

    private RealProgram flown(Path recording, String... aircraft) throws Exception {
        List<String> more = new ArrayList<>(List.of("heading-to-airway", "--idle", "1", "--out", recording.toString()));
        more.addAll(List.of(aircraft));
        List<byte[]> flight = twoAircraft();
        RealProgram program = RealProgram.listen(folder, more.toArray(String[]::new));
        program.send(flight);
        program.awaitEnd();
        return program;
    }

    private static String debrief(Path recording, String... more) {
        List<String> args = new ArrayList<>(List.of("debrief", recording.toString()));
        args.addAll(List.of(more));
        Ran ran = Ran.run(args.toArray(String[]::new));
        return ran.exit() + " " + ran.out() + ran.err();
    }

    @Test
    void whoWasHeardIsSaidWhenTheOneAskedForIsNot() throws Exception {
        Path recording = folder.resolve("nope");
        try (RealProgram program = flown(recording, "--aircraft", "NOPE")) {
            assertThat(program.process().exitValue()).isEqualTo(1);
            assertThat(program.said())
                    .contains("no aircraft goes by the name of NOPE; heard were REJOIN1, REJOIN1 2: nothing to grade");
        }
        assertThat(debrief(recording))
                .startsWith("2 ")
                .contains("no aircraft goes by the name of NOPE; heard were REJOIN1, REJOIN1 2");
        // One that is printed is accepted, and so is every other name of the same aircraft.
        assertThat(debrief(recording, "--aircraft", "REJOIN1 2"))
                .startsWith("0 ")
                .contains("SCORE");
        assertThat(debrief(recording, "--aircraft", "rejoin1 2", "--aircraft", "NOPE"))
                .startsWith("0 ")
                .contains("no aircraft goes by the name of NOPE; heard were REJOIN1");
    }

    @Test
    void theNameThatIsPrintedIsAccepted() throws Exception {
        Path recording = folder.resolve("second");
        try (RealProgram program = flown(recording, "--aircraft", "REJOIN1 2")) {
            assertThat(program.process().exitValue()).as(program.said()).isZero();
            assertThat(program.said()).contains("SCORE").doesNotContain("goes by the name");
        }
        assertThat(debrief(recording)).startsWith("0 ").contains("SCORE");
    }
}
