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
import java.util.function.Function;

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

    private record Open(Role role, String subject, Instant until) {}

    /** What becomes of a code that somebody types. */
    public sealed interface Answer {
        /**
         * Reads whichever it is.
         *
         * @param joined what comes of a good code
         * @param unknown what comes of one that there is not
         * @param tooMany what comes of too many wrong ones
         */
        <R> R fold(Function<Joined, R> joined, Function<Unknown, R> unknown, Function<TooMany, R> tooMany);

        /** He is in. */
        record Joined(Role role, String subject) implements Answer {
            @Override
            public <R> R fold(Function<Joined, R> joined, Function<Unknown, R> unknown, Function<TooMany, R> tooMany) {
                return joined.apply(this);
            }
        }

        /** There is no such code, or it is too old. */
        record Unknown() implements Answer {
            @Override
            public <R> R fold(Function<Joined, R> joined, Function<Unknown, R> unknown, Function<TooMany, R> tooMany) {
                return unknown.apply(this);
            }
        }

        /** Too many wrong ones, from there or at all; not even looked at. After so long to be tried again. */
        record TooMany(Duration after) implements Answer {
            @Override
            public <R> R fold(Function<Joined, R> joined, Function<Unknown, R> unknown, Function<TooMany, R> tooMany) {
                return tooMany.apply(this);
            }
        }
    }

    /**
     * Opens a code; an earlier one of the same role and subject is closed.
     *
     * @param subject whose it is, a pilot's identifier; may be empty
     * @return six characters
     */
    public synchronized String open(Role role, String subject, Instant now) {
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
        open.put(code, new Open(role, subject, now.plus(LIFE)));
        return code;
    }

    /** Closes a code before its time. */
    public synchronized void close(Role role, String subject) {
        open.values().removeIf(each -> each.role() == role && each.subject().equals(subject));
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
            return new Answer.TooMany(left(his, now));
        }
        if (wrong.size() >= WRONG_OF_ALL) {
            return new Answer.TooMany(left(wrong, now));
        }
        String code = typed.toUpperCase(Locale.ROOT).replaceAll("[\\s-]", "");
        Open found = open.get(code);
        if (found != null) {
            return new Answer.Joined(found.role(), found.subject());
        }
        wrong.add(now);
        if (wrongOf.size() < MOST_ADDRESSES) {
            wrongOf.computeIfAbsent(address, each -> new ArrayDeque<>()).add(now);
        }
        return new Answer.Unknown();
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
