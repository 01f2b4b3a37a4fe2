package org.rejoin.console.drill;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

import org.rejoin.bridge.clearance.SpokenNumber;

/** A number as a pilot types it: in figures with a point or a comma, or in words as ATC says it, with or without its unit. */
final class TypedNumber {

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
