package org.rejoin.console.book;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.NotDirectoryException;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.databind.JsonNode;
import org.jspecify.annotations.Nullable;

/**
 * The record book of a data folder: its attempts, kept, found, listed, given away and removed. Lists are looked up in the
 * index, which is compared with the folders first; confined to one thread at a time.
 */
@SuppressWarnings("try") // a lock is held, not used
public final class RecordBook implements AutoCloseable {

    private static final int AT_ONCE = 500;
    /** Files whose size and time tell that an attempt is as the index has it. */
    private static final List<String> STAMPED = List.of(
            AttemptFolder.ATTEMPT,
            AttemptFolder.GRADE,
            AttemptFolder.SIGNATURES,
            AttemptFolder.MARKS,
            "flight.pcap",
            "lesson.yaml");

    private final HomeFolder home;
    private final Consumer<String> notes;
    private @Nullable AttemptIndex index;

    /** A record book in its folder; the notes take a line for whoever looks on, as when the index is made again. */
    public RecordBook(HomeFolder home, Consumer<String> notes) {
        this.home = home;
        this.notes = notes;
    }

    /** Told how far a long piece of work is. */
    public interface Progress {
        /** So many attempts of all are done. */
        void at(int done, int all);
    }

    /**
     * A list in the order asked for, and what could not be read for it, a line each: which file of which attempt, and
     * what is wrong with it.
     */
    public record Listing(List<AttemptRow> rows, List<String> troubles) {
        public Listing {
            rows = List.copyOf(rows);
            troubles = List.copyOf(troubles);
        }
    }

    /** {@return the data folder it is in} */
    public HomeFolder home() {
        return home;
    }

    /** {@return the pilots, those known here} */
    public Roster roster() {
        return new Roster(home);
    }

    /** Begins a new attempt: its folder is there when this returns, to be recorded into. */
    public AttemptFolder begin(Attempt attempt) throws IOException {
        return put(attempt, place -> {});
    }

    /** Fills a folder that nobody sees yet. */
    public interface Filling {
        /** Puts files into an empty folder. */
        void into(Path place) throws IOException;
    }

    /** Puts a new attempt, with what fills its folder, into the book, whole or not at all. */
    public AttemptFolder put(Attempt attempt, Filling filling) throws IOException {
        Path place = place(attempt.id());
        Path beside = place.resolveSibling("." + attempt.id() + ".part");
        try {
            Files.createDirectories(beside);
            new AttemptFolder(home, beside).keep(attempt);
            filling.into(beside);
            Files.move(beside, place, StandardCopyOption.ATOMIC_MOVE);
            Durable.forceDirectory(place);
        } catch (IOException e) {
            Durable.removeTree(beside);
            throw new IOException("the attempt cannot be kept in " + place + ": " + Durable.why(e), e);
        }
        return new AttemptFolder(home, place);
    }

    /** Takes out an attempt in which nothing was flown; any other is refused. */
    public void discard(AttemptFolder folder) throws IOException {
        if (folder.isRecorded()) {
            throw new IOException(folder.place() + " holds a flight and is kept");
        }
        Durable.removeTree(folder.place());
    }

    private Path place(String id) {
        return home.attempts()
                .resolve(id.substring(0, 4))
                .resolve(id.substring(4, 6))
                .resolve(id);
    }

    /** The folder of an attempt, also where somebody moved it; an IOException of one line where there is none of that name. */
    public AttemptFolder attempt(String id) throws IOException {
        if (Attempt.isId(id)) {
            Path place = Files.isDirectory(place(id)) ? place(id) : folders().get(id);
            if (place != null) {
                return new AttemptFolder(home, place);
            }
        }
        throw new IOException("there is no attempt " + id + " in " + home.place()
                + "; attempts lists them, as 20260601T140312Z-k3x0v9");
    }

