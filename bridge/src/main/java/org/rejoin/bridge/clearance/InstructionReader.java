package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.CrossAt.Bound;
import org.rejoin.bridge.clearance.Instruction.Maintain.Begin;
import org.rejoin.bridge.clearance.Instruction.Maintain.Vertical;
import org.rejoin.bridge.clearance.Instruction.Onward.How;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AirwayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AlongContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AwayFromContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BeginContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BoundContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ChangeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CrossContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DepartContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DirectContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HeadingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InterceptContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.JoinContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LevelContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OldLegContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OnwardContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ReasonContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SideContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SpeedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.UntilContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.VectorToContext;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.tree.ParseTree;
import org.antlr.v4.runtime.tree.TerminalNode;
import org.antlr.v4.runtime.tree.Trees;
import org.jspecify.annotations.Nullable;

/** Turns the parts that the grammar found into instructions, looking up what they name. */
final class InstructionReader {

    private final Source source;
    private final FiledRoute filed;
    private final List<String> notes;
    private final Quantities quantities;
    private final PlaceReader places;
    private final LineReader lines;
    private final HoldReader holds;
    private final List<Instruction> read = new ArrayList<>();

    /**
     * Reads against a chart.
     *
     * @param shortNames whether one word of a name is enough, as pilots read back
     */
    InstructionReader(Source source, Chart chart, FiledRoute filed, List<String> notes, boolean shortNames) {
        this.source = source;
        this.filed = filed;
        this.notes = notes;
        this.quantities = new Quantities(source, notes);
        this.places = new PlaceReader(source, chart, filed, notes, quantities, shortNames);
        this.lines = new LineReader(source, places, quantities, notes);
        this.holds = new HoldReader(source, places, quantities, notes);
    }

    LineReader lines() {
        return lines;
    }

    Quantities quantities() {
        return quantities;
    }

    /** What was read so far, in the order said. */
    List<Instruction> read() {
        return read;
    }

    /** Reads one instruction; it may come to more than one, for example "cross and maintain". */
    void add(InstructionContext part) throws ClearanceException {
        if (part.heading() != null) {
            read.add(heading(part.heading()));
        } else if (part.turnBy() != null) {
            read.add(new Instruction.TurnBy(
                    quantities.turn(part.turnBy().number()), side(part.turnBy().side())));
        } else if (part.presentHeading() != null) {
            read.add(new Instruction.FlyPresentHeading());
        } else if (part.runwayHeading() != null) {
            read.add(new Instruction.FlyRunwayHeading());
        } else if (part.intercept() != null) {
            intercept(part.intercept());
        } else if (part.arc() != null) {
            read.add(lines.arc(part.arc().arcBody()));
        } else if (part.depart() != null) {
            read.add(depart(part.depart()));
        } else if (part.vectorTo() != null) {
            read.add(vectorTo(part.vectorTo()));
        } else if (part.join() != null) {
            read.add(join(part.join().airway(), part.join().along()));
        } else if (part.direct() != null) {
            read.add(direct(part.direct()));
        } else if (part.clearedTo() != null) {
            read.add(new Instruction.ClearedTo(places.waypoint(part.clearedTo().place())));
        } else if (part.onward() != null) {
            read.add(new Instruction.Onward(onward(part.onward())));
        } else if (part.change() != null) {
            change(part.change());
        } else if (part.level() != null) {
            read.add(level(part.level()));
        } else if (part.speed() != null) {
            read.add(speed(part.speed()));
        } else if (part.cross() != null) {
            cross(part.cross());
        } else if (part.hold() != null) {
            read.add(holds.hold(part.hold(), leadsTo()));
        } else if (part.expect() != null) {
            read.add(new Instruction.Expect(afterFirst(part.expect())));
        } else if (part.report() != null) {
            read.add(new Instruction.Report(afterFirst(part.report())));
        } else if (part.begin() != null) {
            begin(part.begin());
        } else if (part.cancel() != null) {
            read.add(new Instruction.Cancel());
        } else {
            throw source.notUnderstood(part, "an instruction that is not known");
        }
        reasons(part);
    }

    /** The words after the first. */
    private String afterFirst(ParserRuleContext part) {
        return source.words(part).replaceFirst("\\S+\\s*", "");
    }

