package org.rejoin.console.cli;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.console.recording.Durable;
import org.rejoin.console.recording.FolderLock;
import org.rejoin.console.recording.PlaceTakenException;
import org.rejoin.console.recording.Sha256;
import org.rejoin.console.report.Report;

/**
 * The files that a command writes together into a folder of the user's. A file that lies there already is written again
 * only if this program wrote it and nobody has changed it since, which the checksums beside the files show; or if nothing
 * in it would change. They are prepared beside, and put in place together or not at all.
 */
final class OwnFiles implements AutoCloseable {

    /** The checksums, as {@code sha256sum --check} reads them. */
    static final String LIST = "debrief.sha256";

    /** In place of what was there, and through no link of anybody's. */
    private static final OpenOption[] ANEW = {
        StandardOpenOption.CREATE,
        StandardOpenOption.TRUNCATE_EXISTING,
        StandardOpenOption.WRITE,
        LinkOption.NOFOLLOW_LINKS
    };

    private static final Pattern LINE = Pattern.compile("([0-9a-f]{64})  ([a-z.]{1,40})");
    private static final int LONGEST_LIST = 65_536;

    private final Path folder;
    private final FolderLock lock;
    private final Set<String> before;
    private final Map<String, String> prepared = new LinkedHashMap<>();

    private OwnFiles(Path folder, FolderLock lock, Set<String> before) {
        this.folder = folder;
        this.lock = lock;
        this.before = before;
    }

    /** Takes a folder to write to, made if it is not there; refuses one that another program writes to. */
    static OwnFiles in(Path folder) throws IOException {
        Files.createDirectories(folder);
        FolderLock lock = FolderLock.take(folder);
        try {
            return new OwnFiles(folder, lock, listed(folder.resolve(LIST)));
        } catch (IOException | RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    private static Set<String> listed(Path list) throws IOException {
        if (!Files.exists(list, LinkOption.NOFOLLOW_LINKS)) {
            return Set.of();
        }
        if (!Files.isRegularFile(list, LinkOption.NOFOLLOW_LINKS) || Files.size(list) > LONGEST_LIST) {
            throw taken(list);
        }
        String text = new String(Files.readAllBytes(list), StandardCharsets.ISO_8859_1);
        if (!text.lines().allMatch(line -> LINE.matcher(line).matches())) {
            throw taken(list);
        }
        return text.lines().collect(Collectors.toUnmodifiableSet());
    }

    private static PlaceTakenException taken(Path file) {
        return new PlaceTakenException(file + " was not written by this program, or was changed since, and would be"
                + " overwritten; name another folder with --out, or move that file away");
    }

    /** Writes a file beside the place where it belongs. */
    void prepare(String name, Report.Content content) throws IOException {
        prepared.put(name, "");
        try (Writer out = new BufferedWriter(
                new OutputStreamWriter(Files.newOutputStream(beside(name), ANEW), StandardCharsets.UTF_8))) {
            content.write(out);
        } catch (IOException e) {
            Path file = folder.resolve(name);
            throw new IOException("--out: " + file + " cannot be written: " + OutputFile.reason(file, e), e);
        }
        prepared.put(name, Sha256.hex(beside(name)));
    }

    /** Refuses, before anything is changed, what would be written over something that is not ours. */
    void require() throws IOException {
        for (Map.Entry<String, String> file : prepared.entrySet()) {
            Path target = folder.resolve(file.getKey());
            if (!Files.exists(target, LinkOption.NOFOLLOW_LINKS)) {
                continue;
            }
            if (!Files.isRegularFile(target, LinkOption.NOFOLLOW_LINKS)) {
                throw taken(target);
            }
            String hash = Sha256.hex(target);
            if (!hash.equals(file.getValue()) && !before.contains(line(hash, file.getKey()))) {
                throw taken(target);
            }
        }
    }

    /** Puts all in place. Should the program end in between, what lies there still counts as its own. */
    void place() throws IOException {
        Set<String> now = new TreeSet<>();
        prepared.forEach((name, hash) -> now.add(line(hash, name)));
        list(Stream.concat(before.stream(), now.stream()).collect(Collectors.toCollection(TreeSet::new)));
        for (String name : prepared.keySet()) {
            move(name);
        }
        before.stream()
                .filter(line -> !prepared.containsKey(line.substring(66)))
                .forEach(now::add);
        list(now);
    }

    private void list(Collection<String> lines) throws IOException {
        Files.writeString(beside(LIST), lines.stream().map(line -> line + "\n").collect(Collectors.joining()), ANEW);
        move(LIST);
    }

    private void move(String name) throws IOException {
        Durable.replace(beside(name), folder.resolve(name));
    }

    private static String line(String hash, String name) {
        return hash + "  " + name;
    }

    private Path beside(String name) {
        return folder.resolve("." + name + ".part");
    }

    @Override
    public void close() throws IOException {
        for (String name : prepared.keySet()) {
            Files.deleteIfExists(beside(name));
        }
        Files.deleteIfExists(beside(LIST));
        lock.close();
    }
}
