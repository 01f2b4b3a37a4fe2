package org.rejoin.console.recording;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;

/** Files that are old or new, never half, and lines that are there or not: of recordings, and of the record book. */
public final class Durable {

    /** Windows does; elsewhere a refusal is not for a moment. */
    private static final boolean REFUSES_WHAT_IS_OPEN = File.separatorChar == '\\';

    private static final long FIRST_WAIT_MS = 10;
    private static final long LAST_WAIT_MS = 320;

    private Durable() {}

    /**
     * Writes a file in place of an earlier one: beside it, forced to the disk, then renamed.
     *
     * @throws IOException if it cannot be written; one line, and the earlier file is as it was
     */
    public static void write(Path file, byte[] octets) throws IOException {
        String chance = Long.toString(ThreadLocalRandom.current().nextLong(1L << 40), 36);
        write(file, octets, "." + chance);
    }

    /** The same of a text, as UTF-8. */
    public static void write(Path file, String text) throws IOException {
        write(file, text.getBytes(StandardCharsets.UTF_8));
    }

    /** The same where one program alone writes there, which leaves one such file at most where it is killed. */
    static void writeAlone(Path file, byte[] octets) throws IOException {
        write(file, octets, "");
    }

    private static void write(Path file, byte[] octets, String chance) throws IOException {
        Path beside = beside(file, chance);
        try {
            try (FileChannel channel = FileChannel.open(
                    beside,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.TRUNCATE_EXISTING,
                    StandardOpenOption.WRITE,
                    LinkOption.NOFOLLOW_LINKS)) {
                writeAll(channel, octets);
            }
            replace(beside, file);
            forceDirectory(file);
        } catch (IOException e) {
            removeFile(beside, e);
            throw new IOException(file + " cannot be written: " + why(e), e);
        }
    }

    /**
     * Puts a file in place of another, at once or not at all. Windows refuses while another program has that one open, as
     * one that looks for viruses has for a moment: there it is tried again for 0.6 s.
     *
     * @throws IOException that of the system, if it is refused still
     */
    public static void replace(Path beside, Path file) throws IOException {
        Work move = () -> Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        if (REFUSES_WHAT_IS_OPEN) {
            again(move);
        } else {
            move.run();
        }
    }

    /** What a disk is asked to do. */
    interface Work {
        void run() throws IOException;
    }

    /**
     * Does it, again after 10 ms, 20 ms, and so on to 320 ms, where it is refused: Windows says of a file that is open now
     * that there is no permission, now, without a kind of its own, that another process uses it.
     */
    static void again(Work work) throws IOException {
        for (long waitMs = FIRST_WAIT_MS; ; waitMs *= 2) {
            try {
                work.run();
                return;
            } catch (FileSystemException e) {
                boolean open = e instanceof AccessDeniedException || e.getClass() == FileSystemException.class;
                if (!open || waitMs > LAST_WAIT_MS || Thread.currentThread().isInterrupted()) {
                    throw e;
                }
                LockSupport.parkNanos(waitMs * 1_000_000);
            }
        }
    }

    static Path beside(Path file, String chance) {
        return file.resolveSibling("." + file.getFileName() + chance + ".part");
    }