    /** Why, and how fast: heard, and nothing to fly. */
    private void reasons(InstructionContext part) {
        for (ParseTree child : Trees.getDescendants(part)) {
            if (child instanceof ReasonContext reason) {
                notes.add("\"" + source.words(reason).replaceFirst("^[,; ]+", "")
                        + "\": the reason for the vector, nothing to fly");
            } else if (child instanceof TerminalNode word
                    && word.getSymbol().getType() == ClearanceLanguageParser.HASTE) {
                notes.add("\"" + word.getText() + "\": heard; how fast is the pilot's to fly");
            }
        }
    }

    /** The fix that the instructions read so far lead to. */
    private Optional<Waypoint> leadsTo() {
        Optional<Waypoint> fix = Optional.empty();
        for (Instruction each : read) {
            if (each instanceof Instruction.ClearedTo cleared) {
                fix = Optional.of(cleared.limit());
            } else if (each instanceof Instruction.Direct direct) {
                fix = Optional.of(direct.to());
            } else if (each instanceof Instruction.JoinAirway join && join.to().isPresent()) {
                fix = join.to();
            }
        }
        return fix;
    }

    private Instruction depart(DepartContext spoken) throws ClearanceException {
        if (spoken.degrees() != null) {
            int heading = quantities.degrees(spoken.degrees().number(), "heading");
            return new Instruction.Depart(
                    places.waypoint(spoken.place()), Optional.of(new MagneticDirection(heading)), Optional.empty());
        }
        Station station = places.station(
                spoken.place(), candidate -> candidate.kind().hasRadials(), "it has no radials; say a heading");
        int radial = quantities.degrees(spoken.number(), "radial");
        return new Instruction.Depart(station, Optional.empty(), Optional.of(new Radial(radial)));
    }

    /** "Rest of route unchanged" goes without saying after a change, but is said once only. */
    List<Instruction> finished(boolean changed) {
        oneAirwayOnce();
        boolean said = read.stream().anyMatch(Instruction.Onward.class::isInstance);
        if (changed && !said) {
            read.add(new Instruction.Onward(How.REST_OF_ROUTE_UNCHANGED));
        }
        return read;
    }

    /** "Join Q104 at OB, Q104 to PIVOX" is one airway said twice, not two. */
    private void oneAirwayOnce() {
        for (int i = 0; i + 1 < read.size(); i++) {
            if (read.get(i) instanceof Instruction.JoinAirway first
                    && read.get(i + 1) instanceof Instruction.JoinAirway second
                    && first.airway().equals(second.airway())
                    && first.to().isEmpty()
                    && second.at().isEmpty()) {
                read.set(i, new Instruction.JoinAirway(first.airway(), first.at(), second.to(), first.away()));
                read.remove(i + 1);
            }
        }
    }

    private Instruction heading(HeadingContext spoken) throws ClearanceException {
        int degrees = quantities.degrees(spoken.degrees().number(), "heading");
        return new Instruction.FlyHeading(new MagneticDirection(degrees), side(spoken.side()));
    }

    private static TurnDirection side(@Nullable SideContext spoken) {
        if (spoken == null) {
            return TurnDirection.SHORTEST;
        }
        return spoken.LEFT() != null ? TurnDirection.LEFT : TurnDirection.RIGHT;
    }

    private void intercept(InterceptContext spoken) throws ClearanceException {
        if (spoken.airway() == null) {
            Instruction line =
                    spoken.radial() != null ? lines.radial(spoken.radial()) : lines.bearing(spoken.bearing());
            read.add(lines.until(line, spoken.lineUntil()));
            return;
        }
        String airway = places.airway(spoken.airway());
        read.add(new Instruction.InterceptAirway(airway));
        if (spoken.along().getChildCount() > 0) {
            read.add(join(spoken.airway(), spoken.along()));
        }
    }

    private Instruction vectorTo(VectorToContext spoken) throws ClearanceException {
        if (spoken.airway() != null) {
            return new Instruction.InterceptAirway(places.airway(spoken.airway()));
        }
        if (spoken.radial() != null) {
            return lines.radial(spoken.radial());
        }
        if (spoken.bearing() != null) {
            return lines.bearing(spoken.bearing());
        }
        if (spoken.place() == null) {
            notes.add("\"" + source.words(spoken) + "\": the reason for the vector, nothing to fly");
            return new Instruction.Expect(source.words(spoken).toLowerCase(Locale.ROOT));
        }
        // The purpose of a vector is nothing to fly; the name is looked up all the same.
        Waypoint to = places.waypoint(spoken.place());
        notes.add("\"" + source.words(spoken) + "\": the purpose of the vector, kept as advance information");
        return new Instruction.Expect("vectors to " + to.ident());
    }

