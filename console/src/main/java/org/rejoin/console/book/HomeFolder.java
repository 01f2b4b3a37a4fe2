package org.rejoin.console.book;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * The data folder: {@code attempts/}, {@code roster.json}, {@code statements/}, {@code secret}, the disposable {@code
 * index.db}, and {@code folder.json} that says which format all this has. A copy of the folder is a backup.
 */
@SuppressWarnings("try") // a lock is held, not used
public final class HomeFolder {

    /** Counts up when an older program could not read what a newer one wrote. */
    static final int FORMAT = 1;

    private static final Duration PATIENCE = Duration.ofSeconds(5);
    /** A long recording is flown again before it is in the book. */
    private static final Duration ADDING = Duration.ofMinutes(2);

    private static final int SECRET_OCTETS = 32;

    private final Path place;

    private HomeFolder(Path place) {
        this.place = place;
    }

    /**
     * The platform's place for a user's data, by the system's name as Java gives it, the environment of the program and
     * the user's own folder: XDG_DATA_HOME or {@code ~/.local/share} (XDG Base Directory Specification 0.8),
     * LOCALAPPDATA on Windows, {@code Library/Application Support} on a Mac, with our name in it.
     */
    public static Path usualPlace(String system, Map<String, String> environment, Path user) {
        String small = system.toLowerCase(Locale.ROOT);
        if (small.startsWith("windows")) {
            String local = environment.getOrDefault("LOCALAPPDATA", "");
            return (local.isBlank() ? user.resolve("AppData").resolve("Local") : Path.of(local)).resolve("Rejoin");
        }
        if (small.startsWith("mac")) {
            return user.resolve("Library").resolve("Application Support").resolve("Rejoin");
        }
        String data = environment.getOrDefault("XDG_DATA_HOME", "");
        // A relative one is to be ignored, says the specification.
        boolean usable = !data.isBlank() && Path.of(data).isAbsolute();
        return (usable ? Path.of(data) : user.resolve(".local").resolve("share")).resolve("rejoin");
    }

    /**
     * Opens the folder to write to it; made if it is missing.
     *
     * @throws IOException if it is a file, cannot be written to, or is of a newer version; one line
     */
    public static HomeFolder open(Path place) throws IOException {
        if (Files.exists(place) && !Files.isDirectory(place)) {
            throw new IOException(place + " is a file; the data folder is a folder (--home DIR)");
        }
        try {
            if (!Files.exists(place)) {
                Files.createDirectories(place, ownersAlone(place, "rwx------"));
            }
            Files.createDirectories(place.resolve("attempts"));
        } catch (IOException e) {
            throw new IOException("the data folder " + place + " cannot be made: " + Durable.why(e), e);
        }
        HomeFolder folder = new HomeFolder(place);
        folder.checkFormat();
        if (!Files.isWritable(place)) {
            throw new IOException("the data folder " + place + " cannot be written to: no permission");
        }
        if (!Files.exists(folder.marker())) {
            Durable.write(folder.marker(), "{\"format\": " + FORMAT + ", \"program\": \"Rejoin\"}\n");
        }
        return folder;
    }

    /**
     * Opens the folder to read in it; nothing of it is made or changed.
     *
     * @throws IOException if there is none, or it is of a newer version; one line
     */
    public static HomeFolder existing(Path place) throws IOException {
        if (!Files.isDirectory(place)) {
            throw new IOException(
                    Files.exists(place)
                            ? place + " is a file; the data folder is a folder (--home DIR)"
                            : "there is no data folder " + place
                                    + " yet: nothing has been kept in it (--home DIR names another)");
        }
        HomeFolder folder = new HomeFolder(place);
        folder.checkFormat();
        return folder;
    }

    private void checkFormat() throws IOException {
        JsonNode marker;
        try {
            marker = BookJson.read(Files.readAllBytes(marker()));
        } catch (NoSuchFileException e) {
            return;
        } catch (IOException e) {
            throw new IOException(marker() + " cannot be read: " + Durable.why(e)
                    + "; it says which format the folder has, as {\"format\": " + FORMAT + "}");
        }
        int format = marker.path("format").asInt(0);
        if (format < 1) {
            throw new IOException(marker() + " does not say which format the folder has; {\"format\": " + FORMAT
                    + "} would be right for one made by this version");
        }
        if (format > FORMAT) {
            throw new IOException("the data folder " + place + " was written by a newer version (format " + format
                    + "; this one knows " + FORMAT + "): use that version, nothing was changed");
        }
    }

