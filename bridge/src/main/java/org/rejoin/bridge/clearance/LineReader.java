package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ArcBodyContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ArcNameContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ArcWayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BearingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CompassContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.DepartLineContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LineEndContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LineUntilContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LooseRadialContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NumberContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.RadialContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SameStationContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SenseContext;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.tree.TerminalNode;
import org.jspecify.annotations.Nullable;

/** Radials, courses and bearings, in whatever order they are said. */
record LineReader(Source source, PlaceReader places, Quantities quantities, List<String> notes) {

    Instruction.StationLine radial(RadialContext spoken) throws ClearanceException {
        Sense sense = spoken.INBOUND() != null
                ? Sense.INBOUND
                : spoken.OUTBOUND() != null ? Sense.OUTBOUND : sense(spoken.sense());
        if (spoken.sense() != null && sense(spoken.sense()) != sense) {
            throw source.notUnderstood(spoken.sense(), "which way is meant, inbound or outbound?");
        }
        if (spoken.R_RADIAL() != null) {
            int degrees = quantities.degrees(spoken, spoken.R_RADIAL().getText().replaceAll("[^0-9]", ""), "radial");
            return new Instruction.InterceptRadial(vor(spoken.place()), new Radial(degrees), sense);
        }
        if (spoken.RADIAL() != null) {
            int degrees = quantities.degrees(spoken.number(), "radial");
            return new Instruction.InterceptRadial(vor(spoken.place(), spoken), new Radial(degrees), sense);
        }
        if (sense == Sense.UNSAID || (spoken.BEARING() != null && sense == Sense.INBOUND)) {
            throw whichWay(spoken);
        }
        int course = quantities.degrees(spoken.number(), "course");
        return line(spoken.place(), course, sense);
    }

    private ClearanceException whichWay(ParserRuleContext spoken) {
        return source.notUnderstood(
                spoken,
                "which way is meant? say \"radial\", \"bearing from\" or \"bearing to\", or a course with inbound or"
                        + " outbound");
    }

    /** A radial or a bearing of a station that was named before. */
    Instruction.StationLine of(Station station, SameStationContext spoken, Sense sense) throws ClearanceException {
        if (spoken.BEARING() == null) {
            int radial = quantities.degrees(spoken.number(), "radial");
            return new Instruction.InterceptRadial(station, new Radial(radial), sense);
        }
        if (sense != Sense.OUTBOUND) {
            throw whichWay(spoken);
        }
        return line(station, quantities.degrees(spoken.number(), "bearing"), sense, spoken);
    }

    Instruction.StationLine bearing(BearingContext spoken) throws ClearanceException {
        String what = spoken.COURSE() != null ? "course" : spoken.TRACK() != null ? "track" : "bearing";
        int degrees = quantities.degrees(spoken.number(), what);
        boolean inbound =
                spoken.QDM() != null || spoken.INBOUND() != null || (spoken.TO() != null && spoken.QDR() == null);
        Sense said = sense(spoken.sense());
        boolean otherWay = said == (inbound ? Sense.OUTBOUND : Sense.INBOUND);
        if (otherWay && !inbound && spoken.BEARING() != null) {
            // A bearing from a station is a line, as its radial is: inbound it is flown on the reciprocal.
            return line(spoken.place(), degrees + 180, Sense.INBOUND);
        }
        if (otherWay) {
            throw source.notUnderstood(
                    spoken.sense(), "which way is meant? \"to\" is inbound, a course \"from\" is outbound");
        }
        return line(spoken.place(), degrees, inbound ? Sense.INBOUND : Sense.OUTBOUND);
    }

    /** A line by the course flown along it: toward the station it is the reciprocal of the line's own name. */
    private Instruction.StationLine line(PlaceContext place, int course, Sense sense) throws ClearanceException {
        Station station = withLines(place);
        return line(station, course, sense, place.getParent() instanceof BearingContext bearing ? bearing : place);
    }