    /** Whether there is an attempt; false where it was removed. */
    public boolean has(String id) {
        try {
            attempt(id);
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /**
     * The attempts asked for. What changed in the folders since the index was written is read anew, and the progress
     * told when that is much.
     *
     * @throws IOException if the folder or the index cannot be used; one line
     */
    public Listing list(AttemptQuery query, Progress progress) throws IOException {
        AttemptIndex open = index();
        compare(open, progress);
        return new Listing(open.rows(query), open.troubles());
    }

    /**
     * Makes the index anew from the folders; returns how many attempts it has.
     *
     * @throws IOException if the folder or the index cannot be used; one line
     */
    public int rebuild(Progress progress) throws IOException {
        AttemptIndex open = index();
        open.change(List.copyOf(open.known().keySet()), List.of());
        return compare(open, progress);
    }

    private AttemptIndex index() throws IOException {
        AttemptIndex open = index;
        if (open == null) {
            open = AttemptIndex.open(home, notes);
            index = open;
        }
        return open;
    }

    private int compare(AttemptIndex open, Progress progress) throws IOException {
        Map<String, Path> folders = folders();
        Map<String, AttemptIndex.Known> known = open.known();
        Map<String, Pilot> pilots = roster().byIdIfReadable();
        Map<String, String> stamps = new ConcurrentHashMap<>();
        folders.entrySet().parallelStream().forEach(each -> stamps.put(each.getKey(), stamp(each.getValue())));
        Set<String> gone = new HashSet<>(known.keySet());
        gone.removeAll(folders.keySet());
        List<Map.Entry<String, Path>> changed = folders.entrySet().stream()
                .filter(each -> !isAsRead(known.get(each.getKey()), stamps.getOrDefault(each.getKey(), ""), pilots))
                .toList();
        if (!gone.isEmpty()) {
            open.change(gone, List.of());
        }
        for (int from = 0; from < changed.size(); from += AT_ONCE) {
            List<Map.Entry<String, Path>> part = changed.subList(from, Math.min(from + AT_ONCE, changed.size()));
            open.change(
                    List.of(),
                    part.parallelStream()
                            .map(each -> read(each, stamps.getOrDefault(each.getKey(), ""), pilots))
                            .toList());
            progress.at(from + part.size(), changed.size());
        }
        return folders.size();
    }

    /** A row of the index holds its pilot's name too: one of another name is read anew, whoever wrote it, and when. */
    private static boolean isAsRead(AttemptIndex.@Nullable Known row, String files, Map<String, Pilot> pilots) {
        return row != null && row.stamp().equals(stamp(files, row.pilotId(), pilots));
    }

    private static String stamp(String files, String pilotId, Map<String, Pilot> pilots) {
        Pilot known = pilots.get(pilotId);
        return known == null ? files : files + known.name();
    }

    private AttemptIndex.Entry read(Map.Entry<String, Path> attempt, String files, Map<String, Pilot> pilots) {
        Path folder = attempt.getValue();
        List<String> troubles = new ArrayList<>();
        AttemptRow row = null;
        try {
            row = new AttemptFolder(home, folder).row(pilots, troubles);
        } catch (IOException e) {
            troubles.add(e.getMessage() + "; the attempt is left out of lists, its recording is as it was");
        }
        String pilotId = row == null ? "" : row.attempt().pilotId();
        return new AttemptIndex.Entry(attempt.getKey(), stamp(files, pilotId, pilots), folder, row, troubles);
    }

    private String stamp(Path folder) {
        StringBuilder stamp = new StringBuilder();
        if (!folder.equals(place(folder.getFileName().toString()))) {
            stamp.append(home.attempts().relativize(folder)).append(' ');
        }
        File directory = folder.toFile();
        for (String name : STAMPED) {
            File file = new File(directory, name);
            long modified = file.lastModified();
            stamp.append(modified == 0 ? "-" : Long.toString(modified, 36) + "." + Long.toString(file.length(), 36))
                    .append(' ');
        }
        return stamp.toString();
    }

    /** Of two copies of an attempt the one in its own month. */
    private Map<String, Path> folders() throws IOException {
        Map<String, Path> folders = new TreeMap<>();
        for (Path year : children(home.attempts(), "[0-9]{4}")) {
            for (Path month : children(year, "[0-9]{2}")) {
                for (Path folder : children(month, Attempt.ID)) {
                    String id = folder.getFileName().toString();
                    folders.merge(id, folder, (first, next) -> next.equals(place(id)) ? next : first);
                }
            }
        }
        return folders;
    }

    private static List<Path> children(Path directory, String names) throws IOException {
        try (Stream<Path> found = Files.list(directory)) {
            return found.filter(each -> each.getFileName().toString().matches(names))
                    .sorted()
                    .toList();
        } catch (NoSuchFileException | NotDirectoryException e) {
            return List.of();
        } catch (IOException | UncheckedIOException e) {
            IOException why = e instanceof IOException io ? io : new IOException(e.getMessage(), e);
            throw new IOException(directory + " cannot be looked into: " + Durable.why(why), e);
        }
    }

    /**
     * Everything of one pilot, as a zip file: his attempts, his line of the roster, his statements; returns how many
     * attempts are in it.
     *
     * @throws IOException if nothing is known of him, or the archive cannot be written; one line
     */
    public int export(String nameOrId, Path archive) throws IOException {
        Person person = person(nameOrId);
        List<Path> folders = person.rows().stream().map(AttemptRow::folder).toList();
        Map<String, byte[]> more = new TreeMap<>();
        Pilot known = person.pilot();
        if (known != null) {
            more.put(
                    "pilot.json",
                    BookJson.pretty(BookJson.object().put("id", known.id()).put("name", known.name())));
        }
        for (Path file : statements(person)) {
            more.put(home.place().relativize(file).toString().replace('\\', '/'), Files.readAllBytes(file));
        }
        Archive.write(archive, home.place(), folders, more);
        return folders.size();
    }

    /**
     * A pilot who was given another name.
     *
     * @param pilot as he is called now
     * @param before the name that he had
     * @param signed attempts that name him so, have no identifier of his and are signed: they keep that name
     */
    public record Renamed(Pilot pilot, String before, int signed) {

        /** {@return what is not under the new name, and what to do, in one line; empty if all is} */
        public Optional<String> left() {
            if (signed == 0) {
                return Optional.empty();
            }
            boolean one = signed == 1;
            return Optional.of((one ? "one signed attempt names " : signed + " signed attempts name ") + before
                    + " without an identifier and " + (one ? "stays" : "stay")
                    + " under that name: another name would change what was signed");
        }
    }

    /**
     * Calls a pilot by another name, under which his attempts are shown from then on. They are his by his identifier: their
     * files stay as they are. Those that name him and have none are given his; if they are signed, they stay as they were
     * signed, under the name before.
     *
     * @throws IOException if the roster does not know him, the name will not do, or another pilot has it; one line
     */
    public Renamed rename(String nameOrId, String name) throws IOException {
        try (HomeLock ignored = home.change("renaming a pilot")) {
            Person person = person(nameOrId);
            if (person.pilot() == null) {
                throw new IOException("only attempts name " + nameOrId.strip()
                        + ", not the roster: put this pilot into it first (pilots add), then rename");
            }
            Pilot renamed = roster().called(person.pilot(), name);
            int signed = 0;
            for (AttemptRow row : person.rows()) {
                if (!row.attempt().pilotId().isEmpty()) {
                    continue;
                }
                AttemptFolder folder = new AttemptFolder(home, row.folder());
                if (folder.isSigned()) {
                    signed++;
                } else {
                    folder.keep(folder.attempt().flownBy(renamed));
                }
            }
            roster().rename(renamed);
            return new Renamed(renamed, person.pilot().name(), signed);
        }
    }

    /**
     * Removes everything of one pilot: his attempts with recordings, grades and signatures and all copies of them below
     * the attempts, his seat of the practice room, his line of the roster, his statements, whether they wait or were
     * sent; returns how many attempts were removed. Killed in the middle, it goes on when called again.
     *
     * @throws IOException if nothing is known of him, or another program is at work here; one line
     */
    public int forget(String nameOrId) throws IOException {
        try (HomeLock ignored = home.change("forgetting a pilot")) {
            Person person = person(nameOrId);
            for (AttemptRow row : person.rows()) {
                if (Files.isRegularFile(row.folder().resolve(".flying.lock"))) {
                    new AttemptFolder(home, row.folder()).flying().close();
                }
            }
            // Statements first: they are found by what the roster and the attempts say.
            for (Path file : statements(person)) {
                Files.deleteIfExists(file);
            }
            Files.createDirectories(home.removed());
            List<Path> folders = new ArrayList<>(copies(person));
            person.rows().forEach(row -> folders.add(row.folder()));
            for (int i = 0; i < folders.size(); i++) {
                // Out of the book at once, whole; a folder half deleted would belong to nobody.
                Files.move(
                        folders.get(i),
                        home.removed().resolve(i + " " + folders.get(i).getFileName()),
                        StandardCopyOption.ATOMIC_MOVE);
            }
            Durable.removeTree(home.removed());
            AttemptIndex open = index();
            open.change(person.ids(), List.of());
            open.tidy();
            if (person.pilot() != null) {
                new SeatsKept(home).leave(person.pilot().id());
                // Last: an open room sees by it that he is forgotten.
                roster().remove(person.pilot());
            }
            return person.rows().size();
        }
    }

    /**
     * Folders that name him and are in no list: the other one of two copies, what somebody put elsewhere below the
     * attempts, what a killed program had not finished.
     */
    private List<Path> copies(Person person) throws IOException {
        Set<Path> listed = new HashSet<>();
        list(AttemptQuery.ALL, (done, all) -> {}).rows().forEach(row -> listed.add(row.folder()));
        Set<String> ids = person.ids();
        List<Path> copies = new ArrayList<>();
        Files.walkFileTree(home.attempts(), new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
                if (listed.contains(folder)) {
                    return FileVisitResult.SKIP_SUBTREE;
                }
                if (Files.exists(folder.resolve(AttemptFolder.ATTEMPT)) && isOf(person, ids, folder)) {
                    copies.add(folder);
                    return FileVisitResult.SKIP_SUBTREE;
                }
                return FileVisitResult.CONTINUE;
            }
        });
        return copies;
    }

