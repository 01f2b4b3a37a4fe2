package org.rejoin.console.speech;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * How a word sounds by its letters: asked of flite, whose phones are those of the recogniser's model, or of espeak-ng; without
 * either by a table of single letters, which is coarse.
 */
final class LetterSounds {

    private static final double MOST_S = 5;
    private static final int MOST_OCTETS = 4_096;

    /** Mnemonics of espeak-ng for American English, longer ones first; others are stress and pauses. */
    private static final List<Map.Entry<String, String>> ESPEAK = List.of(
            Map.entry("aI@", "AY AH"),
            Map.entry("aU@", "AW ER"),
            Map.entry("i@3", "IH R"),
            Map.entry("eI", "EY"),
            Map.entry("aI", "AY"),
            Map.entry("OI", "OY"),
            Map.entry("aU", "AW"),
            Map.entry("oU", "OW"),
            Map.entry("tS", "CH"),
            Map.entry("dZ", "JH"),
            Map.entry("i:", "IY"),
            Map.entry("u:", "UW"),
            Map.entry("A:", "AA"),
            Map.entry("O:", "AO"),
            Map.entry("3:", "ER"),
            Map.entry("I2", "IH"),
            Map.entry("I#", "IH"),
            Map.entry("a#", "AH"),
            Map.entry("A@", "AA R"),
            Map.entry("O@", "AO R"),
            Map.entry("o@", "AO R"),
            Map.entry("e@", "EH R"),
            Map.entry("U@", "UH R"),
            Map.entry("i@", "IY AH"),
            Map.entry("@L", "AH L"),
            Map.entry("t#", "T"),
            Map.entry("n-", "AH N"),
            Map.entry("@", "AH"),
            Map.entry("3", "ER"),
            Map.entry("a", "AE"),
            Map.entry("A", "AA"),
            Map.entry("E", "EH"),
            Map.entry("I", "IH"),
            Map.entry("i", "IY"),
            Map.entry("0", "AA"),
            Map.entry("O", "AO"),
            Map.entry("U", "UH"),
            Map.entry("u", "UW"),
            Map.entry("V", "AH"),
            Map.entry("b", "B"),
            Map.entry("d", "D"),
            Map.entry("D", "DH"),
            Map.entry("f", "F"),
            Map.entry("g", "G"),
            Map.entry("h", "HH"),
            Map.entry("k", "K"),
            Map.entry("l", "L"),
            Map.entry("m", "M"),
            Map.entry("n", "N"),
            Map.entry("N", "NG"),
            Map.entry("p", "P"),
            Map.entry("r", "R"),
            Map.entry("s", "S"),
            Map.entry("S", "SH"),
            Map.entry("t", "T"),
            Map.entry("T", "TH"),
            Map.entry("v", "V"),
            Map.entry("w", "W"),
            Map.entry("j", "Y"),
            Map.entry("z", "Z"),
            Map.entry("Z", "ZH"));

    private static final Map<Character, String> SINGLE = Map.ofEntries(
            Map.entry('a', "AE"),
            Map.entry('b', "B"),
            Map.entry('c', "K"),
            Map.entry('d', "D"),
            Map.entry('e', "EH"),
            Map.entry('f', "F"),
            Map.entry('g', "G"),
            Map.entry('h', "HH"),
            Map.entry('i', "IH"),
            Map.entry('j', "JH"),
            Map.entry('k', "K"),
            Map.entry('l', "L"),
            Map.entry('m', "M"),
            Map.entry('n', "N"),
            Map.entry('o', "OW"),
            Map.entry('p', "P"),
            Map.entry('q', "K"),
            Map.entry('r', "R"),
            Map.entry('s', "S"),
            Map.entry('t', "T"),
            Map.entry('u', "AH"),
            Map.entry('v', "V"),
            Map.entry('w', "W"),
            Map.entry('x', "K S"),
            Map.entry('y', "IY"),
            Map.entry('z', "Z"));

    private final Optional<Path> program;

    private LetterSounds(Optional<Path> program) {
        this.program = program;
    }

    /**
     * By a program of this machine, where there is one.
     *
     * @param searchPath as in the environment variable PATH
     */
    static LetterSounds on(String searchPath) {
        return new LetterSounds(Programs.find(List.of("flite", "espeak-ng"), searchPath));
    }

    /**
     * The phones of a word.
     *
     * @param word letters and apostrophes, lower case
     * @return phones with blanks between
     */
    String of(String word) {
        if (!word.matches("[a-z']{1,40}")) {
            throw new IllegalArgumentException("\"" + word + "\" is not a word");
        }
        if (program.isPresent()) {
            try {
                String said = asked(program.get(), word);
                if (!said.isEmpty()) {
                    return said;
                }
            } catch (IOException e) {
                // The table is coarse, but there.
            }
        }
        StringBuilder phones = new StringBuilder();
        for (int i = 0; i < word.length(); i++) {
            String phone = SINGLE.get(word.charAt(i));
            phones.append(phone == null ? "" : (phones.length() == 0 ? "" : " ") + phone);
        }
        return phones.toString();
    }

    private static String asked(Path program, String word) throws IOException {
        boolean flite = isFlite(program);
        byte[] input = flite ? new byte[0] : word.getBytes(StandardCharsets.US_ASCII);
        String said =
                new String(Child.run(command(program, word), input, MOST_S, MOST_OCTETS), StandardCharsets.US_ASCII);
        return flite ? fromFlite(said) : fromEspeak(said);
    }

    private static boolean isFlite(Path program) {
        return Programs.nameOf(program).equals("flite");
    }

    /** Program and arguments; espeak-ng reads the word. */
    static List<String> command(Path program, String word) {
        return isFlite(program)
                ? List.of(program.toString(), "-voice", "kal16", "-ps", "-t", word, "-o", "none")
                : List.of(program.toString(), "-q", "-x", "-v", "en-us", "--stdin");
    }

    /** "pau p eh t r ax l pau": the phones of the model, but for the neutral vowel and the pauses. */
    static String fromFlite(String segments) {
        List<String> phones = new ArrayList<>();
        for (String each : segments.strip().split("\\s+", -1)) {
            String phone = each.equals("ax") ? "AH" : each.toUpperCase(Locale.ROOT);
            if (Pronunciations.PHONES.contains(phone)) {
                phones.add(phone);
            }
        }
        return String.join(" ", phones);
    }

    static String fromEspeak(String mnemonics) {
        List<String> phones = new ArrayList<>();
        String rest = mnemonics.strip();
        while (!rest.isEmpty()) {
            String text = rest;
            Optional<Map.Entry<String, String>> found = ESPEAK.stream()
                    .filter(each -> text.startsWith(each.getKey()))
                    .findFirst();
            found.ifPresent(each -> phones.add(each.getValue()));
            rest = rest.substring(found.map(each -> each.getKey().length()).orElse(1));
        }
        return String.join(" ", phones);
    }
}