    private Instruction.StationLine line(Station station, int course, Sense sense, ParserRuleContext said) {
        int from = sense == Sense.INBOUND ? course + 180 : course;
        if (station.kind() == Station.Kind.NDB) {
            return new Instruction.InterceptBearing(station, new MagneticDirection(from), sense);
        }
        notes.add("\"" + source.words(said) + "\": " + station.ident() + " is of kind " + station.kind()
                + ", so its radial is meant");
        return new Instruction.InterceptRadial(station, new Radial(from), sense);
    }

    /** Without the word radial one or two figures may be miles, or cut off: three are asked for. */
    int bareDegrees(NumberContext spoken, String what) throws ClearanceException {
        if (quantities.number(spoken).digits().length() != 3) {
            throw source.notUnderstood(spoken, "a " + what + " has three figures: 066, not 66");
        }
        return quantities.degrees(spoken, what);
    }

    /** A line by its own number, said without the word radial. */
    Instruction.StationLine bare(Station station, int from, Sense sense, ParserRuleContext said) {
        boolean ndb = station.kind() == Station.Kind.NDB;
        notes.add(String.format(
                Locale.ROOT,
                "\"%s\": the %03d %s %s is meant",
                source.words(said),
                from,
                ndb ? "bearing from" : "radial of",
                station.ident()));
        return ndb
                ? new Instruction.InterceptBearing(station, new MagneticDirection(from), sense)
                : new Instruction.InterceptRadial(station, new Radial(from), sense);
    }

    /** A station that lines lead from. */
    Station withLines(PlaceContext place) throws ClearanceException {
        return places.station(
                place,
                candidate -> candidate.kind() != Station.Kind.DME,
                "it has neither radials nor bearings; name a VOR or an NDB");
    }

    /** A station departed on a radial of its own, or an NDB on a bearing from it. */
    Instruction.Depart depart(PlaceContext fix, DepartLineContext spoken) throws ClearanceException {
        Station station = places.station(
                fix,
                candidate -> candidate.kind() != Station.Kind.DME,
                "it has neither radials nor bearings; say a heading");
        if (spoken.place() != null && !places.waypoint(spoken.place()).equals(station)) {
            throw source.notUnderstood(
                    spoken, "a station is departed on a line of its own; for another, say direct, then intercept it");
        }
        boolean ndb = station.kind() == Station.Kind.NDB;
        if (spoken.RADIAL() == null && spoken.BEARING() == null) {
            Instruction.StationLine bare =
                    bare(station, bareDegrees(spoken.number(), "radial or course"), Sense.OUTBOUND, spoken);
            return new Instruction.Depart(station, until(bare, spoken.lineUntil()));
        }
        if (ndb && spoken.RADIAL() != null) {
            throw source.notUnderstood(
                    spoken,
                    station.ident() + " is an NDB and has no radials; say \"depart " + source.words(fix) + " on the "
                            + source.words(spoken.number()) + " bearing\"");
        }
        int degrees = quantities.degrees(spoken.number(), ndb ? "bearing" : "radial");
        Instruction.StationLine line = ndb
                ? new Instruction.InterceptBearing(station, new MagneticDirection(degrees), Sense.OUTBOUND)
                : new Instruction.InterceptRadial(station, new Radial(degrees), Sense.OUTBOUND);
        return new Instruction.Depart(station, until(line, spoken.lineUntil()));
    }

    /** A line of a fix that is followed from it; empty where it is another's, an arc, or leads to it. */
    static Optional<Instruction.Depart> departing(Waypoint fix, Instruction.StationLine said) {
        boolean own = !(said instanceof Instruction.InterceptArc)
                && said.station().equals(fix)
                && said.sense() != Sense.INBOUND;
        return own ? Optional.of(new Instruction.Depart(said.station(), said.flown(Sense.OUTBOUND))) : Optional.empty();
    }

