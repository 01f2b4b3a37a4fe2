package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.HoldLine;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AwayFromContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FurtherTimeContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HoldContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HoldLevelContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HoldOnContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HoldPartContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.RadialOfContext;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;

import org.antlr.v4.runtime.tree.TerminalNode;

/** Holding instructions (FAA Order JO 7110.65, 4-6-4; ICAO Doc 4444, 12.3.2, paragraph from memory). */
record HoldReader(Source source, PlaceReader places, Quantities quantities, List<String> notes) {

    /** A station this far from the fix cannot be meant by its radial, nautical miles (the largest service volume). */
    private static final double REACH_NM = 130;

    /** A radial passes a fix that is this close to it, degrees; radials are said in whole degrees (no source). */
    private static final double ON_RADIAL_DEG = 2;

    /**
     * Reads a hold.
     *
     * @param before the fix that the clearance leads to, where the hold names none itself
     */
    List<Instruction> hold(HoldContext spoken, Optional<Waypoint> before) throws ClearanceException {
        Waypoint fix;
        OptionalDouble between = OptionalDouble.empty();
        Optional<PlaceContext> ofRadial = spoken.holdOn().stream()
                .filter(on -> on.RADIAL() != null && on.place() != null)
                .map(HoldOnContext::place)
                .findFirst();
        Optional<HoldLine> line = Optional.empty();
        RadialOfContext radialOf = spoken.radialOf();
        if (spoken.awayFrom() != null) {
            AwayFromContext away = spoken.awayFrom();
            String miles = source.words(away.number());
            boolean on = away.airway() != null || spoken.holdOn().stream().anyMatch(part -> part.airway() != null);
            throw source.notUnderstood(
                    away,
                    (on
                                    ? "a hold on an airway is at a fix of it; beside a fix "
                                    : "on which line that is is not said: ")
                            + "say the radial and the distance, for example \"hold "
                            + LineReader.compass(away.compass()) + " on the 180 radial of " + source.words(away.place())
                            + " at " + miles + " DME\"");
        }
        if (radialOf != null) {
            fix = places.onRadial(radialOf.place(), radialOf.number(), spoken.number(0));
        } else if (spoken.radialFix() != null) {
            fix = places.radialFix(spoken.radialFix());
        } else if (spoken.place() != null) {
            fix = places.waypoint(spoken.place());
        } else if (before.isPresent()) {
            fix = before.get();
        } else if (spoken.compass() != null && ofRadial.isPresent()) {
            fix = places.waypoint(ofRadial.get());
        } else {
            throw source.notUnderstood(
                    spoken, "where to hold is not said: name the fix, for example \"hold north of\" and a fix");
        }
        if (radialOf != null && spoken.BETWEEN() != null) {
            double length = quantities.distanceNm(spoken.number(1)) - quantities.distanceNm(spoken.number(0));
            if (length < 1) {
                throw source.notUnderstood(spoken, "say the nearer distance first");
            }
            between = OptionalDouble.of(length);
        }
        if (radialOf != null && spoken.holdOn().isEmpty()) {
            line = Optional.of(new HoldLine.OnRadial(
                    places.station(radialOf.place(), station -> station.kind().hasRadials(), "it has no radials"),
                    new Radial(quantities.degrees(radialOf.number(), "radial"))));
        }
        for (HoldOnContext on : spoken.holdOn()) {
            if (line.isPresent()) {
                throw source.notUnderstood(on, "said twice for one hold");
            }
            line = Optional.of(on(on, fix));
        }
        OptionalDouble minutes = OptionalDouble.empty();
        OptionalDouble miles = between;
        TurnDirection turns = TurnDirection.SHORTEST;
        Optional<String> further = Optional.empty();
        boolean published = spoken.PUBLISHED() != null;
        boolean once = false;
        List<Noted> more = new ArrayList<>();
        for (HoldPartContext part : spoken.holdPart()) {
            boolean again;
            if (part.length() != null) {
                again = minutes.isPresent() || miles.isPresent();
                OptionalDouble length = OptionalDouble.of(quantities.length(part.length(), part.MINUTE() != null));
                minutes = part.MINUTE() != null ? length : minutes;
                miles = part.MILE() != null ? length : miles;
            } else if (part.side() != null) {
                again = turns != TurnDirection.SHORTEST;
                turns = part.side().LEFT() != null ? TurnDirection.LEFT : TurnDirection.RIGHT;
            } else if (part.STANDARD() != null) {
                again = turns != TurnDirection.SHORTEST;
                turns = TurnDirection.RIGHT;
            } else if (part.PUBLISHED() != null) {
                again = published;
                published = true;
            } else if (part.CIRCUIT() != null || part.TURN() != null || part.REVERSAL() != null) {
                again = once;
                once = circuits(part) == 1;
            } else if (part.furtherTime() == null) {
                again = more.stream().anyMatch(each -> each.approach().isEmpty());
                more.add(new Noted.HoldUntil(quantities.time(part.number())));
            } else if (part.furtherTime().approachTime() != null) {
                again = more.stream().anyMatch(each -> each.approach().isPresent());
                more.add(approach(part.furtherTime()));
            } else if (part.furtherTime().IN() != null) {
                again = further.isPresent()
                        || more.stream().anyMatch(each -> each.approach().isEmpty());
                more.add(furtherIn(part.furtherTime()));
            } else {
                again = further.isPresent() || more.stream().anyMatch(Noted.FurtherClearanceIn.class::isInstance);
                further = Optional.of(time(part.furtherTime()));
            }
            if (again) {
                throw source.notUnderstood(part, "said twice for one hold");
            }
        }
        Optional<String> compass = Optional.ofNullable(spoken.compass()).map(LineReader::compass);
        List<Instruction> read = new ArrayList<>();
        read.add(new Instruction.Hold(fix, compass, line, minutes, miles, turns, further, published, once));
        read.addAll(more);
        for (HoldLevelContext level : spoken.holdLevel()) {
            read.add(
                    level.altitude() != null
                            ? quantities.maintain(level.altitude())
                            : quantities.maintain(level.plainLevel()));
        }
        return read;
    }

