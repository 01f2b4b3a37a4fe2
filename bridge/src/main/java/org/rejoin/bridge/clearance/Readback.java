package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AltitudeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BareHeadingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BareItemContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BareRadialContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CallsignAloneContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CallsignContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InterceptContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LooseRadialAloneContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LooseRadialContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ReadbackContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ReadbackItemContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SameStationContext;

import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.tree.ParseTree;

/**
 * Checks what a pilot read back against what was cleared, element by element, however it was read back: typed, tapped or
 * heard. Route clearances and level, heading and speed instructions are always read back (ICAO Doc 4444, 4.5.7.5.1),
 * altitudes and vectors with the callsign (Aeronautical Information Manual 4-4-7 b); what may be left out is checked where
 * it is said.
 */
public final class Readback {

    /** How an element was read back. */
    public enum Verdict {
        /** As cleared. */
        RIGHT,
        /** Not read back. */
        MISSING,
        /** Read back otherwise, or never cleared. */
        WRONG,
        /**
         * Nobody can say: whoever or whatever listened is not sure of it, or it may stand in words that were not understood.
         * Counts neither way.
         */
        UNCLEAR
    }

    /**
     * What need not be read back: how the route goes on as filed, what is only to be expected, and how soon something may
     * begin. Neither Doc 4444 4.5.7.5.1 nor AIM 4-4-7 b names them (judgement, where they could be read into a route
     * clearance).
     */
    private static final Set<String> MAY_BE_LEFT_OUT = Set.of("onward", "expect", "when", "published", Part.WORDS);

    /**
     * What an element is called in front of a user: as {@link Element#what()}, but "rest of the route" for what is said
     * of the way on.
     */
    public static String called(String what) {
        return what.equals("onward") ? "rest of the route" : what;
    }

    /**
     * An element with its words, in front of a user: "heading one one zero"; the words alone where they say what they
     * are, as "until established"; in quotes where they were not understood.
     */
    public static String said(String what, String words) {
        if (words.isEmpty()) {
            return called(what);
        }
        return what.equals(Part.WORDS)
                ? "\"" + words + "\""
                : List.of(words.split(" ", -1)).contains(what) ? words : called(what) + " " + words;
    }

    /**
     * One element of a clearance, or of a readback where the clearance has no such element.
     *
     * @param what it is, for example "heading", "station", "radial", "airway", "altitude", "callsign"; "words" where the
     *     readback was not understood
     * @param verdict how it was read back
     * @param expected as cleared, in ATC's words; empty where nothing of the kind was cleared
     * @param found as read back, in ATC's words, those not understood as typed; empty where missing
     */
    public record Element(String what, Verdict verdict, String expected, String found) {

        /** {@return whether it must be read back; false for what may be left out; said, it must be right all the same} */
        public boolean must() {
            return isDue(what);
        }

        /** {@return the same as unclear, where whoever listened is not sure what was said} */
        public Element unclear() {
            return new Element(what, Verdict.UNCLEAR, expected, found);
        }
    }

    /** Whether elements of a kind must be read back. */
    public static boolean isDue(String what) {
        return !MAY_BE_LEFT_OUT.contains(what);
    }

    /** What a readback is worth as a whole. */
    public enum Outcome {
        /** All that must be read back is, and nothing is wrong. */
        RIGHT,
        /** Something is wrong, or something that must be read back is missing. */
        WRONG,
        /** Nothing is wrong, and something that must be read back is unclear: nothing can be said. */
        UNCLEAR
    }

    /** What a readback is worth as a whole. */
    public static Outcome outcome(List<Element> elements) {
        boolean wrong = elements.stream()
                .anyMatch(
                        each -> each.verdict() == Verdict.WRONG || (each.verdict() == Verdict.MISSING && each.must()));
        boolean unclear = elements.stream().anyMatch(each -> each.verdict() == Verdict.UNCLEAR && each.must());
        return wrong ? Outcome.WRONG : unclear ? Outcome.UNCLEAR : Outcome.RIGHT;
    }

