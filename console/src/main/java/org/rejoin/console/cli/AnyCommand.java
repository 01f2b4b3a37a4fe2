package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;

import org.rejoin.protocol.yaml.YamlMembers;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What every command has: its help, where it prints, how it refuses what was typed. */
@Command(mixinStandardHelpOptions = true)
abstract class AnyCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    /** A command that only holds others says which they are. */
    @Override
    public Integer call() throws Exception {
        spec.commandLine().usage(out());
        return Rejoin.DONE;
    }

    final PrintWriter out() {
        return spec.commandLine().getOut();
    }

    final PrintWriter err() {
        return spec.commandLine().getErr();
    }

    /** A number outside of its limits. */
    final ParameterException outside(String option, double number, String right) {
        return bad(option + " " + YamlMembers.plain(number) + ": " + right + " would be right");
    }

    /** An option that makes no sense, in one line. */
    final ParameterException bad(String message) {
        return bad(spec, message);
    }

    /** The same of an option that several commands have. */
    static ParameterException bad(CommandSpec spec, String message) {
        return new ParameterException(spec.commandLine(), message);
    }

    final void note(String text) {
        HomeOption.note(spec, text);
    }

    /** A command with {@code --verbose}: diagnostics on standard error, for the logging configuration when it logs its first line. */
    abstract static class Verbose extends AnyCommand {

        /** System property that the logging configuration reads. */
        static final String LEVEL = "rejoin.log.level";

        @Option(names = "--verbose", description = "Print diagnostics on standard error.")
        void verbose(boolean on) {
            if (on) {
                System.setProperty(LEVEL, "DEBUG");
            }
        }
    }
}
