package org.rejoin.console.recording;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Where a recording lies: a directory with {@code flight.pcap}, {@code lesson.yaml}, {@code chart}, {@code log.jsonl} and
 * {@code grade.json}; or, for reading, a capture file alone. Where they were used, {@code standard.yaml} (the user's
 * tolerance set), {@code feed.yaml} (which aircraft, which formats) and {@code profiles/}; of several aircraft each has its
 * log and grade in {@code seats/NAME/}.
 */
public final class RecordingFolder {

    private static final String CAPTURE = "flight.pcap";
    private static final String SEATS = "seats";
    private static final String PROFILES = "profiles";

    /** What is kept beside the datagrams, each in a file of its own. */
    public enum Part {
        LESSON("lesson.yaml"),
        CHART("chart"),
        /** A tolerance set of the user's own. */
        STANDARD("standard.yaml"),
        /** How the feed was listened to, where that was not the usual way. */
        FEED("feed.yaml"),
        /** One JSON object a line. */
        LOG("log.jsonl"),
        GRADE("grade.json");

        private final String fileName;

        Part(String fileName) {
            this.fileName = fileName;
        }

        /** {@return by which a lesson in the same directory finds it} */
        public String fileName() {
            return fileName;
        }
    }

    private final Path directory;
    private final Path capture;
    private final boolean bare;

    private RecordingFolder(Path directory, Path capture, boolean bare) {
        this.directory = directory;
        this.capture = capture;
        this.bare = bare;
    }

    /**
     * A folder for a new recording; made if it does not exist.
     *
     * @param directory holds no recording yet
     * @throws IOException if it holds a recording already, is a file, or cannot be written to; one line
     */
    public static RecordingFolder create(Path directory) throws IOException {
        if (Files.exists(directory) && !Files.isDirectory(directory)) {
            throw new IOException(directory + " is a file; a recording goes into a directory");
        }
        requireNothingOf(directory);
        RecordingFolder folder = new RecordingFolder(directory, directory.resolve(CAPTURE), false);
        folder.make();
        if (!Files.isWritable(directory)) {
            throw new IOException(directory + " cannot be written to: no permission");
        }
        return folder;
    }

    /** Whatever a recording would overwrite, be it one or the user's own. */
    private static void requireNothingOf(Path directory) throws IOException {
        for (String name : List.of(
                CAPTURE,
                Part.FEED.fileName,
                InstructorFile.SPOKEN,
                InstructorFile.REMARKS,
                InstructorFile.READBACKS,
                InstructorFile.AGAIN)) {
            if (Files.exists(directory.resolve(name), LinkOption.NOFOLLOW_LINKS)) {
                throw new PlaceTakenException(directory + " already holds a recording (" + name
                        + "); choose another directory, or move that one away");
            }
        }
        for (String name : List.of(
                Part.LESSON.fileName,
                Part.CHART.fileName,
                Part.LOG.fileName,
                Part.GRADE.fileName,
                Part.STANDARD.fileName,
                PROFILES,
                SEATS)) {
            if (Files.exists(directory.resolve(name), LinkOption.NOFOLLOW_LINKS)) {
                throw new PlaceTakenException(directory + " holds a " + name
                        + " already, which a recording would overwrite;" + " choose another directory");
            }
        }
    }

    /**
     * Takes the folder for this program alone. For a new recording it is looked at once more: another program may have made
     * one since.
     *
     * @param fresh whether the recording is a new one
     * @return the lock; close it when nothing is written any more
     * @throws IOException if another program writes to it, or has; one line
     */
    public FolderLock lock(boolean fresh) throws IOException {
        FolderLock lock = FolderLock.take(directory);
        try {
            if (fresh) {
                requireNothingOf(directory);
            }
            return lock;
        } catch (IOException e) {
            lock.close();
            throw e;
        }
    }

