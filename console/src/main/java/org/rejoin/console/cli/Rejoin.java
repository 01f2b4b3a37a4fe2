package org.rejoin.console.cli;

import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.util.Locale;
import java.util.concurrent.Callable;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.console.lesson.LessonException;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The program: its commands, how they end, and how they say what is wrong. */
@Command(
        name = "rejoin",
        description = {"Practise the moment when air traffic control changes the route.", Rejoin.CAUTION},
        mixinStandardHelpOptions = true,
        version = "Rejoin 0.1.0",
        subcommands = {
            FlyCommand.class,
            ListenCommand.class,
            BriefCommand.class,
            DebriefCommand.class,
            ChartCommand.class,
            FeedCommand.class,
            AttemptsCommand.class,
            PilotsCommand.class
        })
public final class Rejoin implements Callable<Integer> {

    /** Stands on every page, report and help. */
    public static final String CAUTION =
            "For simulation and training only. Not for navigation. Follow local rules and your instructor.";

    /** Done. */
    static final int DONE = 0;

    /** Something went wrong that is not the user's doing. */
    static final int FAILED = 1;

    /** Bad usage or bad input. */
    static final int BAD_INPUT = 2;

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() {
        spec.commandLine().usage(spec.commandLine().getOut());
        return DONE;
    }

    /**
     * Runs one command and ends the program with its exit code.
     *
     * @param args command and options
     */
    public static void main(String[] args) {
        System.exit(run(writer(System.out), writer(System.err), args));
    }

    /** UTF-8 whatever the machine's own character set is: output is the same everywhere. */
    private static PrintWriter writer(PrintStream stream) {
        return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), true);
    }

    /**
     * Runs one command.
     *
     * @param out takes what was asked for
     * @param err takes diagnostics
     * @param args command and options
     * @return 0 done, 2 bad usage or input, 3 unsure (feed learn), 1 anything else
     */
    public static int run(PrintWriter out, PrintWriter err, String... args) {
        CommandLine command = new CommandLine(new Rejoin());
        command.setOut(out);
        command.setErr(err);
        command.setCaseInsensitiveEnumValuesAllowed(true);
        command.setParameterExceptionHandler((e, ignored) -> {
            e.getCommandLine()
                    .getErr()
                    .println("rejoin: " + Hints.said(oneLine(e)) + Hints.of(e, args) + " ("
                            + e.getCommandLine().getCommandSpec().qualifiedName() + " --help says more)");
            return BAD_INPUT;
        });
        command.setExecutionExceptionHandler((e, line, ignored) -> failed(e, line));
        try {
            return command.execute(args);
        } catch (OutOfMemoryError e) { // what was being read is garbage by now: there is room for a line
            LoggerFactory.getLogger(Rejoin.class).debug("command failed", e);
            err.println("rejoin: this needs more memory than the "
                    + (Runtime.getRuntime().maxMemory() >> 20)
                    + " MB that Java may take; give it more, as with java -Xmx2g -jar rejoin.jar");
            return FAILED;
        }
    }

    private static int failed(Exception e, CommandLine line) {
        Logger log = LoggerFactory.getLogger(Rejoin.class);
        log.debug("command failed", e);
        if (e instanceof ClearanceException clearance) {
            line.getErr().println("rejoin: " + clearance.code() + ": " + oneLine(e));
            return BAD_INPUT;
        }
        if (e instanceof LessonException || e instanceof BadInput) {
            line.getErr().println("rejoin: " + oneLine(e));
            return BAD_INPUT;
        }
        if (e instanceof IOException || e instanceof UncheckedIOException) {
            line.getErr()
                    .println("rejoin: " + (e instanceof FileSystemException file ? OutputFile.said(file) : oneLine(e)));
            return OutputFile.isBadPlace(e) ? BAD_INPUT : FAILED;
        }
        line.getErr()
                .println("rejoin: unexpected: " + e.getClass().getSimpleName() + ": " + oneLine(e)
                        + " (run again with --verbose for details)");
        return FAILED;
    }

    private static String oneLine(Exception e) {
        String message = e.getMessage() == null ? e.toString() : e.getMessage();
        return message.lines()
                .findFirst()
                .orElse("")
                .replaceFirst("^" + e.getClass().getName().toLowerCase(Locale.ROOT), "");
    }
}
