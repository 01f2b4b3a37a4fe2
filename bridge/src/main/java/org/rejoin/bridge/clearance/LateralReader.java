package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AirwayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AlongContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AwayFromContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BareLineContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ChangeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ClearedToContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DepartContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DirectContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FiledToContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FurtherFixContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HeadingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InterceptContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.JoinContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.JoinWithinContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OldLegContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OnWayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SameStationContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SideContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.VectorToContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.WhenAbleContext;
import org.rejoin.bridge.geo.MagneticDirection;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.tree.ParseTree;
import org.jspecify.annotations.Nullable;

/** Reads what leads along the route: joins, directs, lines to intercept, fixes to depart, changes of the filed route. */
final class LateralReader {

    private final Source source;
    private final FiledRoute filed;
    private final List<String> notes;
    private final Quantities quantities;
    private final PlaceReader places;
    private final LineReader lines;
    private final List<Instruction> read;
    private Optional<DirectContext> straightOn = Optional.empty();

    /** The direct that the last words said the way to: "proceed to BBB via CCC". */
    private Optional<Instruction> wayTo = Optional.empty();

    /** The airway that is to be met by and by: "you'll intercept V40 in 8 miles, join it". */
    private Optional<String> foretold = Optional.empty();

    /** Where a heading leads by what is said next: "proceed to BBB via a heading of 110 until intercepting V31". */
    private Optional<Waypoint> headingTo = Optional.empty();

    /** Reads against a chart; adds to the instructions said before. */
    LateralReader(
            Source source,
            FiledRoute filed,
            List<String> notes,
            Quantities quantities,
            PlaceReader places,
            LineReader lines,
            List<Instruction> read) {
        this.source = source;
        this.filed = filed;
        this.notes = notes;
        this.quantities = quantities;
        this.places = places;
        this.lines = lines;
        this.read = read;
    }

    /** Nothing may follow a direct to the clearance limit, which alone says where. */
    void goesOn() throws ClearanceException {
        if (straightOn.isPresent()) {
            throw source.notUnderstood(
                    straightOn.get(), "direct to where is not said, and the route goes on behind it");
        }
    }

    /** An airway that is foretold, and not cleared. */
    void foretold(@Nullable AirwayContext spoken) throws ClearanceException {
        foretold = spoken == null ? Optional.empty() : Optional.of(places.airway(spoken));
    }

    /** The heading is flown first, and then what it meets, to the fix that was said before it. */
    void viaHeading(HeadingContext spoken) throws ClearanceException {
        int last = read.size() - 1;
        if (last < 0
                || !(read.get(last) instanceof Instruction.Direct direct)
                || direct.whenAble()
                || direct.turn() != TurnDirection.SHORTEST
                || direct.away().isPresent()) {
            throw source.notUnderstood(spoken, "to where? say \"fly\" the heading, or the fix it leads to before it");
        }
        if (!source.follows(spoken)) {
            String fix = direct.to().ident();
            throw source.notUnderstood(
                    spoken,
                    "flown to " + fix + ", or from there on? say it without a comma (\"proceed to " + fix
                            + " via a heading of\"), or \"after " + fix + ", fly heading\"");
        }
        read.remove(last);
        headingTo = Optional.of(direct.to());
    }

    /** The line that the heading before it meets leads to the fix. */
    private void onHeading(Instruction said) throws ClearanceException {
        if (headingTo.isEmpty()) {
            return;
        }
        Waypoint fix = headingTo.get();
        headingTo = Optional.empty();
        if (said instanceof Instruction.StationLine line && line.until().isEmpty()) {
            read.set(read.size() - 1, wayThere(line, fix));
            return;
        }
        Optional<String> airway = said instanceof Instruction.InterceptAirway met
                ? Optional.of(met.airway())
                : said instanceof Instruction.JoinAirway join && join.to().isEmpty()
                        ? Optional.of(join.airway())
                        : Optional.empty();
        if (airway.filter(on -> places.passes(on, fix)).isEmpty()) {
            headingTo = Optional.of(fix);
            finished();
        }
        read.add(new Instruction.JoinAirway(airway.orElseThrow(), Optional.empty(), Optional.of(fix)));
    }

