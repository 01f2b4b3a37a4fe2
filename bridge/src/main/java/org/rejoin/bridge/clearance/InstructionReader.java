package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Onward.How;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AfterContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AltitudeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BeginContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CorrectedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DeviationContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.EndingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.EstablishedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ExpectedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FillerContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FurtherTimeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HeadingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LiftedContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NamedPlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OffsetContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OnLineContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OntoContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OnwardContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PresentHeadingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ReasonContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SideContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.TurnByContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.TurnOnContext;
import org.rejoin.bridge.geo.MagneticDirection;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.tree.ParseTree;
import org.antlr.v4.runtime.tree.TerminalNode;
import org.antlr.v4.runtime.tree.Trees;
import org.jspecify.annotations.Nullable;

/** Turns the parts that the grammar found into instructions, looking up what they name. */
final class InstructionReader {

    private final Source source;
    private final List<String> notes;
    private final Quantities quantities;
    private final PlaceReader places;
    private final LineReader lines;
    private final LateralReader lateral;
    private final WholeClearance whole;
    private final Clauses clauses;
    private final HoldReader holds;
    private final WhenReader whens;
    private final CrossReader crossings;
    private final LevelReader levels;
    private final SpeedReader speeds;
    private final List<Instruction> read = new ArrayList<>();
    private final Map<Instruction.Until, Instruction> onto = new HashMap<>();
    private @Nullable FillerContext correction;

    /** What was said last, where it is only heard. */
    private @Nullable FillerContext heard;

    /** All that is only heard, with the place or the time at which it is due. */
    private final List<String> allHeard = new ArrayList<>();

    /** Whether what was last said to be expected is a way to fly. */
    private boolean wayExpected;

    /** Whether the words say that an amendment is to come. */
    private boolean announced;

    /** From "I say again" on: what is said a second time is one instruction. */
    private boolean again;

    /** Where in what was read that begins which was said last. */
    private int lastFrom;

    /** Reads against a chart; with short names one word of a name is enough, as pilots read back. */
    InstructionReader(Source source, Chart chart, FiledRoute filed, List<String> notes, boolean shortNames) {
        this.source = source;
        this.notes = notes;
        this.quantities = new Quantities(source, notes);
        this.places = new PlaceReader(source, chart, filed, notes, quantities, shortNames);
        this.lines = new LineReader(source, places, quantities, notes);
        this.lateral = new LateralReader(source, filed, notes, quantities, places, lines, read);
        this.clauses = new Clauses(source);
        this.whole = new WholeClearance(source, clauses, read, notes, onto);
        this.holds = new HoldReader(source, places, quantities, notes);
        this.whens = new WhenReader(source, places, lines, quantities, onto);
        this.crossings = new CrossReader(source, places, whens, quantities);
        this.speeds = new SpeedReader(source, places, whens, quantities);
        this.levels = new LevelReader(source, places, lines, whens, crossings, quantities);
    }

    LineReader lines() {
        return lines;
    }

    LateralReader lateral() {
        return lateral;
    }

    WholeClearance whole() {
        return whole;
    }

    Quantities quantities() {
        return quantities;
    }

    /** All that is only heard, said once where it was said again. */
    List<String> heard() {
        return allHeard.stream().distinct().toList();
    }

    /** What was read so far, in the order said. */
    List<Instruction> read() {
        return read;
    }

    /**
     * Reads one instruction; it may come to more than one, for example "cross and maintain". An altitude or a speed behind
     * "then" begins where what is said before it is reached, passed or over.
     *
     * @param pause what stands before it
     * @param behind what stands behind it
     */
    void add(InstructionContext part, Pause pause, Pause behind) throws ClearanceException {
        clauses.check(part, pause, read);
        whole.begins(part, pause);
        readBack(part, pause, behind);
    }

    /** The same of a readback, in which nothing begins by its order. */
    void readBack(InstructionContext part, Pause pause, Pause behind) throws ClearanceException {
        int from = read.size();
        if (part.direct() != null || part.join() != null || part.intercept() != null) {
            lateral.goesOn();
        }
        FillerContext before = heard;
        heard = part.filler() != null && isHeard(part.filler()) ? part.filler() : null;
        if (heard != null) {
            allHeard.add(source.words(heard));
        }
        if (before != null && clauses.isOfWhatIsHeard(part, pause, behind)) {
            ofWhatIsHeard(part.after() == null ? part : part.after(), before);
            return;
        }
        if (part.after() != null) {
            after(part.after(), pause, behind, before != null);
            established(part);
            return;
        }
        if (heard != null) {
            Optional<ParserRuleContext> there = whole.heardThere(behind);
            if (there.isPresent()) {
                ofWhatIsHeard(there.get(), heard);
            }
        }
        if (part.onward() != null && expectedToo(part, pause)) {
            return;
        }
        if (pause.then()) {
            whole.thenOn(part);
        }
        one(part);
        if (again) {
            read.subList(from, read.size()).removeIf(said -> saidAlready(said, read.subList(0, from)));
        }
        if (from > 0 && read.size() > from) {
            untilThere(part, from);
        }
        reasons(part);
        established(part);
        if (correction != null && part.filler() == null) {
            correct(part, from);
        }
        boolean way = (part.join() != null || part.direct() != null) && lateral.saidTheWay();
        if (part.filler() == null && !way) {
            lastFrom = Math.min(from, read.size());
        }
    }

