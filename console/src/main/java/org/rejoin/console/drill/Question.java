package org.rejoin.console.drill;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.regex.Pattern;

import org.rejoin.bridge.clearance.SpokenNumber;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

/** One element of a clearance to be worked out; the pilot is asked with the form of the answer. */
public record Question(String code, Skill skill, String ask, Answer answer, String working) {

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

    /**
     * What would be an answer, in one clause, where this is none: a slip of the keyboard is asked again and not marked.
     * Empty where it is an answer, right or wrong, and where nothing was typed.
     */
    public Optional<String> noAnswer(String typed) {
        return typed.isBlank() || answer.isAnswer(typed)
                ? Optional.empty()
                : Optional.of("\"" + CleanText.line(typed.trim()) + "\" is none of the answers: " + answer.form());
    }

    /** A right answer, and what is near enough. */
    public sealed interface Answer {
        /** Whether an answer is right; false too where it cannot be read. */
        boolean accepts(String typed);

        /** Whether it can be read as an answer of this kind; true of a wrong answer, too. */
        default boolean isAnswer(String typed) {
            return true;
        }

        /** {@return what an answer of this kind is, for whoever typed none} */
        default String form() {
            return words();
        }

        /** {@return the chance of a right answer without knowing; 0 but where there is something to choose from} */
        default double guessChance() {
            return 0;
        }

        /** {@return how near is near enough, as "within 10 degrees"; empty where only the answer itself is right} */
        default String near() {
            return "";
        }

        /** {@return the right answer, as it is written} */
        String words();

        /** A direction, degrees, and how far off it may be either way. */
        record Direction(double deg, double toleranceDeg) implements Answer {
            @Override
            public boolean accepts(String typed) {
                return isAnswer(typed)
                        && Math.abs(Angles.turn(TypedNumber.of(typed).getAsDouble() - deg)) <= toleranceDeg;
            }

            @Override
            public boolean isAnswer(String typed) {
                OptionalDouble said = TypedNumber.of(typed);
                return said.isPresent() && said.getAsDouble() <= 360;
            }

            @Override
            public String form() {
                return "a direction has three figures, 001 to 360";
            }

            @Override
            public String near() {
                return "within " + Angles.degrees(toleranceDeg);
            }

            @Override
            public String words() {
                return Angles.figures(deg);
            }
        }

        /** A number of a unit, and how far off it may be either way. */
        record Amount(double value, double tolerance, String unit) implements Answer {
            @Override
            public boolean accepts(String typed) {
                OptionalDouble said = TypedNumber.of(typed);
                return said.isPresent() && Math.abs(said.getAsDouble() - value) <= tolerance;
            }

            @Override
            public boolean isAnswer(String typed) {
                return TypedNumber.of(typed).isPresent();
            }

            @Override
            public String form() {
                return "a number of " + unit;
            }

            @Override
            public String near() {
                return Words.say("within %.1f %s", tolerance, unit);
            }

            @Override
            public String words() {
                return Words.say("%.1f %s", value, unit);
            }
        }

        /** One of a few words; as much of it as tells it from the others is enough. */
        record Choice(String word, List<String> among) implements Answer {

            public Choice {
                among = List.copyOf(among);
            }

            /** Left or right. */
            public static Choice side(boolean right) {
                return of(!right, "left", "right");
            }

            /** One of two words. */
            static Choice of(boolean first, String one, String other) {
                return new Choice(first ? one : other, List.of(one, other));
            }

            @Override
            public boolean accepts(String typed) {
                return chosen(typed).equals(Optional.of(word));
            }

            @Override
            public boolean isAnswer(String typed) {
                return chosen(typed).isPresent();
            }

            private Optional<String> chosen(String typed) {
                String said = typed.trim().toLowerCase(Locale.ROOT);
                List<String> meant =
                        among.stream().filter(each -> each.startsWith(said)).toList();
                return said.isEmpty() || meant.size() != 1 ? Optional.empty() : Optional.of(meant.get(0));
            }

            @Override
            public double guessChance() {
                return 1.0 / among.size();
            }

            @Override
            public String form() {
                return String.join(" or ", among);
            }

            @Override
            public String words() {
                return word;
            }
        }

        /** Idents in any order, "none" for none. */
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
         * A line drawn on the chart, the way it is flown; more of it or less may be drawn, in a direction and to a side
         * so far off.
         */
        record Line(GeodesicLine line, double toleranceDeg, double toleranceNm) implements Answer {
            @Override
            public boolean accepts(String typed) {
                return Drawing.positions(typed, 2)
                        .filter(drawn -> Drawing.along(line, drawn, toleranceDeg, toleranceNm))
                        .isPresent();
            }

            @Override
            public String near() {
                return Words.say("within %s and %.1f NM", Angles.degrees(toleranceDeg), toleranceNm);
            }

            @Override
            public String words() {
                return DrillText.place(line.start()) + " " + DrillText.place(line.end());
            }
        }

        /** A point marked on the chart. */
        record Point(Position at, double toleranceNm) implements Answer {
            @Override
            public boolean accepts(String typed) {
                return Drawing.positions(typed, 1)
                        .filter(drawn -> drawn.get(0).distanceNm(at) <= toleranceNm)
                        .isPresent();
            }

            @Override
            public String near() {
                return Words.say("within %.1f NM", toleranceNm);
            }

            @Override
            public String words() {
                return DrillText.place(at);
            }
        }
    }

    /** A number as a pilot types it: in figures with a point or a comma, or in words as ATC says it, with or without its unit. */
    static final class TypedNumber {

        private static final Pattern FIGURES = Pattern.compile("\\d{1,6}(?:[.,]\\d{1,6})?");

        private static final Pattern UNIT =
                Pattern.compile("\\s*(?:°|degrees?|deg|nm|nautical miles?|miles?|minutes?|mins?)?\\.?$");

        private static final Pattern POINT = Pattern.compile("\\s+(?:point|decimal)\\s+");

        private TypedNumber() {}

        /** The number, 0 or more; empty where it is none. */
        static OptionalDouble of(String typed) {
            String text = UNIT.matcher(typed.trim().toLowerCase(Locale.ROOT)).replaceFirst("");
            if (FIGURES.matcher(text).matches()) {
                return OptionalDouble.of(Double.parseDouble(text.replace(',', '.')));
            }
            String[] parts = POINT.split(text, -1);
            Optional<String> whole = said(parts[0]);
            Optional<String> tenths = parts.length == 2 ? said(parts[1]) : Optional.of("0");
            return parts.length > 2 || whole.isEmpty() || tenths.isEmpty()
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(Double.parseDouble(whole.get() + "." + tenths.get()));
        }

        private static Optional<String> said(String words) {
            return SpokenNumber.of(Arrays.asList(words.trim().split("\\s+|(?<=[a-z])-(?=[a-z])", -1)))
                    .map(SpokenNumber::digits);
        }
    }
}