    /** Refuses a heading to a fix that nothing leads on to. */
    void finished() throws ClearanceException {
        if (headingTo.isPresent()) {
            throw new ClearanceException(
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "how the heading leads to " + headingTo.get().ident()
                            + " is not said: say behind it which airway or radial to "
                            + headingTo.get().ident()
                            + " it meets",
                    0,
                    source.text().length());
        }
    }

    static TurnDirection side(@Nullable SideContext spoken) {
        if (spoken == null) {
            return TurnDirection.SHORTEST;
        }
        return spoken.LEFT() != null ? TurnDirection.LEFT : TurnDirection.RIGHT;
    }

    Waypoint limit(ClearedToContext spoken) throws ClearanceException {
        if (spoken.radialFix() != null) {
            return places.radialFix(spoken.radialFix());
        }
        return spoken.place() != null ? places.waypoint(spoken.place()) : places.waypoint(spoken.namedPlace());
    }

    /** The fix that the instructions read so far lead to. */
    Optional<Waypoint> leadsTo() {
        Optional<Waypoint> fix = Optional.empty();
        Optional<Waypoint> limit = Optional.empty();
        for (Instruction each : read) {
            if (each instanceof Instruction.ClearedTo cleared) {
                limit = Optional.of(cleared.limit());
                fix = limit;
            } else if (each instanceof Instruction.Direct direct) {
                fix = Optional.of(direct.to()).filter(to -> direct.away().isEmpty());
            } else if (each instanceof Instruction.JoinAirway join && join.to().isPresent()) {
                fix = join.to();
            } else if (each instanceof Instruction.Onto || each instanceof Instruction.StationLine) {
                // Its end is not said: "cleared to BBB via direct AAA, V40" leads to BBB.
                fix = limit.isPresent() ? limit : fix;
            }
        }
        return fix;
    }

    Instruction depart(DepartContext spoken) throws ClearanceException {
        if (spoken.AT() != null) {
            return new Noted.LeaveHold(Optional.of(places.waypoint(spoken.place())), quantities.time(spoken.number()));
        }
        if (spoken.degrees() != null) {
            int heading = quantities.heading(spoken.degrees());
            return new Instruction.Depart(
                    places.waypoint(spoken.place()),
                    Optional.of(new MagneticDirection(heading)),
                    Optional.empty(),
                    side(spoken.side()));
        }
        return lines.depart(spoken.place(), spoken.departLine());
    }

    /**
     * "Direct PTL, then the 066 radial", "cleared to FUL via the 285 radial": of the station named before, where none is
     * named with it; the way to a station is its radial inbound.
     */
    private Instruction.StationLine sameStation(InterceptContext all) throws ClearanceException {
        SameStationContext spoken = all.sameStation();
        Instruction last = read.isEmpty() ? null : read.get(read.size() - 1);
        boolean straight = source.follows(all);
        boolean verb = !all.getChild(0).equals(spoken);
        Optional<Station> to = all.VIA() != null && (last instanceof Instruction.ClearedTo || straight)
                ? leadsTo().flatMap(LateralReader::station)
                : Optional.empty();
        Station station = to.or(() ->
                        straight && !verb && !(last instanceof Instruction.Direct) ? Optional.empty() : namedLast())
                .filter(named ->
                        named.kind().hasRadials() || (spoken.BEARING() != null && named.kind() != Station.Kind.DME))
                .orElseThrow(() -> source.notUnderstood(all, "of which station? say it: \"the AAA 066 radial\""));
        Sense sense = lead(all);
        if (sense == Sense.UNSAID) {
            sense = to.isPresent() && spoken.sense() == null ? Sense.INBOUND : LineReader.sense(spoken.sense());
        }
        notes.add("\"" + source.words(spoken) + "\": that of " + station.ident() + " is meant");
        Instruction.StationLine line = lines.of(station, spoken, sense);
        if (spoken.sense() != null && LineReader.sense(spoken.sense()) != sense) {
            throw source.notUnderstood(all, "which way is meant, inbound or outbound?");
        }
        return line;
    }

    /** "Outbound on" before a line. */
    private static Sense lead(InterceptContext spoken) {
        return spoken.INBOUND() != null ? Sense.INBOUND : spoken.OUTBOUND() != null ? Sense.OUTBOUND : Sense.UNSAID;
    }

