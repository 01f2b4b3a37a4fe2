package org.rejoin.bridge.clearance;

import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CrossPlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.LineEndContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NearContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NumberContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.OnLineContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.WhenContext;
import org.rejoin.bridge.geo.Radial;

import org.antlr.v4.runtime.ParserRuleContext;
import org.jspecify.annotations.Nullable;

/**
 * Where and when something begins or ends, in whatever words.
 *
 * @param onto what leads onto each line that was named, as said
 */
record WhenReader(
        Source source,
        PlaceReader places,
        LineReader lines,
        Quantities quantities,
        Map<Instruction.Until, Instruction> onto) {

    /**
     * Where or when something begins or ends.
     *
     * @param passed whether it is passed or reached, as a time is not: "until passing 8500" is an altitude
     */
    When when(WhenContext spoken, boolean passed) throws ClearanceException {
        if (spoken.plainLevel() != null) {
            return new When.AtLevel(
                    quantities.altitudeFt(spoken.plainLevel()), Quantities.isLevel(spoken.plainLevel()));
        }
        if (passed && spoken.number() != null && spoken.TIME() == null) {
            return new When.AtLevel(quantities.altitudeFt(spoken.number()), false);
        }
        return one(spoken, spoken.near(), spoken.lineEnd(), null, spoken.number());
    }

    /** One of several ways to say it, the others null. */
    When one(
            ParserRuleContext all,
            @Nullable NearContext near,
            @Nullable LineEndContext line,
            @Nullable PlaceContext place,
            @Nullable NumberContext time)
            throws ClearanceException {
        if (near != null) {
            return near(near);
        }
        if (line != null) {
            return new When.AtLine(lines.until(line, Optional.empty()));
        }
        if (place != null) {
            return new When.AtLine(new Instruction.Until.AtFix(places.waypoint(place)));
        }
        if (time != null) {
            return new When.AtTime(quantities.time(time));
        }
        throw source.notUnderstood(all, "where or when is not said");
    }

    /** Established on an airway or a radial, or, where none is said, on the line of the clearance. */
    When.Established established(@Nullable OnLineContext on) throws ClearanceException {
        if (on == null || (on.airway() == null && on.radial() == null)) {
            return new When.Established(Optional.empty());
        }
        Instruction said = on.airway() != null
                ? new Instruction.InterceptAirway(places.airway(on.airway()))
                : lines.radial(on.radial());
        Optional<Instruction.Until> line = InstructionReader.line(said);
        line.ifPresent(at -> onto.put(at, said));
        return new When.Established(line);
    }

    When.Near near(NearContext spoken) throws ClearanceException {
        return new When.Near(
                places.waypoint(spoken.place()), quantities.distanceNm(spoken.number()), spoken.BEFORE() != null);
    }

    /** The place of a crossing that is no fix; empty where it is one. */
    Optional<When> crossed(CrossPlaceContext spoken) throws ClearanceException {
        if (spoken.near() != null) {
            return Optional.of(near(spoken.near()));
        }
        if (spoken.airway() != null && spoken.awayFrom() == null) {
            return Optional.of(new When.AtLine(
                    places.isPoint(spoken.airway())
                            ? new Instruction.Until.AtFix(places.waypoint(spoken.airway()))
                            : new Instruction.Until.AtAirway(places.airway(spoken.airway()))));
        }
        if (spoken.DME() != null || spoken.FROM() != null) {
            Station station = places.station(
                    spoken.place(), candidate -> candidate.kind().hasDistance(), "it gives no distance; name a DME");
            return Optional.of(
                    new When.AtLine(new Instruction.Until.AtDistance(station, quantities.distanceNm(spoken.number()))));
        }
        if (spoken.getToken(ClearanceLanguageParser.RADIAL, 0) != null) {
            int radial = quantities.degrees(spoken.number(), "radial");
            return Optional.of(
                    new When.AtLine(new Instruction.Until.AtRadial(lines.vor(spoken.place()), new Radial(radial))));
        }
        return Optional.empty();
    }
}