    private Instruction.JoinAirway join(AirwayContext spoken, AlongContext along) throws ClearanceException {
        String airway = places.airway(spoken);
        int place = 0;
        Optional<Waypoint> at = Optional.empty();
        Optional<Waypoint> to = Optional.empty();
        Optional<Instruction.Away> away = Optional.empty();
        if (along.awayFrom() != null) {
            at = Optional.of(places.waypointOn(airway, along.awayFrom().place()));
            away = Optional.of(away(along.awayFrom()));
        } else if (along.AT() != null) {
            at = Optional.of(places.waypointOn(airway, along.place(place++)));
        }
        if (along.TO() != null) {
            to = Optional.of(places.waypointOn(airway, along.place(place)));
        } else if (along.namedPlace() != null) {
            to = Optional.of(places.waypointOn(airway, along.namedPlace()));
        }
        return new Instruction.JoinAirway(airway, at, to, away);
    }

    private Instruction.Away away(AwayFromContext spoken) throws ClearanceException {
        return new Instruction.Away(quantities.distanceNm(spoken.number()), LineReader.compass(spoken.compass()));
    }

    private Instruction.Direct direct(DirectContext spoken) throws ClearanceException {
        boolean whenAble = !spoken.WHEN().isEmpty();
        if (spoken.WHEN().size() > 1) {
            throw source.notUnderstood(spoken, "\"when able\" is said twice");
        }
        TurnDirection turn = side(spoken.side());
        if (spoken.DESTINATION() != null) {
            List<Waypoint> points = filed.points();
            return new Instruction.Direct(points.get(points.size() - 1), whenAble, turn);
        }
        if (spoken.radialFix() == null) {
            return new Instruction.Direct(places.waypoint(spoken.place()), whenAble, turn);
        }
        return new Instruction.Direct(places.radialFix(spoken.radialFix()), whenAble, turn);
    }

    private static How onward(OnwardContext spoken) {
        if (spoken.NAVIGATION() != null) {
            return How.RESUME_OWN_NAVIGATION;
        }
        if (spoken.REST() != null) {
            return How.REST_OF_ROUTE_UNCHANGED;
        }
        return spoken.COURSE() != null ? How.ON_COURSE : How.AS_FILED;
    }

    private void change(ChangeContext spoken) throws ClearanceException {
        for (OldLegContext old : spoken.oldLeg()) {
            if (old.airway() != null) {
                String airway = places.airway(old.airway());
                if (filed.segments().stream()
                        .noneMatch(segment ->
                                segment.airway().filter(airway::equals).isPresent())) {
                    throw source.refuse(
                            old,
                            ClearanceException.Code.AIRWAY_NOT_IN_ROUTE,
                            "\"" + source.words(old) + "\": " + airway + " is not in the filed route");
                }
            }
            if (old.place() != null) {
                Waypoint point = places.waypoint(old.place());
                if (!filed.points().contains(point)) {
                    throw source.notUnderstood(old.place(), point.ident() + " is not in the filed route");
                }
            }
        }
        for (ParseTree part : spoken.children) {
            if (part instanceof JoinContext join) {
                read.add(join(join.airway(), join.along()));
            } else if (part instanceof DirectContext direct) {
                read.add(direct(direct));
            }
        }
    }