    /** "Outbound on the 078 radial": how a line is flown, which may have been said already. */
    private Instruction.StationLine led(InterceptContext spoken, Instruction.StationLine line)
            throws ClearanceException {
        Sense sense = lead(spoken);
        if (sense == Sense.UNSAID) {
            return line;
        }
        // A bearing from a station is a line, as its radial is; a course from it is outbound.
        boolean from = spoken.bearing() != null
                && spoken.bearing().BEARING() != null
                && spoken.bearing().FROM() != null;
        if (line.sense() != Sense.UNSAID && line.sense() != sense && !from) {
            throw source.notUnderstood(spoken, "which way is meant, inbound or outbound?");
        }
        return saidOnce(line.flown(sense));
    }

    /** A line of which the way along it is said last is one line, and not two. */
    private Instruction.StationLine saidOnce(Instruction.StationLine flown) {
        Sense sense = flown.sense();
        int last = read.size() - 1;
        if (last >= 0
                && read.get(last) instanceof Instruction.StationLine before
                && before.sense() == Sense.UNSAID
                && before.flown(sense).equals(flown)) {
            read.remove(last);
        }
        return flown;
    }

    /**
     * "Outbound on the 066", "inbound on the 246 course": outbound a radial and its course have one number. Inbound they are
     * opposite, and an assigned radial is said with the word (FAA Order JO 7110.65, 4-4-1): a number without it is asked
     * about, where no line of that station said before tells which is meant.
     */
    private Instruction.StationLine bareLine(BareLineContext spoken) throws ClearanceException {
        Sense sense = spoken.INBOUND() != null ? Sense.INBOUND : Sense.OUTBOUND;
        int degrees = lines.bareDegrees(spoken.number(), spoken.COURSE() != null ? "course" : "radial or course");
        Station station = spoken.place() != null
                ? lines.withLines(spoken.place())
                : namedLast()
                        .filter(named -> named.kind() != Station.Kind.DME)
                        .orElseThrow(
                                () -> source.notUnderstood(spoken, "of which station? say it: \"the AAA 066 radial\""));
        int reciprocal = (degrees + 179) % 360 + 1;
        boolean radial = sense == Sense.OUTBOUND || spoken.RADIAL() != null;
        if (!radial && spoken.COURSE() == null) {
            List<Integer> named = read.stream()
                    .filter(each -> each instanceof Instruction.InterceptRadial line
                            && line.station().equals(station))
                    .map(each -> (int) Math.round(
                            ((Instruction.InterceptRadial) each).radial().deg()))
                    .filter(each -> each == degrees || each == reciprocal)
                    .toList();
            if (named.isEmpty()) {
                throw source.notUnderstood(
                        spoken,
                        String.format(
                                Locale.ROOT,
                                "a radial or a course? inbound on the %1$03d radial is course %2$03d, and course %1$03d is"
                                        + " the %2$03d radial: say \"the %3$s %1$03d radial inbound\", or \"the %1$03d course"
                                        + " inbound to %3$s\"",
                                degrees,
                                reciprocal,
                                station.ident()));
            }
            radial = named.get(named.size() - 1) == degrees;
        }
        return saidOnce(lines.bare(station, radial ? degrees : reciprocal, sense, spoken));
    }

    /** The fix up to which the route stays as filed. */
    Waypoint filedTo(FiledToContext spoken) throws ClearanceException {
        Waypoint fix = places.waypoint(spoken.place());
        if (!filed.points().contains(fix)) {
            throw source.notUnderstood(spoken.place(), fix.ident() + " is not in the filed route");
        }
        return fix;
    }

    /** Whether the filed route ends at a fix. */
    boolean isFiledEnd(Waypoint fix) {
        return filed.points().get(filed.points().size() - 1).equals(fix);
    }

    /** Whether a radial of no named station is of one that was named before. */
    boolean namesStation() {
        return namedLast().isPresent();
    }

    private static Optional<Station> station(Waypoint point) {
        return point instanceof Station station ? Optional.of(station) : Optional.empty();
    }

