package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

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

    private Phraseology() {}

    /**
     * Says a clearance.
     *
     * @param clearance any
     * @return one sentence without a full stop, for example "fly heading one zero zero, intercept the Grey Petrel two
     *     five zero radial, join victor thirty-one, then as filed"
     */
    public static String say(Clearance clearance) {
        List<String> parts = new ArrayList<>();
        clearance.callsign().ifPresent(parts::add);
        clearance.instructions().forEach(instruction -> parts.add(say(instruction)));
        return String.join(", ", parts);
    }

    /**
     * Says one instruction.
     *
     * @param instruction any
     * @return its words
     */
    public static String say(Instruction instruction) {
        if (instruction instanceof Instruction.FlyHeading fly) {
            String verb = fly.direction() == TurnDirection.SHORTEST ? "fly" : "turn " + turn(fly.direction());
            return verb + " heading " + SpokenWords.direction(fly.heading().deg());
        } else if (instruction instanceof Instruction.TurnBy turn) {
            return "turn " + count(turn.degrees()) + " degrees " + turn(turn.direction());
        } else if (instruction instanceof Instruction.FlyPresentHeading) {
            return "fly present heading";
        } else if (instruction instanceof Instruction.FlyRunwayHeading) {
            return "fly runway heading";
        } else if (instruction instanceof Instruction.InterceptAirway intercept) {
            return "intercept " + airway(intercept.airway());
        } else if (instruction instanceof Instruction.InterceptRadial intercept) {
            return "intercept the " + place(intercept.station()) + " "
                    + SpokenWords.direction(intercept.radial().deg()) + " radial" + sense(intercept.sense());
        } else if (instruction instanceof Instruction.InterceptBearing intercept) {
            boolean inbound = intercept.sense() == Sense.INBOUND;
            double deg = intercept.bearing().deg() + (inbound ? 180 : 0);
            return "intercept the " + SpokenWords.direction(deg) + " bearing " + (inbound ? "to " : "from ")
                    + place(intercept.station());
        } else if (instruction instanceof Instruction.JoinAirway join) {
            String verb = join.at().isEmpty() && join.to().isPresent() ? "via " : "join ";
            return verb
                    + airway(join.airway())
                    + join.at().map(point -> " at " + place(point)).orElse("")
                    + join.to().map(point -> " to " + place(point)).orElse("");
        } else if (instruction instanceof Instruction.Direct direct) {
            return (direct.whenAble() ? "when able, " : "") + "proceed direct " + place(direct.to());
        } else if (instruction instanceof Instruction.ClearedTo cleared) {
            return "cleared to " + place(cleared.limit());
        } else if (instruction instanceof Instruction.Onward onward) {
            return onward(onward.how());
        } else if (instruction instanceof Instruction.Maintain maintain) {
            return "maintain " + SpokenWords.altitude(maintain.feet())
                    + (maintain.untilEstablished() ? " until established" : "");
        } else if (instruction instanceof Instruction.MaintainSpeed speed) {
            return speed.bound() == Instruction.MaintainSpeed.Limit.OR_LESS
                    ? "do not exceed " + knots(speed)
                    : "maintain " + knots(speed)
                            + (speed.bound() == Instruction.MaintainSpeed.Limit.OR_GREATER ? " or greater" : "");
        } else if (instruction instanceof Instruction.MaintainPresentSpeed) {
            return "maintain present speed";
        } else if (instruction instanceof Instruction.ResumeNormalSpeed) {
            return "resume normal speed";
        } else if (instruction instanceof Instruction.CrossAt cross) {
            return "cross " + place(cross.fix()) + " " + bound(cross.bound()) + " "
                    + SpokenWords.altitude(cross.feet());
        } else if (instruction instanceof Instruction.Hold hold) {
            return hold(hold);
        } else if (instruction instanceof Instruction.Expect expect) {
            return "expect " + expect.what();
        } else {
            return "disregard the amendment";
        }
    }

    /**
     * An airway in group form: V31 "victor thirty-one", J533 "J five thirty-three" (AIM 4-2-8 c). The letters of others
     * are spelled: common practice, no source.
     *
     * @param ident upper case
     * @return its words; the ident itself where it is not letters and a number
     */
    public static String airway(String ident) {
        Matcher matcher = AIRWAY.matcher(ident);
        if (!matcher.matches()) {
            return ident;
        }
        String letters = matcher.group(1);
        boolean plain = "J".equals(letters) || "Q".equals(letters);
        return (plain ? letters : Alphabet.spelled(letters)) + " " + SpokenWords.grouped(matcher.group(2));
    }

    /**
     * An altitude or a flight level.
     *
     * @param feet above mean sea level, 0 or more
     * @return for example "six thousand", "one two thousand five hundred", "flight level one niner zero"
     */
    public static String altitude(double feet) {
        return SpokenWords.altitude(feet);
    }

    /**
     * A point: the spoken name of a station or an airport, the ident of a fix that can be said as a word, else letters.
     *
     * @param point any
     * @return its words
     */
    public static String place(Waypoint point) {
        String name = Names.of(point);
        List<Token> tokens = Names.tokens(name);
        boolean digits = name.chars().anyMatch(Character::isDigit);
        boolean word = tokens.size() == 2 && tokens.get(0).getType() == ClearanceLanguageParser.WORD;
        boolean words =
                tokens.size() > 2 && tokens.stream().anyMatch(token -> token.getType() == ClearanceLanguageParser.WORD);
        if (point instanceof Fix) {
            return digits || (word && name.length() > 3) ? name : Alphabet.spelled(name);
        }
        boolean said = words || (word && !name.equals(point.ident()));
        return said ? name : ident(point.ident());
    }

    private static String ident(String ident) {
        return ident.chars().anyMatch(Character::isDigit) ? ident : Alphabet.spelled(ident);
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

    static String onward(Instruction.Onward.How how) {
        return switch (how) {
            case AS_FILED -> "then as filed";
            case RESUME_OWN_NAVIGATION -> "resume own navigation";
            case REST_OF_ROUTE_UNCHANGED -> "rest of route unchanged";
            case ON_COURSE -> "on course";
        };
    }

    static String bound(Instruction.CrossAt.Bound bound) {
        return switch (bound) {
            case AT -> "at";
            case AT_OR_ABOVE -> "at or above";
            case AT_OR_BELOW -> "at or below";
        };
    }

    private static String hold(Instruction.Hold hold) {
        List<String> parts = holdParts(hold);
        return "hold " + hold.compass().map(compass -> compass + " of ").orElse("at ") + place(hold.fix())
                + parts.stream()
                        .collect(Collectors.joining(
                                ", ", parts.isEmpty() || hold.inboundRadial().isPresent() ? " " : ", ", ""))
                        .stripTrailing();
    }

    /** What is said of a hold after its fix. */
    static List<String> holdParts(Instruction.Hold hold) {
        List<String> parts = new ArrayList<>();
        hold.inboundRadial()
                .ifPresent(radial -> parts.add("on the " + SpokenWords.direction(radial.deg()) + " radial"));
        hold.legMinutes().ifPresent(minutes -> parts.add(count(minutes) + " minute legs"));
        hold.legNm().ifPresent(miles -> parts.add(count(miles) + " mile legs"));
        Optional.of(hold.turns())
                .filter(turns -> turns != TurnDirection.SHORTEST)
                .ifPresent(turns -> parts.add(turn(turns) + " turns"));
        hold.expectFurtherClearance()
                .ifPresent(time -> parts.add("expect further clearance " + SpokenWords.digits(time)));
        return parts;
    }
}
