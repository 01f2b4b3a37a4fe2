package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.Instruction.Maintain;
import org.rejoin.bridge.clearance.Instruction.Maintain.Vertical;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;

import org.antlr.v4.runtime.Token;

/**
 * What makes an altitude wrong that has the figures of the cleared one: "descend" for "climb", a flight level for an altitude
 * and the reverse. A level is by 1013 hPa (29.92 inches) and an altitude by the local setting (14 CFR 91.121), so the two differ; the
 * controller has to make sure that what is read back is correct (FAA Order JO 7110.65, 2-4-3). A verb that is left out is no
 * error.
 */
final class AltitudesReadBack {

    /** How an altitude was said. */
    private enum Form {
        /** "Flight level one one zero". */
        LEVEL,
        /** "Eight thousand", "8000 feet". */
        FEET,
        /** "8000", which can stand for either. */
        FIGURES
    }

    /** An altitude or a level in a text, feet. */
    private record Said(int feet, Form form) {}

    private final List<Maintain> cleared;
    /** What was cleared as a flight level, feet. */
    private final Set<Integer> levels = new LinkedHashSet<>();

    AltitudesReadBack(Clearance clearance, Chart chart) {
        this.cleared = maintains(clearance.instructions());
        try {
            said(ClearanceReader.tokens(clearance.text(), chart)).stream()
                    .filter(each -> each.form() == Form.LEVEL)
                    .forEach(each -> levels.add(each.feet()));
        } catch (ClearanceException e) {
            // Longer than is read: then nothing is known of its levels.
        }
    }

    private static List<Maintain> maintains(List<? extends Instruction> instructions) {
        List<Maintain> all = new ArrayList<>();
        for (Instruction each : instructions) {
            if (each instanceof Maintain maintain) {
                all.add(maintain);
            } else if (each instanceof Noted.After after) {
                all.addAll(maintains(after.then()));
            }
        }
        return all;
    }

    /** {@return the parts of an instruction that was read back, an altitude with its verb where that is the other one} */
    List<Part> of(Instruction readBack) {
        List<Part> parts = new ArrayList<>(Part.of(readBack));
        for (Maintain each : maintains(List.of(readBack))) {
            if (reverses(each)) {
                String altitude = SpokenWords.altitude(each.feet(), each.flightLevel());
                parts.replaceAll(part -> part.equals(new Part(Part.ALTITUDE, altitude))
                        ? new Part(Part.ALTITUDE, verb(each.vertical()) + altitude)
                        : part);
            }
        }
        return parts;
    }

    private boolean reverses(Maintain readBack) {
        List<Maintain> same =
                cleared.stream().filter(each -> each.feet() == readBack.feet()).toList();
        return readBack.vertical() != Vertical.UNSAID
                && !same.isEmpty()
                && same.stream()
                        .allMatch(each -> each.vertical() != Vertical.UNSAID && each.vertical() != readBack.vertical());
    }

    private static String verb(Vertical vertical) {
        return vertical == Vertical.CLIMB ? "climb and maintain " : "descend and maintain ";
    }

    /** {@return the words of an altitude as cleared, with its verb where that was read back as the other one} */
    static String asCleared(Part part, String readBack) {
        if (!part.what().equals(Part.ALTITUDE)) {
            return part.words();
        }
        for (Vertical each : List.of(Vertical.CLIMB, Vertical.DESCEND)) {
            if (readBack.equals(verb(each) + part.words())) {
                return verb(each == Vertical.CLIMB ? Vertical.DESCEND : Vertical.CLIMB) + part.words();
            }
        }
        return part.words();
    }

    /**
     * {@return the same parts, figures that can stand for either in the words of what was cleared, and an altitude so high
     * that it is a level always as the altitude it was said as}
     */
    Set<Part> asSaid(Set<Part> parts, List<Token> readBack) {
        Set<Part> asSaid = parts;
        List<Said> all = said(readBack);
        for (Said each : all) {
            boolean figures = each.form() == Form.FIGURES && !SpokenWords.isFlightLevel(each.feet());
            boolean feet = each.form() == Form.FEET && SpokenWords.isFlightLevel(each.feet());
            if ((figures || feet)
                    && levels.contains(each.feet())
                    && all.stream().allMatch(other -> other.feet() != each.feet() || other.form() == each.form())) {
                String usual = SpokenWords.altitude(each.feet());
                String words = figures ? SpokenWords.flightLevel(each.feet()) : SpokenWords.thousands(each.feet());
                Set<Part> other = new LinkedHashSet<>();
                asSaid.forEach(part -> other.add(
                        part.what().equals(Part.CALLSIGN)
                                ? part
                                : new Part(
                                        part.what(),
                                        part.words().replaceFirst("\\b" + usual + "(?= through |$)", words))));
                asSaid = other;
            }
        }
        return asSaid;
    }

    private static List<Said> said(List<Token> tokens) {
        List<Said> said = new ArrayList<>();
        for (int i = 0; i < tokens.size(); i++) {
            Token token = tokens.get(i);
            boolean level = token.getType() == ClearanceLanguageParser.FL
                    || (token.getType() == ClearanceLanguageParser.LEVEL
                            && i > 0
                            && tokens.get(i - 1).getType() == ClearanceLanguageParser.FLIGHT);
            int from = level ? i + 1 : i;
            int to = from;
            while (to < tokens.size() && Vocabulary.isFigure(tokens.get(to))) {
                to++;
            }
            List<Token> figures = tokens.subList(from, to);
            boolean feet = figures.stream().anyMatch(each -> each.getType() == ClearanceLanguageParser.THOUSAND)
                    || (to < tokens.size() && tokens.get(to).getType() == ClearanceLanguageParser.FEET);
            if (token.getType() == ClearanceLanguageParser.FL_NUMBER) {
                add(said, List.of(token.getText().replaceAll("[^0-9]", "")), Form.LEVEL);
            } else if (token.getType() == ClearanceLanguageParser.NUMBER_FT) {
                add(said, List.of(token.getText().replaceAll("[^0-9]", "")), Form.FEET);
            } else if (!figures.isEmpty()) {
                add(
                        said,
                        figures.stream().map(Token::getText).toList(),
                        level ? Form.LEVEL : feet ? Form.FEET : Form.FIGURES);
                i = to - 1;
            }
        }
        return said;
    }

    private static void add(List<Said> said, List<String> figures, Form form) {
        SpokenNumber.of(figures)
                .map(number -> form == Form.LEVEL ? number.value() * 100 : number.value())
                .filter(Quantities::isAltitude)
                .ifPresent(feet -> said.add(new Said(feet, form)));
    }
}
