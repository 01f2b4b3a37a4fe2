package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The real program takes its page's token from where no other user of the machine can read it. */
@Timeout(value = 60, unit = TimeUnit.SECONDS)
class PageTokenTest {

    private static final String TOKEN = "correct-horse-battery";

    @TempDir
    private Path folder;

    private String said(Map<String, String> environment, String... more) throws Exception {
        List<String> args = new ArrayList<>(List.of(
                "listen", "heading-to-airway", "--port", "0", "--idle", "0.2", "--page", "0", "--page-linger", "0"));
        args.addAll(List.of(more));
        try (RealProgram program = RealProgram.start(folder, 0, List.of(), environment, args)) {
            program.awaitEnd();
            return program.said();
        }
    }

    @Test
    void fromTheEnvironmentOrAFile() throws Exception {
        Path file = Files.writeString(folder.resolve("token"), "  " + TOKEN + "\r\nsecond line\n");
        assertThat(said(Map.of("REJOIN_PAGE_TOKEN", TOKEN))).contains("/enter#" + TOKEN);
        assertThat(said(Map.of("REJOIN_PAGE_TOKEN", "another-one-altogether"), "--page-token-file", file.toString()))
                .contains("/enter#" + TOKEN)
                .doesNotContain("another-one");
    }

    @Test
    void aFileThatWillNotDoGivesOneLine() throws Exception {
        Path empty = Files.createFile(folder.resolve("empty"));
        for (Path file : List.of(empty, folder.resolve("none"), folder)) {
            assertThat(said(Map.of(), "--page-token-file", file.toString()))
                    .startsWith("rejoin: --page-token-file " + file)
                    .hasLineCount(1);
        }
        Path shortOne = Files.writeString(folder.resolve("short"), "abc");
        assertThat(said(Map.of(), "--page-token-file", shortOne.toString())).contains("it needs 12 or more");
    }
}
