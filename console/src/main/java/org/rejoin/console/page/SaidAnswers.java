package org.rejoin.console.page;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.RadioSound;
import org.rejoin.console.speech.Sound;
import org.rejoin.console.speech.Speaker;

import io.netty.handler.codec.http.HttpResponseStatus;

/** Clearances as the controller says them, as sound. Waits for the speech program. */
final class SaidAnswers {

    private final Speaker speaker;
    private final int usual;

    /** By this program, so many words a minute where none are asked for. */
    SaidAnswers(Speaker speaker, int usual) {
        this.speaker = speaker;
        this.usual = usual;
    }

    private static PageAnswer wav(Sound sound) {
        return new PageAnswer(HttpResponseStatus.OK, "audio/wav", sound.wav());
    }

    private int pace(Map<String, String> query) throws PageAnswer.No {
        int wordsAMinute = SpeechDesk.number(query, "wpm").orElse(usual);
        if (wordsAMinute < Speaker.SLOWEST || wordsAMinute > Speaker.FASTEST) {
            throw new PageAnswer.No(
                    HttpResponseStatus.BAD_REQUEST,
                    "wpm is " + Speaker.SLOWEST + " to " + Speaker.FASTEST + " words a minute");
        }
        return wordsAMinute;
    }

    /** A drill without a flight. */
    PageAnswer of(PageRoom.Exercise exercise, Map<String, String> query) throws PageAnswer.No, IOException {
        String words = Aloud.of(exercise.clearance(), Optional.of(exercise.callsign()), exercise.chart());
        return wav(speaker.say(words, pace(query)));
    }

    /** A clearance of a seat, or the words that took one back. */
    PageAnswer of(SpeechDesk.Place place, Map<String, String> query) throws PageAnswer.No, IOException {
        int wordsAMinute = pace(query);
        Optional<Integer> takenBack = SpeechDesk.number(query, "disregard");
        if (takenBack.isPresent()) {
            String words = place.seat()
                    .clearances()
                    .disregarded(takenBack.get())
                    .orElseThrow(
                            () -> new PageAnswer.No(HttpResponseStatus.NOT_FOUND, "no such clearance was taken back"));
            return wav(speaker.say(words, wordsAMinute));
        }
        Entry.Issued issued = place.seat()
                .clearances()
                .issued(SpeechDesk.number(query, "clearance").orElse(0))
                .orElseThrow(() -> new PageAnswer.No(HttpResponseStatus.NOT_FOUND, "no such clearance was issued"));
        Sound clean = speaker.say(
                Aloud.of(
                        issued.clearance(),
                        place.seat().callsign(),
                        place.show().lesson().chart()),
                wordsAMinute);
        Optional<Lesson.Radio> radio = place.show().lesson().radio();
        return wav(
                radio.isPresent() && query.getOrDefault("radio", "").equals("true")
                        ? RadioSound.of(
                                clean,
                                radio.get().voiceOverNoiseDb(),
                                radio.get().seed() + place.seat().clearances().numberOf(issued))
                        : clean);
    }
}
