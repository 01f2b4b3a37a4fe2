package org.rejoin.console.speech;

import static org.rejoin.console.speech.Grammar.any;
import static org.rejoin.console.speech.Grammar.choice;
import static org.rejoin.console.speech.Grammar.maybe;
import static org.rejoin.console.speech.Grammar.named;
import static org.rejoin.console.speech.Grammar.row;
import static org.rejoin.console.speech.Grammar.words;
import static org.rejoin.console.speech.SpokenFigures.DIGIT;
import static org.rejoin.console.speech.SpokenFigures.DIRECTION;
import static org.rejoin.console.speech.SpokenFigures.TEEN;
import static org.rejoin.console.speech.SpokenFigures.TIME;
import static org.rejoin.console.speech.SpokenFigures.UP_TO_99;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.speech.Grammar.Pattern;

/**
 * What only a clearance that has such a thing is read back with: crossings, holds, arcs, speeds, departures, bearings. Listened
 * for only where the clearance has one, so that little can be mistaken for something else.
 */
final class RarerClauses {

    private static final Pattern CARDINAL =
            named("compass", any("north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"));

    private final Pattern stations;
    private final Pattern places;
    private final Pattern airways;
    private final Pattern altitude;

    RarerClauses(Pattern stations, Pattern places, Pattern airways, Pattern altitude) {
        this.stations = stations;
        this.places = places;
        this.airways = airways;
        this.altitude = altitude;
    }

    /** Clauses of a readback, where the clearance has these words. */
    List<Pattern> of(String said) {
        List<Pattern> clauses = new ArrayList<>();
        if (said.contains("cross ")) {
            clauses.add(row(
                    any("cross", "crossing"),
                    maybe(row(DIGIT, maybe(DIGIT), any("mile", "miles"), CARDINAL, words("of"))),
                    places,
                    any("at", "at or above", "at or below"),
                    maybe("and maintain"),
                    altitude));
        }
        if (said.contains("hold ") || said.contains("expect further")) {
            clauses.add(row(
                    any("hold", "holding"),
                    choice(row(CARDINAL, maybe(any("of", "at"))), words("at"), maybe("over")),
                    places,
                    maybe(row(
                            words("on"),
                            choice(row(maybe("the"), maybe(stations), DIRECTION, words("radial")), airways)))));
            clauses.add(row(choice(DIGIT, row(DIGIT, DIGIT), TEEN), any("minute", "mile"), words("legs")));
            clauses.add(row(any("left", "right"), words("turns")));
            clauses.add(words("as published"));
            clauses.add(row(any("expect further clearance", "expect further clearance at", "e f c"), TIME));
        }
        if (said.contains(" arc")) {
            Pattern miles = choice(row(DIGIT, maybe(DIGIT)), TEEN);
            Pattern dme = any("mile", "d m e", "mile d m e");
            clauses.add(row(
                    maybe(row(any("intercept", "intercepting", "join", "joining"))),
                    maybe("the"),
                    choice(
                            row(stations, miles, dme, words("arc")),
                            row(miles, dme, words("arc"), maybe(CARDINAL), words("of"), stations)),
                    maybe("clockwise", "counterclockwise", "counter clockwise"),
                    maybe(row(
                            any("to", "until"),
                            choice(row(maybe("the"), maybe(stations), DIRECTION, words("radial")), airways, places)))));
        }
        if (said.contains(" knots") || said.contains("speed")) {
            Pattern speed = choice(row(DIGIT, DIGIT, maybe(DIGIT)), row(DIGIT, UP_TO_99));
            clauses.add(row(
                    any("maintain", "maintaining", "do not exceed", "reduce speed to", "increase speed to", "speed"),
                    speed,
                    maybe("knots"),
                    maybe("or greater", "or less")));
            clauses.add(any("maintain present speed", "resume normal speed"));
        }
        if (said.contains("depart ")) {
            clauses.add(row(
                    any("depart", "departing"),
                    places,
                    choice(
                            row(maybe(row(maybe("turn"), any("left", "right"))), words("heading"), DIRECTION),
                            row(words("on the"), DIRECTION, any("radial", "bearing")))));
        }
        if (said.contains("cleared to ")) {
            clauses.add(row(any("cleared to"), maybe("the"), places, maybe("airport")));
        }
        if (said.contains(" bearing ")) {
            clauses.add(row(
                    maybe("to", "intercept", "intercepting"),
                    maybe("the"),
                    DIRECTION,
                    any("bearing to", "bearing from"),
                    maybe("the"),
                    stations));
        }
        if (said.contains("disregard")) {
            clauses.add(any("disregard", "disregard the amendment"));
        }
        return clauses;
    }
}
