package org.rejoin.console.speech;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;

/** A folder of this user's alone for what a program reads and writes; gone with all that is in it when it is closed. */
final class PrivateFolder implements AutoCloseable {

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
        this.place = Files.createTempDirectory("rejoin-", mine);
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
        try (DirectoryStream<Path> files = Files.newDirectoryStream(place)) {
            for (Path file : files) {
                Files.deleteIfExists(file);
            }
        }
        Files.deleteIfExists(place);
    }
}
