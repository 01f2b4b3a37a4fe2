package org.rejoin.console.door;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * Sessions of the tablets: texts signed with a key from the data folder's secret, so that they hold over lessons,
 * restarts and the night. Only what is taken back is kept, in a file; one can be taken back, or all of one pilot, or all.
 * May be used by several threads.
 */
public final class Sessions {

    /** A month: a tablet of a weekly course stays in. */
    public static final Duration LIFE = Duration.ofDays(30);

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Base64.Encoder BASE64 = Base64.getUrlEncoder().withoutPadding();
    private static final int LONGEST = 512;

    private final KeyedHash key;
    private final Path file;
    private final SecureRandom random = new SecureRandom();
    private final Map<String, Instant> revokedOf = new HashMap<>();
    private long generation;

    /** What somebody at the page may do. */
    public enum Role {
        INSTRUCTOR,
        /** See and work his own seat. */
        PILOT
    }

    /** Somebody who is in; the subject is a pilot's identifier, or empty. */
    public record Session(Role role, String subject, Instant since) {}

    private Sessions(KeyedHash key, Path file) {
        this.key = key;
        this.file = file;
    }

    /**
     * The sessions of a data folder.
     *
     * @param folder where what is taken back is kept, as {@code sessions.json}
     * @return sessions as they were when the program ended
     * @throws IOException if the file cannot be read; one line
     */
    public static Sessions of(byte[] secret, Path folder) throws IOException {
        Sessions sessions = new Sessions(KeyedHash.of(secret, "sessions"), folder.resolve("sessions.json"));
        sessions.read();
        return sessions;
    }

    private void read() throws IOException {
        try {
            JsonNode kept = JSON.readTree(Files.readAllBytes(file));
            generation = kept.path("generation").asLong();
            kept.path("revoked_of")
                    .properties()
                    .forEach(each -> revokedOf.put(
                            each.getKey(), Instant.ofEpochSecond(each.getValue().asLong())));
        } catch (NoSuchFileException e) {
            return;
        } catch (JsonProcessingException e) {
            throw new IOException(file + " is damaged; delete it and the file secret: then every tablet joins anew", e);
        } catch (IOException e) {
            throw new IOException(file + " cannot be read: " + Durable.why(e), e);
        }
    }

    /**
     * Lets somebody in.
     *
     * @param subject whose session; may be empty
     * @return what his cookie carries: letters, digits and {@code . _ -}
     */
    public synchronized String begin(Role role, String subject, Instant now) {
        byte[] id = new byte[9];
        random.nextBytes(id);
        Instant out = revokedOf.get(subject);
        long second = Math.max(now.getEpochSecond(), out == null ? 0 : out.getEpochSecond() + 1); // it holds at once
        String text = "1." + role.name() + "." + BASE64.encodeToString(subject.getBytes(StandardCharsets.UTF_8)) + "."
                + HexFormat.of().formatHex(id) + "." + second + "." + generation;
        return text + "." + BASE64.encodeToString(key.of(text));
    }

    /**
     * Who shows this cookie. Takes the same time for every wrong signature.
     *
     * @return empty if it was not made here, is too old, or was taken back
     */
    public synchronized Optional<Session> holder(String cookie, Instant now) {
        if (!madeHere(cookie)) {
            return Optional.empty();
        }
        String[] parts = cookie.split("\\.", -1); // signed by us: as begin() made it
        Session session = new Session(
                Role.valueOf(parts[1]),
                new String(Base64.getUrlDecoder().decode(parts[2]), StandardCharsets.UTF_8),
                Instant.ofEpochSecond(Long.parseLong(parts[4])));
        boolean takenBack = Long.parseLong(parts[5]) != generation
                || (revokedOf.containsKey(session.subject())
                        && !session.since().isAfter(revokedOf.get(session.subject())));
        boolean old = session.since().plus(LIFE).isBefore(now);
        return takenBack || old ? Optional.empty() : Optional.of(session);
    }

    /**
     * Whether a cookie was made here, for a session that holds or one that is over.
     *
     * @return false for one that others made; takes the same time for every wrong signature
     */
    public boolean madeHere(String cookie) {
        int dot = cookie.lastIndexOf('.');
        if (cookie.length() > LONGEST || dot < 0) {
            return false;
        }
        byte[] said = cookie.substring(dot + 1).getBytes(StandardCharsets.UTF_8);
        byte[] right = BASE64.encodeToString(key.of(cookie.substring(0, dot))).getBytes(StandardCharsets.UTF_8);
        return MessageDigest.isEqual(said, right);
    }

    /**
     * Takes every session of one pilot back; those begun afterwards hold.
     *
     * @throws IOException if that cannot be kept; it holds until the program ends all the same; one line
     */
    public synchronized void revokeAllOf(String subject, Instant now) throws IOException {
        revokedOf.put(subject, now);
        keep(now);
    }

    /**
     * Takes all sessions back.
     *
     * @throws IOException as for one pilot
     */
    public synchronized void revokeAll(Instant now) throws IOException {
        generation++;
        revokedOf.clear();
        keep(now);
    }

    private void keep(Instant now) throws IOException {
        // What was begun before then is too old anyway.
        revokedOf.values().removeIf(at -> at.plus(LIFE).isBefore(now));
        ObjectNode kept = JSON.createObjectNode();
        kept.put("generation", generation);
        ObjectNode of = kept.putObject("revoked_of");
        revokedOf.forEach((subject, at) -> of.put(subject, at.getEpochSecond()));
        Durable.write(file, kept + "\n");
    }
}
