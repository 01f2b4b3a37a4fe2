package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;

import org.rejoin.console.recording.Durable;
import org.rejoin.console.recording.PlaceTakenException;

/** A file that was asked for, written or refused in words; over a file of the user's nothing is ever written. */
final class OutputFile {

    private OutputFile() {}

    /** Writes text as UTF-8. */
    static void write(String option, Path file, String text) throws IOException, BadInput {
        write(option, file, text.getBytes(StandardCharsets.UTF_8));
    }

    /** Writes the file that an option named; refuses where one is there that would change. */
    static void write(String option, Path file, byte[] octets) throws IOException, BadInput {
        requireFree(option, file, octets);
        try {
            if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
                Files.write(file, octets, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
            } else if (!Files.isRegularFile(file)) {
                Files.write(file, octets); // a pipe, or the terminal
            }
        } catch (IOException e) {
            throw new IOException(option + " " + file + " cannot be written: " + reason(file, e), e);
        }
    }

    /** Refuses where a file of that name is there that holds anything else. */
    static void requireFree(String option, Path file, byte[] octets) throws IOException, BadInput {
        if (Files.isRegularFile(file)
                && !(Files.size(file) == octets.length && Arrays.equals(Files.readAllBytes(file), octets))) {
            throw new BadInput(file + " exists already and is left as it is; name another file with " + option);
        }
    }

    /** Which file cannot be used, why, and what would be right: the system's own words say little but its name. */
    static String said(IOException e) {
        return e instanceof FileSystemException named && named.getFile() != null
                ? named.getFile() + ": " + reason(Path.of(named.getFile()), e)
                : e.getMessage() == null ? e.toString() : e.getMessage();
    }

    /**
     * Whether the user named a place that nothing can be written to or read from; a disk that is full or fails is not
     * the user's to mend on the command line.
     *
     * @param e as thrown, or the cause of it
     * @return true if another name would help
     */
    static boolean isBadPlace(Throwable e) {
        Throwable cause = e.getCause();
        return e instanceof PlaceTakenException
                || e instanceof NoSuchFileException
                || e instanceof AccessDeniedException
                || e instanceof FileAlreadyExistsException
                || e instanceof NotDirectoryException
                || (e instanceof FileSystemException file
                        && file.getFile() != null
                        && (Files.isDirectory(Path.of(file.getFile())) || isBelowAFile(Path.of(file.getFile()))))
                || (cause != null && isBadPlace(cause));
    }

    private static boolean isBelowAFile(Path file) {
        Path parent = file.toAbsolutePath().getParent();
        return parent != null && Files.exists(parent) && !Files.isDirectory(parent);
    }

    /** Why a file that the user named cannot be used, and what would be right. */
    static String reason(Path file, IOException e) {
        Path parent = file.toAbsolutePath().getParent();
        if (Files.isDirectory(file)) {
            return "it is a directory; name a file in it";
        }
        if (Files.isSymbolicLink(file) && String.valueOf(e.getMessage()).contains("symbolic link")) {
            return "it is a symbolic link, and nothing is written through one; name a file";
        }
        if (isBelowAFile(file)) {
            return parent + " is a file, not a directory; name a file in a directory";
        }
        if (e instanceof NoSuchFileException) {
            return parent != null && !Files.exists(parent)
                    ? "there is no directory " + parent + "; make it, or name a file in one that is there"
                    : "there is no such file";
        }
        if (e instanceof AccessDeniedException) {
            return "no permission; check the permissions of the file and its directory, or name another place";
        }
        if (e instanceof FileAlreadyExistsException) {
            return "a file of that name is in the way; name another place";
        }
        return Durable.why(e);
    }
}
