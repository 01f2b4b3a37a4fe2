package org.rejoin.console.speech;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Readback;

/**
 * Hears readbacks with the recogniser of this machine. What fits its words no better than bare phones is unclear; nothing that is
 * unclear is right or wrong. May be used by several threads: one program at a time for a seat, two in all.
 */
public final class Listener {

    /** The longest readback that is taken, seconds. */
    public static final double MOST_S = 20;

    /** Said once by each pilot, so that it is known how well his voice fits. */
    public static final String KNOWN_SENTENCE = KnownSentence.WORDS;

    /**
     * Limits, in the recogniser's unit.
     *
     * @param clear a clause is clear when its sound is likelier as its words than as bare phones by this, per frame
     * @param wordClear and each of its words by this
     * @param firm what is called wrong must fit better
     * @param wordFirm and each of its words
     * @param sure no other value may be as near as this, or it is not sure that it was right
     * @param sureOfTwins nor its twin, "fourteen" of "forty"
     * @param sureWrong nor any, or it may not be the pilot's mistake
     * @param whole the whole is speech of this grammar when it fits by this
     */
    record Limits(
            double clear,
            double wordClear,
            double firm,
            double wordFirm,
            double sure,
            double sureOfTwins,
            double sureWrong,
            double whole) {}

    /** Found on the voices of the test. */
    static final Limits LIMITS = new Limits(-20, -60, -12, -45, 20, 60, 150, -7);

    private final Recogniser recogniser;
    private final Pronunciations pronunciations;
    private final Semaphore running = new Semaphore(2);
    private final Set<String> busy = ConcurrentHashMap.newKeySet();

    /**
     * What was heard.
     *
     * @param words as heard, a comma after each clause; empty text where nothing was understood
     * @param doubt whether some of it, or all, was not clear
     * @param elements of the clearance; unclear where it was not
     */
    public record Result(String words, boolean doubt, List<Readback.Element> elements) {
        /** Copies the list. */
        public Result {
            elements = List.copyOf(elements);
        }
    }

    /**
     * What is listened for.
     *
     * @param chart with names and airways
     * @param own callsign of the aircraft; empty where it is not known
     */
    public record Expected(Chart chart, FiledRoute filed, Clearance clearance, Optional<String> own) {}

    /** Listens with this program; on the search path a program is found that says how unknown names sound. */
    public Listener(Recogniser recogniser, String searchPath) {
        this.recogniser = recogniser;
        this.pronunciations = new Pronunciations(recogniser.dictionary(), LetterSounds.on(searchPath));
    }

    /** {@return the program, its name} */
    public String programName() {
        return recogniser.programName();
    }

    /**
     * Hears a readback. Waits for the program.
     *
     * @param seat whose; one at a time
     * @param sound {@value #MOST_S} s at most
     * @param expected what is listened for
     * @param voice how well this pilot's voice fits, as {@link #calibrate} gave it; {@link PilotVoice#STRANGER} for one that is not known
     * @throws IOException if the program fails, or is busy; one line
     */
    public Result hear(String seat, Sound sound, Expected expected, PilotVoice voice) throws IOException {
        return result(alone(seat, sound, () -> decoded(sound, expected, voice)), expected, voice.lower());
    }

    /** What was heard, in words, and what else it could have been. */
    record Decoded(Heard heard, List<Rivals.Other> others) {}

    /** What only follows from clauses that are clear stands, where no other value is near; the rest is unclear. Pure. */
    static Result result(Decoded decoded, Expected expected, double voice) {
        return result(decoded, expected, voice, LIMITS);
    }