    /**
     * "Expect heading 110 to V40, then as filed": with no way cleared before it, all of it is to be expected; behind an
     * altitude or a speed to be expected it is cleared. Behind "expect further clearance via" it is of that route.
     */
    private boolean expectedToo(InstructionContext part, Pause pause) {
        int last = read.size() - 1;
        if (last >= 0
                && read.get(last) instanceof Instruction.Expect expect
                && !pause.stop()
                && isFurtherRoute(expect)) {
            read.set(
                    last,
                    new Instruction.Expect(expect.what() + ", " + (pause.then() ? "then " : "") + source.words(part)));
            return true;
        }
        if (!pause.then()) {
            return false;
        }
        boolean cleared = read.stream()
                .anyMatch(each -> WholeClearance.leads(each)
                        || each instanceof Instruction.Heading
                        || each instanceof Instruction.ClearedTo
                        || each instanceof Instruction.Hold);
        if (cleared || !wayExpected || last < 0 || !(read.get(last) instanceof Instruction.Expect way)) {
            return false;
        }
        read.set(last, new Instruction.Expect(way.what() + ", then " + source.words(part)));
        notes.add("\"then " + source.words(part) + "\": to be expected too, as what stands before it");
        return true;
    }

    /** Whether a whole route is to be expected: "further clearance via" (FAA Order JO 7110.65, 4-6-1). */
    static boolean isFurtherRoute(Instruction.Expect said) {
        return said.what().toLowerCase(Locale.ROOT).startsWith("further clearance via ");
    }

    /** "Turn right heading 120, I say again, heading 120": the way round goes without saying the second time. */
    private static boolean saidAlready(Instruction said, List<Instruction> before) {
        return before.contains(said)
                || (said instanceof Instruction.FlyHeading fly
                        && fly.direction() == Instruction.TurnDirection.SHORTEST
                        && before.stream()
                                .anyMatch(each -> each instanceof Instruction.FlyHeading first
                                        && first.heading().equals(fly.heading())));
    }

    /** "After passing PRION": of what stands before it, or of what follows. */
    private void after(AfterContext spoken, Pause pause, Pause behind, boolean heardBefore) throws ClearanceException {
        When when = when(spoken);
        if (heardBefore) {
            whole.later(when, spoken, false);
            lastFrom = read.size();
        } else if (clauses.isOfWhatStandsBefore(
                spoken, when, pause, behind, read.subList(lastFrom, read.size()), lateral.leadsTo())) {
            if (spoken.lineEnd() != null) {
                notes.add(
                        "\"" + source.words(spoken) + "\": it begins there; to be done by then say \"by\" and the fix");
            }
            whole.saidBehind(lastFrom, when, spoken);
        } else {
            whole.later(when, spoken, Clauses.isParted(pause, behind));
            lastFrom = read.size();
        }
    }

    /** What is said around a clearance, and may be due somewhere: "contact center 127.9 at PRION" (7110.65 2-1-17). */
    private static boolean isHeard(FillerContext spoken) {
        return spoken.ALTIMETER() != null
                || switch (spoken.getStart().getType()) {
                    case ClearanceLanguageParser.CONTACT,
                            ClearanceLanguageParser.QNH,
                            ClearanceLanguageParser.RADAR_ENDED,
                            ClearanceLanguageParser.RADAR_CONTACT,
                            ClearanceLanguageParser.REASON,
                            ClearanceLanguageParser.POSITION,
                            ClearanceLanguageParser.DELAY_EXPECTED,
                            ClearanceLanguageParser.ANTICIPATE,
                            ClearanceLanguageParser.WAKE -> true;
                    default -> false;
                };
    }

    /** Where or when it is due; its place is looked up all the same. */
    private void ofWhatIsHeard(ParserRuleContext due, FillerContext said) throws ClearanceException {
        if (due instanceof AfterContext after && after.number() == null) {
            when(after);
        }
        int at = allHeard.lastIndexOf(source.words(said));
        allHeard.set(at, allHeard.get(at) + " " + source.words(due));
        notes.add("\"" + source.words(due) + "\": of \"" + source.words(said) + "\", nothing to fly");
    }