    private Optional<Station> namedLast() {
        Waypoint last = null;
        for (Instruction each : read) {
            if (each instanceof Instruction.StationLine line) {
                last = line.station();
            } else if (each instanceof Instruction.Direct direct) {
                last = direct.to();
            } else if (each instanceof Instruction.JoinAirway join) {
                last = join.to().orElse(last);
            } else if (each instanceof Instruction.Depart depart) {
                last = depart.fix();
            }
        }
        return Optional.ofNullable(last).flatMap(LateralReader::station);
    }

    void intercept(InterceptContext spoken) throws ClearanceException {
        if (spoken.airway() == null) {
            Instruction.StationLine line;
            if (spoken.bareLine() != null) {
                line = bareLine(spoken.bareLine());
            } else if (spoken.sameStation() != null) {
                line = led(spoken, sameStation(spoken));
            } else {
                line = led(
                        spoken,
                        spoken.radial() != null ? lines.radial(spoken.radial()) : lines.bearing(spoken.bearing()));
            }
            if (spoken.namedPlace() != null) {
                read.add(ledTo(spoken, line));
                return;
            }
            Optional<Waypoint> fix =
                    spoken.lineUntil() == null && spoken.lineEnd() == null ? viaFix(spoken, line) : Optional.empty();
            if (fix.isPresent()) {
                read.set(read.size() - 1, wayThere(line, fix.get()));
                return;
            }
            read.add(
                    spoken.lineEnd() != null
                            ? lines.to(line, spoken.lineEnd())
                            : lines.until(line, spoken.lineUntil()));
            onHeading(read.get(read.size() - 1));
            return;
        }
        int from = read.size();
        intercept(spoken.airway(), spoken.along());
        onHeading(read.get(from));
    }

    /** "The AAA 078 radial, BBB": the fix that it leads to, said without "to" (FAA Order JO 7110.65, 4-4-1). */
    private Instruction.StationLine ledTo(InterceptContext spoken, Instruction.StationLine line)
            throws ClearanceException {
        Waypoint fix = places.waypoint(spoken.namedPlace());
        if (fix.equals(line.station()) && line.sense() == Sense.OUTBOUND) {
            throw source.notUnderstood(spoken.namedPlace(), "outbound does not lead to " + fix.ident());
        }
        return wayThere(line, fix);
    }

    /** An airway that is to be met, and where or which way it is flown, if that is said. */
    void intercept(AirwayContext spoken, AlongContext along) throws ClearanceException {
        Instruction.InterceptAirway airway = new Instruction.InterceptAirway(places.airway(spoken), bound(along));
        read.add(airway);
        boolean where = along.place().isEmpty() && along.namedPlace() == null && along.awayFrom() == null;
        if (where && along.joinBound() == null) {
            if (along.COMPASS_BOUND() != null) {
                way(airway.joined(), along);
            }
            within(airway.airway(), along);
        } else {
            joinAt(spoken, along);
        }
    }

    /** "At or before PRION", "south of PRION": as far as where it is joined. */
    private void within(String airway, AlongContext along) throws ClearanceException {
        JoinWithinContext spoken = along.joinWithin();
        if (spoken == null) {
            return;
        }
        if (!along.AT().isEmpty() || along.awayFrom() != null) {
            throw source.notUnderstood(spoken, "where it is joined is said already");
        }
        boolean not = spoken.NOT() != null || spoken.NO() != null;
        boolean after = not ? spoken.BEFORE() != null : spoken.AFTER() != null;
        String side = spoken.compass() != null ? LineReader.compass(spoken.compass()) : after ? "after" : "before";
        read.add(new Noted.JoinedWithin(airway, side, places.waypointOn(airway, spoken.place())));
    }

    /** "Proceed to PRION via the AAA 250 radial": the radial is the way to PRION (FAA Order JO 7110.65, 4-4-1). */
    private Optional<Waypoint> viaFix(InterceptContext spoken, Instruction.StationLine line) {
        boolean via = spoken.VIA() != null && source.follows(spoken) && !read.isEmpty();
        return via
                        && read.get(read.size() - 1) instanceof Instruction.Direct direct
                        && !direct.whenAble()
                        && direct.turn() == TurnDirection.SHORTEST
                        && !(direct.to().equals(line.station()) && line.sense() == Sense.OUTBOUND)
                ? Optional.of(direct.to())
                : Optional.empty();
    }