    /** Whatever else is the matter with it; one that cannot be read is his if it has the name of an attempt of his. */
    private static boolean isOf(Person person, Set<String> ids, Path folder) {
        try {
            JsonNode json = BookJson.read(Files.readAllBytes(folder.resolve(AttemptFolder.ATTEMPT)));
            return person.is(BookJson.textOrEmpty(json, "pilot"), BookJson.textOrEmpty(json, "pilot_id"));
        } catch (IOException e) {
            String name = folder.getFileName().toString();
            return ids.stream().anyMatch(name::contains);
        }
    }

    private record Person(@Nullable Pilot pilot, List<String> names, List<AttemptRow> rows) {
        Set<String> ids() {
            return rows.stream().map(row -> row.attempt().id()).collect(Collectors.toSet());
        }

        boolean is(String name, String id) {
            return names.stream()
                    .anyMatch(each -> AttemptIndex.folded(each).equals(AttemptIndex.folded(name)) || each.equals(id));
        }
    }

    private Person person(String nameOrId) throws IOException {
        if (Files.isDirectory(home.removed()) && home.isWritable()) {
            Durable.removeTree(home.removed()); // what a killed program left
        }
        Pilot known = roster().find(nameOrId).orElse(null);
        Map<String, AttemptRow> rows = new TreeMap<>();
        List<String> names = known == null ? List.of(nameOrId.strip()) : List.of(known.name(), known.id());
        for (String name : names) {
            for (AttemptRow row :
                    list(AttemptQuery.ALL.of(name), (done, all) -> {}).rows()) {
                rows.put(row.attempt().id(), row);
            }
        }
        if (known == null && rows.isEmpty()) {
            throw new IOException(
                    "nothing is known of a pilot " + nameOrId + " in " + home.place() + "; pilots lists who is");
        }
        return new Person(known, names, List.copyOf(rows.values()));
    }