    private static final Pattern VERB = Pattern.compile(
            "(?i)^\\s*(?:to\\s+|and\\s+)?(?:intercept(?:ing)?|join(?:ing)?|(?:cleared\\s+)?via|track)\\s+(?:the\\s+)?");

    /** Said before a readback, and no part of it. */
    private static final Pattern BEFORE =
            Pattern.compile("(?i)^\\s*(?:(?:roger|wilco|okay|ok|copy|copied|affirm|affirmative|uh|um)\\b[,.\\s]*)+");

    /** Said after it. */
    private static final Pattern AFTER =
            Pattern.compile("(?i)(?:[,.\\s]*\\b(?:thank you|thanks|good day|good night|cheers|wilco))+[,.!\\s]*$");

    private static final Pattern CORRECTION = Pattern.compile("(?i)[\\s,;.]*\\bcorrection\\b");

    private static final Pattern PIECE = Pattern.compile("[;.]|,(?!\\d{3})");

    private static final Pattern WORD = Pattern.compile("[^\\s,]+");

    private static final String HOLD = "hold";
    private static final String ONWARD = "onward";

    /** Both say that the route goes on as it was filed (FAA Order JO 7110.65, 4-2-5). */
    private static final Set<Part> AS_FILED = Set.of(
            new Part(ONWARD, Phraseology.onward(Instruction.Onward.How.AS_FILED)),
            new Part(ONWARD, Phraseology.onward(Instruction.Onward.How.REST_OF_ROUTE_UNCHANGED)));

    private static final Pattern GAP = Pattern.compile("[\\s-]+");

    /** "November one two three four five alfa" has seven. */
    private static final int MOST_CALLSIGN_WORDS = 8;

    private final Chart chart;
    private final FiledRoute filed;
    private final List<Part> cleared;
    private final Optional<Instruction.Hold> hold;
    private final AltitudesReadBack altitudes;
    private final Set<Part> found = new LinkedHashSet<>();

    private Readback(Chart chart, FiledRoute filed, Clearance clearance, List<Part> cleared) {
        this.chart = chart;
        this.filed = filed;
        this.cleared = cleared;
        this.hold = clearance.first(Instruction.Hold.class);
        this.altitudes = new AltitudesReadBack(clearance, chart);
    }

    /** Checks a readback of an aircraft whose callsign is not known. */
    public static List<Element> check(Clearance clearance, String text, Chart chart, FiledRoute filed) {
        return check(clearance, text, chart, filed, Optional.empty());
    }

    /**
     * Checks a readback. Words that are not understood are part of the answer, so nothing is thrown.
     *
     * @param clearance as given
     * @param text what the pilot read back, typed; any case, shorter forms and any order are understood
     * @param chart where the readback's stations, fixes and airways are looked up
     * @param filed the filed route
     * @param own callsign of the aircraft, expected at either end where the clearance was typed without one (AIM 4-2-4 and
     *     4-4-7 b 1)
     * @return the elements of the clearance in the order said, then what was read back and never cleared
     */
    public static List<Element> check(
            Clearance clearance, String text, Chart chart, FiledRoute filed, Optional<String> own) {
        List<Part> cleared = new ArrayList<>(Part.of(clearance));
        if (clearance.callsign().isEmpty() && !cleared.isEmpty()) {
            own.ifPresent(callsign -> cleared.add(0, new Part(Part.CALLSIGN, Callsign.plain(callsign))));
        }
        Readback readback = new Readback(chart, filed, clearance, List.copyOf(cleared));
        String said = withoutCourtesy(text);
        readback.readCorrected(own.map(callsign -> withoutCourtesy(readback.withoutOwn(said, Callsign.plain(callsign))))
                .orElse(said));
        if (readback.hasStandardTurns()) {
            readback.found.remove(new Part(Part.TURNS, "right turns"));
        }
        return compare(cleared, readback.found);
    }

    /** Turns of a hold go without saying where they are to the right (AIM 5-3-8), and the chart shows no others. */
    private boolean hasStandardTurns() {
        return hold.filter(said -> said.turns() == Instruction.TurnDirection.SHORTEST
                        && !said.asPublished()
                        && (said.line().isPresent()
                                || chart.holds(said.fix()).stream().allMatch(PublishedHold::right)))
                .isPresent();
    }

