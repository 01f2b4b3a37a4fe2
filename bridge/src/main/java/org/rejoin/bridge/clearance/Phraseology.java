package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;

import org.antlr.v4.runtime.Token;

/**
 * A clearance in ATC's words, as spoken: the inverse of {@link ClearanceReader}, which reads what this says to the same
 * instructions. Words of FAA Order JO 7110.65 (4-2-5, 4-4-1, 4-5-7, 4-6-4, 5-6-2), numbers of the Aeronautical
 * Information Manual (4-2-8 to 4-2-10).
 */
public final class Phraseology {

    private static final Pattern AIRWAY = Pattern.compile("([A-Z]{1,2})(\\d{1,3})");

    /** Letters, then figures, then what may follow; up to three words. */
    private static final Pattern CALLSIGN = Pattern.compile("[A-Za-z]+(?:[ -][A-Za-z]+){0,2}[ -]?\\d[A-Za-z0-9]{0,6}");

    private static final Said SAID = new Said();

    private Phraseology() {}

    /**
     * Says a clearance so that it is read the same again, for example "fly heading one zero zero, intercept the Grey
     * Petrel two five zero radial, join victor thirty-one, then as filed". One sentence, but for a full stop where a
     * comma would put what follows to a place named before it.
     */
    public static String say(Clearance clearance) {
        List<String> sentences = new ArrayList<>();
        List<String> parts = new ArrayList<>();
        clearance.callsign().ifPresent(parts::add);
        boolean begunThere = false;
        boolean next = false;
        Optional<Instruction> before = Optional.empty();
        boolean along = false;
        Optional<When> begun = Optional.empty();
        Optional<String> turn = Optional.empty();
        for (Instruction instruction : saidOnce(clearance.instructions())) {
            if (instruction instanceof Noted.TurnOnto onto) {
                turn = Optional.of("turn " + turn(onto.side()));
                continue;
            }
            if (instruction instanceof Noted.JoinedWithin within && !parts.isEmpty()) {
                // Of the airway right before it.
                parts.add(parts.remove(parts.size() - 1) + ", " + within.words());
                continue;
            }
            Optional<Noted.After> after =
                    instruction instanceof Noted.After said ? Optional.of(said) : Optional.empty();
            String words = after.map(Phraseology::among).orElseGet(() -> say(instruction));
            Optional<When> begins = after.filter(Noted.After::order).map(Noted.After::when);
            boolean joined = begins.isPresent() && begins.equals(begun);
            begun = begins;
            if (joined) {
                parts.add(parts.remove(parts.size() - 1) + " and " + after.get().begun());
                continue;
            }
            boolean atOnce = instruction instanceof Instruction.Assignment
                    && !(instruction instanceof Noted.After)
                    && before.filter(Instruction.Depart.class::isInstance).isEmpty();
            boolean apart = before.filter(Phraseology::goesOn).isPresent()
                    || (begunThere && atOnce)
                    || (next && !(instruction instanceof Instruction.Onward))
                    || before.filter(said -> said instanceof Instruction.Expect expect
                                    && InstructionReader.isFurtherRoute(expect))
                            .isPresent()
                    || (after.isPresent()
                            && before.filter(Instruction.Hold.class::isInstance).isPresent());
            next = before.filter(Phraseology::isPlaceOfNext).isPresent();
            if (apart && !parts.isEmpty()) {
                sentences.add(String.join(", ", parts));
                parts.clear();
            }
            begunThere |= instruction instanceof Instruction.Depart;
            // Behind "then" a place is of what stands before it.
            boolean ofNext = isPlaceOfNext(instruction)
                    && before.filter(said -> said instanceof Instruction.Maintain
                                    || said instanceof Instruction.Speed
                                    || said instanceof Noted.After)
                            .isPresent();
            before = Optional.of(instruction);
            // One airway after another, or after a limit, is a route: "via" (FAA Order JO 7110.65, 4-4-1).
            boolean goesOn = instruction instanceof Instruction.JoinAirway join
                    && join.at().isEmpty();
            String onto = goesOn && along && turn.isEmpty() ? words.replaceFirst("^join ", "via ") : words;
            // "Turn left to join V40"; "turn left on course".
            boolean line = onto.startsWith("join ") || onto.startsWith("intercept ");
            onto = next ? onto.replaceFirst("^then ", "") : onto;
            parts.add((ofNext ? "then " : "")
                    + turn.map(side -> side + (line ? " to " : ", ")).orElse("")
                    + onto);
            turn = Optional.empty();
            along = instruction instanceof Instruction.JoinAirway || instruction instanceof Instruction.ClearedTo;
        }
        sentences.add(String.join(", ", parts));
        return String.join(". ", sentences);
    }