    static Result result(Decoded asHeard, Expected expected, double voice, Limits limits) {
        Decoded decoded = ChartedAirways.without(asHeard, expected.chart());
        Heard heard = decoded.heard();
        List<String> all = heard.clauses().stream().map(Heard.Clause::text).toList();
        List<String> clear = texts(heard, limits.clear() + voice, limits.wordClear() + voice);
        List<String> firm = texts(heard, limits.firm(), limits.wordFirm());
        // Where half of it was not clear the rest may be chance, too.
        boolean refused = all.isEmpty() || clear.size() * 2 <= all.size() || heard.fit() < limits.whole() + voice;
        List<Readback.Element> whole = check(all, expected);
        List<Readback.Element> ofClear = check(clear, expected);
        List<Readback.Element> ofFirm = check(firm, expected);
        boolean some = clear.size() < all.size();
        List<Readback.Element> elements = new ArrayList<>();
        for (Readback.Element element : whole) {
            List<Rivals.Other> others = decoded.others().stream()
                    .filter(other -> !check(other.clauses(), expected).contains(element))
                    .toList();
            boolean sure = others.stream()
                    .allMatch(other -> other.margin() >= (other.twin() ? limits.sureOfTwins() : limits.sure()));
            boolean stands = switch (element.verdict()) {
                case RIGHT -> ofClear.contains(element) && sure;
                case WRONG ->
                    ofFirm.contains(element) && others.stream().allMatch(other -> other.margin() >= limits.sureWrong());
                case MISSING -> !some && sure;
                case UNCLEAR -> false;
            };
            if (stands && !refused) {
                elements.add(element);
            } else if (!element.expected().isEmpty()) {
                elements.add(element.unclear());
            }
        }
        boolean doubt =
                refused || some || elements.stream().anyMatch(each -> each.verdict() == Readback.Verdict.UNCLEAR);
        return new Result(String.join(", ", all), doubt, elements);
    }

    private static List<String> texts(Heard heard, double fit, double word) {
        return heard.clauses().stream()
                .filter(each -> each.fit() >= fit && each.worst() >= word)
                .map(Heard.Clause::text)
                .toList();
    }

    static List<Readback.Element> check(List<String> clauses, Expected expected) {
        return check(String.join(", ", clauses), expected);
    }

    private static List<Readback.Element> check(String words, Expected expected) {
        return Readback.check(expected.clearance(), words, expected.chart(), expected.filed(), expected.own());
    }

    /**
     * Learns a pilot's voice from the known sentence.
     *
     * @param seat whose
     * @param sound of {@link #KNOWN_SENTENCE}
     * @return to be given to {@link #hear}; empty where the sentence was not understood
     * @throws IOException if the program fails, or is busy; one line
     */
    public Optional<PilotVoice> calibrate(String seat, Sound sound) throws IOException {
        return alone(seat, sound, () -> new KnownSentence(recogniser, pronunciations).learn(WienerFilter.of(sound)));
    }

    /** Work with the program. */
    private interface Work<T> {
        T done() throws IOException;
    }

    private <T> T alone(String seat, Sound sound, Work<T> work) throws IOException {
        if (sound.seconds() > MOST_S) {
            throw new IOException("the sound is longer than " + Math.round(MOST_S) + " s");
        }
        if (!busy.add(seat)) {
            throw new IOException("the last readback of this seat is still being heard: try again");
        }
        try {
            if (!running.tryAcquire()) {
                throw new IOException("two readbacks are being heard already: try again");
            }
            try {
                return work.done();
            } finally {
                running.release();
            }
        } finally {
            busy.remove(seat);
        }
    }

    private Decoded decoded(Sound noisy, Expected expected, PilotVoice voice) throws IOException {
        Sound sound = WienerFilter.of(noisy);
        Grammar grammar = ReadbackGrammar.of(expected.chart(), expected.filed(), expected.clearance(), expected.own());
        List<Recogniser.Segment> phones =
                recogniser.hear(sound, Recogniser.phoneGrammar(), Recogniser.phoneDictionary(), voice.warp());
        Map<String, String> says = ReadbackGrammar.says(expected.chart());
        Heard heard = Heard.of(hear(sound, grammar, says, voice), phones, grammar);
        Rivals rivals = new Rivals(
                heard,
                ReadbackGrammar.names(expected.chart(), expected.filed()),
                Aloud.of(expected.clearance(), expected.own()));
        return new Decoded(
                heard, rivals.isEmpty() ? List.of() : rivals.others(hear(sound, rivals.grammar(), says, voice)));
    }

    private List<Recogniser.Segment> hear(Sound sound, Grammar grammar, Map<String, String> says, PilotVoice voice)
            throws IOException {
        return recogniser.hear(
                sound, grammar.jsgf(), pronunciations.of(grammar.vocabulary(), says, voice.dropsR()), voice.warp());
    }
}