    /** What is said after "correction" stands, and the last of its kind said before does not (Pilot/Controller Glossary). */
    private void readCorrected(String text) {
        String[] said = CORRECTION.split(text, -1);
        read(said[0]);
        for (int i = 1; i < said.length; i++) {
            Set<Part> before = new LinkedHashSet<>(found);
            String[] itsOwn = PIECE.split(said[i].replaceFirst("^[\\s,;.]+", ""), 2);
            found.clear();
            read(itsOwn[0]);
            Set<Part> instead = Set.copyOf(found);
            found.clear();
            instead.forEach(part -> before.stream()
                    .filter(other -> other.what().equals(part.what()))
                    .reduce((earlier, later) -> later)
                    .ifPresent(before::remove));
            found.addAll(before);
            found.addAll(instead);
            if (itsOwn.length > 1) {
                read(itsOwn[1]);
            }
        }
    }

    private static String withoutCourtesy(String text) {
        return AFTER.matcher(BEFORE.matcher(text).replaceFirst("")).replaceFirst("");
    }

    /** What is left once his own callsign, which may be a word of the trade, is taken off either end. */
    private String withoutOwn(String text, String own) {
        List<MatchResult> words = WORD.matcher(text).results().toList();
        for (int count = 1; count <= Math.min(words.size(), MOST_CALLSIGN_WORDS); count++) {
            int afterFirst = words.get(count - 1).end();
            int beforeLast = words.get(words.size() - count).start();
            boolean first = Callsign.says(text.substring(0, afterFirst), own);
            if (first || Callsign.says(text.substring(beforeLast), own)) {
                found.add(new Part(Part.CALLSIGN, own));
                String rest = first ? text.substring(afterFirst) : text.substring(0, beforeLast);
                return rest.replaceAll("^[\\s,]+|[\\s,]+$", "");
            }
        }
        return text;
    }

    private void read(String text) {
        if (text.isBlank()) {
            return;
        }
        if (readPart(text)) {
            return;
        }
        // Not as a whole: piece by piece, so that one slip does not hide what was right.
        for (String spoken : PIECE.split(text, -1)) {
            String piece = withoutCourtesy(spoken);
            // An altitude alone has the form of a callsign, too.
            if (!piece.isBlank()
                    && !readPart(piece)
                    && !readOfHold(piece)
                    && !readPart("maintain " + piece.strip())
                    && !readAirway(piece)) {
                found.add(new Part(Part.WORDS, piece.trim().replaceAll("\\s+", " ")));
            }
        }
    }

    /** "Left turns", "on the 100 radial": what is said of the hold that was cleared, apart from the word itself. */
    private boolean readOfHold(String piece) {
        if (hold.isEmpty()) {
            return false;
        }
        Set<Part> before = Set.copyOf(found);
        boolean read = readPart("hold at " + Phraseology.place(hold.get().fix()) + ", " + piece.strip());
        if (read) {
            found.removeIf(part -> part.what().equals(HOLD) && !before.contains(part));
        }
        return read;
    }

    /** An airway that the chart does not show was read back all the same, and is not the one that was cleared. */
    private boolean readAirway(String piece) {
        String plain = Callsign.plain(VERB.matcher(piece).replaceFirst("").replaceFirst("(?i)\\s+(?:at|to)\\s.*", ""));
        boolean airway = plain.matches("[VJQT]\\d{1,3}");
        if (airway) {
            found.add(new Part("airway", Phraseology.airway(plain)));
        }
        return airway;
    }

