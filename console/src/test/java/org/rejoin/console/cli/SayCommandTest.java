package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.console.speech.Sound;
import org.rejoin.console.speech.Voice;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A clearance said into a file. */
class SayCommandTest {

    @TempDir
    Path folder = Path.of("");

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... args) {
        return Rejoin.run(new PrintWriter(out), new PrintWriter(err), args);
    }

    @Test
    void aClearanceIsSaidIntoAFile() throws Exception {
        assumeTrue(
                Voice.of(Optional.empty(), Optional.empty(), VoiceOptions.searchPath())
                        .isPresent(),
                "no speech program on this machine");
        Path wav = folder.resolve("said.wav");
        assertThat(run("say", "fly heading 110, intercept the PTL 066 radial, join V40", "--wav", wav.toString()))
                .as(err.toString())
                .isZero();
        assertThat(out.toString().strip())
                .isEqualTo("fly heading one one zero, intercept the petrel zero six six radial, join victor forty");
        Sound clean = Sound.read(Files.readAllBytes(wav), 60);
        assertThat(clean.seconds()).isBetween(3.0, 20.0);
        assertThat(run("say", "say again", "--wav", wav.toString())).isEqualTo(2);
        assertThat(err.toString()).contains(wav + " exists already and is left as it is");
        String other = folder.resolve("other.wav").toString();
        assertThat(run("say", "say again", "--wav", other, "--radio", "10")).isZero();
        assertThat(err.toString()).contains("said word by word");
    }

    /** flite would speak with another voice, and say nothing of it. */
    @Test
    void aVoiceThatTheProgramDoesNotHaveIsRefused() throws Exception {
        for (String program : List.of("flite", "espeak-ng")) {
            if (Stream.of(VoiceOptions.searchPath().split(File.pathSeparator, -1))
                    .anyMatch(each -> Files.isExecutable(Path.of(each, program)))) {
                Path wav = folder.resolve(program + ".wav");
                assertThat(run(
                                "say",
                                "say again",
                                "--wav",
                                wav.toString(),
                                "--voice-program",
                                program,
                                "--voice",
                                "nosuch"))
                        .isEqualTo(2);
                assertThat(err.toString()).contains("--voice nosuch is not a voice of ");
                assertThat(wav).doesNotExist();
            }
        }
        assertThat(run("room", "--home", folder + "/home", "--page", "0", "--voice", "nosuch"))
                .isEqualTo(2);
    }

    @Test
    void aRoomRefusesWhatOtherCommandsRefuse() {
        assertThat(run("room", "--home", folder + "/home", "--page", "0", "--ask", "foo"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("--ask foo: no profile says what to send");
        assertThat(run("room", "--home", folder + "/home", "--page", "0", "--instructor", ""))
                .isEqualTo(2);
        assertThat(err.toString()).contains("--instructor has no name");
    }

    @Test
    void aProgramThatIsNotKnownIsNotRun() {
        assertThat(run("say", "fly heading 110", "--wav", folder + "/x.wav", "--voice-program", "/bin/sh"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("/bin/sh is a program that is not known here; known are flite, espeak-ng");
        assertThat(run("say", "x", "--wav", folder + "/x.wav", "--voice-program", folder + "/flite"))
                .isEqualTo(2);
        assertThat(err.toString()).contains("is not a program that can be run");
    }
}
