package org.rejoin.console.flight;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

import org.rejoin.bridge.feed.AircraftKey;

/**
 * What an aircraft is called. Both are made from what a stranger may have sent, and hold nothing that a terminal, a page or a
 * file system could take for anything but a name.
 *
 * @param label for people, unique within a flight: letters, digits, single spaces and {@code . : _ - [ ]}
 * @param directory for files, unique whatever the case: letters {@code a-z A-Z}, digits, {@code _ -}; begins with a letter
 *     or digit
 */
public record AircraftName(String label, String directory) {

    /** Gives each aircraft of a feed its name, in the order in which they come: the same datagrams give the same names. */
    static final class Names {

        private static final int LONGEST = 40;

        private static final Pattern UNSAFE_LABEL = Pattern.compile("[^\\p{IsAlphabetic}\\p{IsDigit}.:_\\[\\]-]+");
        private static final Pattern UNSAFE_FILE = Pattern.compile("[^A-Za-z0-9_-]+");

        /** Names of devices that some systems keep for themselves, with any ending. */
        private static final Pattern DEVICE = Pattern.compile("(?i)(con|prn|aux|nul|com\\d|lpt\\d)");

        private final Set<String> taken = new HashSet<>();
        private final Map<String, Integer> used = new HashMap<>();

        /** The name of the next aircraft: by its marking, else by its sender's name for it, else by its address. */
        AircraftName next(AircraftKey key, String marking) {
            String label = clean(marking);
            label = label.isEmpty() ? clean(key.aircraft()) : label;
            label = label.isEmpty() ? clean(key.label()) : label;
            return new AircraftName(unique("label ", label, " "), unique("file ", file(label), "-"));
        }

        private static String clean(String text) {
            String clean = UNSAFE_LABEL.matcher(text).replaceAll(" ").strip();
            return clean.codePoints()
                    .limit(LONGEST)
                    .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                    .toString()
                    .strip();
        }

        private static String file(String label) {
            String safe = UNSAFE_FILE.matcher(label).replaceAll("_").replaceFirst("^[_-]+", "");
            return safe.isEmpty() || DEVICE.matcher(safe).matches()
                    ? "seat" + (safe.isEmpty() ? "" : "_" + safe)
                    : safe;
        }

        /** File systems may take upper and lower case for the same. */
        private String unique(String kind, String name, String between) {
            String candidate = name;
            String first = kind + name.toLowerCase(Locale.ROOT);
            while (!taken.add(kind + candidate.toLowerCase(Locale.ROOT))) {
                candidate = name + between + used.merge(first, 2, (count, two) -> count + 1);
            }
            return candidate;
        }
    }
}
