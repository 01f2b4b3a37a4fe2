package org.rejoin.console.cli;

import java.util.Optional;

import org.rejoin.console.speech.Speaker;
import org.rejoin.console.speech.Voice;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** How clearances are spoken, by a program of this machine. */
final class VoiceOptions {

    @Option(
            names = "--voice-program",
            paramLabel = "PROGRAM",
            description = "Speak clearances with this program of your machine: flite or espeak-ng, by name or file"
                    + " (default: the first of them that is installed).")
    @Nullable
    String voiceProgram;

    @Option(
            names = "--voice",
            paramLabel = "NAME",
            description = "A voice of that program (default: slt of flite, en-us of espeak-ng).")
    @Nullable
    String voice;

    @Option(
            names = "--words-a-minute",
            paramLabel = "N",
            description = "How fast clearances are spoken, " + Speaker.SLOWEST + " to " + Speaker.FASTEST
                    + " words a minute (default: " + Speaker.USUAL + ").")
    int wordsAMinute = Speaker.USUAL;

    /** The speech program; empty where none was named and none is installed. */
    Optional<Speaker> speaker(CommandSpec spec) throws BadInput {
        if (wordsAMinute < Speaker.SLOWEST || wordsAMinute > Speaker.FASTEST) {
            throw AnyCommand.bad(
                    spec,
                    "--words-a-minute " + wordsAMinute + ": " + Speaker.SLOWEST + " to " + Speaker.FASTEST
                            + " would be right");
        }
        return BadInput.in(() -> Voice.of(Optional.ofNullable(voiceProgram), Optional.ofNullable(voice), searchPath()))
                .map(Speaker::new);
    }

    static String searchPath() {
        return Optional.ofNullable(System.getenv("PATH")).orElse("");
    }
}
