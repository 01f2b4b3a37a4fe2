package org.rejoin.console.room;

import java.io.IOException;
import java.net.InetAddress;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;

import org.rejoin.console.book.Pilot;
import org.rejoin.console.door.JoinCodes;
import org.rejoin.console.door.Sessions;
import org.rejoin.console.door.Sessions.Role;
import org.rejoin.console.page.PageRoom.Answer;
import org.rejoin.console.page.PageRoom.Asker;
import org.rejoin.console.page.PageRoom.Joined;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;

/** Who comes in: sessions of tablets, codes to join by, and both taken back. */
final class DoorDesk {

    private final RoomRecords records;
    private final Sessions sessions;
    private final JoinCodes codes = new JoinCodes();
    private final String fingerprint;
    private final AtomicLong takenBack = new AtomicLong();

    /** A door; the fingerprint is that of the certificate, an empty text where the page is not encrypted. */
    DoorDesk(RoomRecords records, Sessions sessions, String fingerprint) {
        this.records = records;
        this.sessions = sessions;
        this.fingerprint = fingerprint;
    }

    String fingerprint() {
        return fingerprint;
    }

    Optional<Asker> session(String cookie) {
        return sessions.holder(cookie, Instant.now())
                .filter(session -> session.role() == Role.INSTRUCTOR || records.knows(session.subject()))
                .map(session -> new Asker(session.role() == Role.INSTRUCTOR, session.subject()));
    }

    /** Whether his session was taken back, or is too old. */
    boolean over(String cookie) {
        return sessions.madeHere(cookie) && session(cookie).isEmpty();
    }

    /** How often somebody was taken out. */
    long takenBack() {
        return takenBack.get();
    }

    /** While somebody comes in nothing is taken back: else he would come in by a code that was. */
    synchronized Joined join(String code, InetAddress from) {
        JoinCodes.Answer answer = codes.join(code, from.getHostAddress(), Instant.now());
        if (!answer.after().isZero()) {
            return kept("too many wrong codes: wait " + (answer.after().toSeconds() + 1) + " s and try again");
        }
        if (answer.joined().isEmpty()) {
            return kept("there is no such code, or it is older than ten minutes: ask for a new one");
        }
        JoinCodes.Joined joined = answer.joined().get();
        if (joined.role() == Role.PILOT && !records.knows(joined.subject())) {
            return kept("that pilot was forgotten: ask your instructor for a new code");
        }
        String session = sessions.begin(joined.role(), joined.subject(), Instant.now());
        return new Joined(Optional.of(session), joined.role() == Role.INSTRUCTOR, "");
    }

    private static Joined kept(String outside) {
        return new Joined(Optional.empty(), false, outside);
    }

    /** Somebody was forgotten: his codes go with him, and his open pages are looked at anew. */
    synchronized void forgotten(String pilotId) {
        codes.close(Role.PILOT, pilotId);
        takenBack.incrementAndGet();
    }

    /** For a pilot's tablet, or for another instructor's. */
    Answer code(JsonNode order, String address) throws IOException {
        boolean instructor = order.path("instructor").asBoolean();
        Optional<Pilot> pilot = instructor
                ? Optional.empty()
                : Optional.of(records.pilot(records.name(order.path("pilot").asText())));
        Instant now = Instant.now();
        String code = codes.open(
                instructor ? Role.INSTRUCTOR : Role.PILOT, pilot.map(Pilot::id).orElse(""), now);
        return Answer.json(RoomDesk.JSON
                .createObjectNode()
                .put("code", code)
                .put("for", CleanText.of(pilot.map(Pilot::name).orElse("")))
                .put(
                        "until_utc",
                        now.plus(JoinCodes.LIFE).truncatedTo(ChronoUnit.SECONDS).toString())
                .put("link", address + "/enter#" + code)
                .put("page", address + "/enter")
                .put("fingerprint", fingerprint)
                .toString());
    }

    /** Sessions, and the codes that lead to new ones. */
    synchronized Answer revoke(JsonNode order) throws IOException {
        boolean all = order.path("all").asBoolean();
        Optional<Pilot> pilot =
                all ? Optional.empty() : records.find(order.path("pilot").asText());
        if (!all && pilot.isEmpty()) {
            return Answer.no("that pilot is not in the roster");
        }
        try {
            if (all) {
                codes.closeAll();
                sessions.revokeAll(Instant.now());
            } else {
                codes.close(Role.PILOT, pilot.get().id());
                sessions.revokeAllOf(pilot.get().id(), Instant.now());
            }
        } finally {
            takenBack.incrementAndGet(); // it holds, also where it cannot be kept
        }
        return Answer.done();
    }
}
