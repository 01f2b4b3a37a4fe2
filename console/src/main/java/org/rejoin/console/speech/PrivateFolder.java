package org.rejoin.console.speech;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A folder of this user's alone for what a program reads and writes; gone with all that is in it when it is closed. */
final class PrivateFolder implements AutoCloseable {

    /** Then the number of the process that uses it. */
    private static final String NAME = "rejoin-sound-";

    private static final Pattern OURS = Pattern.compile(NAME + "(\\d+)-.*");

    private final Path place;

    /**
     * A fresh one.
     *
     * @throws IOException if there is no room for it
     */
    PrivateFolder() throws IOException {
        boolean posix =
                Path.of("").getFileSystem().supportedFileAttributeViews().contains("posix");
        FileAttribute<?>[] mine = posix
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------"))
                }
                : new FileAttribute<?>[0];
        this.place = Files.createTempDirectory(NAME + ProcessHandle.current().pid() + "-", mine);
    }

    /** Deletes what a run of this program that was killed outright left behind. What cannot be deleted is left. */
    static void sweep() {
        Path temp = Path.of(System.getProperty("java.io.tmpdir"));
        try (DirectoryStream<Path> all = Files.newDirectoryStream(temp, NAME + "*")) {
            for (Path each : all) {
                Matcher ours = OURS.matcher(String.valueOf(each.getFileName()));
                if (ours.matches() && Files.isDirectory(each, LinkOption.NOFOLLOW_LINKS) && !isRunning(ours.group(1))) {
                    deleteIfMine(each);
                }
            }
        } catch (IOException e) {
            // There is no such folder.
        }
    }

    private static boolean isRunning(String process) {
        try {
            return ProcessHandle.of(Long.parseLong(process)).isPresent();
        } catch (NumberFormatException e) {
            return true;
        }
    }

    private static void deleteIfMine(Path place) {
        try {
            delete(place);
        } catch (IOException e) {
            // Another user's, or gone meanwhile.
        }
    }

    private static void delete(Path place) throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(place)) {
            for (Path file : files) {
                Files.deleteIfExists(file);
            }
        }
        Files.deleteIfExists(place);
    }

    /** A file in it that a program will write. */
    Path file(String name) {
        return place.resolve(name);
    }

    /** A file in it with this content, for its owner alone. */
    Path file(String name, byte[] content) throws IOException {
        Path file = place.resolve(name);
        boolean posix = place.getFileSystem().supportedFileAttributeViews().contains("posix");
        if (posix) {
            Files.createFile(file, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------")));
        }
        return Files.write(file, content);
    }

    /**
     * What a program wrote.
     *
     * @throws IOException if there is nothing, or more than the limit; one line
     */
    static byte[] read(Path file, int mostOctets) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new IOException("the program wrote nothing");
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] octets = in.readNBytes(mostOctets + 1);
            if (octets.length > mostOctets) {
                throw new IOException("the program wrote more than " + mostOctets + " octets");
            }
            return octets;
        }
    }

    @Override
    public void close() throws IOException {
        delete(place);
    }
}
