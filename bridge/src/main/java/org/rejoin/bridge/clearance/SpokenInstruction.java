package org.rejoin.bridge.clearance;

import java.util.List;

import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;

/** An instruction in ATC's words: one way to say each kind. */
final class SpokenInstruction implements Instruction.Visitor<String> {

    @Override
    public String flyHeading(Instruction.FlyHeading fly) {
        String verb = fly.direction() == TurnDirection.SHORTEST ? "fly" : "turn " + Phraseology.turn(fly.direction());
        return verb + " heading " + SpokenWords.direction(fly.heading().deg());
    }

    @Override
    public String turnBy(Instruction.TurnBy by) {
        return "turn " + Phraseology.count(by.degrees()) + " degrees " + Phraseology.turn(by.direction());
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
        return "intercept " + Phraseology.airway(intercept.airway()) + Phraseology.bound(intercept.bound());
    }

    @Override
    public String interceptRadial(Instruction.InterceptRadial intercept) {
        return "intercept the " + Phraseology.place(intercept.station()) + " "
                + SpokenWords.direction(intercept.radial().deg()) + " radial" + Phraseology.sense(intercept.sense())
                + intercept
                        .until()
                        .map(until -> " until " + Phraseology.until(until))
                        .orElse("");
    }

    @Override
    public String interceptBearing(Instruction.InterceptBearing intercept) {
        boolean inbound = intercept.sense() == Sense.INBOUND;
        double deg = intercept.bearing().deg() + (inbound ? 180 : 0);
        return "intercept the " + SpokenWords.direction(deg) + " bearing " + (inbound ? "to " : "from ")
                + Phraseology.place(intercept.station())
                + intercept
                        .until()
                        .map(until -> " until " + Phraseology.until(until))
                        .orElse("");
    }

    @Override
    public String interceptArc(Instruction.InterceptArc arc) {
        String name = arc.side()
                .map(side -> Phraseology.count(arc.distanceNm()) + " mile arc " + side + " of "
                        + Phraseology.place(arc.station()))
                .orElseGet(() ->
                        Phraseology.place(arc.station()) + " " + Phraseology.count(arc.distanceNm()) + " mile arc");
        String way = Phraseology.way(arc);
        return "intercept the " + name + (way.isEmpty() ? "" : " " + way)
                + arc.until().map(until -> " to " + Phraseology.until(until)).orElse("");
    }

    @Override
    public String joinAirway(Instruction.JoinAirway join) {
        String at = join.at()
                .map(point -> "at " + join.away().map(Phraseology::away).orElse("") + Phraseology.place(point))
                .orElse("");
        return "join "
                + Phraseology.airway(join.airway())
                + Phraseology.bound(join.bound())
                + (at.isEmpty() ? "" : " " + at)
                + join.to().map(point -> " to " + Phraseology.place(point)).orElse("");
    }

    @Override
    public String direct(Instruction.Direct direct) {
        String turn = direct.turn() == TurnDirection.SHORTEST ? "" : "turn " + Phraseology.turn(direct.turn()) + ", ";
        return (direct.whenAble() ? "when able, " : "") + turn + "proceed direct " + Phraseology.place(direct.to());
    }

    @Override
    public String depart(Instruction.Depart depart) {
        return (depart.asSaidNext() ? "after passing " : "depart ")
                + Phraseology.place(depart.fix())
                + (depart.turn() == TurnDirection.SHORTEST ? "" : ", turn " + Phraseology.turn(depart.turn()))
                + depart.heading()
                        .map(heading -> " heading " + SpokenWords.direction(heading.deg()))
                        .orElse("")
                + depart.line()
                        .map(line -> " on the " + Phraseology.ownLine(line)
                                + line.until()
                                        .map(until -> " until " + Phraseology.until(until))
                                        .orElse(""))
                        .orElse("");
    }

    @Override
    public String clearedTo(Instruction.ClearedTo cleared) {
        return "cleared to " + Phraseology.place(cleared.limit());
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
        String when = Phraseology.begin(maintain.when());
        return (when.isEmpty() ? "" : when + ", ")
                + verb
                + SpokenWords.altitude(maintain.feet())
                + (maintain.untilEstablished() ? " until established" : "")
                + maintain.levelBy()
                        .map(fix -> ", to be level by " + Phraseology.place(fix))
                        .orElse("");
    }

    @Override
    public String crossAt(Instruction.CrossAt cross) {
        return "cross " + cross.before().map(Phraseology::away).orElse("") + Phraseology.place(cross.fix()) + " "
                + Phraseology.bound(cross.bound()) + " " + SpokenWords.altitude(cross.feet());
    }

    @Override
    public String hold(Instruction.Hold hold) {
        List<String> parts = Phraseology.holdParts(hold);
        boolean on = hold.line()
                .filter(line -> !(line instanceof Instruction.HoldLine.OnCourse))
                .isPresent();
        String after = parts.isEmpty() ? "" : (on ? " " : ", ") + String.join(", ", parts);
        return "hold " + hold.compass().map(compass -> compass + " of ").orElse("at ") + Phraseology.place(hold.fix())
                + after;
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
            case OR_LESS -> "do not exceed " + Phraseology.knots(speed);
            case OR_GREATER -> "maintain " + Phraseology.knots(speed) + " or greater";
            case EXACTLY -> "maintain " + Phraseology.knots(speed);
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
