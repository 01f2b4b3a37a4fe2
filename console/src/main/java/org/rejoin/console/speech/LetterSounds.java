package org.rejoin.console.speech;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * How a word sounds by its letters: asked of flite, whose phones are those of the recogniser's model, or of espeak-ng; without
 * either by a table of single letters, which is coarse.
 */
record LetterSounds(Optional<Path> program) {

    private static final double MOST_S = 5;
    private static final int MOST_OCTETS = 4_096;

    /** Mnemonics of espeak-ng for American English, longer ones first; others are stress and pauses. */
    private static final List<Map.Entry<String, String>> ESPEAK = table("""
            aI@=AY AH, aU@=AW ER, i@3=IH R, eI=EY, aI=AY, OI=OY, aU=AW, oU=OW, tS=CH, dZ=JH, i:=IY, u:=UW,
            A:=AA, O:=AO, 3:=ER, I2=IH, I#=IH, a#=AH, A@=AA R, O@=AO R, o@=AO R, e@=EH R, U@=UH R, i@=IY AH,
            @L=AH L, t#=T, n-=AH N, @=AH, 3=ER, a=AE, A=AA, E=EH, I=IH, i=IY, 0=AA, O=AO, U=UH, u=UW, V=AH,
            b=B, d=D, D=DH, f=F, g=G, h=HH, k=K, l=L, m=M, n=N, N=NG, p=P, r=R, s=S, S=SH, t=T, T=TH, v=V, w=W,
            j=Y, z=Z, Z=ZH""");

    private static final Map<Character, String> SINGLE = table("""
            a=AE, b=B, c=K, d=D, e=EH, f=F, g=G, h=HH, i=IH, j=JH, k=K, l=L, m=M, n=N, o=OW, p=P, q=K, r=R,
            s=S, t=T, u=AH, v=V, w=W, x=K S, y=IY, z=Z""").stream()
            .collect(Collectors.toUnmodifiableMap(each -> each.getKey().charAt(0), Map.Entry::getValue));

    private static List<Map.Entry<String, String>> table(String text) {
        return Stream.of(text.split(",\\s*", -1))
                .map(each -> each.split("=", 2))
                .map(each -> Map.entry(each[0], each[1]))
                .toList();
    }

    /** By a program of this machine, where there is one on a search path as in the environment variable PATH. */
    static LetterSounds on(String searchPath) {
        return new LetterSounds(Programs.find(List.of("flite", "espeak-ng"), searchPath));
    }

    /** The phones of a word of letters and apostrophes, lower case, with blanks between them. */
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
