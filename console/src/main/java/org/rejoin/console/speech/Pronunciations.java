package org.rejoin.console.speech;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;

/**
 * How words sound, in the 39 phones of American English (ARPAbet, without stress): from the recogniser's own dictionary, from
 * the chart for names, else by the letters.
 */
final class Pronunciations {

    /** The phones of the recogniser's model. */
    static final List<String> PHONES = List.of(
            "AA", "AE", "AH", "AO", "AW", "AY", "B", "CH", "D", "DH", "EH", "ER", "EY", "F", "G", "HH", "IH", "IY",
            "JH", "K", "L", "M", "N", "NG", "OW", "OY", "P", "R", "S", "SH", "T", "TH", "UH", "UW", "V", "W", "Y", "Z",
            "ZH");

    /** As published: TREE, FIFE, FOW-ER, TOU-SAND (ICAO Annex 10, volume II, 5.2.1.4.3.1); and what dictionaries lack. */
    private static final Map<String, List<String>> OURS = Map.of(
            "tree", List.of("T R IY"),
            "fife", List.of("F AY F"),
            "fower", List.of("F OW ER"),
            "niner", List.of("N AY N ER"),
            "thousand", List.of("TH AW Z AH N D", "T AW Z AH N D"),
            "wilco", List.of("W IH L K OW"),
            "juliett", List.of("JH UW L IY EH T"),
            "alfa", List.of("AE L F AH"),
            "xray", List.of("EH K S R EY"));

    private final Path dictionary;
    private final LetterSounds letters;
    private final Map<String, String> says;
    private final Map<String, List<String>> known = new ConcurrentHashMap<>();

    /**
     * Words by these.
     *
     * @param dictionary of the recogniser: a word and its phones on a line, further ones as word(2)
     * @param letters for words that no dictionary has
     * @param says as the chart says it: a word, lower case, and its phones
     */
    Pronunciations(Path dictionary, LetterSounds letters, Map<String, String> says) {
        this.dictionary = dictionary;
        this.letters = letters;
        this.says = Map.copyOf(says);
    }

    /** Whether phones are written as the model has them. */
    static boolean isPhones(String text) {
        return !text.isBlank() && PHONES.containsAll(List.of(text.strip().split("\\s+", -1)));
    }

    /**
     * A dictionary of these words alone.
     *
     * @throws IOException if the recogniser's own cannot be read, or a word cannot be worked out; one line
     */
    String of(Set<String> words) throws IOException {
        Set<String> missing = new TreeSet<>(words);
        missing.removeAll(known.keySet());
        if (!missing.isEmpty()) {
            known.putAll(read(missing));
        }
        StringBuilder out = new StringBuilder();
        for (String word : new TreeSet<>(words)) {
            List<String> ways = known.getOrDefault(word, List.of());
            for (int i = 0; i < ways.size(); i++) {
                out.append(word)
                        .append(i == 0 ? "" : "(" + (i + 1) + ")")
                        .append(' ')
                        .append(ways.get(i))
                        .append('\n');
            }
        }
        return out.toString();
    }

    private Map<String, List<String>> read(Set<String> words) throws IOException {
        Map<String, List<String>> found = new TreeMap<>();
        try (BufferedReader in = Files.newBufferedReader(dictionary, StandardCharsets.UTF_8)) {
            for (String line = in.readLine(); line != null; line = in.readLine()) {
                int blank = line.indexOf(' ');
                int end = blank < 0 ? -1 : line.charAt(blank - 1) == ')' ? line.indexOf('(') : blank;
                if (end > 0 && words.contains(line.substring(0, end))) {
                    found.computeIfAbsent(line.substring(0, end), unseen -> new ArrayList<>())
                            .add(line.substring(blank + 1).strip());
                }
            }
        }
        Map<String, List<String>> all = new HashMap<>();
        Set<String> unknown = new TreeSet<>();
        for (String word : words) {
            Optional<String> charted = Optional.ofNullable(says.get(word));
            List<String> ways = charted.map(List::of)
                    .orElseGet(() -> Optional.ofNullable(OURS.get(word)).orElse(found.getOrDefault(word, List.of())));
            if (ways.isEmpty()) {
                unknown.add(word);
            } else {
                all.put(word, ways);
            }
        }
        for (String word : unknown) {
            all.put(word, List.of(letters.of(word.toLowerCase(Locale.ROOT))));
        }
        return all;
    }
}