    private When when(AfterContext after) throws ClearanceException {
        if (after.MILE() != null || after.MINUTE() != null) {
            throw source.notUnderstood(
                    after,
                    "miles or minutes from now are not followed here: say the place or the time of day, or give the rest"
                            + " when it is time");
        }
        if (after.place() != null) {
            // "Leave V40 at PRION."
            Waypoint fix = after.airway() != null
                    ? places.waypointOn(places.airway(after.airway()), after.place())
                    : places.waypoint(after.place());
            return new When.AtLine(new Instruction.Until.AtFix(fix));
        }
        if (after.altitude() != null) {
            return new When.AtLevel(quantities.altitudeFt(after.altitude()), Quantities.isLevel(after.altitude()));
        }
        if (after.whenOn() != null) {
            return whens.established(after.whenOn().onLine());
        }
        return after.when() != null
                ? whens.when(after.when(), after.PASS() != null || after.REACH() != null)
                : whens.one(after, after.near(), after.lineEnd(), null, after.number());
    }

    /** "Maintain 8000 until intercepting V40": of the altitude or the speed too, where that is said right before it. */
    private void untilThere(InstructionContext part, int at) {
        boolean until = (part.intercept() != null
                        && part.intercept().toIntercept() != null
                        && part.intercept().toIntercept().UNTIL() != null)
                || (part.join() != null && part.join().UNTIL() != null);
        if (!until) {
            return;
        }
        Optional<Instruction.Until> line = line(read.get(at));
        Instruction before = read.get(at - 1);
        if (before instanceof Instruction.Maintain said) {
            read.set(at - 1, said.untilItsCourse());
            line.ifPresent(on -> read.add(at, new Noted.EstablishedOn(on)));
        } else if (before instanceof Instruction.Speed) {
            read.add(at, new Noted.Until(Noted.Until.What.SPEED, new When.Established(line)));
        }
    }

    /** Where the aircraft is once an instruction is flown that leads onto a line; empty for others, and where it leads on to a fix. */
    static Optional<When> joined(Instruction said) {
        if (said instanceof Instruction.StationLine line && line.until().isPresent()) {
            return line.until().map(When.AtLine::new);
        }
        boolean onto = said instanceof Instruction.StationLine
                || said instanceof Instruction.InterceptAirway
                || (said instanceof Instruction.JoinAirway join && join.to().isEmpty());
        return onto ? Optional.of(new When.Established(line(said))) : Optional.empty();
    }

    /** The airway or radial that an instruction leads onto. */
    static Optional<Instruction.Until> line(Instruction said) {
        if (said instanceof Instruction.InterceptAirway airway) {
            return Optional.of(new Instruction.Until.AtAirway(airway.airway()));
        }
        if (said instanceof Instruction.JoinAirway airway) {
            return Optional.of(new Instruction.Until.AtAirway(airway.airway()));
        }
        return said instanceof Instruction.InterceptRadial radial
                ? Optional.of(new Instruction.Until.AtRadial(radial.station(), radial.radial()))
                : Optional.empty();
    }

    /** "Correction, turn left heading 290": in the place of what was said last. */
    private void correct(InstructionContext part, int before) throws ClearanceException {
        boolean like = before > 0
                && read.size() > before
                && read.get(before - 1).getClass() == read.get(before).getClass();
        if (!like) {
            throw source.notUnderstood(part, "what it corrects is not clear: say the whole clearance again");
        }
        Instruction wrong = read.remove(before - 1);
        Instruction right = read.get(before - 1);
        if (wrong instanceof Instruction.FlyHeading said
                && right instanceof Instruction.FlyHeading fly
                && fly.direction() == Instruction.TurnDirection.SHORTEST) {
            // The heading is corrected, not the way round that was said with it.
            read.set(before - 1, new Instruction.FlyHeading(fly.heading(), said.direction()));
        }
        saidCorrected(wrong, read.get(before - 1));
        correction = null;
    }

    private void saidCorrected(Instruction wrong, Instruction right) {
        notes.add("\"" + Phraseology.say(wrong) + "\" is corrected to \"" + Phraseology.say(right) + "\"");
    }

    /** "Correction, one two thousand": of the altitude, the speed, the heading or the crossing that was said last. */
    private void corrected(CorrectedContext spoken) throws ClearanceException {
        Instruction last = read.isEmpty() ? null : read.get(read.size() - 1);
        Optional<Instruction> right = last == null ? Optional.empty() : corrected(last, spoken);
        if (last == null || right.isEmpty()) {
            throw source.notUnderstood(
                    spoken,
                    (spoken.SAY_AGAIN() == null ? "what it corrects is not clear" : "what is said again is not clear")
                            + ": say the whole clearance again");
        }
        if (spoken.SAY_AGAIN() == null) {
            read.set(read.size() - 1, right.get());
            saidCorrected(last, right.get());
        } else if (!right.get().equals(last)) {
            throw source.notUnderstood(
                    spoken, "not what was said before it: to put it right say \"correction\" and what is meant");
        }
    }

