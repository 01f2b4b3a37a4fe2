package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HoldContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HoldOnContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.HoldPartContext;
import org.rejoin.bridge.geo.Radial;

/** Holding instructions (FAA Order JO 7110.65, 4-6-4). */
final class HoldReader {

    private final Source source;
    private final PlaceReader places;
    private final Quantities quantities;
    private final List<String> notes;

    HoldReader(Source source, PlaceReader places, Quantities quantities, List<String> notes) {
        this.source = source;
        this.places = places;
        this.quantities = quantities;
        this.notes = notes;
    }

    Instruction.Hold hold(HoldContext spoken) throws ClearanceException {
        Waypoint fix = places.waypoint(spoken.place());
        Optional<String> compass = Optional.ofNullable(spoken.COMPASS())
                .map(word -> word.getText().toLowerCase(Locale.ROOT).replace("-", ""));
        Optional<Radial> on = spoken.holdOn() == null ? Optional.empty() : on(spoken.holdOn(), fix);
        if (spoken.PUBLISHED() != null) {
            notes.add("\"as published\": the chart has no holding patterns, what was not said is not known");
        }
        OptionalDouble minutes = OptionalDouble.empty();
        OptionalDouble miles = OptionalDouble.empty();
        TurnDirection turns = TurnDirection.SHORTEST;
        Optional<String> further = Optional.empty();
        for (HoldPartContext part : spoken.holdPart()) {
            boolean again;
            if (part.MINUTE() != null || part.MILE() != null) {
                again = minutes.isPresent() || miles.isPresent();
                OptionalDouble length = OptionalDouble.of(quantities.length(part.number()));
                minutes = part.MINUTE() != null ? length : minutes;
                miles = part.MILE() != null ? length : miles;
            } else if (part.side() != null) {
                again = turns != TurnDirection.SHORTEST;
                turns = part.side().LEFT() != null ? TurnDirection.LEFT : TurnDirection.RIGHT;
            } else {
                again = further.isPresent();
                further = Optional.of(quantities.time(part.number()));
            }
            if (again) {
                throw source.notUnderstood(part, "said twice for one hold");
            }
        }
        return new Instruction.Hold(fix, compass, on, minutes, miles, turns, further);
    }

    private Optional<Radial> on(HoldOnContext spoken, Waypoint fix) throws ClearanceException {
        if (spoken.airway() != null) {
            notes.add("hold on " + places.airway(spoken.airway()) + ": the airway is read but not kept with the hold");
            return Optional.empty();
        }
        if (spoken.place() != null && !places.waypoint(spoken.place()).equals(fix)) {
            throw source.notUnderstood(
                    spoken, "a hold can be kept on a radial of its own fix only, and " + fix.ident() + " is the fix");
        }
        String what = spoken.RADIAL() != null ? "radial" : "course";
        Radial said = new Radial(quantities.degrees(spoken.number(), what));
        if (spoken.RADIAL() != null) {
            return Optional.of(said);
        }
        notes.add("\"" + source.words(spoken) + "\": read as the inbound course, so the hold is on the reciprocal");
        return Optional.of(said.reciprocal());
    }
}
