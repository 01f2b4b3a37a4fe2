package org.rejoin.console.page;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.Listener;
import org.rejoin.console.speech.RadioSound;
import org.rejoin.console.speech.Sound;
import org.rejoin.console.speech.Speaker;
import org.rejoin.console.speech.Speech;
import org.rejoin.console.speech.Voice;
import org.rejoin.console.words.CleanText;

import io.netty.handler.codec.http.HttpResponseStatus;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

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

    private static final int MOST_WAITING = 32;
    private static final long MOST_CLOSING_S = 2;
    private static final Logger LOG = LoggerFactory.getLogger(SpeechDesk.class);

    private final Speech speech;
    private final PageServer server;
    private final Optional<PageRoom> room;
    private final ThreadPoolExecutor work;

    /**
     * An answer.
     *
     * @param status of HTTP
     * @param type media type
     * @param octets content
     */
    record Answer(HttpResponseStatus status, String type, byte[] octets) {
        static Answer json(String text) {
            return new Answer(HttpResponseStatus.OK, "application/json", text.getBytes(StandardCharsets.UTF_8));
        }

        static Answer no(HttpResponseStatus status, String why) {
            return new Answer(status, "text/plain; charset=utf-8", why.getBytes(StandardCharsets.UTF_8));
        }
    }

    /** A question that cannot be answered. */
    private static final class No extends Exception {
        private static final long serialVersionUID = 1;

        private final transient Answer answer;

        No(HttpResponseStatus status, String why) {
            super(why);
            this.answer = Answer.no(status, why);
        }
    }

    /**
     * A seat.
     *
     * @param show it is in, which takes orders for it
     * @param seat flown
     */
    record Place(PageShow show, SeatPage seat) {}

    SpeechDesk(Speech speech, PageServer server, Optional<PageRoom> room) {
        this.speech = speech;
        this.server = server;
        this.room = room;
        this.work = new ThreadPoolExecutor(2, 2, 10, TimeUnit.SECONDS, new ArrayBlockingQueue<>(MOST_WAITING), task -> {
            Thread thread = new Thread(task, "page-speech");
            thread.setDaemon(true);
            return thread;
        });
        work.allowCoreThreadTimeOut(true);
    }

    /** False where too much waits already. */
    boolean later(Runnable task) {
        try {
            work.execute(task);
            return true;
        } catch (RejectedExecutionException e) {
            return false;
        }
    }

    /** A question; waits for a program where it must. */
    Answer asked(PageRoom.Asker asker, String path, Map<String, String> query) {
        try {
            return switch (path) {
                case PATH -> Answer.json(able());
                case PATH + "/said" -> said(asker, query);
                case PATH + "/calibrate" -> sentence();
                default -> Answer.no(HttpResponseStatus.NOT_FOUND, "nothing of that name can be asked");
            };
        } catch (No e) {
            return e.answer;
        } catch (IOException e) {
            return Answer.no(HttpResponseStatus.SERVICE_UNAVAILABLE, String.valueOf(e.getMessage()));
        }
    }

    /** Sound that was sent; waits for a program. Nothing counts by it yet. */
    Answer heard(PageRoom.Asker asker, String path, Map<String, String> query, byte[] wav) {
        try {
            Listener listener = speech.listener()
                    .orElseThrow(() ->
                            new No(HttpResponseStatus.NOT_FOUND, "this program was not started to hear (--hear)"));
            Sound sound = sound(wav);
            if (path.equals(HEARD) && query.containsKey("exercise")) {
                return heard(listener, query.get("exercise"), exercise(asker, query), sound);
            }
            Place place = place(asker, query);
            return switch (path) {
                case HEARD -> heard(listener, place, number(query, "clearance").orElse(0), sound);
                case CALIBRATE -> calibrated(listener, place, sound);
                default -> Answer.no(HttpResponseStatus.NOT_FOUND, "nothing of that name takes sound");
            };
        } catch (No e) {
            return e.answer;
        } catch (IOException e) {
            return Answer.no(HttpResponseStatus.SERVICE_UNAVAILABLE, String.valueOf(e.getMessage()));
        }
    }

    private static Sound sound(byte[] wav) throws No {
        try {
            return Sound.read(wav, Listener.MOST_S);
        } catch (IOException e) {
            throw new No(HttpResponseStatus.BAD_REQUEST, String.valueOf(e.getMessage()));
        }
    }

    private static Listener.Expected expected(Place place, Entry.Issued issued) {
        return new Listener.Expected(
                place.show().lesson().chart(),
                place.show().lesson().filed(),
                issued.clearance(),
                place.seat().callsign());
    }

    private static Answer heard(Listener listener, Place place, int number, Sound sound) throws No, IOException {
        Entry.Issued issued = place.seat()
                .issued(number)
                .orElseThrow(() -> new No(HttpResponseStatus.NOT_FOUND, "no such clearance was issued"));
        Listener.Result result = listener.hear(
                place.seat().id(), sound, expected(place, issued), place.seat().voice());
        place.seat().heard(number, new SeatPage.Heard(result.words(), result.elements()));
        return answer(result, sound);
    }

    private static Answer heard(Listener listener, String id, PageRoom.Exercise exercise, Sound sound)
            throws IOException {
        Listener.Result result = listener.hear(
                id,
                sound,
                new Listener.Expected(
                        exercise.chart(), exercise.filed(), exercise.clearance(), Optional.of(exercise.callsign())),
                0);
        exercise.heard().accept(result.words(), result.elements());
        return answer(result, sound);
    }

    private static Answer answer(Listener.Result result, Sound sound) {
        return Answer.json(Json.object(json -> {
            json.writeStringField("words", CleanText.of(result.words()));
            json.writeBooleanField("doubt", result.doubt());
            json.writeArrayFieldStart("elements");
            for (Readback.Element each : result.elements()) {
                json.writeStartObject();
                json.writeStringField("element", each.what());
                json.writeStringField("said", CleanText.of(each.expected()));
                json.writeStringField("heard", CleanText.of(each.found()));
                json.writeStringField("verdict", each.verdict().name().toLowerCase(Locale.ROOT));
                json.writeBooleanField("must", each.must());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeNumberField("seconds", JsonNumbers.rounded(sound.seconds(), 1));
        }));
    }

    private static Answer sentence() {
        return Answer.json(Json.object(json -> json.writeStringField("sentence", Listener.KNOWN_SENTENCE)));
    }

    /** One sentence that is known tells how well a voice fits. */
    private static Answer calibrated(Listener listener, Place place, Sound sound) throws No, IOException {
        Entry.Issued any = place.seat()
                .issued(1)
                .orElseThrow(() -> new No(HttpResponseStatus.NOT_FOUND, "no clearance was issued yet"));
        Optional<Double> voice = listener.calibrate(place.seat().id(), sound, expected(place, any));
        voice.ifPresent(fit -> place.seat().voice(fit));
        return Answer.json(Json.object(json -> {
            json.writeBooleanField("ok", voice.isPresent());
            json.writeStringField("sentence", Listener.KNOWN_SENTENCE);
        }));
    }

    /** Whether this path takes sound, not orders. */
    static boolean takesSound(String path) {
        return path.equals(HEARD) || path.equals(CALIBRATE);
    }

    private String able() {
        return Json.object(json -> {
            json.writeFieldName("voice");
            if (speech.speaker().isPresent()) {
                json.writeStartObject();
                json.writeStringField("program", speech.speaker().get().programName());
                json.writeEndObject();
            } else {
                json.writeNull();
            }
            json.writeFieldName("hearing");
            if (speech.listener().isPresent()) {
                json.writeStartObject();
                json.writeStringField("program", speech.listener().get().programName());
                json.writeEndObject();
            } else {
                json.writeNull();
            }
            json.writeNumberField("words_a_minute", speech.wordsAMinute());
            if (speech.speaker().isPresent()) {
                json.writeNullField("install");
            } else {
                json.writeStringField("install", Voice.INSTALL);
            }
        });
    }

    /** A clearance of a seat, as the controller says it. */
    private Answer said(PageRoom.Asker asker, Map<String, String> query) throws No, IOException {
        int clearance = number(query, "clearance").orElse(0);
        Speaker speaker = speech.speaker()
                .orElseThrow(() ->
                        new No(HttpResponseStatus.NOT_FOUND, "this machine has no speech program: " + Voice.INSTALL));
        int wordsAMinute = number(query, "wpm").orElse(speech.wordsAMinute());
        if (wordsAMinute < Speaker.SLOWEST || wordsAMinute > Speaker.FASTEST) {
            throw new No(
                    HttpResponseStatus.BAD_REQUEST,
                    "wpm is " + Speaker.SLOWEST + " to " + Speaker.FASTEST + " words a minute");
        }
        if (query.containsKey("exercise")) {
            PageRoom.Exercise exercise = exercise(asker, query);
            String words = Aloud.of(exercise.clearance(), Optional.of(exercise.callsign()));
            return new Answer(
                    HttpResponseStatus.OK,
                    "audio/wav",
                    speaker.say(words, wordsAMinute).wav());
        }
        Place place = place(asker, query);
        Entry.Issued issued = place.seat()
                .issued(clearance)
                .orElseThrow(() -> new No(HttpResponseStatus.NOT_FOUND, "no such clearance was issued"));
        Sound clean = speaker.say(Aloud.of(issued.clearance(), place.seat().callsign()), wordsAMinute);
        Optional<Lesson.Radio> radio = place.show().lesson().radio();
        Sound sound = radio.isPresent() && query.getOrDefault("radio", "").equals("true")
                ? RadioSound.of(
                        clean,
                        radio.get().voiceOverNoiseDb(),
                        radio.get().seed() + place.seat().numberOf(issued))
                : clean;
        return new Answer(HttpResponseStatus.OK, "audio/wav", sound.wav());
    }

    /** What is read back without a flight, as a drill. */
    private PageRoom.Exercise exercise(PageRoom.Asker asker, Map<String, String> query) throws No {
        return room.flatMap(known -> known.exercise(asker, query.getOrDefault("exercise", "")))
                .orElseThrow(() -> new No(HttpResponseStatus.NOT_FOUND, "there is no such drill"));
    }

    private static Optional<Integer> number(Map<String, String> query, String name) throws No {
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
        Place place =
                found(show, seat).orElseThrow(() -> new No(HttpResponseStatus.NOT_FOUND, "no such seat is flown"));
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
        work.shutdownNow();
        try {
            if (!work.awaitTermination(MOST_CLOSING_S, TimeUnit.SECONDS)) {
                LOG.warn("a speech program could not be ended");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