    private boolean readPart(String text) {
        try {
            List<Token> tokens = apart(ClearanceReader.tokens(text, chart));
            Source source = new Source(text);
            // A number alone is rather an altitude.
            Optional<CallsignContext> alone = tokens.stream().anyMatch(Readback::isName)
                    ? ClearanceReader.parse(tokens, ClearanceLanguageParser::callsignAlone)
                            .map(CallsignAloneContext::callsign)
                    : Optional.empty();
            if (alone.isPresent()) {
                found.addAll(callsign(alone.get(), source));
                return true;
            }
            Optional<ReadbackContext> readback = ClearanceReader.parse(tokens, ClearanceLanguageParser::readback);
            if (readback.isPresent()) {
                found.addAll(altitudes.asSaid(parts(readback.get(), source), tokens));
            }
            return readback.isPresent();
        } catch (ClearanceException e) {
            return false;
        }
    }

    /** A typed number of three figures or more ends where another begins: "heading 210 seven thousand". */
    private static List<Token> apart(List<Token> tokens) {
        List<Token> apart = new ArrayList<>();
        Token before = null;
        for (Token token : tokens) {
            boolean typed = before != null
                    && before.getType() == ClearanceLanguageParser.NUMBER
                    && before.getText().length() >= 3;
            boolean begins = Vocabulary.isFigure(token)
                    && token.getType() != ClearanceLanguageParser.THOUSAND
                    && token.getType() != ClearanceLanguageParser.HUNDRED;
            if (typed && begins) {
                CommonToken comma = new CommonToken(before);
                comma.setType(ClearanceLanguageParser.COMMA);
                apart.add(comma);
            }
            apart.add(token);
            before = token;
        }
        return apart;
    }

    private Set<Part> parts(ReadbackContext readback, Source source) throws ClearanceException {
        InstructionReader reader = new InstructionReader(source, chart, filed, new ArrayList<>(), true);
        Set<Part> parts = new LinkedHashSet<>();
        // In the order said: of two altitudes the first one counts for the first.
        for (ParseTree child : readback.children) {
            if (child instanceof ReadbackItemContext item) {
                int at = readback.children.indexOf(item);
                item(item, Pause.before(readback.children, at), Pause.behind(readback.children, at), reader, parts);
            } else if (child instanceof BareItemContext item) {
                reader.read().forEach(instruction -> parts.addAll(altitudes.of(instruction)));
                bare(item, reader, parts);
            }
        }
        reader.whole().beginLater();
        reader.whole().ontoItsLine();
        parts.addAll(Part.of(reader.read(), altitudes::of));
        if (readback.namedCallsign() != null) {
            parts.addAll(callsign(readback.namedCallsign(), source));
        }
        if (readback.callsign() != null) {
            parts.addAll(callsign(readback.callsign(), source));
        }
        return parts;
    }

    private void item(ReadbackItemContext item, Pause before, Pause behind, InstructionReader reader, Set<Part> parts)
            throws ClearanceException {
        InterceptContext line =
                item.instruction() == null ? null : item.instruction().intercept();
        if (line != null
                && line.sameStation() != null
                && line.sameStation().BEARING() == null
                && !reader.lateral().namesStation()) {
            radialAlone(line.sameStation(), reader.quantities(), parts);
            if (line.INBOUND() != null || line.OUTBOUND() != null) {
                parts.addAll(Part.sense(line.INBOUND() != null ? Sense.INBOUND : Sense.OUTBOUND));
            }
        } else if (item.instruction() != null) {
            reader.readBack(item.instruction(), before, behind);
        } else if (item.arcBody() != null) {
            for (Instruction each : reader.lines().arcAndOn(item.arcBody(), List.of())) {
                parts.addAll(Part.of(each));
            }
        } else {
            parts.addAll(Part.of(reader.lines().loose(item.looseRadial())));
        }
    }

    private void bare(BareItemContext item, InstructionReader reader, Set<Part> parts) throws ClearanceException {
        if (item.looseRadial() != null) {
            parts.addAll(Part.of(reader.lines().loose(item.looseRadial())));
        } else if (item.altitude() != null) {
            parts.add(level(item.altitude(), reader.quantities()));
        } else if (item.bareHeading() != null) {
            BareHeadingContext said = item.bareHeading();
            if (said.side() != null) {
                parts.addAll(Part.turn(LateralReader.side(said.side())));
            }
            parts.add(Part.heading(reader.quantities().degrees(said.number(), "heading")));
        } else {
            BareRadialContext said = item.bareRadial();
            parts.add(new Part("station", Phraseology.place(reader.lines().vor(said.place()))));
            parts.add(new Part(
                    Part.RADIAL, SpokenWords.direction(reader.quantities().degrees(said.number(), "radial"))));
            parts.addAll(Part.sense(LineReader.sense(said.sense())));
        }
    }