    private Optional<Instruction> corrected(Instruction last, CorrectedContext spoken) throws ClearanceException {
        if (spoken.altitude() != null) {
            return withNumber(last, spoken.altitude());
        }
        if (spoken.namedPlace() != null) {
            return withPlace(last, spoken.namedPlace());
        }
        if (!(last instanceof Instruction.Hold hold)) {
            return Optional.empty();
        }
        if (spoken.side() != null) {
            return hold.turns() == Instruction.TurnDirection.SHORTEST
                    ? Optional.empty()
                    : Optional.of(hold.turning(LateralReader.side(spoken.side())));
        }
        return hold.compass().map(said -> hold.toward(LineReader.compass(spoken.compass())));
    }

    private Optional<Instruction> withNumber(Instruction last, AltitudeContext number) throws ClearanceException {
        boolean crossed = read.size() > 1 && read.get(read.size() - 2) instanceof Instruction.CrossAt;
        if (last instanceof Instruction.Maintain said && !crossed) {
            return Optional.of(said.at(quantities.altitudeFt(number), Quantities.isLevel(number)));
        }
        if (last instanceof Instruction.CrossAt said) {
            return Optional.of(new Instruction.CrossAt(
                    said.fix(),
                    quantities.altitudeFt(number),
                    Quantities.isLevel(number),
                    said.bound(),
                    said.before()));
        }
        if (last instanceof Instruction.Hold said
                && said.expectFurtherClearance().isPresent()
                && number.number() != null) {
            return Optional.of(said.withFurtherClearance(quantities.time(number.number())));
        }
        if (last instanceof Noted.ApproachClearance && number.number() != null) {
            return Optional.of(new Noted.ApproachClearance(quantities.time(number.number())));
        }
        if (last instanceof Noted.FurtherClearance && number.number() != null) {
            return Optional.of(new Noted.FurtherClearance(quantities.time(number.number())));
        }
        if (last instanceof Instruction.MaintainSpeed said && number.number() != null) {
            return Optional.of(new Instruction.MaintainSpeed(quantities.speedKt(number.number()), said.bound()));
        }
        return last instanceof Instruction.FlyHeading said && number.number() != null
                ? Optional.of(new Instruction.FlyHeading(
                        new MagneticDirection(quantities.degrees(number.number(), "heading")), said.direction()))
                : Optional.empty();
    }

    private Optional<Instruction> withPlace(Instruction last, NamedPlaceContext place) throws ClearanceException {
        if (last instanceof Instruction.Direct said) {
            return Optional.of(new Instruction.Direct(places.waypoint(place), said.whenAble(), said.turn()));
        }
        return last instanceof Instruction.ClearedTo
                ? Optional.of(new Instruction.ClearedTo(places.waypoint(place)))
                : Optional.empty();
    }

    private void filler(FillerContext spoken) throws ClearanceException {
        announced |= spoken.AMENDMENT() != null
                || spoken.AMENDED() != null
                || spoken.AMEND() != null
                || spoken.NEW_ROUTE() != null
                || spoken.READY_TO_COPY() != null;
        if (spoken.CORRECTION() != null && !read.isEmpty()) {
            correction = spoken;
        } else if (spoken.SAY_AGAIN() != null) {
            again = true;
        } else if (spoken.QNH() != null || spoken.ALTIMETER() != null) {
            notes.add("\"" + source.words(spoken) + "\": the altimeter setting, nothing to fly");
        } else if (spoken.place() != null) {
            notes.add("\"" + source.words(spoken) + "\": where ATC sees you, "
                    + places.waypoint(spoken.place()).ident() + " is on the chart; nothing to fly");
        } else if (spoken.RADAR_CONTACT() != null
                || spoken.ROGER() != null
                || spoken.APPROVED() != null
                || spoken.VECTOR() != null
                || spoken.REQUESTED() != null
                || spoken.WAKE() != null
                || spoken.CONTACT() != null
                || spoken.traffic() != null
                || spoken.ANTICIPATE() != null
                || spoken.RADAR_ENDED() != null
                || spoken.NO() != null
                || spoken.DELAY_EXPECTED() != null
                || spoken.IF_ABLE() != null
                || spoken.number() != null) {
            notes.add("\"" + source.words(spoken) + "\": heard, "
                    + (spoken.IF_ABLE() == null
                            ? "nothing to fly"
                            : "and taken for done; what you cannot fly, say so"));
        }
    }

