package org.rejoin.protocol.yaml;

import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Numbers as people write them: the decimal forms of the YAML 1.2 core schema (section 10.3.2), in which a leading zero
 * means nothing. Its octal and hexadecimal forms are no numbers here: a course of 0o60 or 0x3C is a slip.
 */
final class PlainNumber {

    private static final Pattern DECIMAL = Pattern.compile("[-+]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][-+]?\\d{1,3})?");
    private static final Pattern COMMA = Pattern.compile("([-+]?\\d+),(\\d+)");
    private static final Pattern SPACED = Pattern.compile("[-+]?\\d{1,3}([_' ]\\d{3})+(\\.\\d*)?");
    private static final Pattern SIDED = Pattern.compile("([NSEWnsew]?)\\s*(\\d+(?:\\.\\d*)?)\\s*([NSEWnsew]?)");
    private static final Pattern SIXTIETHS = Pattern.compile("[-+]?\\d+[:\u00B0 ]\\s*\\d+.*");
    private static final Pattern OTHER_BASE = Pattern.compile("0[xo][0-9A-Fa-f]+");
    private static final int LONGEST = 40;

    private PlainNumber() {}

    static OptionalDouble read(String text) {
        return text.length() <= LONGEST && DECIMAL.matcher(text).matches()
                // Plus zero: nobody means minus zero.
                ? OptionalDouble.of(Double.parseDouble(text) + 0.0)
                : OptionalDouble.empty();
    }

    static String hint(String text) {
        if (text.length() > LONGEST) {
            return "";
        }
        Matcher comma = COMMA.matcher(text);
        if (comma.matches()) {
            String decimal = comma.group(1) + "." + comma.group(2);
            return comma.group(2).length() == 3 // of 6,000 nobody but its writer knows which is meant
                    ? "; write it without a comma: " + comma.group(1) + comma.group(2) + ", or the decimal " + decimal
                    : "; a decimal point is needed: write " + decimal;
        }
        if (SPACED.matcher(text).matches()) {
            return "; write " + text.replaceAll("[_' ]", "");
        }
        Matcher sided = SIDED.matcher(text);
        if (sided.matches() && sided.group(1).isEmpty() != sided.group(3).isEmpty()) {
            boolean minus = (sided.group(1) + sided.group(3)).matches("[SWsw]");
            return "; north and east are plus: write " + (minus ? "-" : "") + sided.group(2);
        }
        if (SIXTIETHS.matcher(text).matches()) {
            return "; write degrees and decimals, as 38.5 for 38 degrees 30 minutes";
        }
        return OTHER_BASE.matcher(text).matches() ? "; write it in decimal figures" : "";
    }
}
