package org.rejoin.console.drill;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/**
 * One element of a clearance to be worked out.
 *
 * @param code for machines
 * @param skill that it shows
 * @param ask for the pilot, with the form of the answer
 * @param answer that is right
 * @param guessChance of a right answer without knowing
 * @param working how it is worked out
 */
public record Question(String code, Skill skill, String ask, Answer answer, double guessChance, String working) {

    /**
     * {@return how it is answered; "direction", "amount", "choice", "idents", "line" or "point"; the last two are drawn on
     * the chart}
     */
    public String kind() {
        return answer.getClass().getSimpleName().toLowerCase(Locale.ROOT);
    }

    /** {@return whether it is drawn on the chart; false for what is typed or chosen} */
    public boolean isDrawn() {
        return answer instanceof Answer.Line || answer instanceof Answer.Point;
    }

    /** A right answer, and what is near enough. */
    public sealed interface Answer {
        /**
         * Whether an answer is right.
         *
         * @param typed by the pilot
         * @return false too where it cannot be read
         */
        boolean accepts(String typed);

        /** {@return the right answer, as it is written} */
        String words();

        /**
         * A direction.
         *
         * @param deg degrees
         * @param toleranceDeg either way
         */
        record Direction(double deg, double toleranceDeg) implements Answer {
            @Override
            public boolean accepts(String typed) {
                double said = number(typed);
                return said >= 0 && said <= 360 && Math.abs(Angles.turn(said - deg)) <= toleranceDeg;
            }

            @Override
            public String words() {
                return Angles.figures(deg);
            }
        }

        /**
         * A number.
         *
         * @param value right
         * @param tolerance either way
         * @param unit of it
         */
        record Amount(double value, double tolerance, String unit) implements Answer {
            @Override
            public boolean accepts(String typed) {
                return Math.abs(number(typed) - value) <= tolerance;
            }

            @Override
            public String words() {
                return Words.say("%.1f %s", value, unit);
            }
        }

        /**
         * One of a few words; as much of it as tells it from the others is enough.
         *
         * @param word right
         * @param among all that there are to choose from
         */
        record Choice(String word, List<String> among) implements Answer {

            public Choice {
                among = List.copyOf(among);
            }

            /**
             * Left or right.
             *
             * @param right which of them it is
             * @return a choice of the two
             */
            public static Choice side(boolean right) {
                return new Choice(Words.side(right), List.of("left", "right"));
            }

            @Override
            public boolean accepts(String typed) {
                String said = typed.trim().toLowerCase(Locale.ROOT);
                return !said.isEmpty()
                        && word.startsWith(said)
                        && among.stream().filter(each -> each.startsWith(said)).count() == 1;
            }

            @Override
            public String words() {
                return word;
            }
        }

        /**
         * Idents in any order, "none" for none.
         *
         * @param idents right
         */
        record Idents(List<String> idents) implements Answer {
            @Override
            public boolean accepts(String typed) {
                TreeSet<String> said = new TreeSet<>(
                        Arrays.asList(typed.trim().toUpperCase(Locale.ROOT).split("[^A-Z0-9]+", -1)));
                said.remove("");
                said.remove("NONE");
                return said.equals(new TreeSet<>(idents)) && !typed.isBlank();
            }

            @Override
            public String words() {
                return idents.isEmpty() ? "none" : String.join(" ", idents);
            }
        }

        /**
         * A line drawn on the chart, the way it is flown.
         *
         * @param line right; more of it or less may be drawn
         * @param toleranceDeg of its direction
         * @param toleranceNm to either side
         */
        record Line(GeodesicLine line, double toleranceDeg, double toleranceNm) implements Answer {
            @Override
            public boolean accepts(String typed) {
                return Drawing.positions(typed, 2)
                        .filter(drawn -> Drawing.along(line, drawn, toleranceDeg, toleranceNm))
                        .isPresent();
            }

            @Override
            public String words() {
                return DrillText.place(line.start()) + " " + DrillText.place(line.end());
            }
        }

        /**
         * A point marked on the chart.
         *
         * @param at right
         * @param toleranceNm round it
         */
        record Point(Position at, double toleranceNm) implements Answer {
            @Override
            public boolean accepts(String typed) {
                return Drawing.positions(typed, 1)
                        .filter(drawn -> drawn.get(0).distanceNm(at) <= toleranceNm)
                        .isPresent();
            }

            @Override
            public String words() {
                return DrillText.place(at);
            }
        }

        private static double number(String typed) {
            String[] first = typed.trim().split("[^0-9.]+", 2);
            try {
                return Double.parseDouble(first[0]);
            } catch (NumberFormatException e) {
                return Double.NaN;
            }
        }
    }
}
