package org.rejoin.console.cli;

import java.util.TreeMap;

import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/** {@code man}: the manual page of all commands, made of the commands themselves, in the macros of man(7). */
@Command(name = "man", description = "Print the manual page; to read it: rejoin man | man -l -.")
final class ManCommand extends AnyCommand {

    @Override
    public Integer call() {
        CommandLine program = Rejoin.whole();
        CommandSpec all = program.getCommandSpec();
        out().println(".TH REJOIN 1 \"\" \"" + plain(all.version()[0]) + "\" \"Rejoin\"");
        section("NAME");
        out().println("rejoin \\- " + plain(all.usageMessage().description()[0]));
        section("SYNOPSIS");
        out().println(".B rejoin");
        out().println("COMMAND [OPTION]...");
        section("DESCRIPTION");
        for (String text : all.usageMessage().description()) {
            paragraph(text);
        }
        options(all);
        section("COMMANDS");
        commands("", program);
        section("EXIT STATUS");
        term("0", "Done.");
        term("1", "Something went wrong that is not the user's doing.");
        term("2", "Bad usage or bad input; one line says what, where, and what would be right.");
        term("3", "feed learn is unsure.");
        return Rejoin.DONE;
    }

    private void commands(String before, CommandLine program) {
        new TreeMap<>(program.getSubcommands()).forEach((name, sub) -> {
            String typed = before + name;
            CommandSpec one = sub.getCommandSpec();
            out().println(".SS " + plain(typed));
            out().println(".B rejoin " + plain(typed));
            out().println(plain(synopsis(one)));
            for (String text : one.usageMessage().description()) {
                if (!text.equals(Rejoin.CAUTION)) {
                    paragraph(text);
                }
            }
            one.positionalParameters().stream()
                    .filter(parameter -> !parameter.hidden())
                    .forEach(parameter -> term(parameter.paramLabel(), description(parameter)));
            options(one);
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
        out().println(".SH " + title);
    }

    private void paragraph(String text) {
        out().println(".PP");
        out().println(plain(text));
    }

    private void term(String term, String text) {
        out().println(".TP");
        out().println(".B " + plain(term));
        out().println(plain(text));
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