    /** A radial whose word is left out, as a pilot reads it back. */
    Instruction loose(LooseRadialContext spoken) throws ClearanceException {
        int degrees = quantities.degrees(spoken.number(), "radial");
        return new Instruction.InterceptRadial(vor(spoken.place()), new Radial(degrees), Sense.UNSAID);
    }

    /** A station that has radials. */
    Station vor(PlaceContext place) throws ClearanceException {
        return places.station(place, candidate -> candidate.kind().hasRadials(), "it has no radials; name a VOR");
    }

    private Station vor(PlaceContext place, RadialContext spoken) throws ClearanceException {
        return places.station(
                place,
                candidate -> candidate.kind().hasRadials(),
                "it has no radials; name a VOR, or for an NDB say \"the " + source.words(spoken.number())
                        + " bearing from " + source.words(place) + "\"");
    }

    /** Where a line ends; what is said without a station is of the line's own. */
    Instruction.Until until(LineEndContext spoken, Optional<Station> own) throws ClearanceException {
        if (spoken.RADIAL() != null) {
            int degrees = quantities.degrees(spoken.number(), "radial");
            Station station = spoken.place().isEmpty() ? own(spoken, own) : vor(spoken.place(0));
            return new Instruction.Until.AtRadial(station, new Radial(degrees));
        }
        if (spoken.airway() != null) {
            return places.isPoint(spoken.airway())
                    ? new Instruction.Until.AtFix(places.waypoint(spoken.airway()))
                    : new Instruction.Until.AtAirway(places.airway(spoken.airway()));
        }
        if (spoken.number() != null) {
            double miles = quantities.distanceNm(spoken.number());
            Station station = spoken.place().isEmpty() ? own(spoken, own) : distanceStation(spoken.place(0));
            return at(spoken, station, miles);
        }
        return new Instruction.Until.AtFix(places.waypoint(spoken.place(0)));
    }

    private Station own(LineEndContext spoken, Optional<Station> own) throws ClearanceException {
        return own.orElseThrow(() -> source.notUnderstood(spoken, "of which station is not said"));
    }

    private Instruction.Until at(ParserRuleContext spoken, Station station, double miles) throws ClearanceException {
        if (!station.kind().hasDistance()) {
            throw source.notUnderstood(
                    spoken, station.ident() + " is of kind " + station.kind() + " and gives no distance; name a DME");
        }
        return new Instruction.Until.AtDistance(station, miles);
    }

    private Instruction.Until until(LineUntilContext spoken, Station own) throws ClearanceException {
        if (spoken.FOR() != null) {
            throw source.notUnderstood(
                    spoken, "from where on is not followed here: say \"until\" and the miles by the DME, or a fix");
        }
        return spoken.lineEnd() != null
                ? until(spoken.lineEnd(), Optional.of(own))
                : at(spoken, own, quantities.distanceNm(spoken.number()));
    }

    private Station distanceStation(PlaceContext place) throws ClearanceException {
        return places.station(
                place, candidate -> candidate.kind().hasDistance(), "it gives no distance; an arc needs a DME");
    }

    /** "..., to the SKU 150 radial, inbound": the way along the radial that the arc ends at. */
    List<Instruction> arcAndOn(ArcBodyContext spoken, List<ArcWayContext> before) throws ClearanceException {
        Instruction.InterceptArc arc = arc(spoken, before);
        if (spoken.INBOUND() == null && spoken.OUTBOUND() == null) {
            return List.of(arc);
        }
        if (!(arc.until().orElse(null) instanceof Instruction.Until.AtRadial at)) {
            throw source.notUnderstood(spoken, "inbound or outbound along which radial is not said");
        }
        if (spoken.place() != null && !places.waypoint(spoken.place()).equals(at.station())) {
            throw source.notUnderstood(
                    spoken.place(), "the radial is of " + at.station().ident());
        }
        Sense sense = spoken.INBOUND() != null ? Sense.INBOUND : Sense.OUTBOUND;
        return List.of(arc, new Instruction.InterceptRadial(at.station(), at.radial(), sense));
    }

