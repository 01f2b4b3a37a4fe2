package org.rejoin.console.recording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What the instructor said survives a crash in the middle of a line, wherever that is. */
class InstructorFileTest {

    private static final InstructorFile.Spoken FIRST =
            new InstructorFile.Spoken(12.25, "127.0.0.1:4001 REJOIN", "direct FUL", OptionalDouble.of(5_000));
    private static final InstructorFile.Spoken SECOND = new InstructorFile.Spoken(
            80, "127.0.0.1:4001 \u00e9\ud83d\udee9", "join \"V40\"\nto FUL", OptionalDouble.empty());
    private static final InstructorFile.Remark NOTED =
            new InstructorFile.Remark(90.5, "b", "\u00fcber \u0007 the line");

    @TempDir
    private Path folder;

    private InstructorFile file;

    @BeforeEach
    void make() {
        file = new InstructorFile(folder);
    }

    @Test
    void whatIsKeptIsReadAgain() throws Exception {
        file.keep(FIRST);
        file.keep(SECOND);
        file.keep(NOTED);
        assertThat(file.read()).isEqualTo(new Said(List.of(FIRST, SECOND), List.of(NOTED), List.of(), List.of()));
        assertThat(file.read().to("b")).isEqualTo(new Said(List.of(), List.of(NOTED), List.of(), List.of()));
    }

    @Test
    void soundThatIsKeptLiesBesideTheReadbacksAndWritesOverNothing() throws Exception {
        Files.writeString(folder.resolve("readback-2-1.wav"), "the user's own");
        file.keep(new InstructorFile.Sound(2, new byte[] {1, 2}));
        file.keep(new InstructorFile.Sound(2, new byte[] {3}));
        assertThat(folder.resolve("readback-2-1.wav")).hasContent("the user's own");
        assertThat(folder.resolve("readback-2-2.wav")).hasBinaryContent(new byte[] {1, 2});
        assertThat(folder.resolve("readback-2-3.wav")).hasBinaryContent(new byte[] {3});
    }

    @Test
    void aLineTornAtAnyOctetIsLeftOutAndWrittenOver() throws Exception {
        Path spoken = folder.resolve("spoken.jsonl");
        file.keep(FIRST);
        long whole = Files.size(spoken);
        file.keep(SECOND);
        byte[] octets = Files.readAllBytes(spoken);
        for (int length = (int) whole; length < octets.length; length++) {
            Files.write(spoken, Arrays.copyOf(octets, length));
            assertThat(file.read().spoken()).as("torn at %d", length).containsExactly(FIRST);
            file.keep(SECOND);
            assertThat(file.read().spoken()).as("torn at %d", length).containsExactly(FIRST, SECOND);
            assertThat(Files.readAllBytes(spoken)).isEqualTo(octets);
        }
    }

    @Test
    void aFirstLineThatIsTornLeavesNothing() throws Exception {
        Path remarks = folder.resolve("remarks.jsonl");
        file.keep(NOTED);
        byte[] octets = Files.readAllBytes(remarks);
        for (int length = 0; length < octets.length; length++) {
            Files.write(remarks, Arrays.copyOf(octets, length));
            assertThat(file.read().remarks()).isEmpty();
            file.keep(NOTED);
            assertThat(file.read().remarks()).containsExactly(NOTED);
        }
    }

    @Test
    void aTornLineThatIsLongerThanTheNextLeavesNothingBehindIt() throws Exception {
        Path spoken = folder.resolve("spoken.jsonl");
        Files.writeString(spoken, "{\"elapsed_s\": 1, \"seat\": \"" + "x".repeat(10_000));
        file.keep(FIRST);
        assertThat(file.read().spoken()).containsExactly(FIRST);
        assertThat(Files.readString(spoken)).hasLineCount(1).endsWith("\n").doesNotContain("xx");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "nothing",
                "[]",
                "{}",
                "{\"elapsed_s\": \"1\", \"seat\": \"a\", \"say\": \"b\"}",
                "{\"elapsed_s\": -1, \"seat\": \"a\", \"say\": \"b\"}",
                "{\"elapsed_s\": 1e999, \"seat\": \"a\", \"say\": \"b\"}",
                "{\"elapsed_s\": 1, \"seat\": \"a\", \"text\": \"b\"}"
            })
    void aWholeLineThatIsNoneOfOursIsNamed(String line) throws Exception {
        file.keep(FIRST);
        Files.write(
                folder.resolve("spoken.jsonl"),
                List.of(Files.readString(folder.resolve("spoken.jsonl")).strip(), line),
                StandardCharsets.UTF_8);
        assertThatThrownBy(() -> file.read())
                .isInstanceOf(IOException.class)
                .hasMessageContaining("spoken.jsonl line 2 is not {\"elapsed_s\": 0 or more");
    }

    /** What could not be read again is not written: one such line would make the whole recording unreadable. */
    @ParameterizedTest
    @ValueSource(doubles = {-5, Double.NaN, Double.POSITIVE_INFINITY})
    void aTimeThatIsNoneIsNotKept(double elapsedS) throws Exception {
        assertThatThrownBy(() -> file.keep(new InstructorFile.Remark(elapsedS, "", "too early")))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("0 or more");
        assertThat(file.read().remarks()).isEmpty();
    }
}