    /** Reads an airway; said as the way to the fix before it, it is flown first. */
    void join(JoinContext spoken, boolean corrects) throws ClearanceException {
        int from = read.size();
        if (spoken.IT() != null) {
            joinIt(spoken);
            return;
        }
        joinAt(spoken.airway(), spoken.along());
        if (headingTo.isPresent()) {
            onHeading(read.get(from));
            return;
        }
        Instruction.JoinAirway join = (Instruction.JoinAirway) read.get(from);
        // "Direct AAA via V31 BBB", where V31 passes AAA, leads from AAA to BBB, if BBB is not filed before AAA.
        boolean leadsOn = from > 0
                && join.to().isPresent()
                && read.get(from - 1) instanceof Instruction.Direct before
                && !before.to().equals(join.to().get())
                && places.passes(join.airway(), before.to())
                && !isFiledBefore(join.to().get(), before.to());
        first(spoken, from, spoken.VIA() != null && !leadsOn, corrects);
    }

    /** "Join it": the airway that is foretold, or met last. */
    private void joinIt(JoinContext spoken) throws ClearanceException {
        Optional<String> met = read.stream()
                .filter(Instruction.InterceptAirway.class::isInstance)
                .map(each -> ((Instruction.InterceptAirway) each).airway())
                .reduce((first, last) -> last);
        String airway = foretold.or(() -> met)
                .orElseThrow(() -> source.notUnderstood(spoken, "which airway? say it: \"join\" and the airway"));
        read.add(new Instruction.JoinAirway(airway, Optional.empty(), Optional.empty()));
    }

    private boolean isFiledBefore(Waypoint first, Waypoint second) {
        int before = filed.points().indexOf(first);
        return before >= 0 && before < filed.points().indexOf(second);
    }

    /** Reads a direct; said as the way to the fix before it, it is flown first. */
    void direct(DirectContext spoken, boolean corrects) throws ClearanceException {
        int from = read.size();
        read.addAll(directs(spoken));
        first(spoken, from, spoken.VIA() != null && straightOn.isEmpty(), corrects);
        boolean onAirway =
                spoken.pointAway() != null && spoken.pointAway().awayFrom().airway() != null;
        if (spoken.onWay() != null && onAirway) {
            throw source.notUnderstood(spoken.onWay(), "the way there is said twice");
        }
        if (onAirway) {
            onAirway(spoken, spoken.pointAway().awayFrom().airway());
        } else if (spoken.onWay() != null) {
            onWay(spoken.onWay());
        } else if (spoken.pointAway() != null) {
            notes.add("\"" + source.words(spoken.pointAway().awayFrom())
                    + "\": reckoned by magnetic north there, of a VOR by its radials");
        }
    }

    /** "Proceed to PRION on the PTL 066 radial", "on V40": the way to PRION (FAA Order JO 7110.65, 4-4-1). */
    private void onWay(OnWayContext spoken) throws ClearanceException {
        if (spoken.airway() != null) {
            onAirway(spoken, spoken.airway());
            return;
        }
        int last = read.size() - 1;
        Instruction.Direct direct = (Instruction.Direct) read.get(last);
        noTurn(spoken, direct);
        if (direct.away().isPresent()) {
            throw source.notUnderstood(spoken, "say the miles by the DME: \"the AAA 078 radial 20 DME fix\"");
        }
        read.set(last, wayThere(lines.radial(spoken.radial()), direct.to()));
    }

    private void noTurn(ParserRuleContext spoken, Instruction.Direct direct) throws ClearanceException {
        if (direct.turn() != TurnDirection.SHORTEST) {
            throw source.notUnderstood(spoken, "a turn is said for direct: say the heading that leads to the line");
        }
    }

