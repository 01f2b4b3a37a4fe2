package org.rejoin.console.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.console.drill.NoDrillException;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.live.LiveFlight;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.Option;

/** The program: its commands, how they end, and how they say what is wrong. */
@Command(
        name = "rejoin",
        description = "Practise the moment when air traffic control changes the route.",
        version = "Rejoin 0.1.0",
        footer = {
            "",
            "Put the options that you always give into a settings file; --print-settings says where it is. An argument"
                    + " @FILE is replaced by the words of that file."
        })
public final class Rejoin extends AnyCommand {

    /** Stands in the help of every command. */
    public static final String CAUTION = Words.CAUTION;

    /** Each goes by the name of its class: {@code BriefCommand} is {@code brief}. */
    private static final List<Class<?>> COMMANDS = List.of(
            FlyCommand.class,
            ListenCommand.class,
            RoomCommand.class,
            BriefCommand.class,
            DebriefCommand.class,
            ChartCommand.class,
            LessonCommand.class,
            DrillCommand.class,
            SayCommand.class,
            ProgressCommand.class,
            FeedCommand.class,
            AttemptsCommand.class,
            PilotsCommand.class,
            CompletionCommand.class,
            ManCommand.class);

    /** Asks for JSON, of each command that has it. */
    private static final String JSON = "--json";

    static final int DONE = 0;

    /** Something went wrong that is not the user's doing. */
    static final int FAILED = 1;

    static final int BAD_INPUT = 2;

    /** In JSON, of what ends with {@link #FAILED}. */
    private static final String BROKEN = "FAILED";

    /** What to do first, for who starts it with nothing. */
    static final List<String> FIRST_STEPS = List.of(
            "Rejoin: practise the moment when air traffic control changes the route.",
            "  fly --rate 4 --page    see a first flight, four times as fast; no simulator needed",
            "  feed watch             see what your simulator sends; then: listen radial-outbound --page",
            "  room                   a teaching day on one page: pilots, lessons, records; --help says all",
            CAUTION);

    @Option(names = "--print-settings", description = "Print where the settings file is and what it says, and end.")
    boolean printSettings;

    private @Nullable SettingsFile settings;

    @Override
    public Integer call() {
        PrintWriter out = out();
        if (printSettings) {
            if (settings == null) {
                throw bad("no place for settings: the environment names no home folder");
            }
            settings.lines().forEach(out::println);
        } else if (Terminal.attached()) {
            FIRST_STEPS.forEach(out::println);
        } else {
            spec.commandLine().usage(out);
        }
        return DONE;
    }

    /** Runs one command and ends the program with its exit code. */
    public static void main(String[] args) {
        StandardOutput out = new StandardOutput(new FileOutputStream(FileDescriptor.out));
        StandardOutput err = new StandardOutput(new FileOutputStream(FileDescriptor.err));
        PrintWriter print = out.writer();
        PrintWriter say = err.writer();
        int code = run(print, say, args);
        if (!out.trouble().isEmpty() && code == DONE) {
            // Who reads only the beginning, as head does, knows.
            if (!out.trouble().contains("Broken pipe")) {
                say.println("rejoin: standard output could not be written: " + out.trouble());
            }
            code = FAILED;
        }
        System.exit(code);
    }

    /**
     * Runs one command.
     *
     * @param out takes what was asked for
     * @return 0 done, 2 bad usage or input, 3 unsure (feed learn), 1 anything else
     */
    public static int run(PrintWriter out, PrintWriter err, String... args) {
        try {
            return execute(out, err, args);
        } catch (OutOfMemoryError e) { // what was being read is garbage by now: there is room for a line
            LoggerFactory.getLogger(Rejoin.class).debug("command failed", e);
            return broken(
                    out,
                    err,
                    "this needs more memory than the "
                            + (Runtime.getRuntime().maxMemory() >> 20)
                            + " MB that Java may take; give it more, as with java -Xmx2g -jar rejoin.jar",
                    args);
        } catch (LinkageError e) {
            return broken(
                    out,
                    err,
                    "a part of the program is missing or damaged: " + oneLine(e)
                            + "; put the program's file in its place again" + details(e, err, args),
                    args);
        } catch (RuntimeException | Error e) {
            return broken(out, err, unexpected(e) + details(e, err, args), args);
        } finally {
            out.flush();
        }
    }

    private static int execute(PrintWriter out, PrintWriter err, String... args) {
        Rejoin program = new Rejoin();
        Optional<Path> place = SettingsFile.place(System::getenv, System.getProperty("os.name", ""));
        boolean settings = place.filter(Files::isRegularFile).isPresent();
        CommandLine command = commandLine(program, settings ? COMMANDS : asked(args));
        command.setOut(out);
        command.setErr(err);
        command.setUsageHelpAutoWidth(Terminal.attached());
        if (place.isPresent()) {
            try {
                program.settings = SettingsFile.read(place.get(), command);
            } catch (BadInput e) {
                err.println("rejoin: " + oneLine(e));
                return BAD_INPUT;
            }
            command.setDefaultValueProvider(program.settings);
        }
        command.setCaseInsensitiveEnumValuesAllowed(true);
        command.setParameterExceptionHandler((e, ignored) -> {
            CommandSpec asked = e.getCommandLine().getCommandSpec();
            String refused = Hints.said(e, oneLine(e));
            String said = refused + (program.settings == null ? "" : program.settings.source(refused, asked, args));
            e.getCommandLine()
                    .getErr()
                    .println("rejoin: " + said + Hints.of(e, args) + " (" + asked.qualifiedName()
                            + " --help says more)");
            inJson(e.getCommandLine(), List.of(args), "BAD_USAGE", said);
            return BAD_INPUT;
        });
        command.setExecutionExceptionHandler((e, line, ignored) -> failed(e, line, List.of(args)));
        return command.execute(args);
    }