    private Instruction level(LevelContext spoken) throws ClearanceException {
        if (spoken.until().size() > 1 || spoken.levelBy().size() > 1) {
            throw source.notUnderstood(spoken, "until when, or by where, is said twice");
        }
        UntilContext until = spoken.until().isEmpty() ? null : spoken.until(0);
        if (until != null && until.airway() != null) {
            notes.add("\"" + source.words(until) + "\": " + places.airway(until.airway())
                    + " is taken to be the airway of this clearance");
        }
        if (until != null && until.radial() != null) {
            lines.radial(until.radial());
            notes.add("\"" + source.words(until) + "\": taken to be the radial of this clearance");
        }
        Vertical vertical = Vertical.UNSAID;
        if (spoken.levelVerb().CLIMB() != null) {
            vertical = Vertical.CLIMB;
        } else if (spoken.levelVerb().DESCEND() != null) {
            vertical = Vertical.DESCEND;
        }
        List<BeginContext> begins = new ArrayList<>(spoken.begin());
        Optional.ofNullable(spoken.levelVerb().begin()).ifPresent(begins::add);
        if (begins.size() > 1) {
            throw source.notUnderstood(spoken, "when to begin is said twice");
        }
        Begin when = begins.isEmpty() ? Begin.NOW : when(begins.get(0));
        Optional<Waypoint> levelBy = spoken.levelBy().isEmpty()
                ? Optional.empty()
                : Optional.of(places.waypoint(spoken.levelBy(0).place()));
        return new Instruction.Maintain(
                quantities.altitudeFt(spoken.altitude()), until != null, vertical, when, levelBy);
    }

    private static Begin when(BeginContext spoken) {
        return spoken.DISCRETION() != null ? Begin.PILOTS_DISCRETION : Begin.WHEN_READY;
    }

    /** "..., at pilot's discretion" behind the altitude it is said of. */
    private void begin(BeginContext spoken) throws ClearanceException {
        Instruction last = read.isEmpty() ? null : read.get(read.size() - 1);
        if (!(last instanceof Instruction.Maintain said) || said.when() != Begin.NOW) {
            throw source.notUnderstood(spoken, "of what? say it with the altitude");
        }
        read.set(
                read.size() - 1,
                new Instruction.Maintain(
                        said.feet(), said.untilEstablished(), said.vertical(), when(spoken), said.levelBy()));
    }

    private Instruction speed(SpeedContext spoken) throws ClearanceException {
        if (spoken.NORMAL() != null) {
            return new Instruction.ResumeNormalSpeed();
        }
        if (spoken.PRESENT() != null) {
            return new Instruction.MaintainPresentSpeed();
        }
        double knots = quantities.speedKt(spoken.number());
        if (spoken.EXCEED() != null) {
            return new Instruction.MaintainSpeed(knots, Instruction.MaintainSpeed.Limit.OR_LESS);
        }
        Instruction.MaintainSpeed.Limit bound = spoken.speedBound() == null
                ? Instruction.MaintainSpeed.Limit.EXACTLY
                : spoken.speedBound().GREATER() != null
                        ? Instruction.MaintainSpeed.Limit.OR_GREATER
                        : Instruction.MaintainSpeed.Limit.OR_LESS;
        return new Instruction.MaintainSpeed(knots, bound);
    }

    private void cross(CrossContext spoken) throws ClearanceException {
        if (spoken.bound().size() + spoken.MAINTAIN().size() > 1) {
            throw source.notUnderstood(spoken, "one limit only: at, at or above, at or below, or at and maintain");
        }
        PlaceContext place =
                spoken.awayFrom() == null ? spoken.place() : spoken.awayFrom().place();
        Waypoint fix = places.waypoint(place);
        Optional<Instruction.Away> before =
                spoken.awayFrom() == null ? Optional.empty() : Optional.of(away(spoken.awayFrom()));
        double feet = quantities.altitudeFt(spoken.altitude(0));
        if (spoken.BETWEEN() != null) {
            double other = quantities.altitudeFt(spoken.altitude(1));
            read.add(new Instruction.CrossAt(fix, Math.min(feet, other), Bound.AT_OR_ABOVE, before));
            read.add(new Instruction.CrossAt(fix, Math.max(feet, other), Bound.AT_OR_BELOW, before));
            return;
        }
        read.add(new Instruction.CrossAt(fix, feet, bound(spoken.bound()), before));
        if (!spoken.MAINTAIN().isEmpty()) {
            read.add(new Instruction.Maintain(feet, false));
        }
    }

    private static Bound bound(List<BoundContext> spoken) {
        if (spoken.isEmpty()) {
            return Bound.AT;
        }
        return String.valueOf(spoken.get(0).getStop().getText())
                        .toLowerCase(Locale.ROOT)
                        .matches("above|higher")
                ? Bound.AT_OR_ABOVE
                : Bound.AT_OR_BELOW;
    }
}