    /** "Rejoin route by PRION" says that it is as filed from there. */
    static List<Instruction> saidOnce(List<Instruction> all) {
        List<Instruction> once = new ArrayList<>();
        for (Instruction each : all) {
            int last = once.size() - 1;
            if (each instanceof Noted.RouteBy && last >= 0 && once.get(last) instanceof Instruction.Onward) {
                once.remove(last);
            }
            once.add(each);
        }
        return once;
    }

    private static boolean isPlaceOfNext(Instruction instruction) {
        return instruction instanceof Instruction.Depart depart && depart.asSaidNext();
    }

    /** Whether what is said behind a comma would begin there too. */
    private static boolean goesOn(Instruction instruction) {
        return instruction instanceof Noted.After after && !after.order() && !endsWithPlace(after);
    }

    /** "Maintain 6000 after passing BBB". A report would take the place for what is to be reported. */
    private static boolean endsWithPlace(Noted.After said) {
        return said.then().size() == 1
                && said.then().get(0) instanceof Instruction.Assignment one
                && !(one instanceof Instruction.Report)
                && !(one instanceof Instruction.CrossAt)
                && !(one instanceof Noted.Lifted)
                && !(one instanceof Noted.LeftOut)
                && !(one instanceof Noted.HoldTime);
    }

    /**
     * Says all of a clearance, with what is only heard behind it, and what is kept in the words as typed as a controller says
     * it: idents by their names on the chart.
     */
    public static String say(Clearance clearance, Chart chart) {
        List<Instruction> spoken = clearance.instructions().stream()
                .map(each -> each instanceof Instruction.Expect expect
                        ? new Instruction.Expect(FreeWords.said(expect.what(), chart))
                        : each instanceof Instruction.Report report
                                ? new Instruction.Report(FreeWords.said(report.what(), chart))
                                : each)
                .toList();
        String said = say(new Clearance(clearance.text(), clearance.callsign(), spoken));
        return Stream.concat(Stream.of(said), clearance.heard().stream().map(words -> FreeWords.said(words, chart)))
                .collect(Collectors.joining(", "));
    }

    /** Such that no comma puts what begins later to what is said before or after it. */
    private static String among(Noted.After said) {
        if (said.order()) {
            return said.words();
        }
        return endsWithPlace(said)
                ? said.begun() + " " + said.when().begins()
                : said.when().begins() + " "
                        + String.join(
                                ", ",
                                saidOnce(said.then()).stream()
                                        .map(each -> each instanceof Noted.After after
                                                ? among(after)
                                                : say(each).replaceFirst("^then ", ""))
                                        .toList());
    }

    /** Says one instruction. */
    public static String say(Instruction instruction) {
        return instruction.fold(SAID);
    }

    /**
     * An airway in group form: V31 "victor thirty-one", J533 "J five thirty-three" (AIM 4-2-8 c). The U of
     * an upper airspace route before another letter is "upper" (ICAO Annex 11, Appendix 1, from memory). The letters of
     * others are spelled: common practice, no source. The ident itself where it is not letters and a number.
     */
    public static String airway(String ident) {
        Matcher matcher = AIRWAY.matcher(ident);
        if (!matcher.matches()) {
            return ident;
        }
        String letters = matcher.group(1);
        return (isPlain(letters) ? letters : designator(letters)) + " " + SpokenWords.grouped(matcher.group(2));
    }

    private static boolean isPlain(String letters) {
        return "J".equals(letters) || "Q".equals(letters);
    }

    private static String designator(String letters) {
        return letters.matches("U[A-Z]")
                ? "upper " + SpokenWords.spelled(letters.substring(1))
                : SpokenWords.spelled(letters);
    }

    /** How the letters before the number of an airway may be said, as in {@link #airway} first: "upper lima", "uniform lima". */
    public static List<String> airwayLetters(String letters) {
        Stream<String> said = Stream.of(designator(letters), SpokenWords.spelled(letters));
        return (isPlain(letters) ? Stream.concat(Stream.of(letters), said) : said)
                .distinct()
                .toList();
    }

    /**
     * An altitude, feet above mean sea level, or a flight level: "six thousand", "one two thousand five hundred",
     * "flight level one niner zero".
     */
    public static String altitude(double feet) {
        return SpokenWords.altitude(feet);
    }