    private Instruction.InterceptArc arc(ArcBodyContext spoken, List<ArcWayContext> before) throws ClearanceException {
        ArcNameContext name = spoken.arcName();
        Station station = distanceStation(name.place(0));
        if (name.number() == null) {
            throw source.notUnderstood(
                    name,
                    "how far out? say the miles: \"the " + source.words(name.place(0)) + " 12 mile arc "
                            + compass(name.compass()) + " of it\"");
        }
        ofItsStation(name.place().size() > 1 ? name.place(1) : null, station);
        double miles = quantities.distanceNm(name.number());
        Instruction.ArcDirection direction = Instruction.ArcDirection.UNSAID;
        Optional<String> bound = Optional.empty();
        Optional<String> side = Optional.ofNullable(name.compass()).map(LineReader::compass);
        List<ArcWayContext> ways = new ArrayList<>(before);
        ways.addAll(spoken.arcWay());
        for (ArcWayContext way : ways) {
            if (way.place() != null) {
                ofItsStation(way.place(), station);
                if (side.isPresent()) {
                    throw source.notUnderstood(way, "on which side is said twice for one arc");
                }
                side = Optional.of(compass(way.compass()));
                continue;
            }
            if (direction != Instruction.ArcDirection.UNSAID || bound.isPresent()) {
                throw source.notUnderstood(way, "which way round is said twice for one arc");
            }
            if (way.compass() != null) {
                bound = Optional.of(compass(way.compass()));
            } else if (way.COMPASS_BOUND() != null) {
                bound = Optional.of(bound(way.COMPASS_BOUND()));
            } else {
                direction = way.CLOCKWISE() != null
                        ? Instruction.ArcDirection.CLOCKWISE
                        : Instruction.ArcDirection.COUNTERCLOCKWISE;
            }
        }
        Optional<Instruction.Until> until = spoken.lineEnd() == null
                ? Optional.empty()
                : Optional.of(until(spoken.lineEnd(), Optional.of(station)));
        return new Instruction.InterceptArc(station, miles, direction, bound, side, until);
    }

    private void ofItsStation(@Nullable PlaceContext spoken, Station station) throws ClearanceException {
        if (spoken != null && !places.waypoint(spoken).equals(station)) {
            throw source.notUnderstood(spoken, "the arc is about " + station.ident() + ": say the side of that");
        }
    }

    /** A line with the place where it is left. */
    Instruction.StationLine until(Instruction.StationLine line, @Nullable LineUntilContext spoken)
            throws ClearanceException {
        return spoken == null ? line : line.leftAt(until(spoken, line.station()));
    }

    /** The same, said with "to" after "track the radial". */
    Instruction.StationLine to(Instruction.StationLine line, LineEndContext end) throws ClearanceException {
        Instruction.Until until = until(end, Optional.of(line.station()));
        if (!until.equals(new Instruction.Until.AtFix(line.station()))) {
            return line.leftAt(until);
        }
        if (line.sense() == Sense.OUTBOUND) {
            throw source.notUnderstood(
                    end, "outbound does not lead to " + line.station().ident());
        }
        return line.flown(Sense.INBOUND);
    }

    static String compass(CompassContext spoken) {
        return compass(spoken.getText());
    }

    /** "South" of "southbound". */
    static String bound(TerminalNode spoken) {
        return compass(spoken.getText()).replace("bound", "");
    }

    private static String compass(String text) {
        return text.toLowerCase(Locale.ROOT).replaceAll("[ -]", "");
    }

    static Sense sense(@Nullable SenseContext spoken) {
        return Optional.ofNullable(spoken)
                .map(context -> context.INBOUND() != null ? Sense.INBOUND : Sense.OUTBOUND)
                .orElse(Sense.UNSAID);
    }
}
