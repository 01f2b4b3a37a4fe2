package org.rejoin.console.cli;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;

import org.jspecify.annotations.Nullable;

/** Opens the page that this program serves in the user's own browser, by the one command that each system has for it. */
final class WebBrowser {

    private WebBrowser() {}

    /**
     * Opens a page and does not wait for it.
     *
     * @return false where this system has no way, or none that may be used here
     */
    static boolean open(URI page) {
        Optional<List<String>> command =
                command(System.getProperty("os.name", ""), System::getenv, Files::isExecutable, page);
        if (command.isEmpty()) {
            return false;
        }
        ProcessBuilder builder = new ProcessBuilder(command.get());
        // A browser needs the session that it is shown in; what is this program's own is none of its business.
        builder.environment().keySet().removeIf(name -> name.startsWith("REJOIN_"));
        builder.redirectOutput(ProcessBuilder.Redirect.DISCARD).redirectError(ProcessBuilder.Redirect.DISCARD);
        try {
            builder.start().getOutputStream().close();
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /**
     * The command: a program of the system by its whole path, the address as an argument of its own, no shell.
     *
     * @param system its name, as in the property os.name
     * @param environment of this program; without a screen of its own (a remote login, no display) nothing is opened
     * @return empty where nothing may be opened
     */
    static Optional<List<String>> command(
            String system, UnaryOperator<@Nullable String> environment, Predicate<Path> there, URI page) {
        String os = system.toLowerCase(Locale.ROOT);
        if (given(environment, "SSH_CONNECTION")) {
            return Optional.empty();
        }
        if (os.contains("windows")) {
            String root = environment.apply("SystemRoot");
            return root == null || root.isBlank()
                    ? Optional.empty()
                    : ifThere(there, root + "\\System32\\rundll32.exe", "url.dll,FileProtocolHandler", page);
        }
        if (os.contains("mac")) {
            return ifThere(there, "/usr/bin/open", page);
        }
        // Without a screen it would open a browser of text in this very terminal.
        boolean screen = given(environment, "DISPLAY") || given(environment, "WAYLAND_DISPLAY");
        return screen ? ifThere(there, "/usr/bin/xdg-open", page) : Optional.empty();
    }

    private static boolean given(UnaryOperator<@Nullable String> environment, String name) {
        String value = environment.apply(name);
        return value != null && !value.isBlank();
    }

    private static Optional<List<String>> ifThere(Predicate<Path> there, String program, Object... arguments) {
        if (!there.test(Path.of(program))) {
            return Optional.empty();
        }
        List<String> command = new ArrayList<>(List.of(program));
        for (Object argument : arguments) {
            command.add(argument.toString());
        }
        return Optional.of(List.copyOf(command));
    }
}