    /** Whatever is broken, the log may be too: the details are printed without it. */
    private static String details(Throwable e, PrintWriter err, String... args) {
        if (!List.of(args).contains("--verbose")) {
            return " (run again with --verbose for details)";
        }
        e.printStackTrace(err);
        return "";
    }

    private static int broken(PrintWriter out, PrintWriter err, String text, String... args) {
        err.println("rejoin: " + text);
        err.flush();
        if (List.of(args).contains(JSON)) {
            try {
                out.println(refusal(BROKEN, text));
                out.flush();
            } catch (LinkageError e) {
                err.println("rejoin: and so is what writes JSON");
            }
        }
        return FAILED;
    }

    private static String unexpected(Throwable e) {
        return "unexpected: " + e.getClass().getSimpleName() + ": " + oneLine(e);
    }

    static CommandLine whole() {
        return commandLine(new Rejoin(), COMMANDS);
    }

    private static CommandLine commandLine(Rejoin program, List<Class<?>> commands) {
        CommandLine line = new CommandLine(program);
        commands.forEach(line::addSubcommand);
        caution(line);
        return line;
    }

    /** Ends the description of each command. */
    private static void caution(CommandLine line) {
        UsageMessageSpec help = line.getCommandSpec().usageMessage();
        help.description(
                Stream.concat(Stream.of(help.description()), Stream.of(CAUTION)).toArray(String[]::new));
        line.getSubcommands().values().forEach(Rejoin::caution);
    }

    /** The command that the first word names: the others need not be made ready. All where it names none. */
    static List<Class<?>> asked(String... args) {
        String first = args.length == 0 ? "" : args[0];
        List<Class<?>> named = COMMANDS.stream()
                .filter(command ->
                        command.getSimpleName().toLowerCase(Locale.ROOT).equals(first + "command"))
                .toList();
        return named.isEmpty() ? COMMANDS : named;
    }

    /** Who asked for JSON reads what was wrong where the answer would be. Typed, or from the settings. */
    private static void inJson(CommandLine line, List<String> args, String code, String text) {
        OptionSpec option = line.getCommandSpec().findOption(JSON);
        boolean set = option != null && Boolean.TRUE.equals(option.getValue());
        if (set || args.contains(JSON)) {
            refusalInJson(line, code, text);
        }
    }

    /** Of every command with {@code --json} a program reads the refusal where it reads the answer. */
    static void refusalInJson(CommandLine line, String code, String text) {
        line.getOut().println(refusal(code, text));
        line.getOut().flush();
    }

    private static String refusal(String code, String text) {
        ObjectNode error = JsonNodeFactory.instance.objectNode();
        error.putObject("error").put("code", code).put("text", text);
        return error.toString();
    }

    private static int failed(Exception thrown, CommandLine line, List<String> args) {
        Exception e = thrown instanceof LiveFlight.UnusableException unusable ? BadInput.of(unusable) : thrown;
        Logger log = LoggerFactory.getLogger(Rejoin.class);
        log.debug("command failed", e);
        Terminal.endedByItself(); // of a flight that has failed: the program ends with the code of that
        String code = "BAD_INPUT";
        String text = oneLine(e);
        String before = "";
        String after = "";
        if (e instanceof ClearanceException clearance) {
            code = clearance.code().name();
            before = code + ": ";
        } else if (e instanceof IOException || e instanceof UncheckedIOException) {
            text = e instanceof FileSystemException file ? OutputFile.said(file) : text;
            code = OutputFile.isBadPlace(e) ? code : BROKEN;
        } else if (!(e instanceof LessonException || e instanceof BadInput || e instanceof NoDrillException)) {
            text = unexpected(e);
            code = BROKEN;
            after = " (run again with --verbose for details)";
        }
        line.getErr().println("rejoin: " + before + text + after);
        inJson(line, args, code, text);
        return code.equals(BROKEN) ? FAILED : BAD_INPUT;
    }

    private static String oneLine(Throwable e) {
        String message = e.getMessage() == null ? e.toString() : e.getMessage();
        return message.lines()
                .findFirst()
                .orElse("")
                .replaceFirst("^" + e.getClass().getName().toLowerCase(Locale.ROOT), "");
    }

    @Command(
            name = "feed",
            description =
                    "See what a simulator sends, test the profile that describes it, or have the profile worked out.",
            subcommands = {FeedWatch.class, FeedLearn.class, FeedCheck.class})
    static final class FeedCommand extends AnyCommand {}

    @Command(
            name = "completion",
            description = "Print the completion script for bash and zsh: source <(rejoin completion).")
    static final class CompletionCommand extends AnyCommand {

        @Override
        public Integer call() {
            CommandLine program = Rejoin.whole();
            out().print(AutoComplete.bash("rejoin", program));
            return Rejoin.DONE;
        }
    }
}
