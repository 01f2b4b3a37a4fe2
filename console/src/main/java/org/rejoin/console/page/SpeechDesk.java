package org.rejoin.console.page;

import java.io.IOException;
import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.Listener;
import org.rejoin.console.speech.PilotVoice;
import org.rejoin.console.speech.RadioSound;
import org.rejoin.console.speech.Sound;
import org.rejoin.console.speech.Speaker;
import org.rejoin.console.speech.Speech;
import org.rejoin.console.speech.Voice;
import org.rejoin.console.words.CleanText;

import io.netty.handler.codec.http.HttpResponseStatus;
import org.jspecify.annotations.Nullable;

/**
 * Answers {@code /api/speech}: what this machine can say and hear, clearances as sound, and what was heard of a readback: the
 * pilot sees his words and what was not clear, and may change them before anything counts. Until then nothing tells him what
 * ATC said, nor what is right. Works on threads of its own, since it waits for programs.
 */
final class SpeechDesk implements AutoCloseable {

    static final String PATH = "/api/speech";

    /** Sound of twenty seconds has 640 kB at 16,000 samples a second. */
    static final int MOST_SOUND = 1_048_576;

    private static final String HEARD = PATH + "/heard";
    private static final String CALIBRATE = PATH + "/calibrate";
    /** Where a seat is another pilot's, or nobody can tell whose it is. */
    static final String NOT_YOURS =
            "not your seat: where several aircraft are flown on one page, the instructor alone speaks for them";

    private static final String NOT_ISSUED = "no such clearance was issued";

    private static final int MOST_WAITING = 32;
    private static final long MOST_CLOSING_S = 2;

    private final Speech speech;
    private final PageServer server;
    private final Optional<PageRoom> room;
    private final PageWork work = new PageWork("page-speech", 2, MOST_WAITING);

    /** A seat, and the show that takes orders for it. */
    record Place(PageShow show, SeatPage seat) {}

    SpeechDesk(Speech speech, PageServer server, Optional<PageRoom> room) {
        this.speech = speech;
        this.server = server;
        this.room = room;
    }

    /** The threads that wait for programs. */
    PageWork work() {
        return work;
    }

    /** A question; waits for a program where it must. */
    PageRoom.Answer asked(PageRoom.Asker asker, String path, Map<String, String> query) {
        return answered(() -> switch (path) {
            case PATH -> PageRoom.Answer.json(able());
            case PATH + "/said" -> said(asker, query);
            case CALIBRATE -> PageRoom.Answer.json(Json.of(new Sentence(Listener.KNOWN_SENTENCE)));
            default -> PageRoom.Answer.unknown("nothing of that name can be asked");
        });
    }

    /** A question that cannot be answered; why in one line. */
    private static final class No extends Exception {
        private static final long serialVersionUID = 1;

        private final transient HttpResponseStatus status;

        No(HttpResponseStatus status, String why) {
            super(why);
            this.status = status;
        }
    }

    /** What is asked of; else the question cannot be answered, and why. */
    private static <T> T found(Optional<T> asked, String why) throws No {
        return asked.orElseThrow(() -> new No(HttpResponseStatus.NOT_FOUND, why));
    }

    private interface Work {
        PageRoom.Answer done() throws No, IOException;
    }

    private static PageRoom.Answer answered(Work work) {
        try {
            return work.done();
        } catch (No e) {
            return PageRoom.Answer.not(e.status, String.valueOf(e.getMessage()));
        } catch (IOException e) {
            return PageRoom.Answer.not(HttpResponseStatus.SERVICE_UNAVAILABLE, String.valueOf(e.getMessage()));
        }
    }

    /** Sound that was sent; waits for a program. Nothing counts by it yet. */
    PageRoom.Answer heard(PageRoom.Asker asker, String path, Map<String, String> query, byte[] wav) {
        return answered(() -> {
            Listener listener = found(speech.listener(), "this program was not started to hear (--hear)");
            Sound sound = sound(wav);
            if (path.equals(HEARD) && query.containsKey("exercise")) {
                return heard(listener, query.get("exercise"), exercise(asker, query), sound);
            }
            Place place = place(asker, query);
            return switch (path) {
                case HEARD -> {
                    PageRoom.Exercise issued =
                            issued(place, number(query, "clearance").orElse(0));
                    yield heard(listener, place.seat().id(), issued, sound);
                }
                case CALIBRATE -> calibrated(listener, place, sound);
                default -> PageRoom.Answer.unknown("nothing of that name takes sound");
            };
        });
    }

