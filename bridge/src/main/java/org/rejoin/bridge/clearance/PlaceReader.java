package org.rejoin.bridge.clearance;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Spelling;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageLexer;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AirwayContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.FacilityContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NamedPlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.NumberContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.PlaceContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.RadialFixContext;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Radial;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.tree.TerminalNode;
import org.jspecify.annotations.Nullable;

/**
 * Looks up on the chart what a clearance names: by ident, by letters, by spoken name. What is not there is refused with
 * what is spelled like it, never guessed.
 *
 * @param shortNames whether one word of a name is enough, as pilots read back
 */
record PlaceReader(
        Source source, Chart chart, FiledRoute filed, List<String> notes, Quantities quantities, boolean shortNames) {

    /** All stations of the chart. */
    List<Station> stations() {
        return chart.stations();
    }

    /** A point: of several of the name, the nearest to the filed route. */
    Waypoint waypoint(PlaceContext place) throws ClearanceException {
        return nearest(place, candidates(place, ClearanceException.Code.UNKNOWN_FIX));
    }

    /** The same, without the word for its kind before it. */
    Waypoint waypoint(NamedPlaceContext place) throws ClearanceException {
        return nearest(place, named(place, ClearanceException.Code.UNKNOWN_FIX));
    }

    /** A point of an airway: of several of the name, one that the airway passes. */
    Waypoint waypointOn(String airway, PlaceContext place) throws ClearanceException {
        return passed(airway, place, candidates(place, ClearanceException.Code.UNKNOWN_FIX));
    }

    /** A point of an airway, named without "to". */
    Waypoint waypointOn(String airway, NamedPlaceContext place) throws ClearanceException {
        return passed(airway, place, named(place, ClearanceException.Code.UNKNOWN_FIX));
    }

    /** Whether an airway passes a point. */
    boolean passes(String ident, Waypoint point) {
        return chart.airways(ident).stream().anyMatch(airway -> airway.passes(point));
    }

    private Waypoint passed(String ident, ParserRuleContext place, List<Waypoint> all) throws ClearanceException {
        Airway airway = chart.airway(ident).orElseThrow();
        List<Waypoint> passed = all.stream().filter(airway::passes).toList();
        if (passed.isEmpty()) {
            throw source.refuse(
                    place,
                    ClearanceException.Code.ROUTE_NOT_VALID,
                    "\"" + source.words(place) + "\": " + ident + " does not pass there; its points are "
                            + Places.idents(airway.points()));
        }
        return nearest(place, passed);
    }

    /**
     * A station that a line can be flown from.
     *
     * @param place as said
     * @param fits which stations can be meant
     * @param otherwise what to say if there are stations, but none that fits; it follows the station's ident and kind
     */
    Station station(PlaceContext place, Predicate<Station> fits, String otherwise) throws ClearanceException {
        List<Waypoint> all = candidates(place, ClearanceException.Code.UNKNOWN_STATION);
        List<Station> stations = all.stream()
                .filter(Station.class::isInstance)
                .map(Station.class::cast)
                .toList();
        if (stations.isEmpty()) {
            throw source.refuse(
                    place,
                    ClearanceException.Code.UNKNOWN_STATION,
                    "\"" + source.words(place) + "\": the chart shows a " + Places.described(all.get(0))
                            + ", not a station; name a station");
        }
        List<Station> fitting = stations.stream().filter(fits).toList();
        if (fitting.isEmpty()) {
            Station first = stations.get(0);
            throw source.refuse(
                    place,
                    ClearanceException.Code.CANNOT_BE_WORKED_OUT,
                    "\"" + source.words(place) + "\": " + first.ident() + " is of kind " + first.kind() + ", "
                            + otherwise);
        }
        return nearest(place, fitting);
    }

    /** A point on a radial at a distance, named as in a flight plan. */
    Waypoint radialFix(RadialFixContext spoken) throws ClearanceException {
        return onRadial(spoken.place(), spoken.number(0), spoken.number(1));
    }

    /** The same, said in other words. */
    Waypoint onRadial(PlaceContext place, NumberContext direction, NumberContext distance) throws ClearanceException {
        Station station = station(
                place,
                candidate ->
                        candidate.kind().hasRadials() && candidate.declination().isPresent(),
                "it has no radials with a known declination; name a VOR");
        int radial = quantities.degrees(direction, "radial");
        int miles = quantities.number(distance).value();
        if (miles < 1 || miles > 999) {
            throw source.notUnderstood(distance, "a distance from a station is 1 to 999 miles");
        }
        return TypedPosition.onRadial(
                String.format(Locale.ROOT, "%s%s%03d", station.ident(), Angles.figures(radial), miles),
                station,
                new Radial(radial),
                miles);
    }

    /** The ident of an airway that the chart shows. */
    String airway(AirwayContext spoken) throws ClearanceException {
        return shown(spoken, airwayIdent(spoken));
    }

    /** Whether what has the form of an airway is a point: 38N054W, and what no airway of the chart is called. */
    boolean isPoint(AirwayContext spoken) {
        if (spoken.ALNUM() == null || spoken.AIRWAY() != null || spoken.UPPER() != null) {
            return false;
        }
        String ident = spoken.ALNUM().getText().toUpperCase(Locale.ROOT);
        return chart.airway(ident).isEmpty() || !chart.waypoints(ident).isEmpty();
    }

    /** That point. */
    Waypoint waypoint(AirwayContext spoken) throws ClearanceException {
        return nearest(spoken, typed(spoken, spoken.ALNUM(), null, ClearanceException.Code.UNKNOWN_FIX));
    }

    private String shown(ParserRuleContext spoken, String ident) throws ClearanceException {
        if (chart.airway(ident).isEmpty()) {
            throw source.refuse(
                    spoken,
                    ClearanceException.Code.UNKNOWN_AIRWAY,
                    "airway " + ident + " is not on the chart" + Places.airwaySuggestion(ident, chart));
        }
        return ident;
    }

    /** "Upper lima six zero seven" is UL607 (ICAO Doc 4444, Appendix 2, from memory). */
    private String airwayIdent(AirwayContext spoken) throws ClearanceException {
        return (spoken.UPPER() != null ? "U" : "") + plainIdent(spoken);
    }

    private String plainIdent(AirwayContext spoken) throws ClearanceException {
        if (spoken.AIRWAY_IDENT() != null) {
            return spoken.AIRWAY_IDENT().getText().replace("-", "").toUpperCase(Locale.ROOT);
        }
        if (spoken.ALNUM() != null) {
            return spoken.ALNUM().getText().toUpperCase(Locale.ROOT);
        }
        String letters = spoken.LETTER().stream().map(SpokenWords::letter).collect(Collectors.joining());
        return letters + quantities.number(spoken.number()).digits();
    }

    private List<Waypoint> candidates(PlaceContext place, ClearanceException.Code unknown) throws ClearanceException {
        if (place.namedPlace() != null) {
            return named(place.namedPlace(), unknown);
        }
        return typed(place, place.ALNUM(), place.facility(), unknown);
    }

    private List<Waypoint> typed(
            ParserRuleContext place,
            TerminalNode said,
            @Nullable FacilityContext facility,
            ClearanceException.Code unknown)
            throws ClearanceException {
        Word word = new Word(said.getText().toUpperCase(Locale.ROOT), source.column(said.getSymbol()));
        List<Waypoint> shown = ofFacility(chart.waypoints(word.text()), facility);
        if (!shown.isEmpty()) {
            return shown;
        }
        try {
            if (TypedPosition.looksLikeCoordinates(word.text())) {
                return List.of(TypedPosition.coordinates(word));
            }
            if (TypedPosition.isBearingDistance(word.text())) {
                return TypedPosition.bearingDistance(word, chart);
            }
        } catch (ClearanceException e) {
            throw source.refuse(place, unknown, String.valueOf(e.getMessage()));
        }
        throw source.refuse(place, unknown, word.text() + " is not on the chart" + right(word.text(), unknown));
    }

    private List<Waypoint> named(NamedPlaceContext place, ClearanceException.Code unknown) throws ClearanceException {
        List<Token> words =
                place.nameWord().stream().map(ParserRuleContext::getStart).toList();
        List<Waypoint> shown = ofFacility(lookUp(words), place.facility());
        if (!shown.isEmpty()) {
            return shown;
        }
        Optional<Waypoint> shortened = shortened(words, place.facility());
        if (shortened.isPresent()) {
            return List.of(shortened.get());
        }
        // "AAA blah": the words after a name that is known are the ones to point at.
        for (int known = words.size() - 1; known > 0; known--) {
            if (!lookUp(words.subList(0, known)).isEmpty()) {
                Token first = words.get(known);
                String rest = source.words(first, place.getStop());
                String before = source.words(words.get(0), words.get(known - 1));
                boolean another = !lookUp(words.subList(known, words.size())).isEmpty();
                throw source.refuse(
                        first,
                        place.getStop(),
                        ClearanceException.Code.NOT_UNDERSTOOD,
                        "not understood: \"" + rest + "\" after \"" + before
                                + (another
                                        ? "\"; from one to the other say \"direct " + before + ", " + rest + "\""
                                        : "\"; expected here: an instruction or the end"
                                                + Vocabulary.didYouMean(first)));
            }
        }
        throw source.refuse(
                place, unknown, "\"" + source.words(place) + "\" is not on the chart" + right(words, unknown));
    }

    /** "The Shearwater airport" is Shearwater Field, where no other airport has that word. */
    private Optional<Waypoint> shortened(List<Token> words, @Nullable FacilityContext facility) {
        if (facility == null || facility.FIX() != null) {
            return Optional.empty();
        }
        String said = Names.plain(words.stream().map(Token::getText).collect(Collectors.joining(" ")));
        List<Waypoint> shown = ofFacility(
                Names.named(chart)
                        .filter(point -> (" " + Names.plain(Names.of(point)) + " ").contains(" " + said + " "))
                        .toList(),
                facility);
        if (shown.size() != 1) {
            return Optional.empty();
        }
        notes.add("\"" + said.toLowerCase(Locale.ROOT) + " " + facility.getText() + "\": taken to be "
                + Names.of(shown.get(0)));
        return Optional.of(shown.get(0));
    }

    private static List<Waypoint> ofFacility(List<Waypoint> shown, @Nullable FacilityContext facility) {
        if (facility == null || facility.FIX() != null) {
            return shown;
        }
        return shown.stream()
                .filter(point -> facility.AIRPORT() != null
                        ? point instanceof Airport
                        : point instanceof Station station && station.kind().hasRadials() == (facility.VOR() != null))
                .toList();
    }

    /** By ident, by letters and by name together: a name may be another point's ident, and then the nearer is meant. */
    private List<Waypoint> lookUp(List<Token> words) {
        Set<Waypoint> shown = new LinkedHashSet<>();
        if (words.size() == 1) {
            shown.addAll(chart.waypoints(words.get(0).getText().toUpperCase(Locale.ROOT)));
        }
        spelled(words).ifPresent(ident -> shown.addAll(chart.waypoints(ident)));
        String name = Names.plain(words.stream().map(Token::getText).collect(Collectors.joining(" ")));
        Names.named(chart)
                .filter(point -> Names.plain(Names.of(point)).equals(name))
                .forEach(shown::add);
        if (shown.isEmpty() && shortNames) {
            Names.named(chart)
                    .filter(point -> (" " + Names.plain(Names.of(point)) + " ").contains(" " + name + " "))
                    .forEach(shown::add);
        }
        return List.copyOf(shown);
    }

    private static Optional<String> spelled(List<Token> words) {
        return words.stream().allMatch(word -> word.getType() == ClearanceLanguageLexer.LETTER)
                ? Optional.of(words.stream()
                        .map(Token::getText)
                        .map(SpokenWords::letter)
                        .collect(Collectors.joining()))
                : Optional.empty();
    }

    /** What would be right: a name or an ident like it, else idents that the chart has. */
    private String right(List<Token> words, ClearanceException.Code unknown) {
        String said = words.stream().map(Token::getText).collect(Collectors.joining(" "));
        Set<String> names = Names.named(chart).map(Names::of).collect(Collectors.toCollection(LinkedHashSet::new));
        String byName = Spelling.didYouMean(said, names);
        String byIdent = right((words.size() == 1 ? Optional.of(said) : spelled(words)).orElse(said), unknown);
        return byIdent.startsWith("; did you mean") || byName.isEmpty() ? byIdent : byName;
    }

    private String right(String ident, ClearanceException.Code unknown) {
        return unknown == ClearanceException.Code.UNKNOWN_STATION
                ? Places.stationSuggestion(ident.toUpperCase(Locale.ROOT), chart)
                : Places.suggestion(ident.toUpperCase(Locale.ROOT), chart);
    }

    private <T extends Waypoint> T nearest(ParserRuleContext place, List<T> candidates) {
        T taken = Places.nearest(candidates, filed.points());
        notes.addAll(Places.choice(source.words(place), taken, candidates));
        return taken;
    }
}
