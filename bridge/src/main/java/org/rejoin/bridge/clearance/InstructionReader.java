package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Onward.How;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AfterContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AirwayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AlongContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AwayFromContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BeginContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ChangeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ClearedToContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DepartContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DirectContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.EndingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FillerContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FurtherTimeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HeadingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InterceptContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.JoinContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LiftedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OffsetContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OldLegContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OnwardContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ReasonContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SideContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.VectorToContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.WhenAbleContext;
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
    private final WhenReader whens;
    private final CrossReader crossings;
    private final LevelReader levels;
    private final SpeedReader speeds;
    private final List<Later> later = new ArrayList<>();
    private final List<Instruction> read = new ArrayList<>();
    private @Nullable FillerContext correction;
    private Optional<DirectContext> straightOn = Optional.empty();

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
        this.whens = new WhenReader(source, places, lines, quantities);
        this.crossings = new CrossReader(source, places, whens, quantities);
        this.speeds = new SpeedReader(source, whens, quantities);
        this.levels = new LevelReader(source, places, lines, whens, crossings, quantities, notes);
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

    /** "After PRION, ...": what stands behind it begins there. */
    private record Later(int first, When when, AfterContext spoken) {}

    /** Reads one instruction; it may come to more than one, for example "cross and maintain". */
    void add(InstructionContext part) throws ClearanceException {
        int before = read.size();
        if (straightOn.isPresent() && (part.direct() != null || part.join() != null || part.intercept() != null)) {
            throw source.notUnderstood(
                    straightOn.get(), "direct to where is not said, and the route goes on behind it");
        }
        one(part);
        reasons(part);
        if (correction != null && part.filler() == null) {
            correct(part, before);
        }
    }

    /** "Correction, turn left heading 290": in the place of what was said last. */
    private void correct(InstructionContext part, int before) throws ClearanceException {
        boolean like = before > 0
                && read.size() > before
                && read.get(before - 1).getClass() == read.get(before).getClass();
        if (!like) {
            throw source.notUnderstood(part, "what it corrects is not clear: say the whole clearance again");
        }
        notes.add("\"" + Phraseology.say(read.get(before - 1)) + "\" is corrected to \""
                + Phraseology.say(read.get(before)) + "\"");
        read.remove(before - 1);
        correction = null;
    }

    private void filler(FillerContext spoken) {
        if (spoken.CORRECTION() != null && !read.isEmpty()) {
            correction = spoken;
        } else if (spoken.QNH() != null || spoken.ALTIMETER() != null) {
            notes.add("\"" + source.words(spoken) + "\": the altimeter setting, nothing to fly");
        } else if (spoken.ANTICIPATE() != null || spoken.DELAY_EXPECTED() != null || spoken.number() != null) {
            notes.add("\"" + source.words(spoken) + "\": heard, nothing to fly");
        }
    }

    private void one(InstructionContext part) throws ClearanceException {
        if (part.heading() != null) {
            read.add(heading(part.heading()));
            ending(part.heading().ending(), Noted.Until.What.HEADING);
        } else if (part.turnBy() != null) {
            read.add(new Instruction.TurnBy(
                    quantities.turn(part.turnBy().number()), side(part.turnBy().side())));
        } else if (part.presentHeading() != null) {
            read.add(new Instruction.FlyPresentHeading());
            ending(part.presentHeading().ending(), Noted.Until.What.HEADING);
        } else if (part.runwayHeading() != null) {
            read.add(new Instruction.FlyRunwayHeading());
        } else if (part.intercept() != null) {
            intercept(part.intercept());
        } else if (part.arc() != null) {
            read.addAll(lines.arcAndOn(
                    part.arc().arcBody(),
                    part.arc().arcWay() == null ? List.of() : List.of(part.arc().arcWay())));
        } else if (part.depart() != null) {
            read.add(depart(part.depart()));
        } else if (part.vectorTo() != null) {
            read.add(vectorTo(part.vectorTo()));
        } else if (part.join() != null) {
            joinAt(part.join().airway(), part.join().along());
        } else if (part.direct() != null) {
            read.add(direct(part.direct()));
        } else if (part.clearedTo() != null) {
            read.add(new Instruction.ClearedTo(limit(part.clearedTo())));
        } else if (part.onward() != null) {
            read.add(new Instruction.Onward(onward(part.onward())));
        } else if (part.change() != null) {
            change(part.change());
        } else if (part.level() != null) {
            read.addAll(levels.level(part.level()));
        } else if (part.speed() != null) {
            read.addAll(speeds.speed(part.speed()));
        } else if (part.cross() != null) {
            read.addAll(crossings.cross(part.cross()));
        } else if (part.hold() != null) {
            read.addAll(holds.hold(part.hold(), leadsTo()));
        } else if (part.further() != null) {
            further(part.further().furtherTime());
        } else if (part.lifted() != null) {
            read.add(
                    part.lifted().number() != null
                            ? new Noted.LeaveHold(
                                    Optional.empty(),
                                    quantities.time(part.lifted().number()))
                            : new Noted.Lifted(lifted(part.lifted())));
        } else if (part.offset() != null) {
            offset(part.offset());
        } else if (part.after() != null) {
            AfterContext after = part.after();
            later.add(new Later(
                    read.size(),
                    after.when() != null
                            ? whens.when(after.when())
                            : whens.one(after, null, null, after.place(), after.number()),
                    after));
        } else if (part.bareLevel() != null) {
            if (read.isEmpty() && part.bareLevel().CLEARED() == null) {
                throw source.notUnderstood(part, "say climb to, descend to, maintain or recleared before it");
            }
            read.add(new Instruction.Maintain(
                    quantities.altitudeFt(part.bareLevel().plainLevel()), false));
        } else if (part.filler() != null) {
            filler(part.filler());
        } else if (part.expect() != null) {
            String expected = afterFirst(part.expect());
            if (expected.matches("(?i)(further|approach) clearance(?! via ).*")) {
                throw source.notUnderstood(part, "the time is missing: four figures, for example 1530");
            }
            read.add(new Instruction.Expect(expected));
        } else if (part.report() != null) {
            read.add(new Instruction.Report(afterFirst(part.report())));
        } else if (part.begin() != null) {
            begin(part.begin());
        } else if (part.cancel() != null) {
            read.add(new Instruction.Cancel());
        } else {
            throw source.notUnderstood(part, "an instruction that is not known");
        }
    }

    private void ending(@Nullable EndingContext spoken, Noted.Until.What what) throws ClearanceException {
        if (spoken != null) {
            read.add(new Noted.Until(what, whens.when(spoken.when())));
        }
    }

    private Waypoint limit(ClearedToContext spoken) throws ClearanceException {
        if (spoken.radialFix() != null) {
            return places.radialFix(spoken.radialFix());
        }
        return spoken.place() != null ? places.waypoint(spoken.place()) : places.waypoint(spoken.namedPlace());
    }

    /** Of the hold said before it, where there is one. */
    private void further(FurtherTimeContext spoken) throws ClearanceException {
        if (spoken.IN() != null) {
            read.add(holds.furtherIn(spoken));
            return;
        }
        String time = holds.time(spoken);
        for (int i = read.size() - 1; i >= 0; i--) {
            if (read.get(i) instanceof Instruction.Hold hold) {
                if (hold.expectFurtherClearance().isPresent()) {
                    throw source.notUnderstood(spoken, "said twice for one hold");
                }
                read.set(i, hold.withFurtherClearance(time));
                return;
            }
        }
        read.add(new Noted.FurtherClearance(time));
    }

    private static Noted.Lifted.Kind lifted(LiftedContext spoken) {
        if (spoken.HOLD() != null) {
            return Noted.Lifted.Kind.HOLD;
        }
        if (spoken.OFFSET() != null) {
            return Noted.Lifted.Kind.OFFSET;
        }
        return spoken.SPEED() != null ? Noted.Lifted.Kind.SPEED : Noted.Lifted.Kind.ALTITUDE;
    }

    private void offset(OffsetContext spoken) throws ClearanceException {
        Optional<String> airway =
                spoken.airway() == null ? Optional.empty() : Optional.of(places.airway(spoken.airway()));
        read.add(new Noted.Offset(airway, side(spoken.side()), quantities.distanceNm(spoken.number())));
        ending(spoken.ending(), Noted.Until.What.OFFSET);
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
                    && word.getSymbol().getType() == ClearanceLanguageParser.HASTE
                    && !(word.getParent() instanceof FillerContext time && time.TIME() != null)) {
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
        if (spoken.AT() != null) {
            return new Noted.LeaveHold(Optional.of(places.waypoint(spoken.place(0))), quantities.time(spoken.number()));
        }
        if (spoken.degrees() != null) {
            int heading = quantities.degrees(spoken.degrees().number(), "heading");
            return new Instruction.Depart(
                    places.waypoint(spoken.place(0)),
                    Optional.of(new MagneticDirection(heading)),
                    Optional.empty(),
                    side(spoken.side()));
        }
        Station station = places.station(
                spoken.place(0), candidate -> candidate.kind().hasRadials(), "it has no radials; say a heading");
        if (spoken.place().size() > 1 && !places.waypoint(spoken.place(1)).equals(station)) {
            throw source.notUnderstood(
                    spoken, "a station is departed on a radial of its own; for another, say direct, then intercept it");
        }
        int radial = quantities.degrees(spoken.number(), "radial");
        return new Instruction.Depart(station, Optional.empty(), Optional.of(new Radial(radial)));
    }

    /** "Rest of route unchanged" goes without saying after a change, but is said once only. */
    List<Instruction> finished(boolean changed) throws ClearanceException {
        if (read.isEmpty() && correction == null && !notes.isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "heard, and nothing in it changes route, heading, altitude, speed or hold",
                    0,
                    source.text().length());
        }
        if (read.isEmpty() || correction != null) {
            throw new ClearanceException(
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "something is missing at the end; would be understood there: " + Vocabulary.INSTRUCTION,
                    source.text().length(),
                    0);
        }
        oneAirwayOnce();
        beginLater();
        limitsOnlyOnce();
        boolean said = read.stream().anyMatch(Instruction.Onward.class::isInstance);
        if (changed && !said) {
            read.add(new Instruction.Onward(How.REST_OF_ROUTE_UNCHANGED));
        }
        return read;
    }

    /** What stands behind "after PRION" begins there; a heading begun at a fix departs it. */
    void beginLater() throws ClearanceException {
        for (int i = later.size() - 1; i >= 0; i--) {
            Later each = later.get(i);
            List<Instruction> tail = read.subList(each.first(), read.size());
            if (tail.isEmpty()) {
                throw source.notUnderstood(each.spoken(), "what begins there is not said");
            }
            if (tail.get(0) instanceof Instruction.FlyHeading fly
                    && each.when() instanceof When.AtLine at
                    && at.line() instanceof Instruction.Until.AtFix fix) {
                tail.set(
                        0,
                        new Instruction.Depart(
                                fix.fix(), Optional.of(fly.heading()), Optional.empty(), fly.direction()));
                continue;
            }
            Noted after = new Noted.After(each.when(), tail);
            tail.clear();
            read.add(each.first(), after);
        }
    }

    /** Two of a kind with nothing between them contradict each other: the last counts, and a note says so. */
    private void limitsOnlyOnce() {
        twice("altitudes", Instruction.Maintain.class);
        twice("speeds", Instruction.MaintainSpeed.class);
        twice("clearance limits", Instruction.ClearedTo.class);
        twice("holds", Instruction.Hold.class);
        for (Instruction each : read) {
            if (each instanceof Noted.ForHold awaited) {
                if (read.stream().noneMatch(Instruction.Hold.class::isInstance)) {
                    notes.add("\"" + awaited.words() + "\": for the hold, or the limit, at which you wait");
                }
            } else if (each instanceof Noted noted) {
                notes.add("\"" + noted.words() + "\": understood, and not followed here");
            } else if (each instanceof Instruction.Depart depart
                    && depart.turn() != Instruction.TurnDirection.SHORTEST) {
                notes.add("\"turn " + Phraseology.turn(depart.turn()) + "\" over "
                        + depart.fix().ident() + ": understood, and not followed here");
            }
        }
    }

    private void twice(String what, Class<? extends Instruction> kind) {
        List<Instruction> said =
                read.stream().filter(kind::isInstance).distinct().toList();
        boolean further = said.size() > 1
                && said.get(said.size() - 1) instanceof Instruction.Maintain last
                && said.get(said.size() - 2) instanceof Instruction.Maintain before
                && last.goesOnFrom(before);
        if (said.size() > 1 && !further) {
            notes.add("two " + what + " in one clearance: \"" + Phraseology.say(said.get(said.size() - 2))
                    + "\", then \"" + Phraseology.say(said.get(said.size() - 1))
                    + "\"; the last counts here, ask if that is not what is meant");
        }
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
            read.add(
                    spoken.lineEnd() != null
                            ? lines.to(line, spoken.lineEnd())
                            : lines.until(line, spoken.lineUntil()));
            return;
        }
        String airway = places.airway(spoken.airway());
        read.add(new Instruction.InterceptAirway(airway));
        if (spoken.along().getChildCount() > 0) {
            joinAt(spoken.airway(), spoken.along());
        }
    }

    /** "Join V40 at PRION at FL100" is a crossing too. */
    private void joinAt(AirwayContext airway, AlongContext along) throws ClearanceException {
        Instruction.JoinAirway join = join(airway, along);
        read.add(join);
        if (along.plainLevel() != null) {
            read.add(new Instruction.CrossAt(
                    join.at().orElseThrow(), quantities.altitudeFt(along.plainLevel()), Instruction.CrossAt.Bound.AT));
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
        } else if (!along.AT().isEmpty()) {
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
        boolean whenAble = !spoken.whenAble().isEmpty();
        if (spoken.whenAble().size() > 1) {
            throw source.notUnderstood(spoken, "\"when able\" is said twice");
        }
        for (WhenAbleContext when : spoken.whenAble()) {
            if (when.place() != null) {
                notes.add("\"" + source.words(when) + "\": taken as when able, by "
                        + places.waypoint(when.place()).ident());
            }
        }
        TurnDirection turn = side(spoken.side());
        if (spoken.DESTINATION() != null) {
            List<Waypoint> points = filed.points();
            return new Instruction.Direct(points.get(points.size() - 1), whenAble, turn);
        }
        if (spoken.radialFix() == null && spoken.place() == null) {
            Waypoint limit = read.stream()
                    .filter(Instruction.ClearedTo.class::isInstance)
                    .map(each -> ((Instruction.ClearedTo) each).limit())
                    .reduce((first, second) -> second)
                    .orElseThrow(() -> source.notUnderstood(
                            spoken, "direct to where is not said: name a fix, or a clearance limit before it"));
            straightOn = Optional.of(spoken);
            return new Instruction.Direct(limit, false, Instruction.TurnDirection.SHORTEST);
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
        if (spoken.REST() != null && spoken.FILED() == null) {
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

    /** "..., at pilot's discretion" behind the altitude it is said of. */
    private void begin(BeginContext spoken) throws ClearanceException {
        Instruction last = read.isEmpty() ? null : read.get(read.size() - 1);
        if (!(last instanceof Instruction.Maintain said) || said.when() != Instruction.Maintain.Begin.NOW) {
            throw source.notUnderstood(spoken, "of what? say it with the altitude");
        }
        read.set(
                read.size() - 1,
                new Instruction.Maintain(
                        said.feet(),
                        said.untilEstablished(),
                        said.vertical(),
                        LevelReader.when(spoken),
                        said.levelBy()));
    }
}
