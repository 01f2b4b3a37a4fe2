package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;

/** The smallest thing of a clearance that can be read back right or wrong by itself; equal words are the same thing. */
record Part(String what, String words) {

    static final String CALLSIGN = "callsign";
    static final String HEADING = "heading";
    static final String ALTITUDE = "altitude";
    static final String RADIAL = "radial";
    static final String HOLD_RADIAL = "hold radial";
    static final String FURTHER_CLEARANCE = "further clearance";
    static final String DIRECTION = "direction";
    static final String TURNS = "turns";
    static final String WORDS = "words";

    static List<Part> of(Clearance clearance) {
        List<Part> parts = new ArrayList<>();
        clearance.callsign().ifPresent(said -> parts.add(new Part(CALLSIGN, Callsign.plain(said))));
        parts.addAll(of(clearance.instructions(), Part::of));
        return parts;
    }

    /** Of several; what "then" follows is read back with the crossing before it. */
    static List<Part> of(List<Instruction> instructions, Function<Instruction, List<Part>> of) {
        List<Part> parts = new ArrayList<>();
        Optional<Waypoint> crossed = Optional.empty();
        for (Instruction each : instructions) {
            boolean then = each instanceof Instruction.Depart depart
                    && depart.asSaidNext()
                    && crossed.filter(depart.fix()::equals).isPresent();
            if (!then) {
                parts.addAll(of.apply(each));
            }
            if (!(each instanceof Instruction.Maintain)) {
                crossed = each instanceof Instruction.CrossAt cross ? Optional.of(cross.fix()) : Optional.empty();
            }
        }
        return parts;
    }

    static List<Part> of(Instruction instruction) {
        return instruction.fold(PARTS);
    }

    static List<Part> sense(Sense sense) {
        return sense == Sense.UNSAID
                ? List.of()
                : List.of(new Part(DIRECTION, Phraseology.sense(sense).trim()));
    }

    static Part heading(double deg) {
        return new Part(HEADING, SpokenWords.direction(deg));
    }

    static List<Part> turn(TurnDirection direction) {
        return direction == TurnDirection.SHORTEST ? List.of() : List.of(new Part("turn", Phraseology.turn(direction)));
    }

    private static String holdPart(String words) {
        if (words.endsWith("legs")) {
            return "legs";
        }
        if (words.endsWith("turns")) {
            return TURNS;
        }
        if (words.startsWith("on ") || words.startsWith("inbound ")) {
            return HOLD_RADIAL;
        }
        return words.equals("as published") ? "published" : FURTHER_CLEARANCE;
    }

    private static final Instruction.Visitor<List<Part>> PARTS = new Parts();

    /** Each kind of instruction in its parts. */
    private static final class Parts implements Instruction.Visitor<List<Part>> {

        /** Where a line is left, where that is said. */
        private static List<Part> left(Instruction.StationLine line) {
            return line.until()
                    .map(until -> one("until", Phraseology.until(until)))
                    .orElse(List.of());
        }

        private static List<Part> one(String what, String words) {
            return List.of(new Part(what, words));
        }

        @Override
        public List<Part> flyHeading(Instruction.FlyHeading fly) {
            List<Part> parts = new ArrayList<>(turn(fly.direction()));
            parts.add(heading(fly.heading().deg()));
            return parts;
        }

        @Override
        public List<Part> turnBy(Instruction.TurnBy by) {
            return List.of(
                    new Part("turn", Phraseology.turn(by.direction())),
                    new Part("degrees", Phraseology.count(by.degrees())));
        }

        @Override
        public List<Part> flyPresentHeading(Instruction.FlyPresentHeading said) {
            return one(HEADING, "present heading");
        }

        @Override
        public List<Part> flyRunwayHeading(Instruction.FlyRunwayHeading said) {
            return one(HEADING, "runway heading");
        }

        @Override
        public List<Part> interceptAirway(Instruction.InterceptAirway intercept) {
            return along(intercept.joined());
        }

        @Override
        public List<Part> interceptRadial(Instruction.InterceptRadial intercept) {
            List<Part> parts = new ArrayList<>();
            parts.add(new Part("station", Phraseology.place(intercept.station())));
            parts.add(new Part(RADIAL, SpokenWords.direction(intercept.radial().deg())));
            parts.addAll(sense(intercept.sense()));
            parts.addAll(left(intercept));
            return parts;
        }

        @Override
        public List<Part> interceptBearing(Instruction.InterceptBearing intercept) {
            boolean inbound = intercept.sense() == Sense.INBOUND;
            List<Part> parts = new ArrayList<>();
            parts.add(new Part("station", Phraseology.place(intercept.station())));
            parts.add(new Part(
                    "bearing",
                    SpokenWords.direction(intercept.bearing().deg() + (inbound ? 180 : 0))
                            + (inbound ? " to" : " from")));
            parts.addAll(left(intercept));
            return parts;
        }

