package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.Until;
import org.rejoin.bridge.clearance.Phraseology;

/** Instructions that stand together and are one: where an airway, a direct or a radial is left is said by what follows it. */
final class SaidTogether {

    private SaidTogether() {}

    /**
     * Joins them.
     *
     * <ul>
     *   <li>"Join V31, after BBB, direct CCC" joins V31 to BBB.
     *   <li>"Intercept V31 southbound, V31 to BBB" joins V31 southbound.
     *   <li>"Direct BBB, after BBB, direct CCC" is direct BBB, direct CCC.
     *   <li>"Intercept the BBB 120 radial inbound, after BBB, direct CCC", and without "after BBB", follows the radial to BBB.
     *   <li>"Intercept the BBB 120 radial, direct BBB" does that and no more.
     *   <li>"Depart BBB on the 120 radial, hold west on the BBB 120 radial at 10 DME" follows the radial to the hold.
     * </ul>
     *
     * @throws ClearanceException if what follows cannot begin there
     */
    static List<Instruction> asOne(List<Instruction> instructions) throws ClearanceException {
        List<Instruction> all = new ArrayList<>(instructions);
        for (int i = 1; i < all.size(); i++) {
            Instruction before = all.get(i - 1);
            if (all.get(i) instanceof Instruction.Depart depart && depart.asSaidNext()) {
                Optional<Instruction> joined = leftAt(before, depart);
                if (joined.isPresent()) {
                    all.set(i - 1, joined.get());
                    all.remove(i);
                    i--;
                } else if (before instanceof Instruction.InterceptAirway airway) {
                    all.set(i, airway.joined().leftAt(depart.fix()));
                }
            } else if (all.get(i) instanceof Instruction.JoinAirway join
                    && before instanceof Instruction.InterceptAirway airway
                    && join.airway().equals(airway.airway())
                    && join.bound().isEmpty()) {
                all.set(
                        i,
                        new Instruction.JoinAirway(join.airway(), join.at(), join.to(), join.away(), airway.bound()));
            } else if (all.get(i) instanceof Instruction.Hold hold) {
                all.set(i - 1, toHold(before, hold, all.subList(0, i - 1)));
            } else if (all.get(i) instanceof Instruction.Direct direct
                    && before instanceof Instruction.StationLine line
                    && line.until().isEmpty()) {
                boolean toStation = line.sense() != Sense.OUTBOUND && leadsOver(line, direct.to());
                if (toStation) {
                    all.remove(i);
                }
                if (toStation || line.sense() == Sense.INBOUND) {
                    all.set(i - 1, to(line, line.station()));
                }
            }
        }
        return all;
    }

    /** What stands before "after BBB" and leads to BBB; empty where it leads there by itself, or not along a line. */
    private static Optional<Instruction> leftAt(Instruction before, Instruction.Depart depart)
            throws ClearanceException {
        if (before instanceof Instruction.JoinAirway join) {
            if (join.to().filter(to -> !to.equals(depart.fix())).isPresent()) {
                throw ClearanceException.cannotBeWorkedOut("\"" + Phraseology.say(join) + "\" leads beyond or beside "
                        + depart.fix().ident() + ", from where the rest is to begin: say where " + join.airway()
                        + " is left");
            }
            return Optional.of(join.leftAt(depart.fix()));
        }
        if (before instanceof Instruction.StationLine line && line.until().isEmpty()) {
            return Optional.of(to(line, depart.fix()));
        }
        if (before instanceof Instruction.Direct direct) {
            if (!direct.to().equals(depart.fix())) {
                throw RouteEnd.notOnRoute(depart);
            }
            return Optional.of(direct);
        }
        return Optional.empty();
    }

    /**
     * What stands before a hold that is kept on the same radial. Met on a heading, a radial leads to what it crosses, and a
     * hold at that crossing is said by rounded miles.
     */
    private static Instruction toHold(Instruction before, Instruction.Hold hold, List<Instruction> first) {
        if (before instanceof Instruction.Depart depart) {
            return depart.line()
                    .filter(line -> isAlong(line, hold))
                    .<Instruction>map(line -> new Instruction.Depart(
                            depart.fix(), depart.heading(), Optional.of(to(line, hold.fix())), depart.turn()))
                    .orElse(depart);
        }
        boolean direct = first.stream().anyMatch(Instruction.Direct.class::isInstance);
        return before instanceof Instruction.StationLine line && direct && isAlong(line, hold)
                ? to(line, hold.fix())
                : before;
    }

