package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;

/**
 * The smallest thing of a clearance that can be read back right or wrong by itself.
 *
 * @param what kind of thing
 * @param words in ATC's words; equal words are the same thing
 */
record Part(String what, String words) {

    static final String CALLSIGN = "callsign";
    static final String ALTITUDE = "altitude";
    static final String RADIAL = "radial";
    static final String WORDS = "words";

    static List<Part> of(Clearance clearance) {
        List<Part> parts = new ArrayList<>();
        clearance.callsign().ifPresent(said -> parts.add(new Part(CALLSIGN, Callsign.plain(said))));
        clearance.instructions().forEach(instruction -> parts.addAll(of(instruction)));
        return parts;
    }

    static List<Part> of(Instruction instruction) {
        List<Part> parts = new ArrayList<>();
        if (instruction instanceof Instruction.FlyHeading fly) {
            if (fly.direction() != TurnDirection.SHORTEST) {
                parts.add(new Part("turn", Phraseology.turn(fly.direction())));
            }
            parts.add(new Part("heading", SpokenWords.direction(fly.heading().deg())));
        } else if (instruction instanceof Instruction.TurnBy turn) {
            parts.add(new Part("turn", Phraseology.turn(turn.direction())));
            parts.add(new Part("degrees", Phraseology.count(turn.degrees())));
        } else if (instruction instanceof Instruction.FlyPresentHeading) {
            parts.add(new Part("heading", "present heading"));
        } else if (instruction instanceof Instruction.FlyRunwayHeading) {
            parts.add(new Part("heading", "runway heading"));
        } else if (instruction instanceof Instruction.InterceptAirway intercept) {
            parts.add(new Part("airway", Phraseology.airway(intercept.airway())));
        } else if (instruction instanceof Instruction.InterceptRadial intercept) {
            parts.add(new Part("station", Phraseology.place(intercept.station())));
            parts.add(new Part(RADIAL, SpokenWords.direction(intercept.radial().deg())));
            parts.addAll(sense(intercept.sense()));
        } else if (instruction instanceof Instruction.InterceptBearing intercept) {
            boolean inbound = intercept.sense() == Sense.INBOUND;
            parts.add(new Part("station", Phraseology.place(intercept.station())));
            parts.add(new Part(
                    "bearing",
                    SpokenWords.direction(intercept.bearing().deg() + (inbound ? 180 : 0))
                            + (inbound ? " to" : " from")));
        } else if (instruction instanceof Instruction.JoinAirway join) {
            parts.add(new Part("airway", Phraseology.airway(join.airway())));
            join.at().ifPresent(point -> parts.add(new Part("fix", "at " + Phraseology.place(point))));
            join.to().ifPresent(point -> parts.add(new Part("fix", "to " + Phraseology.place(point))));
        } else if (instruction instanceof Instruction.Direct direct) {
            if (direct.whenAble()) {
                parts.add(new Part("when", "when able"));
            }
            parts.add(new Part("direct", Phraseology.place(direct.to())));
        } else if (instruction instanceof Instruction.ClearedTo cleared) {
            parts.add(new Part("limit", Phraseology.place(cleared.limit())));
        } else if (instruction instanceof Instruction.Onward onward) {
            parts.add(new Part("onward", Phraseology.onward(onward.how())));
        } else if (instruction instanceof Instruction.Maintain maintain) {
            parts.add(new Part(ALTITUDE, SpokenWords.altitude(maintain.feet())));
            if (maintain.untilEstablished()) {
                parts.add(new Part("until", "until established"));
            }
        } else if (instruction instanceof Instruction.MaintainSpeed
                || instruction instanceof Instruction.MaintainPresentSpeed
                || instruction instanceof Instruction.ResumeNormalSpeed) {
            parts.add(new Part("speed", Phraseology.say(instruction).replaceFirst("^maintain ", "")));
        } else if (instruction instanceof Instruction.CrossAt cross) {
            parts.add(new Part("crossing", Phraseology.say(cross)));
        } else if (instruction instanceof Instruction.Hold hold) {
            parts.add(new Part(
                    "hold",
                    hold.compass().map(compass -> compass + " of ").orElse("at ") + Phraseology.place(hold.fix())));
            Phraseology.holdParts(hold).forEach(words -> parts.add(new Part(holdPart(words), words)));
        } else if (instruction instanceof Instruction.Expect expect) {
            parts.add(new Part("expect", expect.what().toLowerCase(Locale.ROOT)));
        } else {
            parts.add(new Part("cancel", Phraseology.say(instruction)));
        }
        return parts;
    }

    static List<Part> sense(Sense sense) {
        return sense == Sense.UNSAID
                ? List.of()
                : List.of(new Part("direction", Phraseology.sense(sense).trim()));
    }

    private static String holdPart(String words) {
        if (words.endsWith("legs")) {
            return "legs";
        }
        if (words.endsWith("turns")) {
            return "turns";
        }
        return words.endsWith("radial") ? "hold radial" : "further clearance";
    }
}