    /** Along an airway to a fix; a place beside a fix is where the airway is joined. */
    private void onAirway(ParserRuleContext spoken, AirwayContext on) throws ClearanceException {
        int last = read.size() - 1;
        Instruction.Direct direct = (Instruction.Direct) read.get(last);
        noTurn(spoken, direct);
        String airway = places.airway(on);
        if (!places.passes(airway, direct.to())) {
            throw source.notUnderstood(
                    spoken, airway + " does not pass " + direct.to().ident());
        }
        Optional<Waypoint> at = Optional.of(direct.to());
        read.set(
                last,
                direct.away().isPresent()
                        ? new Instruction.JoinAirway(airway, at, Optional.empty(), direct.away(), Optional.empty())
                        : new Instruction.JoinAirway(airway, Optional.empty(), at, Optional.empty(), Optional.empty()));
    }

    /** A line as the way to a fix: inbound to its station, else as far as the fix. */
    private static Instruction.StationLine wayThere(Instruction.StationLine line, Waypoint fix) {
        return fix.equals(line.station()) ? line.flown(Sense.INBOUND) : line.leftAt(new Instruction.Until.AtFix(fix));
    }

    /** "Rejoin the flight planned route at PRION": by way of PRION. */
    void rejoin(PlaceContext place) throws ClearanceException {
        Instruction.Direct direct = new Instruction.Direct(places.waypoint(place), false, TurnDirection.SHORTEST);
        if (!leadsTo().equals(Optional.of(direct.to()))) {
            read.add(direct);
        }
    }

    /**
     * "Direct BBB via CCC": CCC comes first, then BBB (FAA Order JO 7110.65, 4-4-1), and so does what follows CCC with nothing
     * between.
     */
    private void first(ParserRuleContext spoken, int from, boolean via, boolean corrects) {
        Optional<Instruction> end = from > 0 && !corrects && source.follows(spoken)
                ? Optional.of(read.get(from - 1))
                        .filter(before ->
                                before instanceof Instruction.Direct && (via || wayTo.equals(Optional.of(before))))
                : Optional.empty();
        wayTo = end;
        if (end.isEmpty()) {
            return;
        }
        Instruction.Direct to = (Instruction.Direct) read.remove(from - 1);
        if (read.get(from - 1) instanceof Instruction.Direct first && first.turn() == TurnDirection.SHORTEST) {
            // The turn that is said is the one that begins the way.
            read.set(
                    from - 1,
                    new Instruction.Direct(first.to(), first.whenAble() || to.whenAble(), to.turn(), first.away()));
            to = new Instruction.Direct(to.to(), false, TurnDirection.SHORTEST, to.away());
            wayTo = Optional.of(to);
        }
        boolean there = read.get(read.size() - 1) instanceof Instruction.JoinAirway join
                && join.to().equals(Optional.of(to.to()));
        if (!there) {
            read.add(to);
        }
    }

    /** Whether the words read last said the way to the fix before them. */
    boolean saidTheWay() {
        return wayTo.isPresent();
    }

    /** "Join V40 at PRION at FL100" is a crossing too. */
    private void joinAt(AirwayContext airway, AlongContext along) throws ClearanceException {
        Instruction.JoinAirway join = join(airway, along);
        read.add(join);
        within(join.airway(), along);
        if (along.joinBound() != null) {
            Waypoint fix = join.at()
                    .filter(at -> join.to().isEmpty() && join.away().isEmpty())
                    .orElseThrow(() -> source.notUnderstood(
                            along.joinBound(), "at which fix? say it of a fix: cross FIX at or above"));
            read.add(new Instruction.CrossAt(
                    fix,
                    quantities.altitudeFt(along.joinBound().altitude()),
                    Quantities.isLevel(along.joinBound().altitude()),
                    CrossReader.bound(
                            along.joinBound().bound(), along.joinBound().notBound()),
                    Optional.empty()));
        }
        if (along.plainLevel() != null) {
            read.add(new Instruction.CrossAt(
                    join.at().orElseThrow(),
                    quantities.altitudeFt(along.plainLevel()),
                    Quantities.isLevel(along.plainLevel()),
                    Instruction.CrossAt.Bound.AT,
                    Optional.empty()));
        }
    }

