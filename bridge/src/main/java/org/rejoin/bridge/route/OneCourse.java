package org.rejoin.bridge.route;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;

/**
 * One clearance is one heading, one course, and what follows. Two of a kind, or a direct in front of a course, are a
 * sequence of clearances: said as one they would leave open when the second begins, so nothing of them is dropped or
 * guessed.
 */
final class OneCourse {

    private OneCourse() {}

    /** Checks the instructions before any is worked out. */
    static void check(List<Instruction> instructions) throws ClearanceException {
        atMostOne(instructions, Instruction.Heading.class, "headings");
        boolean sequence = LineSequence.applies(instructions);
        if (!sequence) {
            linesLeft(instructions);
        }
        atMostOne(instructions, Instruction.Hold.class, "holds");
        atMostOne(instructions, Instruction.Depart.class, "fixes to depart");
        atMostOne(instructions, Instruction.InterceptArc.class, "arcs");
        long inTurn = InTurn.speeds(instructions).stream()
                .filter(turn -> turn.from().isPresent() && isSpeed(turn.said()))
                .count();
        atMostOne(instructions.stream().filter(OneCourse::isSpeed).count() - inTurn, "speeds to hold");
        nothingBeforeCancel(instructions);
        nothingAfterAsFiled(instructions);
        nothingAfterHold(instructions);
        headingFirst(instructions);
        boolean course = instructions.stream().anyMatch(OneCourse::isCourse);
        boolean airway = false;
        for (Instruction instruction : instructions) {
            if (airway && !sequence && isCourse(instruction)) {
                throw LineSequence.routeBeforeLines();
            }
            airway |=
                    instruction instanceof Instruction.JoinAirway || instruction instanceof Instruction.InterceptAirway;
            if (course && !sequence && !airway && instruction instanceof Instruction.Direct direct) {
                throw ClearanceException.cannotBeWorkedOut("where the radial or bearing is left for direct "
                        + direct.to().ident() + " is not said: say"
                        + " \"until\" a radial, a distance or a fix, or \"inbound\" to its station, or the direct as a"
                        + " clearance of its own when it is to begin");
            }
        }
    }

    /** "Disregard" takes back what was said before; what follows it is the new clearance. */
    private static void nothingBeforeCancel(List<Instruction> instructions) throws ClearanceException {
        if (instructions.stream().skip(1).anyMatch(Instruction.Cancel.class::isInstance)) {
            throw ClearanceException.cannotBeWorkedOut(
                    "words that take the clearance back stand after other instructions: say them alone, or first and"
                            + " the new clearance after them");
        }
    }

    /** "As filed" leads to the end of the filed route: what is said after it begins nowhere. */
    private static void nothingAfterAsFiled(List<Instruction> instructions) throws ClearanceException {
        boolean way = false;
        boolean asFiled = false;
        for (Instruction each : instructions) {
            if (asFiled && leads(each)) {
                throw ClearanceException.cannotBeWorkedOut(
                        "\"as filed\" goes to the end of the route, and \""
                                + Phraseology.say(each)
                                + "\" is said after it: say \"then as filed\" last, or leave it out; which of the two is meant?");
            }
            asFiled |= way
                    && each instanceof Instruction.Onward onward
                    && (onward.how() == Instruction.Onward.How.AS_FILED
                            || onward.how() == Instruction.Onward.How.REST_OF_ROUTE_UNCHANGED);
            way |= leads(each);
        }
    }

    /** A heading ends where the line is met: said after a fix it would begin there, and that is said in other words. */
    private static void headingFirst(List<Instruction> instructions) throws ClearanceException {
        Waypoint fix = null;
        Optional<Waypoint> beside = Optional.empty();
        for (Instruction each : instructions) {
            if (each instanceof Instruction.Heading && beside.isPresent()) {
                throw ClearanceException.cannotBeWorkedOut("\"" + Phraseology.say(each)
                        + "\" is said after the way to a place beside "
                        + beside.get().ident()
                        + ": give it when the aircraft is there; to be flown first it stands first");
            }
            if (each instanceof Instruction.Direct direct) {
                beside = Optional.of(direct.to()).filter(to -> direct.away().isPresent());
            }
            if (each instanceof Instruction.Heading && fix != null) {
                String heading = Phraseology.say(each);
                throw ClearanceException.cannotBeWorkedOut("\"" + heading + "\" is said after the way to " + fix.ident()
                        + ": from there on it is \"after " + fix.ident() + ", " + heading
                        + "\"; to be flown first it stands first");
            }
            Optional<Waypoint> to = Optional.empty();
            if (each instanceof Instruction.Direct direct && !direct.whenAble()) {
                to = Optional.of(direct.to());
            } else if (each instanceof Instruction.JoinAirway join) {
                to = join.to().or(join::at);
            } else if (each instanceof Instruction.Depart depart) {
                to = Optional.of(depart.fix());
            }
            fix = to.orElse(fix);
        }
    }