    /** "Intercept the 250 radial", of no named station: where the hold alone has a radial it is that of the hold. */
    private void radialAlone(SameStationContext said, Quantities quantities, Set<Part> parts)
            throws ClearanceException {
        String words = SpokenWords.direction(quantities.degrees(said.number(), "radial"));
        boolean ofHold = !isCleared(Part.RADIAL, "") && isCleared(Part.HOLD_RADIAL, "");
        parts.add(
                ofHold
                        ? firstCleared(Part.HOLD_RADIAL, words + " radial")
                                .orElse(new Part(Part.HOLD_RADIAL, words + " radial"))
                        : new Part(Part.RADIAL, words));
        parts.addAll(Part.sense(LineReader.sense(said.sense())));
    }

    private Part level(AltitudeContext said, Quantities quantities) throws ClearanceException {
        boolean alone = said.number() != null
                && said.FL() == null
                && said.FLIGHT() == null
                && said.FEET() == null
                && said.ALTITUDE() == null;
        Optional<Part> other = alone ? noAltitude(quantities.number(said.number())) : Optional.empty();
        return other.isPresent()
                ? other.get()
                : new Part(Part.ALTITUDE, SpokenWords.altitude(quantities.altitudeFt(said), Quantities.isLevel(said)));
    }

    /**
     * A number alone: a heading where one was cleared and it has the three figures of one, the time of further clearance, or
     * the figures of the callsign.
     */
    private Optional<Part> noAltitude(SpokenNumber number) {
        String digits = number.digits();
        if (digits.length() == 3 && number.value() <= 360 && isCleared(Part.HEADING, "")) {
            return Optional.of(Part.heading(number.value()));
        }
        Optional<Part> further = firstCleared(Part.FURTHER_CLEARANCE, SpokenWords.digits(digits));
        if (digits.length() == 4 && further.isPresent()) {
            return further;
        }
        // Without the name it is not his callsign (AIM 4-2-4 a 3), but no altitude either.
        return isCleared(Part.CALLSIGN, digits) ? Optional.of(new Part(Part.CALLSIGN, digits)) : Optional.empty();
    }

    private boolean isCleared(String what, String end) {
        return firstCleared(what, end).isPresent();
    }

    private Optional<Part> firstCleared(String what, String end) {
        return cleared.stream()
                .filter(part -> part.what().equals(what) && part.words().endsWith(end))
                .findFirst();
    }

    /** What has the form of a callsign, and may be none: "victor forty", "petrel zero six six", "one one zero". */
    private List<Part> callsign(ParserRuleContext said, Source source) {
        String words = source.words(said);
        Part callsign = new Part(Part.CALLSIGN, Callsign.plain(words));
        if (!chart.airways(callsign.words()).isEmpty()) {
            return List.of(new Part("airway", Phraseology.airway(callsign.words())));
        }
        if (cleared.contains(callsign)) {
            return List.of(callsign);
        }
        return SpokenNumber.of(List.of(callsign.words()))
                .map(number -> List.of(noAltitude(number)
                        .or(() -> Quantities.isAltitude(number.value())
                                ? Optional.of(new Part(Part.ALTITUDE, SpokenWords.altitude(number.value())))
                                : Optional.empty())
                        .orElse(callsign)))
                .or(() -> radial(words))
                .orElse(List.of(callsign));
    }

    private Optional<List<Part>> radial(String words) {
        String loose = "intercept " + words;
        try {
            Optional<LooseRadialContext> radial = ClearanceReader.parse(
                            ClearanceReader.tokens(loose, chart), ClearanceLanguageParser::looseRadialAlone)
                    .map(LooseRadialAloneContext::looseRadial);
            return radial.isEmpty()
                    ? Optional.empty()
                    : Optional.of(
                            Part.of(new InstructionReader(new Source(loose), chart, filed, new ArrayList<>(), true)
                                    .lines()
                                    .loose(radial.get())));
        } catch (ClearanceException e) {
            return Optional.empty(); // no such station
        }
    }

