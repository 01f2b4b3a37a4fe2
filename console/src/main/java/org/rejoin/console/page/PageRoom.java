package org.rejoin.console.page;

import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.speech.PilotVoice;

import com.fasterxml.jackson.databind.JsonNode;
import io.netty.handler.codec.http.HttpResponseStatus;

/** What a practice room answers beyond the flights that it shows: who is in it, who may what, records and lessons. */
public interface PageRoom {

    /**
     * Somebody at a page.
     *
     * @param instructor whether he may do everything
     * @param pilot identifier in the roster; empty for an instructor
     */
    record Asker(boolean instructor, String pilot) {}

    /**
     * What becomes of a code that is typed.
     *
     * @param cookie of the session; empty if he is not in
     * @param why he is not in, one line; empty if he is
     */
    record Joined(Optional<String> cookie, boolean instructor, String why) {}

    /** What is answered to a question or an order: status of HTTP, media type, content. */
    record Answer(HttpResponseStatus status, String type, byte[] octets) {

        /** {@return whether it was done} */
        public boolean ok() {
            return status.equals(HttpResponseStatus.OK);
        }

        /** {@return what is said, where it is text} */
        public String text() {
            return new String(octets, StandardCharsets.UTF_8);
        }

        /** An answer of any media type. */
        public static Answer of(String type, String text) {
            return new Answer(HttpResponseStatus.OK, type, text.getBytes(StandardCharsets.UTF_8));
        }

        /** An answer in JSON, one value. */
        public static Answer json(String text) {
            return of("application/json", text);
        }

        /** Done, and nothing to tell. */
        public static Answer done() {
            return json("{\"done\":true}");
        }

        /** Understood, and not possible as things stand; why in one line. */
        public static Answer no(String why) {
            return not(HttpResponseStatus.CONFLICT, why);
        }

        /** Not understood: one line says what would be right. */
        public static Answer bad(String why) {
            return not(HttpResponseStatus.BAD_REQUEST, why);
        }

        /** There is nothing, or nobody, of that name; one line. */
        public static Answer unknown(String why) {
            return not(HttpResponseStatus.NOT_FOUND, why);
        }

        /** The instructor's alone, or another pilot's; one line says why. */
        public static Answer notYours(String why) {
            return not(HttpResponseStatus.FORBIDDEN, why);
        }

        static Answer not(HttpResponseStatus status, String why) {
            return new Answer(status, "text/plain; charset=utf-8", why.getBytes(StandardCharsets.UTF_8));
        }
    }

    /**
     * A clearance that is to be read back, in a flight or without one.
     *
     * @param callsign of who reads it back; empty where none is known
     * @param told what was heard; from any thread
     */
    record Exercise(
            Clearance clearance,
            Optional<String> callsign,
            Chart chart,
            FiledRoute filed,
            PilotVoice voice,
            Consumer<Heard> told) {}

    /**
     * What the recogniser heard of a readback, and what each element is worth so far.
     *
     * @param words as heard
     * @param elements against the clearance; unclear where it was not sure
     * @param wav its sound, where the user asked that it be kept
     */
    record Heard(String words, List<Readback.Element> elements, Optional<byte[]> wav) {
        public Heard {
            elements = List.copyOf(elements);
        }
    }

    /** What was learnt of the voice of the pilot who sits at the seat of a show; empty where it is not known. */
    Optional<PilotVoice> voice(String show);

    /** Keeps it with the pilot who sits there, if one does. */
    void keepVoice(String show, PilotVoice voice);

    /**
     * What somebody is to hear and read back without a flight; empty if there is no such exercise, or it is another
     * pilot's.
     */
    Optional<Exercise> exercise(Asker asker, String id);

    /** Who shows this cookie; empty if it is no session, or one that was taken back. */
    Optional<Asker> session(String cookie);

    /**
     * Whether somebody's session was taken back, or is too old: he is a stranger, also at this machine's own browser.
     * False if the cookie is no session of this room, or one that holds.
     */
    boolean over(String cookie);

    /** {@return how often somebody was taken out since the room was opened: then open pages are looked at anew, at once} */
    long takenBack();

    /** Somebody types a code. */
    Joined join(String code, InetAddress from);

    /** The room as somebody may see it, one JSON object; cheap, called twice a second on the page's thread. */
    String board(Asker asker);

    /**
     * An aircraft where it was last heard, for a map of the room.
     *
     * @param name of who sits there, else of the seat
     * @param position WGS 84
     * @param trackTrueDeg over the ground; empty where unsent
     * @param groundSpeedKt 0 where unsent
     * @param ageS of its data, seconds
     * @param old whether that is too old to be true
     * @param jumped whether it was put elsewhere a moment ago
     * @param off whether it is off a limit now
     */
    record Seen(
            String seat,
            String name,
            Position position,
            OptionalDouble trackTrueDeg,
            double groundSpeedKt,
            double ageS,
            boolean old,
            boolean jumped,
            boolean off) {}

    /** {@return every aircraft that is heard; cheap, called twice a second on the page's thread, in the order of seats} */
    List<Seen> seen();

    /** Whether somebody may look at a show. */
    boolean maySee(Asker asker, String show);

    /** Whether a show is of the seat that somebody sits at; true so for an instructor, too. */
    boolean mayTalk(Asker asker, String show);

    /**
     * Answers a question or carries out an order, on a thread that may wait for a disk.
     *
     * @param path below {@code /api/}
     * @param order what is asked; missing for a question
     */
    Answer ask(Asker asker, String path, Map<String, String> query, Optional<JsonNode> order);
}
