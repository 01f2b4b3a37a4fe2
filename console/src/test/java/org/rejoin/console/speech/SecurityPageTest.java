package org.rejoin.console.speech;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;

import org.junit.jupiter.api.Test;

/** The page on security says with which arguments each program is run, and no other are. */
class SecurityPageTest {

    private static final Path PROGRAM = Path.of("/opt/a");
    private static final Path FOLDER = Path.of("/sounds");

    private static String arguments(List<String> command) {
        assertThat(command.get(0)).isEqualTo(PROGRAM.toString());
        return command.stream().skip(1).collect(Collectors.joining(" "));
    }

    @Test
    void everyArgumentStandsThere() throws Exception {
        String page = Files.readString(Path.of("docs", "security.md"));
        String model = Path.of("/opt/m/en-us").toString();
        assertThat(page)
                .contains("`"
                        + arguments(new Recogniser(PROGRAM, Path.of("/opt/m")).command(FOLDER, 0.94))
                                .replace("0.94", "N")
                                .replace(model, "DIR")
                                .replaceAll("/sounds/\\w+(\\.\\w+)?", "FILE")
                                .replace(FOLDER.toString(), "DIR")
                        + "`");
        Path wav = FOLDER.resolve("said.wav");
        assertThat(page)
                .contains("`"
                        + arguments(new Voice(Voice.Kind.FLITE, PROGRAM, "slt").command("words", 130, wav))
                                .replace("slt", "NAME")
                                .replaceAll("=[\\d.]+", "=N")
                                .replace("words", "WORDS")
                                .replace(wav.toString(), "FILE")
                        + "`");
        assertThat(page)
                .contains("`"
                        + arguments(new Voice(Voice.Kind.ESPEAK_NG, PROGRAM, "en-us").command("words", 130, wav))
                                .replace("en-us", "NAME")
                                .replaceAll("-s \\d+", "-s N")
                                .replace(wav.toString(), "FILE")
                        + "`");
        for (String program : List.of("flite", "espeak-ng")) {
            assertThat(page)
                    .contains("`"
                            + LetterSounds.command(Path.of("/opt", program), "skua").stream()
                                    .skip(1)
                                    .collect(Collectors.joining(" "))
                                    .replace("skua", "WORD")
                            + "`");
        }
    }
}
