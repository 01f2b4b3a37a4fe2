package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.CrossAt.Bound;
import org.rejoin.bridge.clearance.Instruction.Onward.How;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AirwayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AlongContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BoundContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ChangeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CrossContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DirectContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HeadingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InterceptContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.JoinContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LevelContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OldLegContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OnwardContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SideContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SpeedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.UntilContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.VectorToContext;
import org.rejoin.bridge.geo.MagneticDirection;

import org.antlr.v4.runtime.tree.ParseTree;
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

    InstructionReader(Source source, Chart chart, FiledRoute filed, List<String> notes) {
        this.source = source;
        this.filed = filed;
        this.notes = notes;
        this.quantities = new Quantities(source, notes);
        this.places = new PlaceReader(source, chart, filed, notes, quantities);
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
            read.add(holds.hold(part.hold()));
        } else if (part.expect() != null) {
            read.add(new Instruction.Expect(source.words(
                            part.expect().EXPECT().getSymbol(), part.expect().getStop())
                    .replaceFirst("\\S+\\s+", "")));
        } else {
            read.add(new Instruction.Cancel());
        }
    }

    /** "Rest of route unchanged" goes without saying after a change, but is said once only. */
    List<Instruction> finished(boolean changed) {
        boolean said = read.stream().anyMatch(Instruction.Onward.class::isInstance);
        if (changed && !said) {
            read.add(new Instruction.Onward(How.REST_OF_ROUTE_UNCHANGED));
        }
        return read;
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
            read.add(spoken.radial() != null ? lines.radial(spoken.radial()) : lines.bearing(spoken.bearing()));
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
        if (along.AT() != null) {
            at = Optional.of(places.waypointOn(airway, along.place(place++)));
        }
        if (along.TO() != null) {
            to = Optional.of(places.waypointOn(airway, along.place(place)));
        } else if (along.namedPlace() != null) {
            to = Optional.of(places.waypointOn(airway, along.namedPlace()));
        }
        return new Instruction.JoinAirway(airway, at, to);
    }

    private Instruction.Direct direct(DirectContext spoken) throws ClearanceException {
        boolean whenAble = !spoken.WHEN().isEmpty();
        if (spoken.WHEN().size() > 1) {
            throw source.notUnderstood(spoken, "\"when able\" is said twice");
        }
        if (spoken.DESTINATION() != null) {
            List<Waypoint> points = filed.points();
            return new Instruction.Direct(points.get(points.size() - 1), whenAble);
        }
        if (spoken.radialFix() == null) {
            return new Instruction.Direct(places.waypoint(spoken.place()), whenAble);
        }
        return new Instruction.Direct(places.radialFix(spoken.radialFix()), whenAble);
    }

    private static How onward(OnwardContext spoken) {
        if (spoken.RESUME() != null) {
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
        UntilContext until = spoken.until();
        if (until != null && until.airway() != null) {
            notes.add("\"" + source.words(until) + "\": " + places.airway(until.airway())
                    + " is taken to be the airway of this clearance");
        }
        if (until != null && until.radial() != null) {
            lines.radial(until.radial());
            notes.add("\"" + source.words(until) + "\": taken to be the radial of this clearance");
        }
        return new Instruction.Maintain(quantities.altitudeFt(spoken.altitude()), until != null);
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
        if (spoken.bound().size() + (spoken.MAINTAIN() != null ? 1 : 0) > 1) {
            throw source.notUnderstood(spoken, "one limit only: at, at or above, at or below, or at and maintain");
        }
        Waypoint fix = places.waypoint(spoken.place());
        double feet = quantities.altitudeFt(spoken.altitude());
        read.add(new Instruction.CrossAt(fix, feet, bound(spoken.bound())));
        if (spoken.MAINTAIN() != null) {
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
