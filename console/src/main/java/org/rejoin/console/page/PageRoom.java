package org.rejoin.console.page;

import java.net.InetAddress;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.speech.PilotVoice;

import com.fasterxml.jackson.databind.JsonNode;

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
     * @param instructor what he is let in as
     * @param why he is not in, one line; empty if he is
     */
    record Joined(Optional<String> cookie, boolean instructor, String why) {}

    /** What becomes of what is asked or ordered. */
    enum Outcome {
        /** Done. */
        DONE,
        /** Understood, and not possible as things stand. */
        NOT_NOW,
        /** Not understood: what was sent is none of what would be right. */
        BAD,
        /** There is nothing, or nobody, of that name. */
        UNKNOWN,
        /** The instructor's alone, or another pilot's. */
        NOT_YOURS
    }

    /**
     * An answer.
     *
     * @param outcome whether it was done; where not, the text says why in one line
     * @param type media type
     * @param text for the page
     */
    record Answer(Outcome outcome, String type, String text) {

        /** {@return whether it was done} */
        public boolean ok() {
            return outcome == Outcome.DONE;
        }

        /**
         * An answer of any kind.
         *
         * @param type media type
         * @param text for the page
         */
        public static Answer of(String type, String text) {
            return new Answer(Outcome.DONE, type, text);
        }

        /**
         * An answer in JSON.
         *
         * @param text one value
         */
        public static Answer json(String text) {
            return of("application/json", text);
        }

        /** Done, and nothing to tell. */
        public static Answer done() {
            return json("{\"done\":true}");
        }

        /**
         * Not done.
         *
         * @param why one line
         * @return refused
         */
        public static Answer no(String why) {
            return not(Outcome.NOT_NOW, why);
        }

        /**
         * Not understood.
         *
         * @param why one line: what would be right
         * @return refused
         */
        public static Answer bad(String why) {
            return not(Outcome.BAD, why);
        }

        /**
         * Nothing of that name.
         *
         * @param why one line
         * @return refused
         */
        public static Answer unknown(String why) {
            return not(Outcome.UNKNOWN, why);
        }

        /**
         * Not for whoever asks.
         *
         * @param why one line
         * @return refused
         */
        public static Answer notYours(String why) {
            return not(Outcome.NOT_YOURS, why);
        }

        private static Answer not(Outcome outcome, String why) {
            return new Answer(outcome, "text/plain; charset=utf-8", why);
        }
    }

    /**
     * A clearance that is read back without a flight.
     *
     * @param clearance to be spoken
     * @param callsign of whom it is for
     * @param chart it is on
     * @param filed route before it
     * @param voice what was learnt of the pilot's voice
     * @param heard told what was heard of a readback
     */
    record Exercise(
            Clearance clearance, String callsign, Chart chart, FiledRoute filed, PilotVoice voice, Hearing heard) {}

    /** Told what was heard of a readback; from any thread. */
    interface Hearing {

        /**
         * Heard.
         *
         * @param words as heard
         * @param elements what they are worth; unclear where it was not sure
         * @param wav its sound, where the user asked that it be kept
         */
        void heard(String words, List<Readback.Element> elements, Optional<byte[]> wav);
    }

    /**
     * What was learnt of the voice of the pilot who sits somewhere.
     *
     * @param show of his seat
     * @return empty where it is not known
     */
    default Optional<PilotVoice> voice(String show) {
        return Optional.empty();
    }

    /**
     * Keeps it with the pilot who sits there, if one does.
     *
     * @param show of his seat
     * @param voice as it was learnt
     */
    default void keepVoice(String show, PilotVoice voice) {}

    /**
     * What somebody is to hear and read back without a flight.
     *
     * @param asker who
     * @param id of the exercise
     * @return empty if there is none, or it is another pilot's
     */
    default Optional<Exercise> exercise(Asker asker, String id) {
        return Optional.empty();
    }

    /**
     * Who shows this cookie.
     *
     * @param cookie any text
     * @return empty if it is no session, or one that was taken back
     */
    Optional<Asker> session(String cookie);

    /**
     * Whether somebody's session was taken back, or is too old: he is a stranger, also at this machine's own browser.
     *
     * @param cookie any text
     * @return false if it is no session of this room, or one that holds
     */
    boolean over(String cookie);

    /** {@return how often somebody was taken out since the room was opened: then open pages are looked at anew, at once} */
    default long takenBack() {
        return 0;
    }

    /**
     * Somebody types a code.
     *
     * @param code as typed
     * @param from where
     * @return whether he is in
     */
    Joined join(String code, InetAddress from);

    /**
     * The room as somebody may see it; cheap, called twice a second on the page's thread.
     *
     * @param asker for whom
     * @return one JSON object
     */
    String board(Asker asker);

    /**
     * An aircraft where it was last heard, for a map of the room.
     *
     * @param seat name of its show
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
    default List<Seen> seen() {
        return List.of();
    }

    /**
     * Whether somebody may look at a show.
     *
     * @param asker who
     * @param show name
     * @return true if so
     */
    boolean maySee(Asker asker, String show);

    /**
     * Whether a show is of the seat that somebody sits at.
     *
     * @param asker who
     * @param show name
     * @return true so for an instructor, too
     */
    boolean mayTalk(Asker asker, String show);

    /**
     * Answers a question or carries out an order, on a thread that may wait for a disk.
     *
     * @param asker who
     * @param path below {@code /api/}
     * @param query what stands behind the path
     * @param order what is asked; missing for a question
     * @return the answer
     */
    Answer ask(Asker asker, String path, Map<String, String> query, Optional<JsonNode> order);
}