    /**
     * The same, where the hold is kept on the radial that is met on the heading before it: that radial is followed to
     * the fix of the hold. Empty where no hold is kept on the line that is flown last before it.
     */
    static Optional<List<Instruction>> followedToHold(List<Instruction> all) {
        int held = -1;
        int way = -1;
        for (int i = 0; i < all.size() && held < 0; i++) {
            if (all.get(i) instanceof Instruction.Hold) {
                held = i;
            } else if (OneCourse.leads(all.get(i)) || all.get(i) instanceof Instruction.Depart) {
                way = i;
            }
        }
        if (held < 0
                || way < 0
                || !(all.get(way) instanceof Instruction.StationLine line)
                || !isAlong(line, (Instruction.Hold) all.get(held))) {
            return Optional.empty();
        }
        return followed(all, way, ((Instruction.Hold) all.get(held)).fix());
    }

    private static Optional<List<Instruction>> followed(List<Instruction> all, int way, Waypoint fix) {
        List<Instruction> followed = new ArrayList<>(all);
        followed.set(way, to((Instruction.StationLine) all.get(way), fix));
        return Optional.of(followed);
    }

    /** The clearance limit; and which instruction leads there, the last that leads anywhere, -1 for none. */
    private record ToLimit(Waypoint limit, int way) {

        static Optional<ToLimit> of(List<Instruction> all) {
            Optional<Waypoint> limit = Optional.empty();
            int way = -1;
            for (int i = 0; i < all.size(); i++) {
                if (all.get(i) instanceof Instruction.ClearedTo cleared) {
                    limit = Optional.of(cleared.limit());
                } else if (OneCourse.leads(all.get(i)) || all.get(i) instanceof Instruction.Depart) {
                    way = i;
                }
            }
            int last = way;
            return limit.filter(to -> last >= 0).map(to -> new ToLimit(to, last));
        }
    }

    /**
     * A radial or bearing that is the last of the way to a clearance limit, followed to that limit.
     *
     * @param all joined already
     * @return empty where the way to the limit is another, or none is said
     */
    static Optional<List<Instruction>> followedToLimit(List<Instruction> all) {
        return ToLimit.of(all)
                .filter(to -> all.get(to.way()) instanceof Instruction.StationLine last
                        && !(last instanceof Instruction.InterceptArc)
                        && last.until().isEmpty())
                .flatMap(to -> followed(all, to.way(), to.limit()));
    }

    /** "Cleared to SKU via V40": an airway that is the last of the way to a limit on it leads to that limit (7110.65 4-4-1). */
    static List<Instruction> alongToLimit(Chart chart, List<Instruction> all) {
        List<Instruction> joined = new ArrayList<>(all);
        ToLimit.of(all).ifPresent(to -> {
            if (all.get(to.way()) instanceof Instruction.JoinAirway join
                    && join.to().isEmpty()
                    && !join.at().equals(Optional.of(to.limit()))
                    && chart.airways(join.airway()).stream().anyMatch(airway -> airway.passes(to.limit()))) {
                joined.set(to.way(), join.leftAt(to.limit()));
            }
        });
        return joined;
    }

    private static boolean isAlong(Instruction.StationLine line, Instruction.Hold hold) {
        Optional<Instruction.HoldLine> own = line.line(
                radial -> Optional.of(new Instruction.HoldLine.OnRadial(radial.station(), radial.radial())),
                bearing -> Optional.of(new Instruction.HoldLine.OnBearing(bearing.station(), bearing.bearing())),
                arc -> Optional.empty());
        return own.isPresent() && line.until().isEmpty() && own.equals(hold.line());
    }

    /** Whether a line leads to its station or from it, as an arc does not. */
    private static boolean leadsOver(Instruction.StationLine line, Waypoint fix) {
        return !(line instanceof Instruction.InterceptArc) && line.station().equals(fix);
    }

    /** The line, left at a fix; to its own station it is flown inbound. */
    private static Instruction.StationLine to(Instruction.StationLine line, Waypoint fix) {
        Instruction.StationLine left = line.leftAt(new Until.AtFix(fix));
        return leadsOver(line, fix) ? left.flown(Sense.INBOUND) : left;
    }
}