    private void one(InstructionContext part) throws ClearanceException {
        if (part.heading() != null) {
            if (part.heading().VIA() != null) {
                lateral.viaHeading(part.heading());
            }
            read.add(heading(part.heading()));
            ending(part.heading().ending(), Noted.Until.What.HEADING);
            onto(part.heading().onto());
        } else if (part.turnBy() != null) {
            read.add(turnBy(part.turnBy()));
            onto(part.turnBy().onto());
        } else if (part.presentHeading() != null) {
            read.add(presentHeading(part.presentHeading()));
            ending(part.presentHeading().ending(), Noted.Until.What.HEADING);
            onto(part.presentHeading().onto());
        } else if (part.runwayHeading() != null) {
            read.add(new Instruction.FlyRunwayHeading());
        } else if (part.intercept() != null) {
            turnOn(part);
            lateral.intercept(part.intercept());
        } else if (part.arc() != null) {
            turnOn(part);
            read.addAll(lines.arcAndOn(
                    part.arc().arcBody(),
                    part.arc().arcWay() == null ? List.of() : List.of(part.arc().arcWay())));
        } else if (part.depart() != null && part.depart().ARC() != null) {
            throw source.notUnderstood(
                    part, "say it with the arc: \"intercept the FUL 12 mile arc, arc clockwise to the 350 radial\"");
        } else if (part.depart() != null) {
            read.add(lateral.depart(part.depart()));
        } else if (part.vectorTo() != null) {
            Optional<Instruction> leads = lateral.vectorTo(part.vectorTo());
            leads.ifPresent(read::add);
            wayExpected |= leads.isPresent();
        } else if (part.join() != null) {
            turnOn(part);
            lateral.join(part.join(), correction != null);
        } else if (part.direct() != null) {
            lateral.direct(part.direct(), correction != null);
        } else if (part.clearedTo() != null) {
            read.add(new Instruction.ClearedTo(lateral.limit(part.clearedTo())));
        } else if (part.onward() != null) {
            whenOn(part.onward());
            turnOn(part);
            if (part.onward().place() != null && part.onward().BY() == null) {
                lateral.rejoin(part.onward().place());
            }
            if (part.onward().LAST() != null
                    || (part.onward().AS() != null && part.onward().FILED() == null)) {
                notes.add("\"" + source.words(part.onward())
                        + "\": as filed; a route that was amended before is not taken up again");
            }
            Instruction onward = new Instruction.Onward(onward(part.onward()));
            // "Then as filed, rejoin route by PRION" says it once.
            if (part.onward().BY() == null
                    || read.isEmpty()
                    || !read.get(read.size() - 1).equals(onward)) {
                read.add(onward);
            }
            if (part.onward().BY() != null) {
                read.add(new Noted.RouteBy(whens.one(
                        part.onward(),
                        null,
                        null,
                        part.onward().place(),
                        part.onward().number())));
            }
        } else if (part.change() != null) {
            if (part.change().EXCEPT() != null) {
                // "As filed except": the rest of the route is unchanged, and is said behind the change.
                read.removeIf(Instruction.Onward.class::isInstance);
            }
            lateral.change(part.change());
        } else if (part.filedTo() != null) {
            filedTo(part);
        } else if (part.except() != null) {
            except(part);
        } else if (part.level() != null) {
            read.addAll(levels.level(part.level()));
        } else if (part.speed() != null) {
            read.addAll(speeds.speed(part.speed()));
        } else if (part.cross() != null) {
            read.addAll(crossings.cross(part.cross(), lateral.leadsTo()));
        } else if (part.hold() != null && part.hold().SHORT() != null) {
            throw source.notUnderstood(
                    part,
                    "said to an aircraft on the ground; in the air it is \"hold at\" a fix, or a clearance limit");
        } else if (part.hold() != null && part.hold().POSITION() != null) {
            throw source.notUnderstood(part, "a hold needs a fix, and the line to hold on: name them");
        } else if (part.hold() != null) {
            read.addAll(holds.hold(part.hold(), whole.beginsAt().or(lateral::leadsTo)));
        } else if (part.further() != null) {
            further(part.further().furtherTime());
        } else if (part.lifted() != null) {
            read.add(
                    part.lifted().number() != null
                            ? new Noted.LeaveHold(
                                    Optional.empty(),
                                    quantities.time(part.lifted().number()))
                            : new Noted.Lifted(lifted(part.lifted()), liftedAt(part.lifted())));
        } else if (part.offset() != null) {
            offset(part.offset());
        } else if (part.deviation() != null) {
            deviation(part.deviation());
        } else if (part.bareLevel() != null) {
            if (read.isEmpty() && part.bareLevel().CLEARED() == null) {
                throw source.notUnderstood(part, "say climb to, descend to, maintain or recleared before it");
            }
            read.add(quantities.maintain(part.bareLevel().plainLevel()));
        } else if (part.corrected() != null) {
            corrected(part.corrected());
        } else if (part.leftOut() != null) {
            for (PlaceContext place : part.leftOut().place()) {
                read.add(new Noted.LeftOut(places.waypoint(place)));
            }
        } else if (part.filler() != null) {
            filler(part.filler());
        } else if (part.expect() != null) {
            String expected = afterFirst(part.expect());
            if (expected.matches("(?i)((to|be|a|an|the)\\b\\s*)*")) {
                throw source.notUnderstood(part, "what is to be expected is not said");
            }
            if (expected.matches("(?i)(further|approach) clearance(?! via ).*")) {
                throw source.notUnderstood(part, "the time is missing: four figures, for example 1530");
            }
            read.add(new Instruction.Expect(expected));
            wayExpected = isWay(part.expect().expected());
            lateral.foretold(part.expect().airway());
        } else if (part.report() != null) {
            String due = afterFirst(part.report());
            if (due.isBlank() && part.getText().equalsIgnoreCase("advise")) {
                notes.add("\"" + source.words(part) + "\": when it is done; heard, nothing to fly");
                return;
            }
            if (due.isBlank()) {
                throw source.notUnderstood(part, "what is to be reported is not said");
            }
            read.add(new Instruction.Report(due));
        } else if (part.begin() != null) {
            begin(part.begin());
        } else if (part.cancel() != null) {
            read.add(new Instruction.Cancel());
        } else {
            throw source.notUnderstood(part, "an instruction that is not known");
        }
    }