    /**
     * Opens a recording to read it or to go on with it.
     *
     * @param path a directory with a {@code flight.pcap}, that file itself, or a capture made by other means
     * @throws IOException if there is neither; one line
     */
    public static RecordingFolder open(Path path) throws IOException {
        if (Files.isDirectory(path)) {
            Path capture = path.resolve(CAPTURE);
            if (!Files.isRegularFile(capture)) {
                throw new IOException(path + " holds no recording: there is no " + CAPTURE + " in it");
            }
            return new RecordingFolder(path, capture, false);
        }
        if (!Files.exists(path)) {
            throw new IOException("there is no recording " + path);
        }
        Path parent = Objects.requireNonNullElse(path.toAbsolutePath().getParent(), path);
        // The capture of a recording, named itself: what belongs to it lies beside it.
        boolean alone = !path.endsWith(CAPTURE)
                || Stream.of(Part.LESSON.fileName, Part.FEED.fileName, InstructorFile.SPOKEN)
                        .noneMatch(name -> Files.isRegularFile(parent.resolve(name)));
        return new RecordingFolder(parent, path, alone);
    }

    /** {@return the datagrams; the capture file, whether it exists or not} */
    public Path capture() {
        return capture;
    }

    /** {@return what the instructor said and wrote in the flight; its files, whether they exist or not} */
    public InstructorFile instructor() {
        return new InstructorFile(directory);
    }

    /**
     * What the instructor said and wrote.
     *
     * @return nothing for a capture alone
     * @throws IOException if it cannot be read; the message names the line
     */
    public Said said() throws IOException {
        return bare ? Said.NOTHING : instructor().read();
    }

    /** {@return the file of what was kept; empty for a capture alone or where it is missing} */
    public Optional<Path> kept(Part part) {
        return bare ? Optional.empty() : Optional.of(file(part)).filter(Files::isRegularFile);
    }

    /** {@return where it is or would be} */
    public Path file(Part part) {
        return directory.resolve(part.fileName);
    }

    /** {@return where one of several aircraft of the recording has its log and its grade; it need not exist yet} */
    public RecordingFolder seat(String name) {
        return new RecordingFolder(directory.resolve(SEATS).resolve(name), capture, bare);
    }

    /** Makes the directory if it does not exist. */
    public void make() throws IOException {
        try {
            Files.createDirectories(directory);
        } catch (IOException e) {
            throw new IOException(directory + " cannot be made: " + Durable.why(e), e);
        }
    }

    /** Keeps it, in place of an earlier one, which stays if this fails. */
    public void write(Part part, byte[] octets) throws IOException {
        Durable.writeAlone(file(part), octets);
    }

    /** Keeps a text, in UTF-8. */
    public void write(Part part, String text) throws IOException {
        write(part, text.getBytes(StandardCharsets.UTF_8));
    }

    /** Keeps a chart that is too large to hold in memory. */
    public void copyChart(Path file) throws IOException {
        Path target = file(Part.CHART);
        if (Files.exists(target) && Files.isSameFile(file, target)) {
            return;
        }
        Path beside = Durable.beside(target, "");
        try {
            Files.copy(file, beside, StandardCopyOption.REPLACE_EXISTING);
            Durable.replace(beside, target);
        } catch (IOException e) {
            throw new IOException(target + " cannot be copied from " + file + ": " + Durable.why(e), e);
        }
    }

    /**
     * Takes back all that was kept of a new recording that could not be begun: with it there the directory would count as
     * taken.
     *
     * @throws IOException if something cannot be removed
     */
    public void forget() throws IOException {
        for (Part part : List.of(Part.FEED, Part.LESSON, Part.CHART, Part.STANDARD)) {
            Files.deleteIfExists(file(part));
        }
        Files.deleteIfExists(capture);
        Path profiles = directory.resolve(PROFILES);
        if (Files.isDirectory(profiles, LinkOption.NOFOLLOW_LINKS)) {
            try (Stream<Path> files = Files.list(profiles)) {
                for (Path file : files.toList()) {
                    Files.delete(file);
                }
            }
            Files.delete(profiles);
        }
    }

    /**
     * Keeps a profile of a feed.
     *
     * @param number of the profile, from 1
     * @return the name by which it is found in this directory
     */
    public String writeProfile(int number, byte[] octets) throws IOException {
        RecordingFolder profiles = new RecordingFolder(directory.resolve(PROFILES), capture, bare);
        profiles.make();
        Durable.writeAlone(profiles.directory.resolve(number + ".yaml"), octets);
        return PROFILES + "/" + number + ".yaml";
    }
}
