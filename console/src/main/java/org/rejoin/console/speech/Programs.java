package org.rejoin.console.speech;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Finds programs that are installed on this machine. */
final class Programs {

    private Programs() {}

    /**
     * The first of these on the search path. Folders that are not absolute are passed over: they would mean another program
     * wherever this one is started.
     *
     * @param names in order of preference, without an ending
     * @param searchPath as in the environment variable PATH
     * @return its file; empty where there is none
     */
    static Optional<Path> find(List<String> names, String searchPath) {
        for (String name : names) {
            for (String folder : searchPath.split(File.pathSeparator, -1)) {
                Optional<Path> file = in(folder, name);
                if (file.isPresent()) {
                    return file;
                }
            }
        }
        return Optional.empty();
    }

    private static Optional<Path> in(String folder, String name) {
        try {
            Path place = Path.of(folder);
            if (!place.isAbsolute()) {
                return Optional.empty();
            }
            for (String ending : List.of("", ".exe")) {
                Path file = place.resolve(name + ending);
                if (Files.isRegularFile(file) && Files.isExecutable(file)) {
                    return Optional.of(file);
                }
            }
            return Optional.empty();
        } catch (InvalidPathException e) {
            return Optional.empty();
        }
    }

    /**
     * A program that the user names: a file, or a name to look for.
     *
     * @param given as typed
     * @param names that are known; its own must be one of them
     * @param searchPath as in the environment variable PATH
     * @return its file
     * @throws IOException if it is another program, or not there; one line
     */
    static Path named(String given, List<String> names, String searchPath) throws IOException {
        Path file;
        try {
            file = Path.of(given);
        } catch (InvalidPathException e) {
            throw new IOException("\"" + given + "\" is not the name of a program", e);
        }
        String name = nameOf(file);
        if (!names.contains(name)) {
            throw new IOException(
                    given + " is a program that is not known here; known are " + String.join(", ", names));
        }
        if (file.getNameCount() == 1 && !file.isAbsolute()) {
            return find(List.of(name), searchPath)
                    .orElseThrow(() -> new IOException(given + " is not installed, or not on the search path"));
        }
        Path whole = file.toAbsolutePath();
        if (!Files.isRegularFile(whole) || !Files.isExecutable(whole)) {
            throw new IOException(given + " is not a program that can be run");
        }
        return whole;
    }

    /** The name of a program without its ending. */
    static String nameOf(Path file) {
        return String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT).replaceFirst("\\.exe$", "");
    }
}
