package org.rejoin.console.cli;

import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** What was likely meant by words that no command takes. */
final class Hints {

    private static final Pattern NUMBER = Pattern.compile("(?:--[a-z-]+=)?([+-]?\\d+(?:\\.\\d+)?),?");
    private static final int MOST = 3;
    private static final Pattern NO_NUMBER = Pattern.compile(
            "Invalid value for (?:option '([^'=]+)(?:=[^']*)?'|positional parameter [^(]*\\(([^)]*)\\)): '(.*)' is not an?"
                    + " (int|long|double)",
            Pattern.DOTALL);

    private static final Pattern NO_PATH = Pattern.compile(
            "Invalid value for (?:option '([^'=]+)(?:=[^']*)?'|positional parameter [^(]*\\(([^)]*)\\)): cannot convert"
                    + " '(.*)' to (?:interface )?(?:java\\.nio\\.file\\.)?Path .*",
            Pattern.DOTALL);

    private static final Pattern TOO_MANY = Pattern.compile("Unmatched arguments? (?:at|from) index \\d+: (.*)");

    private static final Pattern NONE_OF_THESE = Pattern.compile(
            "Invalid value for (?:option '([^']*)'.*|positional parameter .*\\(<?(.*?)>?\\)): expected one of \\[(.*)] \\(case-.*\\)"
                    + " but was '(.*)'");

    private Hints() {}

    /**
     * What was refused, in the words of the trade: the parser of the command line speaks of its own types.
     *
     * @return one line
     */
    static String said(String message) {
        Matcher path = NO_PATH.matcher(message);
        if (path.matches()) {
            String at = path.group(1) == null ? path.group(2) : path.group(1);
            return at + " \"" + path.group(3)
                    + "\" has letters that the locale of this terminal does not know, or that no"
                    + " file name may have; set LC_ALL=C.UTF-8, or use another name";
        }
        Matcher tooMany = TOO_MANY.matcher(message);
        if (tooMany.matches() && tooMany.group(1).startsWith("'@")) {
            return "there is no file " + tooMany.group(1).replaceAll("^'@|'$", "")
                    + " (@FILE stands for the words of a file)";
        }
        if (tooMany.matches()) {
            return "nothing is expected here: " + tooMany.group(1);
        }
        Matcher none = NONE_OF_THESE.matcher(message);
        if (none.matches()) {
            return (none.group(1) == null ? none.group(2) : none.group(1)) + " " + none.group(4) + " is not one of "
                    + none.group(3).toLowerCase(Locale.ROOT);
        }
        Matcher number = NO_NUMBER.matcher(message);
        if (!number.matches()) {
            return message;
        }
        String name = number.group(1) == null ? number.group(2) : number.group(1);
        return name + " " + number.group(3)
                + (number.group(4).equals("double")
                        ? " is not a number, as 12.5 is"
                        : " is not a whole number, as 12 is");
    }

    /**
     * A hint for a mistyped command or option, and for a place typed with a blank for its comma.
     *
     * @return "; did you mean ...?", or nothing
     */
    static String of(ParameterException e, String... args) {
        if (!(e instanceof UnmatchedArgumentException unmatched)
                || unmatched.getUnmatched().isEmpty()) {
            return "";
        }
        String word = unmatched.getUnmatched().get(0);
        if (word.startsWith("@")) {
            return "";
        }
        int at = List.of(args).indexOf(word);
        Matcher longitude = NUMBER.matcher(word);
        Matcher latitude = NUMBER.matcher(at > 0 ? args[at - 1] : "");
        if (longitude.matches() && latitude.matches()) {
            return "; a place is written without blanks: did you mean " + latitude.group(1) + "," + longitude.group(1)
                    + "?";
        }
        List<String> near = unmatched.getSuggestions();
        return near.isEmpty()
                ? ""
                : "; did you mean " + String.join(" or ", near.subList(0, Math.min(MOST, near.size()))) + "?";
    }
}
