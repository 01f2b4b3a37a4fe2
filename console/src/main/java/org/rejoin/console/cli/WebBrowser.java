package org.rejoin.console.cli;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;

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
        Optional<List<String>> command = Optional.empty();
        if (os.contains("windows")) {
            command = SettingsFile.given(environment, "SystemRoot")
                    .map(root ->
                            List.of(root + "\\System32\\rundll32.exe", "url.dll,FileProtocolHandler", page.toString()));
        } else if (os.contains("mac")) {
            command = Optional.of(List.of("/usr/bin/open", page.toString()));
        } else if (Stream.of("DISPLAY", "WAYLAND_DISPLAY")
                .anyMatch(screen -> SettingsFile.given(environment, screen).isPresent())) {
            // Without a screen it would open a browser of text in this very terminal.
            command = Optional.of(List.of("/usr/bin/xdg-open", page.toString()));
        }
        return command.filter(words ->
                        SettingsFile.given(environment, "SSH_CONNECTION").isEmpty())
                .filter(words -> there.test(Path.of(words.get(0))));
    }
}
