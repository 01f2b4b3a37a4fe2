package org.rejoin.console.door;

import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Short codes by which a tablet joins: shown to one pilot, good for ten minutes, too many for whoever guesses. May be
 * used by several threads.
 *
 * <p>Six of 29 characters are 5.9e8 codes. At 60 wrong ones a minute, over ten minutes, one of twelve open codes is found
 * with a chance of 1.2e-5.
 */
public final class JoinCodes {

    /** How long a code is good. */
    public static final Duration LIFE = Duration.ofMinutes(10);

    /** No vowels, so that no words come out; nothing that looks like something else. */
    private static final String CHARACTERS = "23456789BCDFGHJKLMNPQRSTVWXYZ";

    private static final int LENGTH = 6;
    private static final int MOST_OPEN = 200;
    private static final int WRONG_OF_ONE = 10;
    private static final int WRONG_OF_ALL = 60;
    private static final int MOST_ADDRESSES = 10_000;
    private static final Duration WINDOW = Duration.ofMinutes(1);

    private final SecureRandom random = new SecureRandom();
    private final Map<String, Open> open = new LinkedHashMap<>();
    private final Map<String, Deque<Instant>> wrongOf = new HashMap<>();
    private final Deque<Instant> wrong = new ArrayDeque<>();

    private record Open(Joined joined, Instant until) {}

    /** Whom a code lets in. */
    public record Joined(Sessions.Role role, String subject) {}

    /**
     * What becomes of a code that somebody types.
     *
     * @param joined empty where there is no such code, or it is too old
     * @param after above zero after too many wrong ones, from there or at all: it was not even looked at; to be tried
     *     again so much later
     */
    public record Answer(Optional<Joined> joined, Duration after) {}

    /**
     * Opens a code; an earlier one of the same role and subject is closed.
     *
     * @param subject whose it is, a pilot's identifier; may be empty
     * @return six characters
     */
    public synchronized String open(Sessions.Role role, String subject, Instant now) {
        forgetOld(now);
        close(role, subject);
        if (open.size() >= MOST_OPEN) {
            open.remove(open.keySet().iterator().next());
        }
        String code;
        do {
            StringBuilder text = new StringBuilder();
            for (int i = 0; i < LENGTH; i++) {
                text.append(CHARACTERS.charAt(random.nextInt(CHARACTERS.length())));
            }
            code = text.toString();
        } while (open.containsKey(code));
        open.put(code, new Open(new Joined(role, subject), now.plus(LIFE)));
        return code;
    }

    /** Closes a code before its time. */
    public synchronized void close(Sessions.Role role, String subject) {
        open.values().removeIf(each -> each.joined().equals(new Joined(role, subject)));
    }

    /** Closes all codes before their time. */
    public synchronized void closeAll() {
        open.clear();
    }

    /** Somebody types a code, whatever the case; spaces and hyphens do not count. */
    public synchronized Answer join(String typed, String address, Instant now) {
        forgetOld(now);
        Deque<Instant> his = wrongOf.getOrDefault(address, new ArrayDeque<>());
        if (his.size() >= WRONG_OF_ONE) {
            return new Answer(Optional.empty(), left(his, now));
        }
        if (wrong.size() >= WRONG_OF_ALL) {
            return new Answer(Optional.empty(), left(wrong, now));
        }
        String code = typed.toUpperCase(Locale.ROOT).replaceAll("[\\s-]", "");
        Open found = open.get(code);
        if (found != null) {
            return new Answer(Optional.of(found.joined()), Duration.ZERO);
        }
        wrong.add(now);
        if (wrongOf.size() < MOST_ADDRESSES) {
            wrongOf.computeIfAbsent(address, each -> new ArrayDeque<>()).add(now);
        }
        return new Answer(Optional.empty(), Duration.ZERO);
    }

    private static Duration left(Deque<Instant> times, Instant now) {
        return Duration.between(now, times.getFirst().plus(WINDOW));
    }

    private void forgetOld(Instant now) {
        open.values().removeIf(each -> !each.until().isAfter(now));
        Instant earliest = now.minus(WINDOW);
        forget(wrong, earliest);
        wrongOf.values().forEach(times -> forget(times, earliest));
        wrongOf.values().removeIf(Deque::isEmpty);
    }

    private static void forget(Deque<Instant> times, Instant earliest) {
        while (!times.isEmpty() && !times.getFirst().isAfter(earliest)) {
            times.removeFirst();
        }
    }
}
