package org.rejoin.console.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;

import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/** The manual page of all commands, in the macros of man(7). */
final class ManPage {

    private final List<String> lines = new ArrayList<>();

    private ManPage() {}

    /**
     * The page, made of the commands themselves.
     *
     * @param program with all its commands
     * @return lines of roff
     */
    static List<String> of(CommandLine program) {
        ManPage page = new ManPage();
        CommandSpec spec = program.getCommandSpec();
        page.lines.add(".TH REJOIN 1 \"\" \"" + plain(spec.version()[0]) + "\" \"Rejoin\"");
        page.section("NAME");
        page.lines.add("rejoin \\- " + plain(spec.usageMessage().description()[0]));
        page.section("SYNOPSIS");
        page.lines.add(".B rejoin");
        page.lines.add("COMMAND [OPTION]...");
        page.section("DESCRIPTION");
        for (String text : spec.usageMessage().description()) {
            page.paragraph(text);
        }
        page.options(spec);
        page.section("COMMANDS");
        page.commands("", program);
        page.section("EXIT STATUS");
        page.term("0", "Done.");
        page.term("1", "Something went wrong that is not the user's doing.");
        page.term("2", "Bad usage or bad input; one line says what, where, and what would be right.");
        page.term("3", "feed learn is unsure.");
        return page.lines;
    }

    private void commands(String before, CommandLine program) {
        new TreeMap<>(program.getSubcommands()).forEach((name, sub) -> {
            String typed = before + name;
            CommandSpec spec = sub.getCommandSpec();
            lines.add(".SS " + plain(typed));
            lines.add(".B rejoin " + plain(typed));
            lines.add(plain(synopsis(spec)));
            for (String text : spec.usageMessage().description()) {
                if (!text.equals(Rejoin.CAUTION)) {
                    paragraph(text);
                }
            }
            spec.positionalParameters().stream()
                    .filter(parameter -> !parameter.hidden())
                    .forEach(parameter -> term(parameter.paramLabel(), description(parameter)));
            options(spec);
            commands(typed + " ", sub);
        });
    }

    private static String synopsis(CommandSpec spec) {
        return String.join(
                " ",
                spec.positionalParameters().stream()
                        .map(parameter -> parameter.arity().min() == 0
                                ? "[" + parameter.paramLabel() + "]"
                                : parameter.paramLabel())
                        .toList());
    }

    private void options(CommandSpec spec) {
        for (OptionSpec option : spec.options()) {
            if (!option.hidden() && !option.usageHelp() && !option.versionHelp()) {
                String value = option.arity().max() == 0 ? "" : " " + option.paramLabel();
                term(String.join(", ", option.names()) + value, description(option));
            }
        }
    }

    private static String description(ArgSpec arg) {
        return String.join(" ", arg.description());
    }

    private void section(String title) {
        lines.add(".SH " + title);
    }

    private void paragraph(String text) {
        lines.add(".PP");
        lines.add(plain(text));
    }

    private void term(String term, String text) {
        lines.add(".TP");
        lines.add(".B " + plain(term));
        lines.add(plain(text));
    }

    /** Without the marks of the help's styles, and with what roff would take for its own made harmless. */
    private static String plain(String text) {
        String shown = Help.Ansi.OFF
                .string(text)
                .replace("%n", " ")
                .replace("%%", "%")
                .replace("\\", "\\e")
                .replace("-", "\\-");
        return shown.startsWith(".") || shown.startsWith("'") ? "\\&" + shown : shown;
    }
}
