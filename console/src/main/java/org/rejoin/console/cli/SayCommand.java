package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.RadioSound;
import org.rejoin.console.speech.Sound;
import org.rejoin.console.speech.Speaker;
import org.rejoin.console.speech.Voice;
import org.rejoin.console.words.CleanText;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code say}: a clearance as sound, in a file. */
@Command(
        name = "say",
        description =
                "Say a clearance with the speech program of this machine, as a controller would, into a WAV file.")
final class SayCommand extends AnyCommand.Verbose {

    @Parameters(paramLabel = "CLEARANCE", description = "In ATC's words, as \"fly heading 110, intercept V40\".")
    String clearance = "";

    @Option(names = "--wav", required = true, paramLabel = "FILE", description = "Write the sound into this file.")
    Path wav = Path.of("");

    @Mixin
    SpeechOptions.ToSay voice = new SpeechOptions.ToSay();

    @Option(
            names = "--radio",
            paramLabel = "DB",
            description = "As through a radio, the voice so many decibels over the noise: 20 loud and clear, 10 hard.")
    @Nullable
    Double radio;

    @Option(
            names = "--lesson",
            paramLabel = "LESSON",
            description = "Names and airways are those of this lesson's chart (default: the first built-in lesson).")
    String lesson = BuiltInLesson.RADIAL_OUTBOUND.lessonName();

    @Option(
            names = "--seed",
            paramLabel = "N",
            description = "Seed of the radio's noise: the same one gives the same sound (default: 0).")
    long seed;

    @Override
    public Integer call() throws BadInput, IOException, LessonException {
        Double db = radio;
        if (db != null && !(db >= 0 && db <= 60)) {
            throw outside("--radio", db, "0 to 60");
        }
        Speaker speaker = voice.speaker(spec)
                .orElseThrow(() -> new BadInput("this machine has no speech program: " + Voice.INSTALL));
        String words = words();
        if (words.isEmpty()) {
            throw new BadInput("there is nothing to say in \"" + clearance + "\"");
        }
        Sound clean = BadInput.in(() -> speaker.say(words, voice.wordsAMinute));
        Sound sound = db == null ? clean : RadioSound.of(clean, db, seed);
        OutputFile.write("--wav", wav, sound.wav());
        out().println(words);
        return Rejoin.DONE;
    }

    /** What is no clearance is said word by word. */
    private String words() throws LessonException {
        Lesson on = LessonReader.read(lesson);
        try {
            return Aloud.of(ClearanceReader.read(clearance, on.chart(), on.filed()), Optional.empty(), on.chart());
        } catch (ClearanceException e) {
            err().println("rejoin: said word by word, since it is no clearance of this lesson's chart: "
                    + CleanText.line(String.valueOf(e.getMessage())));
            return Aloud.words(clearance);
        }
    }
}