    /** One circuit, or the course reversed, ends by itself; two or more are counted by nobody here. */
    private int circuits(HoldPartContext spoken) throws ClearanceException {
        int circuits = spoken.REVERSAL() != null
                ? 1
                : quantities.number(spoken.number()).value();
        if (circuits != 1) {
            throw source.notUnderstood(
                    spoken, "one circuit is flown and left without a word; for more, hold until further clearance");
        }
        return circuits;
    }

    /** Coordinated Universal Time, with or without "zulu". */
    String time(FurtherTimeContext spoken) throws ClearanceException {
        for (TerminalNode letter : spoken.LETTER()) {
            if (!SpokenWords.letter(letter).equals("Z")) {
                throw source.notUnderstood(spoken, "a time is followed by zulu, or by nothing");
            }
        }
        if (spoken.number().size() > 1) {
            notes.add("\"time " + quantities.time(spoken.number(1)) + "\": the time it is now, nothing to fly");
        }
        return quantities.time(spoken.number(0));
    }

    /** Expect approach clearance: the time at which the hold is left for the approach. */
    Noted approach(FurtherTimeContext spoken) throws ClearanceException {
        return spoken.IN() != null
                ? new Noted.ApproachClearanceIn(minutes(spoken))
                : new Noted.ApproachClearance(time(spoken));
    }

    Noted.FurtherClearanceIn furtherIn(FurtherTimeContext spoken) throws ClearanceException {
        return new Noted.FurtherClearanceIn(minutes(spoken));
    }

    private int minutes(FurtherTimeContext spoken) throws ClearanceException {
        int minutes = quantities.number(spoken.number(0)).value();
        if (minutes < 1 || minutes > 600) {
            throw source.notUnderstood(
                    spoken, "further clearance, or that for the approach, is expected in 1 to 600 minutes");
        }
        return minutes;
    }