    /** A hold is left when ATC says so (FAA Order JO 7110.65, 4-6-1): a way on from it is a clearance of that moment. */
    private static void nothingAfterHold(List<Instruction> instructions) throws ClearanceException {
        Optional<Instruction.Hold> held = Optional.empty();
        Optional<Instruction> on = Optional.empty();
        for (Instruction each : instructions) {
            if (each instanceof Instruction.Hold hold && !hold.once()) {
                held = Optional.of(hold);
                on = Optional.empty();
            } else if (held.filter(hold -> leadsTo(each, hold)).isPresent()) {
                // "Hold west of BBB, direct BBB" says the way to it last.
                on = Optional.empty();
            } else if (held.isPresent()
                    && (leads(each) || each instanceof Instruction.Heading || each instanceof Instruction.ClearedTo)) {
                on = on.or(() -> Optional.of(each));
            }
        }
        if (held.isPresent() && on.isPresent()) {
            String fix = held.get().fix().ident();
            throw ClearanceException.cannotBeWorkedOut(
                    "\"" + Phraseology.say(on.get()) + "\" is said after the hold at "
                            + fix
                            + ", which is left when ATC clears you on, and not before: clear the hold alone, and the rest when"
                            + " it is to begin; to be flown at once it is \"hold at " + fix
                            + ", one circuit\"; known beforehand it"
                            + " is \"expect further clearance via\"");
        }
    }

    private static boolean leadsTo(Instruction each, Instruction.Hold hold) {
        return (each instanceof Instruction.Direct direct && direct.to().equals(hold.fix()))
                || (each instanceof Instruction.ClearedTo cleared
                        && cleared.limit().equals(hold.fix()))
                || (each instanceof Instruction.JoinAirway join
                        && join.to().filter(hold.fix()::equals).isPresent());
    }

    /** Whether it is to be flown over the ground: to a fix, along an airway, or along a line of a station. */
    static boolean leads(Instruction each) {
        return each instanceof Instruction.Onto || each instanceof Instruction.StationLine;
    }

    private static void atMostOne(List<Instruction> all, Class<? extends Instruction> kind, String what)
            throws ClearanceException {
        atMostOne(all.stream().filter(kind::isInstance).count(), what);
    }

    private static void atMostOne(long count, String what) throws ClearanceException {
        if (count > 1) {
            throw ClearanceException.cannotBeWorkedOut("the clearance has " + count + " " + what
                    + ": say the one to fly now, and the other as a clearance of its own when it is to begin");
        }
    }

    /** Two lines lead from one to the other only where the first is left. */
    private static void linesLeft(List<Instruction> instructions) throws ClearanceException {
        List<Instruction> lines =
                instructions.stream().filter(OneCourse::isCourse).toList();
        if (lines.size() > 1) {
            throw ClearanceException.cannotBeWorkedOut("the clearance has " + lines.size()
                    + " radials or bearings, and does not say where the first is left: say \""
                    + Phraseology.say(lines.get(0))
                    + " until\" the other, a distance or a fix, or the other as a clearance of"
                    + " its own");
        }
    }

    private static boolean isSpeed(Instruction instruction) {
        return instruction instanceof Instruction.MaintainPresentSpeed
                || (instruction instanceof Instruction.MaintainSpeed speed
                        && speed.bound() == Instruction.MaintainSpeed.Limit.EXACTLY);
    }

    private static boolean isCourse(Instruction instruction) {
        return instruction instanceof Instruction.InterceptRadial
                || instruction instanceof Instruction.InterceptBearing;
    }
}