    /** Whether what is to be expected is a way to fly, and no altitude, speed or other words. */
    private static boolean isWay(@Nullable ExpectedContext spoken) {
        return spoken != null && spoken.level() == null && spoken.speed() == null && spoken.cross() == null;
    }

    /** "As filed to PRION, then ...": on from there; to where the filed route ends it is as filed, and no more. */
    private void filedTo(InstructionContext part) throws ClearanceException {
        Waypoint fix = lateral.filedTo(part.filedTo());
        if (lateral.isFiledEnd(fix)) {
            read.add(new Instruction.Onward(How.AS_FILED));
        } else {
            whole.filedTo(fix, part);
        }
    }

    /** "As filed except direct PRION": the rest of the route is unchanged, and goes without saying behind the change. */
    private void except(InstructionContext part) throws ClearanceException {
        if (!read.removeIf(Instruction.Onward.class::isInstance)) {
            throw source.notUnderstood(part, "except from what? say \"as filed except\", and what is other than filed");
        }
    }

    private void ending(@Nullable EndingContext spoken, Noted.Until.What what) throws ClearanceException {
        if (spoken != null && spoken.FOR() != null) {
            throw source.notUnderstood(
                    spoken,
                    "flown for a distance or a time is not worked out here: say until where, or give the rest when it is"
                            + " time");
        }
        if (spoken != null && spoken.established() != null) {
            notes.add("\"" + source.words(spoken) + "\": the heading ends where the course is joined");
            whole.untilEstablished();
        } else if (spoken != null) {
            read.add(new Noted.Until(what, whens.when(spoken.when(), spoken.PASS() != null || spoken.REACH() != null)));
        }
    }

    /** "Turn 20 left" is by degrees; three figures without the word are said of a heading (common practice, no source). */
    private Instruction turnBy(TurnByContext spoken) throws ClearanceException {
        if (spoken.DEGREES() == null
                && quantities.number(spoken.number()).digits().length() > 2) {
            String side = Phraseology.turn(LateralReader.side(spoken.side()));
            String figures = source.words(spoken.number());
            throw source.notUnderstood(
                    spoken,
                    "a heading, or by so many degrees? say \"turn " + side + " heading " + figures + "\", or \"turn "
                            + side + " " + figures + " degrees\"");
        }
        return new Instruction.TurnBy(quantities.turn(spoken.number()), LateralReader.side(spoken.side()));
    }

    /** "Fly present heading 110": its figures are what counts. */
    private Instruction presentHeading(PresentHeadingContext spoken) throws ClearanceException {
        if (spoken.degrees() == null) {
            return new Instruction.FlyPresentHeading();
        }
        notes.add("\"" + source.words(spoken) + "\": the heading said is taken; if you are on another, ask");
        return new Instruction.FlyHeading(
                new MagneticDirection(quantities.heading(spoken.degrees())), Instruction.TurnDirection.SHORTEST);
    }

    /** "Fly heading 110 to V40". */
    private void onto(@Nullable OntoContext spoken) throws ClearanceException {
        if (spoken != null && spoken.airway() != null) {
            lateral.intercept(spoken.airway(), spoken.along());
        } else if (spoken != null) {
            read.add(spoken.radial() != null ? lines.radial(spoken.radial()) : lines.bearing(spoken.bearing()));
        }
    }

    /**
     * "Fly heading 110, turn left to intercept V40": the turn where V40 is met; without a heading or another line nothing
     * leads to it.
     */
    private void turnOn(InstructionContext part) throws ClearanceException {
        for (ParseTree child : Trees.getDescendants(part)) {
            if (child instanceof TurnOnContext turn) {
                Instruction.TurnDirection direction = LateralReader.side(turn.side());
                String side = Phraseology.turn(direction);
                boolean leads = read.stream()
                        .anyMatch(each -> each instanceof Instruction.Heading || WholeClearance.leads(each));
                if (!leads && part.onward() == null) {
                    throw source.notUnderstood(
                            part,
                            "on which heading? say \"turn " + side
                                    + " heading\" and its figures before it; \"intercept\" or \"join\" alone leaves it to you");
                }
                if (part.onward() == null) {
                    notes.add("\"turn " + side + "\": taken for the turn where the line is met");
                }
                read.add(new Noted.TurnOnto(direction));
            }
        }
    }

