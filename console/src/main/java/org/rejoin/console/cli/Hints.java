package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** What was likely meant by words that no command takes. */
final class Hints {

    private static final Pattern NUMBER = Pattern.compile("(?:--[a-z-]+=)?([+-]?\\d+(?:\\.\\d+)?),?");
    private static final int MOST = 3;
    private static final Pattern TOO_MANY = Pattern.compile("Unmatched arguments? (?:at|from) index \\d+: (.*)");

    /** A file's name that a shell takes as it stands: letters of any language, digits, and what no shell gives a meaning. */
    private static final Pattern BARE = Pattern.compile("[\\p{L}\\p{N}_./\\\\:+,@-]+");

    private Hints() {}

    /** A file as it is typed behind a command; in quotes where it has blanks. */
    static String typed(Path file) {
        String name = file.toString();
        return BARE.matcher(name).matches() ? name : '"' + name + '"';
    }

    /** What was refused, in one line, in the words of the trade: the parser speaks of its own types. */
    static String said(ParameterException e, String message) {
        Matcher tooMany = TOO_MANY.matcher(message);
        if (tooMany.matches()) {
            String words = tooMany.group(1);
            return words.startsWith("'@")
                    ? "there is no file " + words.replaceAll("^'@|'$", "") + " (@FILE stands for the words of a file)"
                    : commandsAlone(e) ? "there is no command " + words : "nothing is expected here: " + words;
        }
        ArgSpec arg = e.getArgSpec();
        // A value of several lines is not whole in the message, nor would it be here.
        if (arg == null || !message.startsWith("Invalid value for ") || !message.contains("'" + e.getValue() + "'")) {
            return message;
        }
        String name = arg instanceof OptionSpec option ? option.longestName() : arg.paramLabel();
        Class<?> type = arg.auxiliaryTypes()[0];
        if (type == Path.class) {
            return name + " \"" + e.getValue()
                    + "\" has letters that the locale of this terminal does not know, or that no"
                    + " file name may have; set LC_ALL=C.UTF-8, or use another name";
        }
        if (type.isEnum()) {
            String known = Stream.of(type.getEnumConstants())
                    .map(each -> ((Enum<?>) each).name().toLowerCase(Locale.ROOT))
                    .collect(Collectors.joining(", "));
            return name + " " + e.getValue() + " is not one of " + known;
        }
        boolean whole = type != double.class && type != Double.class;
        return name + " " + e.getValue()
                + (whole ? " is not a whole number; write for example 12" : " is not a number; write for example 12.5");
    }

    /** Whether a command stands there and nothing else. */
    private static boolean commandsAlone(ParameterException e) {
        CommandSpec asked = e.getCommandLine().getCommandSpec();
        return !asked.subcommands().isEmpty() && asked.positionalParameters().isEmpty();
    }

    /** "; did you mean ...?" for a mistyped command or option, or a place with a blank for its comma; or nothing. */
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
