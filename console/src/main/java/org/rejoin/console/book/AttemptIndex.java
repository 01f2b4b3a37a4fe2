package org.rejoin.console.book;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Consumer;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;

/**
 * What lists show of the attempts, so that not every folder is read for each list: a disposable file, a line an attempt. It is
 * written whole, beside and then renamed; one that is damaged or of another version is thrown away.
 */
final class AttemptIndex {

    /** The first line, other whenever the lines below it are: an index with another number is made anew. */
    private static final String HEAD = "{\"index\":5}";

    /** What versions before this one kept, a database. */
    private static final List<String> EARLIER = List.of("index.db", "index.db-journal", "index.db-wal", "index.db-shm");

    private final HomeFolder home;

    /** By identifier. */
    private final Map<String, Entry> entries = new TreeMap<>();

    private AttemptIndex(HomeFolder home) {
        this.home = home;
    }

    /** An attempt as it was when its folder had that stamp; without a row where it cannot be read. */
    record Entry(
            String id, String stamp, Path folder, @Nullable AttemptRow row, List<String> troubles) {}

    /**
     * Opens the index of a folder, or a new one.
     *
     * @param notes takes a line if the old one was thrown away
     * @throws IOException if what an earlier version left cannot be removed
     */
    static AttemptIndex open(HomeFolder home, Consumer<String> notes) throws IOException {
        AttemptIndex index = new AttemptIndex(home);
        if (home.isWritable()) {
            for (String name : EARLIER) {
                Path file = home.place().resolve(name);
                if (Files.isRegularFile(file)) {
                    Files.delete(file);
                }
            }
        }
        Path file = home.index();
        if (Files.isDirectory(file)) {
            notes.accept(
                    file + " is a folder where the index of the record book belongs: move it away; until then the index"
                            + " is made anew each time, nothing is lost");
            return index;
        }
        try {
            index.read(file);
        } catch (IOException | UncheckedIOException e) {
            index.entries.clear();
            notes.accept("the index of the record book is not usable (" + e.getMessage()
                    + "): it is made again from the attempts, nothing is lost");
        }
        return index;
    }

    private void read(Path file) throws IOException {
        List<String> lines = Durable.lines(file);
        String head = lines.isEmpty() ? "" : lines.get(0);
        if (head.equals(HEAD)) {
            lines.subList(1, lines.size()).parallelStream()
                    .map(this::entry)
                    .forEachOrdered(each -> entries.put(each.id(), each));
        } else if (Files.exists(file) && !head.matches("\\{\"index\":\\d+}")) {
            throw new IOException(file + " does not begin as one");
        }
    }

    private Entry entry(String line) {
        try {
            JsonNode json = BookJson.read(line.getBytes(StandardCharsets.UTF_8));
            Path folder = home.attempts().resolve(BookJson.textOrEmpty(json, "folder"));
            return new Entry(
                    BookJson.textOrEmpty(json, "id"),
                    BookJson.textOrEmpty(json, "stamp"),
                    folder,
                    json.has("row") ? AttemptRow.read(json.path("row"), folder) : null,
                    BookJson.texts(json.path("troubles"), ""));
        } catch (IOException e) {
            throw new UncheckedIOException(e.getMessage(), e);
        }
    }

    /** {@return all that is in it, by identifier; may be changed, which {@link #keep} keeps} */
    Map<String, Entry> entries() {
        return entries;
    }

    /**
     * Keeps what is in it now, and nothing of what was; where this folder can only be read, or the place is taken, nothing.
     *
     * @throws IOException if the disk refuses; one line
     */
    void keep() throws IOException {
        if (!home.isWritable() || Files.isDirectory(home.index())) {
            return;
        }
        StringBuilder text = new StringBuilder(HEAD).append('\n');
        for (Entry each : entries.values()) {
            ObjectNode json = BookJson.object()
                    .put("id", each.id())
                    .put("stamp", each.stamp())
                    .put(
                            "folder",
                            home.attempts().relativize(each.folder()).toString().replace('\\', '/'));
            each.troubles().forEach(json.putArray("troubles")::add);
            if (each.row() != null) {
                json.set("row", each.row().json());
            }
            text.append(BookJson.line(json)).append('\n');
        }
        Durable.write(home.index(), text.toString().getBytes(StandardCharsets.UTF_8));
    }

    /** Removes what a program that was killed had written of an index, in which there may be whom nothing is to name. */
    void tidy() throws IOException {
        try (DirectoryStream<Path> left =
                Files.newDirectoryStream(home.place(), "." + home.index().getFileName() + ".*.part")) {
            for (Path each : left) {
                Files.deleteIfExists(each);
            }
        }
    }

    /** The attempts asked for, in the order asked for. */
    List<AttemptRow> rows(AttemptQuery query) {
        return entries.values().stream()
                .map(Entry::row)
                .filter(Objects::nonNull)
                .filter(query::asksFor)
                .sorted(query.sorted())
                .toList();
    }

    /** What could not be read of the attempts, a line each. */
    List<String> troubles() {
        return entries.values().stream()
                .flatMap(each -> each.troubles().stream())
                .toList();
    }
}
