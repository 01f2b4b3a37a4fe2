package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.Optional;

import org.rejoin.console.speech.Listener;
import org.rejoin.console.speech.Recogniser;
import org.rejoin.console.speech.Speaker;
import org.rejoin.console.speech.Speech;
import org.rejoin.console.speech.Voice;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** How clearances are spoken and readbacks heard, by programs of this machine. */
final class SpeechOptions {

    @Mixin
    ToSay voice = new ToSay();

    @Option(
            names = "--hear",
            description = "Hear readbacks that the pilot speaks at his page, with the recogniser of your machine (off"
                    + " unless you ask for it; no sound leaves the machine, and it is deleted once it was heard).")
    boolean hear;

    @Option(
            names = "--hear-program",
            paramLabel = "PROGRAM",
            description =
                    "The recogniser of --hear: pocketsphinx_batch, by name or file (default: the one that is installed).")
    @Nullable
    String hearProgram;

    @Option(
            names = "--hear-model",
            paramLabel = "DIR",
            description =
                    "Folder of the recogniser's English model, with en-us and cmudict-en-us.dict (default: where Debian has it).")
    @Nullable
    Path hearModel;

    @Option(
            names = "--keep-sound",
            description = "Keep the sound of each readback that counts, in the folder of its flight or drill"
                    + " (readback-CLEARANCE-N.wav).")
    boolean keepSound;

    /** What this machine can say and hear. */
    Speech speech(CommandSpec spec) throws BadInput {
        if (!hear && (hearProgram != null || hearModel != null || keepSound)) {
            throw AnyCommand.bad(spec, "--hear-program, --hear-model and --keep-sound are for hearing: add --hear");
        }
        Optional<Listener> listener = hear
                ? Optional.of(BadInput.in(() -> new Listener(
                        Recogniser.of(Optional.ofNullable(hearProgram), Optional.ofNullable(hearModel), searchPath()),
                        searchPath())))
                : Optional.empty();
        return new Speech(voice.speaker(spec), listener, voice.wordsAMinute, keepSound);
    }

    static String searchPath() {
        return Optional.ofNullable(System.getenv("PATH")).orElse("");
    }

    /** How clearances are spoken. */
    static final class ToSay {

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
                description = "A voice of the program that speaks (default: slt of flite, en-us of espeak-ng).")
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
            return BadInput.in(
                            () -> Voice.of(Optional.ofNullable(voiceProgram), Optional.ofNullable(voice), searchPath()))
                    .map(Speaker::new);
        }
    }
}