    private HoldLine on(HoldOnContext spoken, Waypoint fix) throws ClearanceException {
        if (spoken.airway() != null) {
            return new HoldLine.OnAirway(places.airway(spoken.airway()));
        }
        if (spoken.RADIAL() != null) {
            int radial = quantities.degrees(spoken.number(), "radial");
            Optional<PlaceContext> named = Optional.ofNullable(spoken.place());
            return named.isPresent()
                    ? new HoldLine.OnRadial(
                            places.station(
                                    named.get(),
                                    station -> station.kind().hasRadials(),
                                    "it has no radials; name a VOR, or say a bearing"),
                            new Radial(radial))
                    : radialThrough(spoken, fix, new Radial(radial));
        }
        int degrees = quantities.degrees(spoken.number(), "course");
        boolean away =
                spoken.FROM() != null || spoken.OF() != null || LineReader.sense(spoken.sense()) == Sense.OUTBOUND;
        // "On the 145 course to Fulmar" is the line of Fulmar, which the fix must lie on.
        boolean toAnother = spoken.TO() != null
                && spoken.place() != null
                && !places.waypoint(spoken.place()).equals(fix);
        if (spoken.BEARING() != null || spoken.FROM() != null || toAnother) {
            return bearing(spoken, fix, degrees);
        }
        notes.add("\"" + source.words(spoken) + "\": read as the " + (away ? "outbound" : "inbound") + " course");
        return new HoldLine.OnCourse(new MagneticDirection(away ? degrees + 180.0 : degrees));
    }

    /** A bearing from an NDB, or to it; of a VOR it is a radial. */
    private HoldLine bearing(HoldOnContext spoken, Waypoint fix, int degrees) throws ClearanceException {
        boolean to = spoken.TO() != null || LineReader.sense(spoken.sense()) == Sense.INBOUND;
        double from = to ? degrees + 180.0 : degrees;
        Waypoint place = spoken.place() == null ? fix : places.waypoint(spoken.place());
        if (!(place instanceof Station station) || station.kind() == Station.Kind.DME) {
            boolean away = spoken.FROM() != null && !to;
            notes.add("\"" + source.words(spoken) + "\": read as the " + (away ? "outbound" : "inbound") + " course");
            return new HoldLine.OnCourse(new MagneticDirection(away ? degrees + 180.0 : degrees));
        }
        return station.kind() == Station.Kind.NDB
                ? new HoldLine.OnBearing(station, new MagneticDirection(from))
                : new HoldLine.OnRadial(station, new Radial(from));
    }

    /** The station whose radial is meant, where the words name none: the fix itself, or one whose radial passes it. */
    private HoldLine radialThrough(HoldOnContext spoken, Waypoint fix, Radial radial) {
        if (fix instanceof Station station && station.kind().hasRadials()) {
            return new HoldLine.OnRadial(station, radial);
        }
        List<Station> passing = places.stations().stream()
                .filter(station -> station.kind().hasRadials()
                        && station.declination().isPresent()
                        && station.position().distanceNm(fix.position()) < REACH_NM
                        && station.position().distanceNm(fix.position()) > 0.1)
                .filter(station -> Math.abs(station.position()
                                .to(fix.position())
                                .initial()
                                .turnTo(radial.toTrue(station.declination().orElseThrow())))
                        <= ON_RADIAL_DEG)
                .sorted(Comparator.comparingDouble(station -> station.position().distanceNm(fix.position())))
                .toList();
        if (passing.isEmpty()) {
            notes.add("\"" + source.words(spoken) + "\": no station's radial of that number passes " + fix.ident()
                    + "; read as the bearing from " + fix.ident() + " itself, flown inbound: ask");
            return new HoldLine.OnCourse(new MagneticDirection(radial.deg() + 180));
        }
        Station taken = passing.get(0);
        notes.add("\"" + source.words(spoken) + "\": the radial of " + taken.ident() + " is meant, which passes "
                + fix.ident()
                + (passing.size() > 1 ? "; that of " + passing.get(1).ident() + " does too, from farther away" : ""));
        return new HoldLine.OnRadial(taken, radial);
    }
}