    /** A clearance of a flight, to be read back. */
    private PageRoom.Exercise issued(Place place, int number) throws No {
        SeatClearances clearances = place.seat().clearances();
        Lesson lesson = place.show().lesson();
        return new PageRoom.Exercise(
                found(clearances.issued(number), NOT_ISSUED).clearance(),
                place.seat().callsign(),
                lesson.chart(),
                lesson.filed(),
                voice(place),
                heard -> clearances.heard(number, heard));
    }

    private PageRoom.Answer heard(Listener listener, String id, PageRoom.Exercise exercise, Sound sound)
            throws IOException {
        Listener.Result result = listener.hear(
                id,
                sound,
                new Listener.Expected(exercise.chart(), exercise.filed(), exercise.clearance(), exercise.callsign()),
                exercise.voice());
        Optional<byte[]> kept = speech.keepsSound() ? Optional.of(sound.wav()) : Optional.empty();
        exercise.told().accept(new PageRoom.Heard(result.words(), result.elements(), kept));
        return answer(result, sound);
    }

    /** Of the pilot who sits there, where one is known; else of the seat. */
    private PilotVoice voice(Place place) {
        return room.flatMap(known -> known.voice(place.show().name()))
                .orElse(place.seat().voice());
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

    private static PageRoom.Answer answer(Listener.Result result, Sound sound) {
        List<HeardElement> heard = result.elements().stream()
                .filter(each -> each.verdict() != Readback.Verdict.MISSING)
                .sorted(Comparator.comparingInt(each -> place(result.words(), each.found())))
                .map(each -> new HeardElement(
                        Readback.called(each.what()),
                        CleanText.of(each.found()),
                        each.verdict() == Readback.Verdict.UNCLEAR ? "unclear" : "heard",
                        each.must()))
                .toList();
        return PageRoom.Answer.json(Json.of(new Answer(
                CleanText.of(result.words()), result.doubt(), heard, JsonNumbers.rounded(sound.seconds(), 1))));
    }

    /** One sentence that is known tells how well a voice fits. */
    private PageRoom.Answer calibrated(Listener listener, Place place, Sound sound) throws IOException {
        Optional<PilotVoice> voice = listener.calibrate(place.seat().id(), sound);
        voice.ifPresent(learnt -> {
            place.seat().voice(learnt);
            room.ifPresent(known -> known.keepVoice(place.show().name(), learnt));
        });
        return PageRoom.Answer.json(Json.of(new Calibrated(voice.isPresent(), Listener.KNOWN_SENTENCE)));
    }

    private static Sound sound(byte[] wav) throws No {
        try {
            return Sound.read(wav, Listener.MOST_S);
        } catch (IOException e) {
            throw new No(HttpResponseStatus.BAD_REQUEST, String.valueOf(e.getMessage()));
        }
    }

    private PageRoom.Answer said(PageRoom.Asker asker, Map<String, String> query) throws No, IOException {
        number(query, "clearance"); // a figure that is none is told whatever can be said
        Speaker speaker = found(speech.speaker(), "this machine has no speech program: " + Voice.INSTALL);
        Sound sound;
        if (query.containsKey("exercise")) {
            PageRoom.Exercise exercise = exercise(asker, query);
            sound = speaker.say(Aloud.of(exercise.clearance(), exercise.callsign(), exercise.chart()), pace(query));
        } else {
            sound = said(place(asker, query), query, speaker, pace(query));
        }
        return new PageRoom.Answer(HttpResponseStatus.OK, "audio/wav", sound.wav());
    }

    private int pace(Map<String, String> query) throws No {
        int wordsAMinute = number(query, "wpm").orElse(speech.wordsAMinute());
        if (wordsAMinute < Speaker.SLOWEST || wordsAMinute > Speaker.FASTEST) {
            throw new No(
                    HttpResponseStatus.BAD_REQUEST,
                    "wpm is " + Speaker.SLOWEST + " to " + Speaker.FASTEST + " words a minute");
        }
        return wordsAMinute;
    }

    /** A clearance of a seat, or the words that took one back. */
    private static Sound said(Place place, Map<String, String> query, Speaker speaker, int wordsAMinute)
            throws No, IOException {
        SeatClearances clearances = place.seat().clearances();
        Optional<Integer> takenBack = number(query, "disregard");
        if (takenBack.isPresent()) {
            String words = found(clearances.disregarded(takenBack.get()), "no such clearance was taken back");
            return speaker.say(words, wordsAMinute);
        }
        Entry.Issued issued = found(clearances.issued(number(query, "clearance").orElse(0)), NOT_ISSUED);
        Sound clean = speaker.say(
                Aloud.of(
                        issued.clearance(),
                        place.seat().callsign(),
                        place.show().lesson().chart()),
                wordsAMinute);
        Optional<Lesson.Radio> radio = place.show().lesson().radio();
        return radio.isPresent() && query.getOrDefault("radio", "").equals("true")
                ? RadioSound.of(
                        clean, radio.get().voiceOverNoiseDb(), radio.get().seed() + clearances.numberOf(issued))
                : clean;
    }

    /** Whether this path takes sound, not orders. */
    static boolean takesSound(String path) {
        return path.equals(HEARD) || path.equals(CALIBRATE);
    }

    private record Program(String program) {}

    private String able() {
        return Json.object(json -> {
            Json.member(json, "voice", program(speech.speaker().map(Speaker::programName)));
            Json.member(json, "hearing", program(speech.listener().map(Listener::programName)));
            json.writeNumberField("words_a_minute", speech.wordsAMinute());
            json.writeStringField("install", speech.speaker().isPresent() ? null : Voice.INSTALL);
        });
    }

    private static @Nullable Program program(Optional<String> name) {
        return name.map(Program::new).orElse(null);
    }

    /** What is read back without a flight, as a drill. */
    private PageRoom.Exercise exercise(PageRoom.Asker asker, Map<String, String> query) throws No {
        return found(
                room.flatMap(known -> known.exercise(asker, query.getOrDefault("exercise", ""))),
                "there is no such drill");
    }

    static Optional<Integer> number(Map<String, String> query, String name) throws No {
        String text = query.getOrDefault(name, "");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (!text.matches("\\d{1,6}")) {
            throw new No(HttpResponseStatus.BAD_REQUEST, name + " is a number");
        }
        return Optional.of(Integer.parseInt(text));
    }

    /**
     * Where somebody sits or looks: {@code seat} as in the stream, and in a room {@code show} as in its address, either of
     * which will do.
     */
    private Place place(PageRoom.Asker asker, Map<String, String> query) throws No {
        String seat = query.getOrDefault("seat", "");
        String show = query.getOrDefault("show", "");
        Place place = found(found(show, seat), "no such seat is flown");
        if (!mayTalk(asker, place.show())) {
            throw new No(HttpResponseStatus.FORBIDDEN, NOT_YOURS);
        }
        return place;
    }

    private Optional<Place> found(String show, String seat) {
        for (PageShow each : server.shows()) {
            if (!show.isEmpty() && !each.name().equals(show)) {
                continue;
            }
            for (SeatPage page : each.seats()) {
                boolean named = page.id().equals(seat)
                        || (!each.name().isEmpty() && each.name().equals(seat));
                if (named || (seat.isEmpty() && !show.isEmpty())) {
                    return Optional.of(new Place(each, page));
                }
            }
        }
        return Optional.empty();
    }

    /**
     * Whether somebody may hear and say what concerns the seats of a show. All students of a page without a room have one
     * token: where more than one aircraft is flown it tells of none whose pilot he is.
     */
    private boolean mayTalk(PageRoom.Asker asker, PageShow show) {
        return room.map(known -> known.mayTalk(asker, show.name()))
                .orElse(asker.instructor() || show.seats().size() == 1);
    }

    /** The seat that an order is about; empty where there is none, or it is another pilot's. */
    Optional<Place> of(PageRoom.Asker asker, String show, String seat) {
        return found(show, seat).filter(place -> mayTalk(asker, place.show()));
    }

    /** Ends the programs that run, and waits 2 s at most until what they were given is deleted. */
    @Override
    public void close() {
        work.end(MOST_CLOSING_S);
    }
}