    /** In figures, as it was said: "FL110", "11000 ft". */
    public static String figures(double feet, boolean flightLevel) {
        return flightLevel
                ? String.format(Locale.ROOT, "FL%03.0f", feet / 100)
                : String.format(Locale.ROOT, "%.0f ft", feet);
    }

    /** A number from 0 to 999 in group form, as of an airway: "four fifty-five" (AIM 4-2-8 c). */
    public static String grouped(int number) {
        return SpokenWords.grouped(String.valueOf(number));
    }

    /** Letters and figures one by one, as of a callsign: "november one two alfa". */
    public static String spelled(String ident) {
        return SpokenWords.spelled(ident);
    }

    /**
     * The callsign that a name stands for, "OCEANIC 512" or "N123AB"; empty where it holds no letter before a figure,
     * or signs that no callsign has.
     */
    public static Optional<String> callsign(String name) {
        return Optional.of(name.strip()).filter(text -> CALLSIGN.matcher(text).matches());
    }

    /**
     * A point: the spoken name of a station or an airport, the ident of a fix that can be said as a word, else letters.
     */
    public static String place(Waypoint point) {
        String name = Names.of(point);
        List<Token> tokens = Names.tokens(name);
        boolean digits = name.chars().anyMatch(Character::isDigit);
        boolean word = tokens.size() == 2 && tokens.get(0).getType() == ClearanceLanguageParser.WORD;
        boolean words =
                tokens.size() > 2 && tokens.stream().anyMatch(token -> token.getType() == ClearanceLanguageParser.WORD);
        if (point instanceof Fix) {
            return digits || (word && name.length() > 3) ? name : SpokenWords.spelled(name);
        }
        boolean said = words || (word && !name.equals(point.ident()));
        return said ? name : ident(point.ident());
    }

    private static String ident(String ident) {
        return ident.chars().anyMatch(Character::isDigit) ? ident : SpokenWords.spelled(ident);
    }

    static String turn(TurnDirection direction) {
        return direction == TurnDirection.LEFT ? "left" : "right";
    }

    static String sense(Sense sense) {
        return switch (sense) {
            case UNSAID -> "";
            case INBOUND -> " inbound";
            case OUTBOUND -> " outbound";
        };
    }

    /** Digit by digit (AIM 4-2-11). */
    static String knots(Instruction.MaintainSpeed speed) {
        return count(speed.knots()) + " knots";
    }

    static String count(double number) {
        return SpokenWords.digits(String.valueOf(Math.round(number)));
    }

    /** " or greater", " or less", or nothing. */
    static String limit(Instruction.MaintainSpeed.Limit bound) {
        return switch (bound) {
            case EXACTLY -> "";
            case OR_GREATER -> " or greater";
            case OR_LESS -> " or less";
        };
    }

    /** An altitude that cannot be taken for a time or a distance: "six thousand feet". */
    static String level(double feet, boolean flightLevel) {
        String words = SpokenWords.altitude(feet, flightLevel);
        return words.startsWith("flight") || words.endsWith("feet") ? words : words + " feet";
    }

    static String onward(Instruction.Onward.How how) {
        return switch (how) {
            case AS_FILED -> "then as filed";
            case RESUME_OWN_NAVIGATION -> "resume own navigation";
            case REST_OF_ROUTE_UNCHANGED -> "rest of route unchanged";
            case ON_COURSE -> "on course";
        };
    }

    /** On which side of an altitude a crossing is; "at", "at or above" or "at or below". */
    public static String bound(Instruction.CrossAt.Bound bound) {
        return switch (bound) {
            case AT -> "at";
            case AT_OR_ABOVE -> "at or above";
            case AT_OR_BELOW -> "at or below";
        };
    }

    /** A line of the station that is departed on it. */
    static String ownLine(Instruction.StationLine line) {
        return line.line(
                radial -> SpokenWords.direction(radial.radial().deg()) + " radial",
                bearing -> SpokenWords.direction(bearing.bearing().deg()) + " bearing",
                arc -> count(arc.distanceNm()) + " mile arc");
    }

    /** Where a line ends. */
    static String until(Instruction.Until until) {
        return until.fold(
                radial -> "the " + place(radial.station()) + " "
                        + SpokenWords.direction(radial.radial().deg()) + " radial",
                distance -> count(distance.distanceNm()) + " miles from " + place(distance.station()),
                at -> place(at.fix()),
                airway -> airway.airway());
    }

    /** " until " where a line ends, or nothing. */
    private static String untilOf(Instruction.StationLine line) {
        return line.until().map(place -> " until " + until(place)).orElse("");
    }

