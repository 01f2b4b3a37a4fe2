package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Instruction.Sense;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.BearingContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.RadialContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.SenseContext;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Radial;

import org.jspecify.annotations.Nullable;

/** Radials, courses and bearings, in whatever order they are said. */
final class LineReader {

    private final Source source;
    private final PlaceReader places;
    private final Quantities quantities;
    private final List<String> notes;

    LineReader(Source source, PlaceReader places, Quantities quantities, List<String> notes) {
        this.source = source;
        this.places = places;
        this.quantities = quantities;
        this.notes = notes;
    }

    Instruction radial(RadialContext spoken) throws ClearanceException {
        Sense sense = sense(spoken.sense());
        if (spoken.RADIAL() != null) {
            int degrees = quantities.degrees(spoken.number(), "radial");
            return new Instruction.InterceptRadial(vor(spoken.place(), spoken), new Radial(degrees), sense);
        }
        if (sense == Sense.UNSAID || spoken.BEARING() != null) {
            throw source.notUnderstood(
                    spoken,
                    "which way is meant? say \"radial\", \"bearing from\" or \"bearing to\", or a course with inbound or"
                            + " outbound");
        }
        int course = quantities.degrees(spoken.number(), "course");
        return line(spoken.place(), course, sense);
    }

    Instruction bearing(BearingContext spoken) throws ClearanceException {
        String what = spoken.BEARING() != null ? "bearing" : "course";
        int degrees = quantities.degrees(spoken.number(), what);
        return line(spoken.place(), degrees, spoken.TO() != null ? Sense.INBOUND : Sense.OUTBOUND);
    }

    /** A line by the course flown along it: toward the station it is the reciprocal of the line's own name. */
    private Instruction line(PlaceContext place, int course, Sense sense) throws ClearanceException {
        Station station = places.station(
                place,
                candidate -> candidate.kind() != Station.Kind.DME,
                "it has neither radials nor bearings; name a VOR or an NDB");
        int from = sense == Sense.INBOUND ? course + 180 : course;
        if (station.kind() == Station.Kind.NDB) {
            return new Instruction.InterceptBearing(station, new MagneticDirection(from), sense);
        }
        notes.add("\"" + source.words(place.getParent() instanceof BearingContext bearing ? bearing : place) + "\": "
                + station.ident() + " is of kind " + station.kind() + ", so its radial is meant");
        return new Instruction.InterceptRadial(station, new Radial(from), sense);
    }

    private Station vor(PlaceContext place, RadialContext spoken) throws ClearanceException {
        return places.station(
                place,
                candidate -> candidate.kind().hasRadials(),
                "it has no radials; name a VOR, or for an NDB say \"the " + source.words(spoken.number())
                        + " bearing from " + source.words(place) + "\"");
    }

    static Sense sense(@Nullable SenseContext spoken) {
        return Optional.ofNullable(spoken)
                .map(context -> context.INBOUND() != null ? Sense.INBOUND : Sense.OUTBOUND)
                .orElse(Sense.UNSAID);
    }
}
