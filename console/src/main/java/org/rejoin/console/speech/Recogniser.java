package org.rejoin.console.speech;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A recogniser that is installed on this machine, and exactly how it is run: pocketsphinx, which reads one sound, one grammar
 * and one dictionary and writes one line.
 *
 * @param program its file
 * @param model folder of its English model: {@code en-us/} and {@code cmudict-en-us.dict}
 */
public record Recogniser(Path program, Path model) {

    /** What to install where there is none. */
    public static final String INSTALL =
            "install pocketsphinx with its English model (on Debian: apt install pocketsphinx pocketsphinx-en-us)";

    private static final List<String> NAMES = List.of("pocketsphinx_batch");

    private static final List<Path> MODELS = List.of(
            Path.of("/usr/share/pocketsphinx/model/en-us"),
            Path.of("/usr/local/share/pocketsphinx/model/en-us"),
            Path.of("/opt/homebrew/share/pocketsphinx/model/en-us"));

    /** Process time of one decode, seconds. */
    private static final double MOST_PROCESS_S = 10;

    private static final int MOST_OCTETS = 200_000;
    private static final String DICTIONARY = "cmudict-en-us.dict";

    /**
     * The recogniser of this machine.
     *
     * @param given as the user named it; empty to look for one
     * @param model as the user named its folder; empty to look for it
     * @param searchPath as in the environment variable PATH
     * @throws IOException if it or its model is not there; one line
     */
    public static Recogniser of(Optional<String> given, Optional<Path> model, String searchPath) throws IOException {
        Path program = given.isPresent()
                ? Programs.named(given.get(), NAMES, searchPath)
                : Programs.find(NAMES, searchPath)
                        .orElseThrow(() -> new IOException("this machine has no recogniser: " + INSTALL));
        Path folder = model.or(() -> MODELS.stream()
                        .filter(each -> Files.isRegularFile(each.resolve(DICTIONARY)))
                        .findFirst())
                .orElseThrow(() -> new IOException("the recogniser has no English model: " + INSTALL));
        if (!Files.isRegularFile(folder.resolve(DICTIONARY)) || !Files.isDirectory(folder.resolve("en-us"))) {
            throw new IOException(folder + " is not a model: it would hold en-us and " + DICTIONARY);
        }
        return new Recogniser(program, folder);
    }

    /** {@return what it is called, name of its program} */
    public String programName() {
        return Programs.nameOf(program);
    }

    Path dictionary() {
        return model.resolve(DICTIONARY);
    }

    /** Bare phones, any of them in any order: what anything at all sounds like. */
    static String phoneGrammar() {
        return "#JSGF V1.0;\ngrammar phones;\npublic <phones> = ("
                + Pronunciations.PHONES.stream().map(Recogniser::word).collect(Collectors.joining(" | "))
                + ")+;\n";
    }

    static String phoneDictionary() {
        return Pronunciations.PHONES.stream()
                .map(phone -> word(phone) + " " + phone + "\n")
                .collect(Collectors.joining());
    }

    private static String word(String phone) {
        return "ph" + phone.toLowerCase(Locale.ROOT);
    }

    /**
     * The same for every sound. Beams far wider than its own, or short words are lost (tried: 11 of 20 right, then 20). Pauses
     * are likely, or they are heard as short words; words are a little unlikely.
     */
    private static final List<String> ALWAYS =
            List.of(("-adcin yes -adchdr 44 -cepext .wav -warp_type inverse_linear -silprob 0.2 -wip 0.2 -lw 3"
                            + " -beam 1e-60 -wbeam 1e-50 -pbeam 1e-60 -dither yes -seed 1 -compallsen yes")
                    .split(" ", -1));

    /** Program and arguments. */
    List<String> command(Path folder, double warp) {
        List<String> command = new ArrayList<>(List.of(program.toString()));
        command.addAll(List.of("-hmm", model.resolve("en-us").toString()));
        command.addAll(List.of("-jsgf", folder.resolve("grammar.jsgf").toString()));
        command.addAll(List.of("-dict", folder.resolve("words.dict").toString()));
        command.addAll(List.of("-cepdir", folder.toString()));
        command.addAll(List.of("-ctl", folder.resolve("sounds").toString()));
        command.addAll(List.of("-hypseg", folder.resolve("heard").toString()));
        command.addAll(List.of("-logfn", folder.resolve("log").toString()));
        command.addAll(List.of("-warp_params", String.format(Locale.ROOT, "%.2f", warp)));
        command.addAll(ALWAYS);
        return command;
    }

    /**
     * One decode. Waits for the program.
     *
     * @param grammar JSGF
     * @param dictionary of its words
     * @param warp by how much the spectrum is stretched; 1 for not at all
     * @return what was heard, piece by piece; none where nothing fits
     * @throws IOException if the program fails; one line
     */
    List<Segment> hear(Sound sound, String grammar, String dictionary, double warp) throws IOException {
        try (PrivateFolder folder = new PrivateFolder()) {
            folder.file("sound.wav", sound.wav());
            folder.file("grammar.jsgf", grammar.getBytes(StandardCharsets.US_ASCII));
            folder.file("words.dict", dictionary.getBytes(StandardCharsets.US_ASCII));
            folder.file("sounds", "sound\n".getBytes(StandardCharsets.US_ASCII));
            folder.file("heard", new byte[0]);
            folder.file("log", new byte[0]);
            Child.run(command(folder.file(""), warp), new byte[0], MOST_PROCESS_S, MOST_OCTETS);
            return Segment.read(
                    new String(PrivateFolder.read(folder.file("heard"), MOST_OCTETS), StandardCharsets.US_ASCII));
        }
    }

    /**
     * A piece of what was heard.
     *
     * @param word of the grammar; a blank text for silence and noise
     * @param from first frame, of 10 ms
     * @param to first frame after it
     * @param score log likelihood of its sound, in the recogniser's own unit; higher is likelier
     */
    record Segment(String word, int from, int to, double score) {

        /** Of a line of {@code -hypseg}: {@code id S n T n A n L n} and then {@code frame score score word} each, at last the end. */
        static List<Segment> read(String line) {
            String[] parts = line.strip().split("\\s+", -1);
            List<Segment> all = new ArrayList<>();
            int at = 9;
            while (at + 4 < parts.length) {
                int from = number(parts[at]);
                double score = number(parts[at + 1]);
                String word = parts[at + 3].replaceFirst("\\(\\d+\\)$", "");
                int to = number(parts[at + 4]);
                boolean nothing =
                        word.startsWith("<") || word.startsWith("(") || word.startsWith("+") || word.startsWith("[");
                if (!word.equals("(NULL)")) {
                    all.add(new Segment(nothing ? "" : word, from, to, score));
                }
                at += 4;
            }
            return all;
        }

        private static int number(String text) {
            try {
                return Integer.parseInt(text);
            } catch (NumberFormatException e) {
                return 0;
            }
        }
    }
}