    /** What a vector leads to; its reason alone is heard. */
    Optional<Instruction> vectorTo(VectorToContext spoken) throws ClearanceException {
        if (spoken.airway() != null) {
            return Optional.of(new Instruction.InterceptAirway(places.airway(spoken.airway())));
        }
        if (spoken.radial() != null) {
            return Optional.of(lines.radial(spoken.radial()));
        }
        if (spoken.bearing() != null) {
            return Optional.of(lines.bearing(spoken.bearing()));
        }
        if (spoken.place() == null) {
            notes.add("\"" + source.words(spoken) + "\": the reason for the vector, nothing to fly");
            return Optional.empty();
        }
        // The purpose of a vector is nothing to fly; the name is looked up all the same.
        Waypoint to = places.waypoint(spoken.place());
        notes.add("\"" + source.words(spoken) + "\": the purpose of the vector, kept as advance information");
        return Optional.of(new Instruction.Expect("vectors to " + to.ident()));
    }

    private Instruction.JoinAirway join(AirwayContext spoken, AlongContext along) throws ClearanceException {
        String airway = places.airway(spoken);
        int place = 0;
        Optional<Waypoint> at = Optional.empty();
        Optional<Waypoint> to = Optional.empty();
        Optional<Instruction.Away> away = Optional.empty();
        if (along.awayFrom() != null) {
            if (along.awayFrom().airway() != null
                    && !places.airway(along.awayFrom().airway()).equals(airway)) {
                throw source.notUnderstood(along, "a place on another airway is no place to join " + airway);
            }
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
        Instruction.JoinAirway join = new Instruction.JoinAirway(airway, at, to, away, bound(along));
        way(join, along);
        return join;
    }

    private static Optional<String> bound(AlongContext along) {
        return Optional.ofNullable(along.COMPASS_BOUND()).map(LineReader::bound);
    }

    /**
     * "Southbound" must be how the airway is flown from fix to fix, or else along the filed route; where neither says, the
     * route that is worked out leads that way.
     */
    private void way(Instruction.JoinAirway join, AlongContext along) throws ClearanceException {
        String airway = join.airway();
        List<FiledRoute.Segment> legs = filed.segments().stream()
                .filter(segment -> segment.isOn(airway))
                .toList();
        boolean asFiled = join.to().isEmpty() && !legs.isEmpty();
        Optional<Waypoint> from = asFiled
                ? Optional.of(legs.get(0).from())
                : join.at().filter(fix -> join.away().isEmpty());
        Optional<Waypoint> end = asFiled ? Optional.of(legs.get(legs.size() - 1).to()) : join.to();
        if (from.isPresent()
                && end.isPresent()
                && !from.equals(end)
                && !join.leads(from.get().position(), end.get().position())) {
            throw source.refuse(
                    along.COMPASS_BOUND().getSymbol(),
                    along.COMPASS_BOUND().getSymbol(),
                    ClearanceException.Code.NOT_UNDERSTOOD,
                    "\"" + join.bound().orElseThrow() + "bound\": from "
                            + from.get().ident() + " to " + end.get().ident() + " " + airway
                            + " does not go that way; ask which way is meant");
        }
    }

    private Instruction.Away away(AwayFromContext spoken) throws ClearanceException {
        return new Instruction.Away(quantities.distanceNm(spoken.number()), LineReader.compass(spoken.compass()));
    }

    /** "Direct AAA, BBB": from fix to fix. */
    List<Instruction> directs(DirectContext spoken) throws ClearanceException {
        List<Instruction> directs = new ArrayList<>();
        directs.add(direct(spoken));
        for (FurtherFixContext further : spoken.furtherFix()) {
            directs.add(new Instruction.Direct(places.waypoint(further.namedPlace()), false, TurnDirection.SHORTEST));
        }
        return directs;
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
        if (spoken.pointAway() != null) {
            AwayFromContext beside = spoken.pointAway().awayFrom();
            if (spoken.pointAway().LETTER() != null
                    && !spoken.pointAway().LETTER().getText().equalsIgnoreCase("a")) {
                throw source.notUnderstood(spoken.pointAway(), "say \"a point\", then the miles and the side of a fix");
            }
            return new Instruction.Direct(places.waypoint(beside.place()), whenAble, turn, Optional.of(away(beside)));
        }
        if (spoken.radialFix() == null && spoken.place() == null) {
            return straightOn(spoken);
        }
        if (spoken.radialFix() == null) {
            return new Instruction.Direct(places.waypoint(spoken.place()), whenAble, turn);
        }
        return new Instruction.Direct(places.radialFix(spoken.radialFix()), whenAble, turn);
    }

    /** "When receiving FUL, proceed direct" is direct FUL; "FUL, direct" leads to the limit, or to the end of the route filed. */
    private Instruction.Direct straightOn(DirectContext spoken) throws ClearanceException {
        if (!spoken.whenAble().isEmpty()) {
            if (spoken.whenAble(0).place() == null) {
                throw source.notUnderstood(spoken, "direct to where is not said: name a fix");
            }
            return new Instruction.Direct(places.waypoint(spoken.whenAble(0).place()), true, TurnDirection.SHORTEST);
        }
        Optional<Waypoint> limit = read.stream()
                .filter(Instruction.ClearedTo.class::isInstance)
                .map(each -> ((Instruction.ClearedTo) each).limit())
                .reduce((first, second) -> second);
        if (limit.isEmpty() && read.stream().noneMatch(LateralReader::leads)) {
            throw source.notUnderstood(
                    spoken, "direct to where is not said: name a fix, or a clearance limit before it");
        }
        straightOn = Optional.of(spoken);
        Waypoint end = filed.points().get(filed.points().size() - 1);
        if (limit.isEmpty()) {
            notes.add("\"direct\": direct " + end.ident() + " is meant, the end of the filed route");
        }
        return new Instruction.Direct(limit.orElse(end), false, TurnDirection.SHORTEST);
    }

    private static boolean leads(Instruction said) {
        return said instanceof Instruction.Onto || said instanceof Instruction.StationLine;
    }

    void change(ChangeContext spoken) throws ClearanceException {
        if (spoken.SUBSTITUTE() != null) {
            substitute(spoken);
            return;
        }
        for (OldLegContext old : spoken.oldLeg()) {
            if (old.airway() != null) {
                String airway = places.airway(old.airway());
                if (filed.segments().stream().noneMatch(segment -> segment.isOn(airway))) {
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
        int before = read.size();
        for (ParseTree part : spoken.children) {
            if (part instanceof JoinContext join) {
                read.add(join(join.airway(), join.along()));
            } else if (part instanceof DirectContext direct) {
                read.addAll(directs(direct));
            }
        }
        Optional<Waypoint> from = spoken.oldLeg().isEmpty() ? Optional.empty() : changedFrom(spoken.oldLeg(0));
        boolean heading = read.stream().anyMatch(Instruction.Heading.class::isInstance);
        if (read.get(before) instanceof Instruction.Direct && from.isPresent() && !heading) {
            // An airway is begun where it leaves the route; a direct could be begun anywhere.
            read.add(before, new Instruction.Depart(from.get()));
        }
    }

    /** "Substitute V31 from AAA to BBB": as filed to AAA, or direct where it is not filed, and along V31 to BBB. */
    private void substitute(ChangeContext spoken) throws ClearanceException {
        String airway = places.airway(spoken.airway());
        Waypoint from = places.waypointOn(airway, spoken.place(0));
        Optional<Waypoint> to = Optional.of(places.waypointOn(airway, spoken.place(1)));
        boolean isFiled = filed.points().contains(from);
        if (isFiled) {
            read.add(new Instruction.Depart(from));
        }
        read.add(new Instruction.JoinAirway(airway, isFiled ? Optional.empty() : Optional.of(from), to));
    }

    /** Where the old portion begins, and the new one with it; empty at the beginning of the route, which is behind. */
    private Optional<Waypoint> changedFrom(OldLegContext old) throws ClearanceException {
        Optional<String> airway = old.airway() == null ? Optional.empty() : Optional.of(places.airway(old.airway()));
        Optional<Waypoint> to = old.place() == null ? Optional.empty() : Optional.of(places.waypoint(old.place()));
        List<FiledRoute.Segment> all = filed.segments();
        int end = all.size() - 1;
        while (end > 0
                && !(all.get(end).airway().equals(airway)
                        && (to.isEmpty() || all.get(end).to().equals(to.get())))) {
            end--;
        }
        int begin = end;
        while (begin > 0 && airway.isPresent() && all.get(begin - 1).airway().equals(airway)) {
            begin--;
        }
        return begin == 0 ? Optional.empty() : Optional.of(all.get(begin).from());
    }
}