    /** Of the hold said before it, where there is one. */
    private void further(FurtherTimeContext spoken) throws ClearanceException {
        boolean approach = spoken.approachTime() != null;
        String kind = approach ? "approach clearance" : "further clearance";
        boolean twice = read.stream()
                .anyMatch(each ->
                        each instanceof Noted.ForHold said && said.kind().equals(kind));
        if (twice && !again) {
            throw source.notUnderstood(spoken, "said twice; which is meant?");
        }
        if (approach) {
            read.add(holds.approach(spoken));
            return;
        }
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

    private Optional<Waypoint> liftedAt(LiftedContext spoken) throws ClearanceException {
        return spoken.liftedAt() == null
                ? Optional.empty()
                : Optional.of(places.waypoint(spoken.liftedAt().place()));
    }

    private void offset(OffsetContext spoken) throws ClearanceException {
        Optional<String> airway =
                spoken.airway() == null ? Optional.empty() : Optional.of(places.airway(spoken.airway()));
        read.add(new Noted.Offset(airway, LateralReader.side(spoken.side()), quantities.distanceNm(spoken.number())));
        ending(spoken.ending(), Noted.Until.What.OFFSET);
    }

    private void deviation(DeviationContext spoken) throws ClearanceException {
        if (spoken.number().isEmpty()
                && spoken.sides() == null
                && spoken.APPROVED() == null
                && spoken.CLEARED() == null) {
            throw source.notUnderstood(
                    spoken, "say how far and to which side: \"deviation 20 miles right of course approved\"");
        }
        List<SideContext> sides =
                spoken.sides() == null ? List.of() : spoken.sides().side();
        Optional<Instruction.TurnDirection> side =
                sides.size() == 1 ? Optional.of(LateralReader.side(sides.get(0))) : Optional.empty();
        boolean degrees = spoken.DEGREES() != null;
        if (spoken.number().size() > 1) {
            throw source.notUnderstood(spoken, "how far is said twice");
        }
        OptionalDouble far = spoken.number().isEmpty()
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        degrees ? quantities.turn(spoken.number(0)) : quantities.distanceNm(spoken.number(0)));
        Optional<String> airway =
                spoken.deviatedFrom() == null || spoken.deviatedFrom().airway() == null
                        ? Optional.empty()
                        : Optional.of(places.airway(spoken.deviatedFrom().airway()));
        read.add(new Noted.Deviation(side, far, degrees, airway));
    }

    /** The words after the first. */
    private String afterFirst(ParserRuleContext part) {
        return source.words(part).replaceFirst("(?i)^(you\\s+(can|may)\\s+\\S+|you\\s+(will|should)|\\S+)\\s*", "");
    }

    /** Why, and how fast: heard, and nothing to fly. */
    private void reasons(InstructionContext part) {
        for (ParseTree child : Trees.getDescendants(part)) {
            if (child instanceof ReasonContext reason) {
                notes.add("\"" + source.words(reason).replaceFirst("^[,;: ]+", "")
                        + "\": the reason for the vector, nothing to fly");
            } else if (child instanceof TerminalNode word
                    && word.getSymbol().getType() == ClearanceLanguageParser.HASTE
                    && !(word.getParent() instanceof FillerContext time && time.TIME() != null)) {
                boolean through = word.getParent() instanceof FillerContext said && said.altitude() != null;
                notes.add("\"" + (through ? source.words(part) : word.getText())
                        + "\": heard; how fast is the pilot's to fly");
            }
        }
    }

    /** "Until established inbound": which way the line is flown that is named with it, or else the last before it. */
    private void established(InstructionContext part) throws ClearanceException {
        if (part.expect() != null) {
            return;
        }
        for (ParseTree child : Trees.getDescendants(part)) {
            if (child instanceof EstablishedContext said && (said.INBOUND() != null || said.OUTBOUND() != null)) {
                Sense sense = said.INBOUND() != null ? Sense.INBOUND : Sense.OUTBOUND;
                OnLineContext on = said.getParent().getRuleContext(OnLineContext.class, 0);
                if (on != null && on.radial() != null) {
                    flown(lines.radial(on.radial()), sense, said);
                } else if ((part.intercept() != null && part.intercept().airway() != null)
                        || (on != null && (on.airway() != null || on.AIRWAY() != null || on.ARC() != null))) {
                    throw source.notUnderstood(said, "inbound or outbound is said of a radial");
                } else {
                    Instruction.StationLine last = read.stream()
                            .filter(each -> each instanceof Instruction.StationLine)
                            .map(each -> (Instruction.StationLine) each)
                            .reduce((first, second) -> second)
                            .filter(each -> !(each instanceof Instruction.InterceptArc))
                            .orElseThrow(() -> source.notUnderstood(
                                    part, "inbound or outbound on which radial is not said before it"));
                    flown(last, sense, said);
                }
            }
        }
    }

