package org.rejoin.console.page;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.console.json.Json;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.Listener;
import org.rejoin.console.speech.RadioSound;
import org.rejoin.console.speech.Sound;
import org.rejoin.console.speech.Speaker;
import org.rejoin.console.speech.Speech;
import org.rejoin.console.speech.Voice;

import io.netty.handler.codec.http.HttpResponseStatus;
import org.jspecify.annotations.Nullable;

/**
 * Answers {@code /api/speech}: what this machine can say and hear, clearances as sound. Works on threads of its own, since it
 * waits for programs.
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

    static final String NOT_ISSUED = "no such clearance was issued";

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
    PageAnswer asked(PageRoom.Asker asker, String path, Map<String, String> query) {
        return answered(() -> switch (path) {
            case PATH -> PageAnswer.json(able());
            case PATH + "/said" -> said(asker, query);
            case CALIBRATE -> HeardAnswers.sentence();
            default -> PageAnswer.no(HttpResponseStatus.NOT_FOUND, "nothing of that name can be asked");
        });
    }

    private interface Work {
        PageAnswer done() throws PageAnswer.No, IOException;
    }

    private static PageAnswer answered(Work work) {
        try {
            return work.done();
        } catch (PageAnswer.No e) {
            return e.answer();
        } catch (IOException e) {
            return PageAnswer.no(HttpResponseStatus.SERVICE_UNAVAILABLE, String.valueOf(e.getMessage()));
        }
    }

    /** Sound that was sent; waits for a program. Nothing counts by it yet. */
    PageAnswer heard(PageRoom.Asker asker, String path, Map<String, String> query, byte[] wav) {
        return answered(() -> {
            Listener listener = PageAnswer.found(speech.listener(), "this program was not started to hear (--hear)");
            Sound sound = sound(wav);
            HeardAnswers answers = new HeardAnswers(listener, room, speech.keepsSound());
            if (path.equals(HEARD) && query.containsKey("exercise")) {
                return answers.of(query.get("exercise"), exercise(asker, query), sound);
            }
            Place place = place(asker, query);
            return switch (path) {
                case HEARD -> answers.of(place, number(query, "clearance").orElse(0), sound);
                case CALIBRATE -> answers.calibrated(place, sound);
                default -> PageAnswer.no(HttpResponseStatus.NOT_FOUND, "nothing of that name takes sound");
            };
        });
    }

    private static Sound sound(byte[] wav) throws PageAnswer.No {
        try {
            return Sound.read(wav, Listener.MOST_S);
        } catch (IOException e) {
            throw new PageAnswer.No(HttpResponseStatus.BAD_REQUEST, String.valueOf(e.getMessage()));
        }
    }

    private PageAnswer said(PageRoom.Asker asker, Map<String, String> query) throws PageAnswer.No, IOException {
        number(query, "clearance"); // a figure that is none is told whatever can be said
        Speaker speaker = PageAnswer.found(speech.speaker(), "this machine has no speech program: " + Voice.INSTALL);
        Sound sound;
        if (query.containsKey("exercise")) {
            PageRoom.Exercise exercise = exercise(asker, query);
            sound = speaker.say(
                    Aloud.of(exercise.clearance(), Optional.of(exercise.callsign()), exercise.chart()), pace(query));
        } else {
            Place place = place(asker, query);
            sound = said(place, query, speaker, pace(query));
        }
        return new PageAnswer(HttpResponseStatus.OK, "audio/wav", sound.wav());
    }

    private int pace(Map<String, String> query) throws PageAnswer.No {
        int wordsAMinute = number(query, "wpm").orElse(speech.wordsAMinute());
        if (wordsAMinute < Speaker.SLOWEST || wordsAMinute > Speaker.FASTEST) {
            throw new PageAnswer.No(
                    HttpResponseStatus.BAD_REQUEST,
                    "wpm is " + Speaker.SLOWEST + " to " + Speaker.FASTEST + " words a minute");
        }
        return wordsAMinute;
    }

    /** A clearance of a seat, or the words that took one back. */
    private static Sound said(Place place, Map<String, String> query, Speaker speaker, int wordsAMinute)
            throws PageAnswer.No, IOException {
        SeatClearances clearances = place.seat().clearances();
        Optional<Integer> takenBack = number(query, "disregard");
        if (takenBack.isPresent()) {
            String words =
                    PageAnswer.found(clearances.disregarded(takenBack.get()), "no such clearance was taken back");
            return speaker.say(words, wordsAMinute);
        }
        Entry.Issued issued =
                PageAnswer.found(clearances.issued(number(query, "clearance").orElse(0)), NOT_ISSUED);
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
    private PageRoom.Exercise exercise(PageRoom.Asker asker, Map<String, String> query) throws PageAnswer.No {
        return PageAnswer.found(
                room.flatMap(known -> known.exercise(asker, query.getOrDefault("exercise", ""))),
                "there is no such drill");
    }

    static Optional<Integer> number(Map<String, String> query, String name) throws PageAnswer.No {
        String text = query.getOrDefault(name, "");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (!text.matches("\\d{1,6}")) {
            throw new PageAnswer.No(HttpResponseStatus.BAD_REQUEST, name + " is a number");
        }
        return Optional.of(Integer.parseInt(text));
    }

    /**
     * Where somebody sits or looks: {@code seat} as in the stream, and in a room {@code show} as in its address, either of
     * which will do.
     */
    private Place place(PageRoom.Asker asker, Map<String, String> query) throws PageAnswer.No {
        String seat = query.getOrDefault("seat", "");
        String show = query.getOrDefault("show", "");
        Place place = PageAnswer.found(found(show, seat), "no such seat is flown");
        if (!mayTalk(asker, place.show())) {
            throw new PageAnswer.No(HttpResponseStatus.FORBIDDEN, NOT_YOURS);
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