    private static void removeFile(Path file, IOException because) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            because.addSuppressed(e);
        }
    }

    /**
     * Appends a line, given without its end, to a file that may be missing; on the disk when this returns. What a
     * killed program left of a last line is cut off first.
     *
     * @throws IOException if it cannot be written; one line, and the file holds the lines it held
     */
    public static void append(Path file, String line) throws IOException {
        try {
            add(file, line);
        } catch (IOException e) {
            throw new IOException(file + " cannot be written: " + why(e), e);
        }
    }

    /** The same for whoever says himself what cannot be written: the exception is that of the system. */
    static void add(Path file, String line) throws IOException {
        boolean fresh = !Files.exists(file);
        try (FileChannel channel = FileChannel.open(
                file,
                StandardOpenOption.CREATE,
                StandardOpenOption.READ,
                StandardOpenOption.WRITE,
                LinkOption.NOFOLLOW_LINKS)) {
            long whole = endOfLines(channel);
            channel.truncate(whole);
            channel.position(whole);
            try {
                writeAll(channel, (line + "\n").getBytes(StandardCharsets.UTF_8));
            } catch (IOException e) {
                channel.truncate(whole);
                throw e;
            }
            if (fresh) {
                forceDirectory(file);
            }
        }
    }

    /** The whole lines of a file, none if it is missing; what a killed program left of a last one is not among them. */
    public static List<String> lines(Path file) throws IOException {
        return lines(file, true).whole();
    }

    /**
     * The lines of a file that may be damaged, none if it is missing: octets that are no text stand as the replacement
     * character.
     *
     * @throws IOException if it cannot be read at all; one line
     */
    public static Lines linesOfDamaged(Path file) throws IOException {
        return lines(file, false);
    }

    private static Lines lines(Path file, boolean mustBeText) throws IOException {
        try {
            return Lines.of(
                    mustBeText ? Files.readString(file) : new String(Files.readAllBytes(file), StandardCharsets.UTF_8));
        } catch (NoSuchFileException e) {
            return new Lines(List.of(), false);
        } catch (IOException e) {
            throw new IOException(file + " cannot be read: " + why(e), e);
        }
    }

    /** The lines of a file that have an end, and whether something without one stands behind them. */
    public record Lines(List<String> whole, boolean torn) {

        public Lines {
            whole = List.copyOf(whole);
        }

        static Lines of(String text) {
            List<String> lines = new ArrayList<>();
            int from = 0;
            for (int end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', from)) {
                lines.add(text.substring(from, end));
                from = end + 1;
            }
            return new Lines(lines, from < text.length());
        }
    }

    /**
     * Removes a folder, which may be missing, with all that is in it.
     *
     * @throws IOException if something of it cannot be removed
     */
    public static void removeTree(Path root) throws IOException {
        if (!Files.exists(root)) {
            return;
        }
        List<Path> all = tree(root);
        for (int i = all.size() - 1; i >= 0; i--) {
            Files.delete(all.get(i));
        }
    }

    /** A folder and all below it, each folder before what is in it; links are not followed. */
    public static List<Path> tree(Path root) throws IOException {
        try (Stream<Path> all = Files.walk(root)) {
            return all.toList();
        } catch (UncheckedIOException e) {
            throw Objects.requireNonNull(e.getCause());
        }
    }

    /** Why an operation on a file failed, for the end of a line, without the path that Java's message repeats. */
    public static String why(IOException e) {
        String said = bare(e);
        String small = said.toLowerCase(Locale.ROOT);
        return small.contains("no space left") || small.contains("not enough space")
                ? "the disk is full (" + said + "); make room, nothing that was kept is lost"
                : small.contains("read-only") ? "it can only be read (" + said + ")" : said;
    }

    /** The same without what is to be done: for what is tried again by itself. */
    static String bare(IOException e) {
        if (e instanceof AccessDeniedException) {
            return "no permission";
        }
        if (e instanceof NoSuchFileException) {
            return "no such file or folder";
        }
        if (e instanceof FileAlreadyExistsException) {
            return "a file of that name is in the way";
        }
        if (e instanceof CharacterCodingException) {
            return "it is no text in UTF-8";
        }
        if (e instanceof FileSystemException f && f.getReason() != null) {
            return f.getReason();
        }
        return Objects.requireNonNullElse(e.getMessage(), e.getClass().getSimpleName());
    }

    static void writeAll(FileChannel channel, byte[] octets) throws IOException {
        ByteBuffer buffer = ByteBuffer.wrap(octets);
        while (buffer.hasRemaining()) {
            channel.write(buffer);
        }
        channel.force(true);
    }

    private static long endOfLines(FileChannel channel) throws IOException {
        ByteBuffer one = ByteBuffer.allocate(1);
        long at = channel.size();
        while (at > 0) {
            one.clear();
            channel.read(one, at - 1);
            if (one.get(0) == '\n') {
                break;
            }
            at--;
        }
        return at;
    }

    /** A rename is on the disk when its directory is; not every system lets one be opened. */
    public static void forceDirectory(Path file) {
        Path directory = Objects.requireNonNullElse(file.toAbsolutePath().getParent(), file);
        try (FileChannel channel = FileChannel.open(directory, Set.of(StandardOpenOption.READ))) {
            channel.force(true);
        } catch (IOException e) {
            // Windows: it forces the rename itself.
        }
    }
}