    /**
     * The addresses, in order, of the record stores that have statements of a pilot: what was sent is not taken back by
     * forgetting him here.
     *
     * @throws IOException if nothing is known of him, or the folder cannot be read; one line
     */
    public Set<String> storesWithStatementsOf(String nameOrId) throws IOException {
        Set<String> stores = new TreeSet<>();
        for (Path file : statements(person(nameOrId))) {
            Path state = file.resolveSibling("");
            if (state.endsWith("sent")) {
                stores.addAll(Durable.lines(state.resolveSibling("endpoint")));
            }
        }
        return stores;
    }

    /** Those of a pilot bear his identifier or one of his attempts in their name. */
    private List<Path> statements(Person person) throws IOException {
        if (!Files.isDirectory(home.statements())) {
            return List.of();
        }
        Set<String> ids = person.ids();
        return Durable.tree(home.statements()).stream()
                .filter(file -> !Files.isDirectory(file, LinkOption.NOFOLLOW_LINKS))
                .filter(file -> ids.stream().anyMatch(file.getFileName().toString()::startsWith))
                .toList();
    }

    @Override
    public void close() throws IOException {
        AttemptIndex open = index;
        index = null;
        if (open != null) {
            open.close();
        }
    }

    /** Another program is at work on the index of the record book. */
    public static final class BusyException extends IOException {

        private static final long serialVersionUID = 1;

        BusyException(Exception cause) {
            super("another program is at work on the record book: end it, or try again when it is done", cause);
        }
    }
}
