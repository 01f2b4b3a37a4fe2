package org.rejoin.console.page;

import java.io.IOException;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.speech.Listener;
import org.rejoin.console.speech.PilotVoice;
import org.rejoin.console.speech.Sound;
import org.rejoin.console.words.CleanText;

/**
 * What was heard of a readback: the pilot sees his words and what was not clear, and may change them before anything counts.
 * Until then nothing tells him what ATC said, nor what is right. Waits for the recogniser.
 */
final class HeardAnswers {

    private final Listener listener;
    private final Optional<PageRoom> room;
    private final boolean keepsSound;

    HeardAnswers(Listener listener, Optional<PageRoom> room, boolean keepsSound) {
        this.listener = listener;
        this.keepsSound = keepsSound;
        this.room = room;
    }

    private static Listener.Expected expected(SpeechDesk.Place place, Entry.Issued issued) {
        return new Listener.Expected(
                place.show().lesson().chart(),
                place.show().lesson().filed(),
                issued.clearance(),
                place.seat().callsign());
    }

    /** A clearance of a flight, read back. */
    PageAnswer of(SpeechDesk.Place place, int number, Sound sound) throws PageAnswer.No, IOException {
        Entry.Issued issued = PageAnswer.found(place.seat().clearances().issued(number), SpeechDesk.NOT_ISSUED);
        Listener.Result result = listener.hear(place.seat().id(), sound, expected(place, issued), voice(place));
        place.seat()
                .clearances()
                .heard(number, new SeatClearances.Heard(result.words(), result.elements(), kept(sound)));
        return answer(result, sound);
    }

    private Optional<byte[]> kept(Sound sound) {
        return keepsSound ? Optional.of(sound.wav()) : Optional.empty();
    }

    /** Of the pilot who sits there, where one is known; else of the seat. */
    private PilotVoice voice(SpeechDesk.Place place) {
        return room.flatMap(known -> known.voice(place.show().name()))
                .orElse(place.seat().voice());
    }

    /** A drill without a flight, read back. */
    PageAnswer of(String id, PageRoom.Exercise exercise, Sound sound) throws IOException {
        Listener.Result result = listener.hear(
                id,
                sound,
                new Listener.Expected(
                        exercise.chart(), exercise.filed(), exercise.clearance(), Optional.of(exercise.callsign())),
                exercise.voice());
        exercise.heard().heard(result.words(), result.elements(), kept(sound));
        return answer(result, sound);
    }

    /** In the order of his words, not of the clearance, which would tell what is no part of it. */
    private static int place(String words, String found) {
        int at = found.isEmpty() ? -1 : words.toLowerCase(Locale.ROOT).indexOf(found.toLowerCase(Locale.ROOT));
        return at < 0 ? Integer.MAX_VALUE : at;
    }

    private record HeardElement(String element, String heard, String verdict, boolean must) {}

    private record Answer(String words, boolean doubt, List<HeardElement> elements, BigDecimal seconds) {}

    private record Calibrated(boolean ok, String sentence) {}

    private record Sentence(String sentence) {}

    private static PageAnswer answer(Listener.Result result, Sound sound) {
        List<HeardElement> heard = result.elements().stream()
                .filter(each -> each.verdict() != Readback.Verdict.MISSING)
                .sorted(Comparator.comparingInt(each -> place(result.words(), each.found())))
                .map(each -> new HeardElement(
                        Readback.called(each.what()),
                        CleanText.of(each.found()),
                        each.verdict() == Readback.Verdict.UNCLEAR ? "unclear" : "heard",
                        each.must()))
                .toList();
        return PageAnswer.json(Json.of(new Answer(
                CleanText.of(result.words()), result.doubt(), heard, JsonNumbers.rounded(sound.seconds(), 1))));
    }

    /** One sentence that is known tells how well a voice fits. */
    PageAnswer calibrated(SpeechDesk.Place place, Sound sound) throws IOException {
        Optional<PilotVoice> voice = listener.calibrate(place.seat().id(), sound);
        voice.ifPresent(learnt -> {
            place.seat().voice(learnt);
            room.ifPresent(known -> known.keepVoice(place.show().name(), learnt));
        });
        return PageAnswer.json(Json.of(new Calibrated(voice.isPresent(), Listener.KNOWN_SENTENCE)));
    }

    /** The known sentence. */
    static PageAnswer sentence() {
        return PageAnswer.json(Json.of(new Sentence(Listener.KNOWN_SENTENCE)));
    }
}
