package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
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
class SayCommandTest extends CommandsInTurn {

    @TempDir
    Path folder = Path.of("");

    @Test
    void aClearanceIsSaidIntoAFile() throws Exception {
        assumeTrue(
                Voice.of(Optional.empty(), Optional.empty(), SpeechOptions.searchPath())
                        .isPresent(),
                "no speech program on this machine");
        Path wav = folder.resolve("said.wav");
        done("say", "fly heading 110, intercept the PTL 066 radial, join V40", "--wav", wav.toString());
        assertThat(out.strip())
                .isEqualTo("fly heading one one zero, intercept the petrel zero six six radial, join victor forty");
        Sound clean = Sound.read(Files.readAllBytes(wav), 60);
        assertThat(clean.seconds()).isBetween(3.0, 20.0);
        refused("say", "say again", "--wav", wav.toString());
        assertThat(err).contains(wav + " exists already and is left as it is");
        String other = folder.resolve("other.wav").toString();
        done("say", "say again", "--wav", other, "--radio", "10");
        assertThat(err).contains("said word by word");
    }

    /** flite would speak with another voice, and say nothing of it. */
    @Test
    void aVoiceThatTheProgramDoesNotHaveIsRefused() throws Exception {
        for (String program : List.of("flite", "espeak-ng")) {
            if (Stream.of(SpeechOptions.searchPath().split(File.pathSeparator, -1))
                    .anyMatch(each -> Files.isExecutable(Path.of(each, program)))) {
                Path wav = folder.resolve(program + ".wav");
                refused("say", "say again", "--wav", wav.toString(), "--voice-program", program, "--voice", "nosuch");
                assertThat(err).contains("--voice nosuch is not a voice of ");
                assertThat(wav).doesNotExist();
            }
        }
        refused("room", "--home", folder + "/home", "--page", "0", "--voice", "nosuch");
    }

    @Test
    void aRoomRefusesWhatOtherCommandsRefuse() {
        refused("room", "--home", folder + "/home", "--page", "0", "--ask", "foo");
        assertThat(err).contains("--ask foo: no profile says what to send");
        refused("room", "--home", folder + "/home", "--page", "0", "--instructor", "");
        assertThat(err).contains("--instructor has no name");
    }

    @Test
    void aProgramThatIsNotKnownIsNotRun() {
        refused("say", "fly heading 110", "--wav", folder + "/x.wav", "--voice-program", "/bin/sh");
        assertThat(err).contains("/bin/sh is a program that is not known here; known are flite, espeak-ng");
        refused("say", "x", "--wav", folder + "/x.wav", "--voice-program", folder + "/flite");
        assertThat(err).contains("is not a program that can be run");
    }
}