        @Override
        public List<Part> interceptArc(Instruction.InterceptArc arc) {
            List<Part> parts = new ArrayList<>();
            parts.add(new Part("station", Phraseology.place(arc.station())));
            parts.add(new Part("arc", Phraseology.count(arc.distanceNm()) + " mile arc"));
            arc.side().ifPresent(side -> parts.add(new Part("side", side)));
            String way = Phraseology.way(arc);
            if (!way.isEmpty()) {
                parts.add(new Part(DIRECTION, way));
            }
            parts.addAll(left(arc));
            return parts;
        }

        @Override
        public List<Part> joinAirway(Instruction.JoinAirway join) {
            List<Part> parts = along(join);
            join.at().ifPresent(point -> parts.add(new Part("fix", "at " + Phraseology.place(point, join.away()))));
            join.to().ifPresent(point -> parts.add(new Part("fix", "to " + Phraseology.place(point))));
            return parts;
        }

        private static List<Part> along(Instruction.JoinAirway join) {
            List<Part> parts = new ArrayList<>();
            parts.add(new Part("airway", Phraseology.airway(join.airway())));
            join.bound().ifPresent(bound -> parts.add(new Part(DIRECTION, bound + " bound")));
            return parts;
        }

        @Override
        public List<Part> direct(Instruction.Direct direct) {
            List<Part> parts = new ArrayList<>(turn(direct.turn()));
            if (direct.whenAble()) {
                parts.add(new Part("when", "when able"));
            }
            parts.add(new Part("direct", Phraseology.place(direct.to(), direct.away())));
            return parts;
        }

        @Override
        public List<Part> depart(Instruction.Depart depart) {
            List<Part> parts = new ArrayList<>();
            parts.add(
                    depart.asSaidNext()
                            ? new Part("after", "after passing " + Phraseology.place(depart.fix()))
                            : new Part("depart", Phraseology.place(depart.fix())));
            parts.addAll(turn(depart.turn()));
            depart.heading().ifPresent(said -> parts.add(heading(said.deg())));
            depart.line().ifPresent(line -> {
                parts.add(line.line(
                        radial -> new Part(
                                RADIAL, SpokenWords.direction(radial.radial().deg())),
                        bearing -> new Part(
                                "bearing",
                                SpokenWords.direction(bearing.bearing().deg()) + " from"),
                        arc -> new Part("arc", Phraseology.count(arc.distanceNm()) + " mile arc")));
                parts.addAll(left(line));
            });
            return parts;
        }

        @Override
        public List<Part> clearedTo(Instruction.ClearedTo cleared) {
            return one("limit", Phraseology.place(cleared.limit()));
        }

        @Override
        public List<Part> onward(Instruction.Onward onward) {
            return one("onward", Phraseology.onward(onward.how()));
        }

        @Override
        public List<Part> maintain(Instruction.Maintain maintain) {
            List<Part> parts = new ArrayList<>();
            parts.add(new Part(ALTITUDE, SpokenWords.altitude(maintain.feet(), maintain.flightLevel())));
            if (maintain.untilEstablished()) {
                parts.add(new Part("until", "until established"));
            }
            String when = Phraseology.begin(maintain.when());
            if (!when.isEmpty()) {
                parts.add(new Part("when", when));
            }
            maintain.levelBy().ifPresent(fix -> parts.add(new Part("level by", Phraseology.place(fix))));
            return parts;
        }

        @Override
        public List<Part> crossAt(Instruction.CrossAt cross) {
            return one("crossing", Phraseology.say(cross));
        }

        @Override
        public List<Part> hold(Instruction.Hold hold) {
            List<Part> parts = new ArrayList<>();
            parts.add(new Part(
                    "hold",
                    hold.compass().map(compass -> compass + " of ").orElse("at ") + Phraseology.place(hold.fix())));
            Phraseology.holdParts(hold).forEach(words -> parts.add(new Part(holdPart(words), words)));
            return parts;
        }

        /** A report is made when the time comes; reading it back is courtesy, and not missed. */
        @Override
        public List<Part> report(Instruction.Report report) {
            return List.of();
        }

        @Override
        public List<Part> expect(Instruction.Expect expect) {
            return one("expect", expect.what().toLowerCase(Locale.ROOT));
        }

        @Override
        public List<Part> maintainSpeed(Instruction.MaintainSpeed speed) {
            return speed(speed);
        }

        private static List<Part> speed(Instruction instruction) {
            return one("speed", Phraseology.say(instruction).replaceFirst("^maintain ", ""));
        }

        @Override
        public List<Part> maintainPresentSpeed(Instruction.MaintainPresentSpeed said) {
            return speed(said);
        }

        @Override
        public List<Part> resumeNormalSpeed(Instruction.ResumeNormalSpeed said) {
            return speed(said);
        }

        @Override
        public List<Part> cancel(Instruction.Cancel said) {
            return one("cancel", Phraseology.say(said));
        }

        @Override
        public List<Part> noted(Noted said) {
            if (said instanceof Noted.TurnOnto onto) {
                return turn(onto.side());
            }
            if (!(said instanceof Noted.After after)) {
                return one(said.kind(), said.words());
            }
            // What "then" follows is read back with what it says of it.
            List<Part> parts = new ArrayList<>(
                    after.order() ? List.of() : one(said.kind(), after.when().begins()));
            after.then().forEach(each -> parts.addAll(each.fold(this)));
            return parts;
        }
    }
}
