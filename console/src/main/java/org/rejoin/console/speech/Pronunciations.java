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
import java.util.stream.Collectors;
import java.util.stream.Stream;

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
    private static final Map<String, List<String>> OURS = Map.ofEntries(
            Map.entry("tree", List.of("T R IY")),
            Map.entry("fife", List.of("F AY F")),
            Map.entry("fower", List.of("F OW ER")),
            Map.entry("niner", List.of("N AY N ER")),
            Map.entry("thousand", List.of("TH AW Z AH N D", "T AW Z AH N D")),
            Map.entry("wilco", List.of("W IH L K OW")),
            // In two syllables by some, and the weak form.
            Map.entry("filed", List.of("F AY L D", "F AY AH L D")),
            Map.entry("as", List.of("AE Z", "EH Z", "AH Z")),
            Map.entry("juliett", List.of("JH UW L IY EH T")),
            Map.entry("alfa", List.of("AE L F AH")),
            Map.entry("xray", List.of("EH K S R EY")),
            // With the tap that Americans say for the t; a teen never has it.
            Map.entry("thirty", List.of("TH ER T IY", "TH ER D IY")),
            Map.entry("forty", List.of("F AO R T IY", "F AO R D IY")),
            Map.entry("eighty", List.of("EY T IY", "EY D IY")));

    /** As said in England, beside the rule below. */
    private static final Map<String, List<String>> ENGLISH =
            Map.of("one", List.of("W AO N"), "zero", List.of("Z IH AH R OW", "Z IH R AH", "Z IH AH R AH"));

    private static final Set<String> VOWELS =
            Set.of("AA", "AE", "AH", "AO", "AW", "AY", "EH", "ER", "EY", "IH", "IY", "OW", "OY", "UH", "UW");

    /** Before a dropped r these glide to a neutral vowel. */
    private static final Set<String> GLIDING = Set.of("AW", "AY", "EH", "IH", "IY", "UH");

    private final Path dictionary;
    private final LetterSounds letters;
    private final Map<String, List<String>> known = new ConcurrentHashMap<>();

    /**
     * Words by these.
     *
     * @param dictionary of the recogniser: a word and its phones on a line, further ones as word(2)
     * @param letters for words that no dictionary has
     */
    Pronunciations(Path dictionary, LetterSounds letters) {
        this.dictionary = dictionary;
        this.letters = letters;
    }

    /** Whether phones are written as the model has them. */
    static boolean isPhones(String text) {
        return !text.isBlank() && PHONES.containsAll(List.of(text.strip().split("\\s+", -1)));
    }

    /**
     * A dictionary of these words alone.
     *
     * @param words lower case, some with a mark of {@link Rivals} behind
     * @param says as the chart says some of them: other words, or phones
     * @param dropsR whether the pilot says them as in England, beside as in America
     * @throws IOException if the recogniser's own cannot be read, or a word cannot be worked out; one line
     */
    String of(Set<String> words, Map<String, String> says, boolean dropsR) throws IOException {
        Set<String> missing = words.stream().map(Rivals::plain).collect(Collectors.toCollection(TreeSet::new));
        says.values().stream().filter(each -> !isPhones(each)).forEach(each -> missing.addAll(words(each)));
        missing.removeAll(known.keySet());
        if (!missing.isEmpty()) {
            known.putAll(read(missing));
        }
        StringBuilder out = new StringBuilder();
        for (String word : new TreeSet<>(words)) {
            String sounds = says.get(Rivals.plain(word));
            List<String> american = sounds == null ? ways(Rivals.plain(word)) : List.of(phones(sounds));
            List<String> ways = dropsR ? english(Rivals.plain(word), american) : american;
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

    private static List<String> english(String word, List<String> american) {
        return Stream.of(
                        american.stream(),
                        american.stream().map(Pronunciations::withoutR),
                        ENGLISH.getOrDefault(word, List.of()).stream())
                .flatMap(each -> each)
                .distinct()
                .toList();
    }

    /** Without the r that is not before a vowel (J. C. Wells, Accents of English, 1982, from memory). */
    static String withoutR(String phones) {
        List<String> from = List.of(phones.split(" ", -1));
        List<String> to = new ArrayList<>();
        for (int i = 0; i < from.size(); i++) {
            String phone = from.get(i);
            String before = i == 0 ? "" : from.get(i - 1);
            boolean vowelNext = i + 1 < from.size() && VOWELS.contains(from.get(i + 1));
            if (phone.equals("R") && VOWELS.contains(before) && !vowelNext) {
                if (GLIDING.contains(before)) {
                    to.add("AH");
                }
            } else if (phone.equals("ER")) {
                to.add("AH");
                if (vowelNext) {
                    to.add("R");
                }
            } else {
                to.add(phone);
            }
        }
        return String.join(" ", to);
    }

    private List<String> ways(String word) {
        return known.getOrDefault(word, List.of());
    }

    private static List<String> words(String text) {
        return List.of(text.strip().toLowerCase(Locale.ROOT).split("[ -]+", -1));
    }

    /** Of other words that sound so, the first way each is said. */
    private String phones(String sounds) {
        return isPhones(sounds)
                ? sounds.strip()
                : words(sounds).stream()
                        .flatMap(each -> ways(each).stream().limit(1))
                        .collect(Collectors.joining(" "));
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
            List<String> ways = Optional.ofNullable(OURS.get(word)).orElse(found.getOrDefault(word, List.of()));
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