    /** A point, or a place beside it: "one zero miles north of Grey Petrel on victor thirty-one". */
    static String place(Waypoint point, Optional<Instruction.Away> beside) {
        return beside.map(away -> count(away.distanceNm()) + " miles " + away.compass() + " of " + place(point)
                        + away.airway().map(on -> " on " + airway(on)).orElse(""))
                .orElseGet(() -> place(point));
    }

    /** "clockwise", "northwest bound", or nothing. */
    static String way(Instruction.InterceptArc arc) {
        return switch (arc.direction()) {
            case CLOCKWISE -> "clockwise";
            case COUNTERCLOCKWISE -> "counterclockwise";
            case UNSAID -> bound(arc.bound()).strip();
        };
    }

    /** " northwest bound", or nothing. */
    static String bound(Optional<String> compass) {
        return compass.map(said -> " " + said + " bound").orElse("");
    }

    /** The line of a hold, or nothing. */
    static String holdLine(Instruction.Hold hold) {
        return hold.line()
                .map(line -> line.<String>fold(
                        on -> {
                            String radial = SpokenWords.direction(on.radial().deg()) + " radial";
                            return on.station().equals(hold.fix())
                                    ? "on the " + radial
                                    : "on the " + place(on.station()) + " " + radial;
                        },
                        on -> "on the " + SpokenWords.direction(on.bearing().deg()) + " bearing from "
                                + place(on.station()),
                        on -> "inbound track "
                                + SpokenWords.direction(on.inbound().deg()),
                        on -> "on " + airway(on.airway())))
                .orElse("");
    }

    /** What is said of a hold after its fix. */
    static List<String> holdParts(Instruction.Hold hold) {
        List<String> parts = new ArrayList<>();
        Optional.of(holdLine(hold)).filter(words -> !words.isEmpty()).ifPresent(parts::add);
        if (hold.asPublished()) {
            parts.add("as published");
        }
        hold.legMinutes().ifPresent(minutes -> parts.add(halves(minutes) + " minute legs"));
        hold.legNm().ifPresent(miles -> parts.add(halves(miles) + " mile legs"));
        Optional.of(hold.turns())
                .filter(turns -> turns != TurnDirection.SHORTEST)
                .ifPresent(turns -> parts.add(turn(turns) + " turns"));
        if (hold.once()) {
            parts.add("one circuit");
        }
        hold.expectFurtherClearance()
                .ifPresent(time -> parts.add("expect further clearance " + SpokenWords.digits(time)));
        return parts;
    }

    /** A whole number, a number and a half, or as written. */
    private static String halves(double number) {
        if (number == Math.rint(number)) {
            return count(number);
        }
        return number == Math.floor(number) + 0.5
                ? (number < 1 ? "zero" : count(Math.floor(number))) + " and a half"
                : String.valueOf(number);
    }

    /** "at pilot's discretion", "when ready", or nothing. */
    static String begin(Instruction.Maintain.Begin when) {
        return switch (when) {
            case NOW -> "";
            case PILOTS_DISCRETION -> "at pilot's discretion";
            case WHEN_READY -> "when ready";
        };
    }

    /** An instruction in ATC's words: one way to say each kind. */
    private static final class Said implements Instruction.Visitor<String> {

        @Override
        public String flyHeading(Instruction.FlyHeading fly) {
            String verb = fly.direction() == TurnDirection.SHORTEST ? "fly" : "turn " + turn(fly.direction());
            return verb + " heading " + SpokenWords.direction(fly.heading().deg());
        }

        @Override
        public String turnBy(Instruction.TurnBy by) {
            return "turn " + count(by.degrees()) + " degrees " + turn(by.direction());
        }

        @Override
        public String flyPresentHeading(Instruction.FlyPresentHeading said) {
            return "fly present heading";
        }

        @Override
        public String flyRunwayHeading(Instruction.FlyRunwayHeading said) {
            return "fly runway heading";
        }

        @Override
        public String interceptAirway(Instruction.InterceptAirway intercept) {
            return "intercept " + airway(intercept.airway()) + bound(intercept.bound());
        }

        @Override
        public String interceptRadial(Instruction.InterceptRadial intercept) {
            return "intercept the " + place(intercept.station()) + " "
                    + SpokenWords.direction(intercept.radial().deg()) + " radial" + sense(intercept.sense())
                    + untilOf(intercept);
        }