    /** {@return where it lies, the directory} */
    public Path place() {
        return place;
    }

    /** {@return whether this program may write here; false for a folder on a disk that can only be read} */
    public boolean isWritable() {
        return Files.isWritable(place);
    }

    Path attempts() {
        return place.resolve("attempts");
    }

    Path roster() {
        return place.resolve("roster.json");
    }

    Path index() {
        return place.resolve("index.db");
    }

    /** Attempts that are being removed; emptied whenever somebody removes something. */
    Path removed() {
        return place.resolve("removed");
    }

    /** {@return where statements wait to be sent, and what was sent is kept, a folder that need not exist} */
    public Path statements() {
        return place.resolve("statements");
    }

    /** {@return where the page's certificate lies, where one was made here, a folder that need not exist} */
    public Path certificate() {
        return place.resolve("certificate");
    }

    private Path marker() {
        return place.resolve("folder.json");
    }

    /**
     * Takes the lock for one change of the folder, to be closed at once after it; waits a little for another program
     * that changes something.
     *
     * @throws IOException if another program keeps it; one line
     */
    public HomeLock change(String what) throws IOException {
        return HomeLock.hold(place.resolve("change.lock"), what, PATIENCE);
    }

    /**
     * Takes the lock under which a recording is looked for in the book and put there; waits for another program that
     * does so.
     *
     * @throws IOException if another program keeps it for long; one line
     */
    public HomeLock adding() throws IOException {
        return HomeLock.hold(place.resolve("add.lock"), "adding a recording", ADDING);
    }

    /**
     * Takes the lock of the program that is open all day.
     *
     * @throws IOException if such a program runs on this folder already; one line
     */
    public HomeLock day(String what) throws IOException {
        return HomeLock.hold(place.resolve("day.lock"), what, Duration.ZERO);
    }

    /**
     * What sessions are signed with: 256 random bits, made at the first use, readable by the owner alone.
     *
     * @throws IOException if they cannot be read or made, or others may read them; one line
     */
    public byte[] secret() throws IOException {
        Path file = place.resolve("secret");
        try (HomeLock ignored = change("making the secret")) {
            Optional<byte[]> kept = kept(file);
            if (kept.isPresent()) {
                return kept.get();
            }
            byte[] fresh = new byte[SECRET_OCTETS];
            new SecureRandom().nextBytes(fresh);
            Path beside = place.resolve(".secret.part");
            Files.deleteIfExists(beside);
            // Closed to others before there is anything in it.
            Files.createFile(beside, ownersAlone(place, "rw-------"));
            Files.write(beside, (HexFormat.of().formatHex(fresh) + "\n").getBytes(StandardCharsets.US_ASCII));
            Files.move(beside, file);
            Durable.forceDirectory(file);
            return fresh;
        }
    }

    private Optional<byte[]> kept(Path file) throws IOException {
        if (!Files.exists(file)) {
            return Optional.empty();
        }
        if (isPosix(place)
                && !PosixFilePermissions.fromString("rw-------").containsAll(Files.getPosixFilePermissions(file))) {
            throw new IOException(file + " can be read by others; take that away (mode 600), or delete it: then every"
                    + " tablet joins anew");
        }
        try {
            byte[] octets = HexFormat.of().parseHex(Files.readString(file).trim());
            if (octets.length == SECRET_OCTETS) {
                return Optional.of(octets);
            }
        } catch (IllegalArgumentException | CharacterCodingException e) {
            // said below
        }
        throw new IOException(file + " is damaged: " + 2 * SECRET_OCTETS
                + " hexadecimal digits would be right; delete it, then every tablet joins anew");
    }

    /** Names and marks of pilots are nobody else's on this machine; the folders below need no more than this one. */
    private static FileAttribute<?>[] ownersAlone(Path place, String mode) {
        return isPosix(place)
                ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString(mode))}
                : new FileAttribute<?>[0];
    }

    private static boolean isPosix(Path place) {
        return place.getFileSystem().supportedFileAttributeViews().contains("posix");
    }
}
