package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** After the lesson the real program goes on speaking, and a debrief of the recording has what it spoke. */
@Timeout(value = 3, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class ListenDrillsTest {

    @TempDir
    private Path folder;

    @Test
    void afterTheLessonTheNextClearanceIsSpokenInTheSameFlightAndKept() throws Exception {
        Path out = folder.resolve("out");
        try (RealProgram program =
                RealProgram.listen(folder, "heading-to-airway", "--drills", "1", "--out", out.toString())) {
            try (Simulator simulator =
                    new Simulator(program.port(), 100).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
                Path kept = out.resolve("spoken.jsonl");
                await().atMost(Duration.ofSeconds(60))
                        .pollInterval(Duration.ofMillis(200))
                        .until(() ->
                                Files.exists(kept) && Files.readString(kept).contains("fly heading"));
                assertThat(program.said()).contains("fly heading");
            }
        }
    }
}