        @Override
        public String interceptBearing(Instruction.InterceptBearing intercept) {
            boolean inbound = intercept.sense() == Sense.INBOUND;
            double deg = intercept.bearing().deg() + (inbound ? 180 : 0);
            return "intercept the " + SpokenWords.direction(deg) + " bearing " + (inbound ? "to " : "from ")
                    + place(intercept.station())
                    + untilOf(intercept);
        }

        @Override
        public String interceptArc(Instruction.InterceptArc arc) {
            String name = arc.side()
                    .map(side -> count(arc.distanceNm()) + " mile arc " + side + " of " + place(arc.station()))
                    .orElseGet(() -> place(arc.station()) + " " + count(arc.distanceNm()) + " mile arc");
            String way = way(arc);
            return "intercept the " + name + (way.isEmpty() ? "" : " " + way)
                    + arc.until().map(until -> " to " + until(until)).orElse("");
        }

        @Override
        public String joinAirway(Instruction.JoinAirway join) {
            String at =
                    join.at().map(point -> "at " + place(point, join.away())).orElse("");
            return "join "
                    + airway(join.airway())
                    + bound(join.bound())
                    + (at.isEmpty() ? "" : " " + at)
                    + join.to().map(point -> " to " + place(point)).orElse("");
        }

        @Override
        public String direct(Instruction.Direct direct) {
            String turn = direct.turn() == TurnDirection.SHORTEST ? "" : "turn " + turn(direct.turn()) + ", ";
            return (direct.whenAble() ? "when able, " : "") + turn + "proceed direct "
                    + place(direct.to(), direct.away());
        }

        @Override
        public String depart(Instruction.Depart depart) {
            return (depart.asSaidNext() ? "after passing " : "depart ")
                    + place(depart.fix())
                    + (depart.turn() == TurnDirection.SHORTEST ? "" : ", turn " + turn(depart.turn()))
                    + depart.heading()
                            .map(heading -> " heading " + SpokenWords.direction(heading.deg()))
                            .orElse("")
                    + depart.line()
                            .map(line -> " on the " + ownLine(line) + untilOf(line))
                            .orElse("");
        }

        @Override
        public String clearedTo(Instruction.ClearedTo cleared) {
            return "cleared to " + place(cleared.limit());
        }

        @Override
        public String onward(Instruction.Onward onward) {
            return Phraseology.onward(onward.how());
        }

        @Override
        public String maintain(Instruction.Maintain maintain) {
            String verb = switch (maintain.vertical()) {
                case UNSAID -> "maintain ";
                case CLIMB -> "climb and maintain ";
                case DESCEND -> "descend and maintain ";
            };
            String when = begin(maintain.when());
            return (when.isEmpty() ? "" : when + ", ")
                    + verb
                    + SpokenWords.altitude(maintain.feet(), maintain.flightLevel())
                    + (maintain.untilEstablished() ? " until established" : "")
                    + maintain.levelBy()
                            .map(fix -> ", to be level by " + place(fix))
                            .orElse("");
        }

        @Override
        public String crossAt(Instruction.CrossAt cross) {
            return "cross " + place(cross.fix(), cross.before()) + " " + bound(cross.bound()) + " "
                    + SpokenWords.altitude(cross.feet(), cross.flightLevel());
        }

        @Override
        public String hold(Instruction.Hold hold) {
            List<String> parts = holdParts(hold);
            boolean on = hold.line()
                    .filter(line -> !(line instanceof Instruction.HoldLine.OnCourse))
                    .isPresent();
            String after = parts.isEmpty() ? "" : (on ? " " : ", ") + String.join(", ", parts);
            return "hold " + hold.compass().map(compass -> compass + " of ").orElse("at ") + place(hold.fix()) + after;
        }

        @Override
        public String report(Instruction.Report report) {
            return ("report " + report.what()).trim();
        }

        @Override
        public String expect(Instruction.Expect expect) {
            return "expect " + expect.what();
        }

        @Override
        public String maintainSpeed(Instruction.MaintainSpeed speed) {
            return switch (speed.bound()) {
                case OR_LESS -> "do not exceed " + knots(speed);
                case OR_GREATER -> "maintain " + knots(speed) + " or greater";
                case EXACTLY -> "maintain " + knots(speed);
            };
        }

        @Override
        public String maintainPresentSpeed(Instruction.MaintainPresentSpeed said) {
            return "maintain present speed";
        }

        @Override
        public String resumeNormalSpeed(Instruction.ResumeNormalSpeed said) {
            return "resume normal speed";
        }

        @Override
        public String cancel(Instruction.Cancel said) {
            return "disregard the amendment";
        }

        @Override
        public String noted(Noted said) {
            return said.words();
        }
    }
}
