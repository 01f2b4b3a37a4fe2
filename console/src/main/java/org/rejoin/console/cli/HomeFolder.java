package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** {@code --home}: the data folder; by default the platform's place for a user's data. */
final class HomeFolder {

    @Option(
            names = "--home",
            paramLabel = "DIR",
            description = "Data folder (default: the platform's place for a user's data).")
    @Nullable
    Path home;

    Path folder() {
        return home == null
                ? byDefault(
                        System.getenv(),
                        System.getProperty("os.name", ""),
                        Path.of(System.getProperty("user.home", ".")))
                : home;
    }

    /** XDG Base Directory Specification; elsewhere what the platform's own guidelines name. */
    static Path byDefault(Map<String, String> environment, String system, Path user) {
        String os = system.toLowerCase(Locale.ROOT);
        if (os.startsWith("windows")) {
            String local = environment.get("LOCALAPPDATA");
            return (local == null ? user.resolve("AppData").resolve("Local") : Path.of(local)).resolve("Rejoin");
        }
        if (os.startsWith("mac")) {
            return user.resolve("Library").resolve("Application Support").resolve("Rejoin");
        }
        String data = environment.get("XDG_DATA_HOME");
        // The specification ignores relative paths.
        boolean absolute = data != null && Path.of(data).isAbsolute();
        return (absolute ? Path.of(data) : user.resolve(".local").resolve("share")).resolve("rejoin");
    }
}
