package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.Optional;

import org.rejoin.console.speech.Listener;
import org.rejoin.console.speech.Recogniser;
import org.rejoin.console.speech.Speech;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** How clearances are spoken and readbacks heard, by programs of this machine. */
final class SpeechOptions {

    @Mixin
    VoiceOptions voice = new VoiceOptions();

    @Option(
            names = "--hear",
            description = "Hear readbacks that the pilot speaks at his page, with the recogniser of your machine (off"
                    + " unless you ask for it; no sound leaves the machine, and it is deleted once it was heard).")
    boolean hear;

    @Option(
            names = "--hear-program",
            paramLabel = "PROGRAM",
            description = "That recogniser: pocketsphinx_batch, by name or file (default: the one that is installed).")
    @Nullable
    String hearProgram;

    @Option(
            names = "--hear-model",
            paramLabel = "DIR",
            description =
                    "Folder of its English model, with en-us and cmudict-en-us.dict (default: where Debian has it).")
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
                        Recogniser.of(
                                Optional.ofNullable(hearProgram),
                                Optional.ofNullable(hearModel),
                                VoiceOptions.searchPath()),
                        VoiceOptions.searchPath())))
                : Optional.empty();
        return new Speech(voice.speaker(spec), listener, voice.wordsAMinute, keepSound);
    }
}
