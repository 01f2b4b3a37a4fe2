package org.rejoin.console.book;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

import org.rejoin.console.recording.Durable;

/** Folders in one zip file, as they lie in the data folder. */
public final class Archive {

    /** The first day a zip file can name; the same folders give the same bytes. */
    private static final LocalDateTime NO_TIME = LocalDateTime.of(1980, 1, 1, 0, 0);

    /** A day of recordings of a room is a hundredth of this. */
    private static final long LARGEST_OCTETS = 2_000_000_000L;

    private static final int MOST_FILES = 10_000;

    private Archive() {}

    /**
     * Writes an archive; in place of nothing: a file that is there stays.
     *
     * @param root names in the archive are relative to it
     * @throws IOException if it exists or cannot be written; one line
     */
    public static void write(Path archive, Path root, List<Path> folders, Map<String, byte[]> more) throws IOException {
        if (Files.exists(archive)) {
            throw new IOException(archive + " exists already; name another file, an archive is never overwritten");
        }
        Path beside = archive.resolveSibling("." + archive.getFileName() + ".part");
        try {
            try (OutputStream out = Files.newOutputStream(
                            beside,
                            StandardOpenOption.CREATE,
                            StandardOpenOption.TRUNCATE_EXISTING,
                            StandardOpenOption.WRITE);
                    ZipOutputStream zip = new ZipOutputStream(out)) {
                for (Map.Entry<String, byte[]> each : new TreeMap<>(more).entrySet()) {
                    zip.putNextEntry(entry(each.getKey()));
                    zip.write(each.getValue());
                    zip.closeEntry();
                }
                for (Path folder : folders) {
                    for (Path file : files(folder)) {
                        zip.putNextEntry(entry(root.relativize(file).toString().replace('\\', '/')));
                        Files.copy(file, zip);
                        zip.closeEntry();
                    }
                }
            }
            Files.move(beside, archive, StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            Files.deleteIfExists(beside);
            throw new IOException(archive + " cannot be written: " + Durable.why(e), e);
        }
    }

    /**
     * Unpacks a zip file into an empty folder. What would lie outside of it is refused, as is what grows beyond all
     * recordings.
     *
     * @throws IOException if it cannot be read or is no such archive; one line
     */
    public static void unpack(Path archive, Path into) throws IOException {
        long left = LARGEST_OCTETS;
        int files = 0;
        try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(archive))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                Path target = into.resolve(entry.getName().replace('\\', '/')).normalize();
                if (!target.startsWith(into) || target.equals(into)) {
                    throw new IOException("it holds \"" + entry.getName() + "\", which would lie outside of it");
                }
                if (entry.isDirectory()) {
                    Files.createDirectories(target);
                    continue;
                }
                files++;
                Files.createDirectories(target.resolveSibling(""));
                try (OutputStream out = Files.newOutputStream(target, StandardOpenOption.CREATE_NEW)) {
                    byte[] buffer = new byte[1 << 16];
                    for (int n = zip.read(buffer); n >= 0; n = zip.read(buffer)) {
                        left -= n;
                        if (left < 0 || files > MOST_FILES) {
                            throw new IOException(
                                    "it unpacks to more than 2 GB or 10,000 files; recordings are smaller");
                        }
                        out.write(buffer, 0, n);
                    }
                }
            }
        } catch (IOException | IllegalArgumentException e) {
            throw new IOException(
                    archive + " cannot be unpacked: "
                            + (e instanceof IOException io ? Durable.why(io) : String.valueOf(e.getMessage())),
                    e);
        }
        if (files == 0) {
            throw new IOException(archive + " is no zip file with recordings in it");
        }
    }

    private static List<Path> files(Path folder) throws IOException {
        return Durable.tree(folder).stream()
                .filter(Files::isRegularFile)
                .filter(file -> !file.getFileName().toString().startsWith(".")) // locks
                .sorted()
                .toList();
    }

    private static ZipEntry entry(String name) {
        ZipEntry entry = new ZipEntry(name);
        entry.setTimeLocal(NO_TIME);
        return entry;
    }
}