    private static boolean isName(Token token) {
        return token.getType() == ClearanceLanguageParser.WORD
                || token.getType() == ClearanceLanguageParser.LETTER
                || token.getType() == ClearanceLanguageParser.ALNUM;
    }

    /** What was read back in the place of a part, among all of its kind: two of a kind may not change places. */
    private static Part inItsPlace(Part part, List<Part> expected, Set<Part> readBack) {
        List<Part> cleared = expected.stream()
                .filter(other -> other.what().equals(part.what()) && readBack.contains(other))
                .toList();
        List<Part> read = readBack.stream().filter(cleared::contains).toList();
        return read.get(cleared.indexOf(part));
    }

    private static List<Element> compare(List<Part> cleared, Set<Part> readBack) {
        List<Part> expected = List.copyOf(new LinkedHashSet<>(cleared));
        List<Part> spare = new ArrayList<>(readBack);
        spare.removeAll(expected);
        // A clearance that was typed without a callsign is read back with it all the same (AIM 4-2-3).
        if (expected.stream().noneMatch(part -> part.what().equals(Part.CALLSIGN))) {
            spare.removeIf(part -> part.what().equals(Part.CALLSIGN));
        }
        List<Part> unclear =
                spare.stream().filter(part -> part.what().equals(Part.WORDS)).toList();
        List<Element> elements = new ArrayList<>();
        for (Part part : expected) {
            if (readBack.contains(part)) {
                Part found = inItsPlace(part, expected, readBack);
                Verdict verdict = found.equals(part) ? Verdict.RIGHT : Verdict.WRONG;
                elements.add(new Element(part.what(), verdict, part.words(), found.words()));
                continue;
            }
            Optional<Part> instead = spare.stream()
                    .filter(other -> other.what().equals(part.what()))
                    .findFirst();
            instead.ifPresent(spare::remove);
            elements.add(instead.map(other -> readOtherwise(part, other.words()))
                    .orElseGet(() -> new Element(part.what(), notFound(part, unclear), part.words(), "")));
        }
        boolean wayUnsaid = isOf(expected, Part.RADIAL) && !isOf(expected, Part.DIRECTION);
        for (Part other : spare) {
            // Which way the radial is flown where nobody said it comes of the route, and is not known here.
            boolean inDoubt = other.what().equals(Part.WORDS)
                    || (wayUnsaid && other.what().equals(Part.DIRECTION));
            elements.add(new Element(other.what(), inDoubt ? Verdict.UNCLEAR : Verdict.WRONG, "", other.words()));
        }
        return elements;
    }

    private static boolean isOf(List<Part> parts, String what) {
        return parts.stream().anyMatch(part -> part.what().equals(what));
    }

    private static Element readOtherwise(Part part, String words) {
        boolean same = AS_FILED.contains(part) && AS_FILED.contains(new Part(ONWARD, words));
        return new Element(
                part.what(), same ? Verdict.RIGHT : Verdict.WRONG, AltitudesReadBack.asCleared(part, words), words);
    }

    /** What was not understood may have been what is missing: nobody can say; but a number alone was no name and no turn. */
    private static Verdict notFound(Part part, List<Part> unclear) {
        boolean may = unclear.stream().anyMatch(words -> !isNumber(words.words()) || hasNumber(part.words()));
        return may ? Verdict.UNCLEAR : Verdict.MISSING;
    }

    private static boolean isNumber(String words) {
        return GAP.splitAsStream(words).allMatch(Readback::isFigure);
    }

    private static boolean hasNumber(String words) {
        return words.matches(".*\\d.*") || GAP.splitAsStream(words).anyMatch(Readback::isFigure);
    }

    private static boolean isFigure(String word) {
        return word.matches("\\d+") || SpokenNumber.isWord(word);
    }
}
