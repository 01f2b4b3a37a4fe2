package org.rejoin.console.cli;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Stack;

import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.live.FlightView;
import org.rejoin.console.live.LivePage;
import org.rejoin.console.live.RecordingPlace;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.speech.Speech;
import org.rejoin.protocol.yaml.YamlMembers;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.IParameterPreprocessor;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;

/** Whether, where and to whom a flight shows its live page. */
final class PageOptions {

    private static final String DEFAULT_PORT = "8047";
    private static final String NEW_TOKEN = "auto";
    private static final String VARIABLE = "REJOIN_PAGE_TOKEN";
    private static final int MOST_OCTETS = 4_096;

    /** A lesson may stand after {@code --page}: only a number is taken for its port. */
    static final class PortIfNumber implements IParameterPreprocessor {
        @Override
        public boolean preprocess(Stack<String> args, CommandSpec command, ArgSpec option, Map<String, Object> info) {
            if ("=".equals(info.get("separator"))) {
                String typed = args.peek();
                if (!typed.matches("[-+]?\\d+")) {
                    throw AnyCommand.bad(command, "--page " + typed + " is not a port, 0 to 65535");
                }
            } else if (args.isEmpty() || !args.peek().matches("[-+]?\\d+")) {
                args.push(DEFAULT_PORT);
            }
            return false;
        }
    }

    @Option(
            names = "--page",
            arity = "0..1",
            paramLabel = "PORT",
            fallbackValue = DEFAULT_PORT,
            preprocessor = PortIfNumber.class,
            description = "Serve a live page for instructor and pilot on this TCP port (" + DEFAULT_PORT
                    + " if none is given, 0 for a free one).")
    @Nullable
    Integer port;

    @Option(
            names = "--page-bind",
            paramLabel = "ADDRESS",
            description = "Address of this machine to serve the page on (default: 127.0.0.1, this machine only).")
    String bind = "127.0.0.1";

    @Option(
            names = "--page-token",
            paramLabel = "TOKEN",
            description = "Let in only who knows this token, 12 characters or more; \"auto\" makes one and shows it."
                    + " Needed beyond this machine. Other users of this machine can read a command line: better give it by"
                    + " --page-token-file or in the environment variable REJOIN_PAGE_TOKEN.")
    @Nullable
    String token;

    @Option(
            names = "--page-token-file",
            paramLabel = "FILE",
            description = "Take that token from the first line of this file.")
    @Nullable
    Path tokenFile;

    @Option(
            names = "--page-wait",
            description = "Begin when the instructor presses start on the page; nothing is recorded before.")
    boolean waits;

    @Option(
            names = "--page-linger",
            paramLabel = "S",
            description = "After the flight keep serving for so many seconds while a page is open (default: 60).")
    double lingerS = 60;

    @Mixin
    SpeechOptions speech = new SpeechOptions();

    /** What does nothing without a page. Typed it is a slip; in the settings file it waits for a page. */
    private static final List<String> FOR_A_PAGE = List.of(
            "--page-bind",
            "--page-token",
            "--page-token-file",
            "--page-wait",
            "--page-linger",
            "--hear",
            "--hear-program",
            "--hear-model",
            "--keep-sound",
            "--voice",
            "--voice-program",
            "--words-a-minute");

    boolean asked() {
        return port != null;
    }

    /** The page, if one was asked for. */
    Optional<LivePage> open(CommandSpec spec, Lesson lesson, @Nullable RecordingPlace out, FlightView view)
            throws BadInput {
        Integer wanted = port;
        if (wanted == null) {
            Optional<String> idle = FOR_A_PAGE.stream()
                    .filter(spec.commandLine().getParseResult()::hasMatchedOption)
                    .findFirst();
            if (idle.isPresent()) {
                throw AnyCommand.bad(spec, idle.get() + " is for a page: add --page");
            }
            return Optional.empty();
        }
        if (wanted < 0 || wanted > 65_535) {
            throw AnyCommand.bad(spec, "--page " + wanted + " is not a port, 0 to 65535");
        }
        if (!(lingerS >= 0 && lingerS <= 3_600)) {
            throw AnyCommand.bad(spec, "--page-linger " + YamlMembers.plain(lingerS) + ": 0 to 3600 would be right");
        }
        Speech heard = speech.speech(spec);
        return Optional.of(BadInput.in(() -> new LivePage(
                new InetSocketAddress(bind, wanted),
                token(spec).map(given -> given.equals(NEW_TOKEN) ? PageServer.newToken() : given),
                new LivePage.Manner(waits, lingerS, heard),
                lesson,
                out,
                view)));
    }

    /** From the command line, a file, or else the environment. */
    private Optional<String> token(CommandSpec spec) throws IOException {
        if (token != null && tokenFile != null) {
            throw AnyCommand.bad(spec, "--page-token and --page-token-file exclude each other: give one of them");
        }
        Path file = tokenFile;
        if (file == null) {
            return Optional.ofNullable(token).or(() -> SettingsFile.given(System::getenv, VARIABLE));
        }
        byte[] start;
        try (InputStream in = Files.newInputStream(file)) {
            start = in.readNBytes(MOST_OCTETS);
        } catch (IOException e) {
            throw new IOException("--page-token-file " + file + " cannot be read: " + OutputFile.reason(file, e), e);
        }
        Optional<String> line = new String(start, StandardCharsets.UTF_8)
                .lines()
                .map(String::strip)
                .findFirst();
        if (line.isEmpty() || line.get().isEmpty()) {
            throw new IOException("--page-token-file " + file + " has no token in its first line");
        }
        return line;
    }
}