    /** Makes one line, wherever it is named, the one that is flown so. */
    private void flown(Instruction.StationLine line, Sense sense, EstablishedContext said) throws ClearanceException {
        Optional<Instruction.Until> named = line(line);
        for (int i = 0; i < read.size(); i++) {
            if (isThat(read.get(i), line, named)) {
                read.set(i, flown(read.get(i), sense, said));
            }
        }
        Instruction there = named.map(onto::get).orElse(null);
        if (there != null) {
            onto.put(named.get(), flown(there, sense, said));
        }
    }

    private static boolean isThat(Instruction said, Instruction.StationLine line, Optional<Instruction.Until> named) {
        return said.equals(line) || (named.isPresent() && line(said).equals(named));
    }

    private Instruction flown(Instruction said, Sense sense, EstablishedContext words) throws ClearanceException {
        Instruction.StationLine line = (Instruction.StationLine) said;
        if (line.sense() != Sense.UNSAID && line.sense() != sense) {
            throw source.notUnderstood(words, "which way is meant, inbound or outbound?");
        }
        return line.flown(sense);
    }

    /** "Rest of route unchanged" goes without saying after a change, but is said once only. */
    List<Instruction> finished(boolean changed) throws ClearanceException {
        lateral.finished();
        if (read.isEmpty() && correction == null && !notes.isEmpty()) {
            throw new ClearanceException(
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "heard, and nothing in it changes route, heading, altitude, speed or hold",
                    0,
                    source.text().length());
        }
        if (read.isEmpty() && correction == null && announced) {
            throw new ClearanceException(
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "an amendment is announced, and what it is is not said: give the clearance itself behind these words",
                    0,
                    source.text().length());
        }
        if (read.isEmpty() && correction == null) {
            whole.filedToOnly();
        }
        if (read.isEmpty() || correction != null) {
            throw new ClearanceException(
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "something is missing at the end; expected here: " + Vocabulary.INSTRUCTION,
                    source.text().length(),
                    0);
        }
        whole.finish();
        turnOfDirect();
        boolean said = read.stream().anyMatch(Instruction.Onward.class::isInstance);
        if (changed && !said) {
            read.add(new Instruction.Onward(How.REST_OF_ROUTE_UNCHANGED));
        }
        return read;
    }

    /** "Turn left heading 040, then turn right direct FUL": the second turn is not that of the heading. */
    private void turnOfDirect() {
        boolean heading = read.stream().anyMatch(Instruction.Heading.class::isInstance);
        for (Instruction said : read) {
            if (heading
                    && said instanceof Instruction.Direct direct
                    && direct.turn() != Instruction.TurnDirection.SHORTEST) {
                notes.add(
                        "\"" + Phraseology.say(direct) + "\": the turn is from the heading, when the direct is begun");
            }
        }
    }

    private Instruction heading(HeadingContext spoken) throws ClearanceException {
        int degrees = spoken.number() != null
                ? quantities.figures(spoken.number(), "heading")
                : quantities.heading(spoken.degrees());
        return new Instruction.FlyHeading(new MagneticDirection(degrees), LateralReader.side(spoken.side()));
    }

    /** "... when established on V40": onto V40 first, where that is not said before. */
    private void whenOn(OnwardContext spoken) throws ClearanceException {
        if (spoken.whenOn() != null) {
            whens.established(spoken.whenOn().onLine())
                    .line()
                    .filter(line -> read.stream()
                            .noneMatch(each -> line(each).filter(line::equals).isPresent()))
                    .map(onto::get)
                    .ifPresent(read::add);
        }
    }

    private static How onward(OnwardContext spoken) {
        if (spoken.NAVIGATION() != null) {
            return How.RESUME_OWN_NAVIGATION;
        }
        if (spoken.REST() != null && spoken.FILED() == null) {
            return How.REST_OF_ROUTE_UNCHANGED;
        }
        return spoken.COURSE() != null || spoken.TRACK() != null ? How.ON_COURSE : How.AS_FILED;
    }

    /** "..., at pilot's discretion" behind the altitude it is said of. */
    private void begin(BeginContext spoken) throws ClearanceException {
        Instruction last = read.isEmpty() ? null : read.get(read.size() - 1);
        if (!(last instanceof Instruction.Maintain said) || said.when() != Instruction.Maintain.Begin.NOW) {
            throw source.notUnderstood(spoken, "of what? say it with the altitude");
        }
        read.set(read.size() - 1, said.begun(LevelReader.when(spoken)));
    }
}
