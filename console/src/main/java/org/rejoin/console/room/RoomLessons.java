package org.rejoin.console.room;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.random.RandomGenerator;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Durable;

/** The lessons to choose from: those built in, and those kept in the data folder with their charts. */
public final class RoomLessons {

    private static final String YAML = ".yaml";
    private static final String CHARTS = "charts";
    private static final String BUILT_IN_CHART = "open-ocean.yaml";
    private static final int MOST = 500;

    /** As many as a room could want to fly again. */
    private static final int MOST_DRAWN = 100;

    private final Path place;
    private final Optional<String> named;
    private final Map<String, Lesson> drawn = new LinkedHashMap<>() {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Lesson> eldest) {
            return size() > MOST_DRAWN;
        }
    };
    /** By it a drill gets another id than each of an earlier run, which a seat may still ask for. */
    private final RandomGenerator random = new SecureRandom();

    /** A lesson to choose. */
    record Choice(String id, String title, boolean own) {}

    /** Of the built-in ones, which stay as they are. */
    private final Map<BuiltInLesson, String> titles = new ConcurrentHashMap<>();

    /** The lessons of a data folder, and one that the command line names, file or built-in, if it does. */
    public RoomLessons(HomeFolder home, Optional<String> named) {
        this.place = home.place().resolve("lessons");
        this.named = named;
    }

    List<Choice> all() throws IOException {
        List<Choice> all = new ArrayList<>();
        named.filter(each -> !isBuiltIn(each))
                .ifPresent(each -> all.add(new Choice(each, titleOf(Path.of(each)), false)));
        for (BuiltInLesson each : BuiltInLesson.values()) {
            all.add(new Choice(each.lessonName(), titles.computeIfAbsent(each, RoomLessons::titleOf), false));
        }
        for (Path file : files(place)) {
            all.add(new Choice(idOf(file), titleOf(file), true));
        }
        return all;
    }

    /** Of the lessons of {@link #all}, in its order; no lesson is read for it. */
    private List<String> ids() throws IOException {
        List<String> ids = new ArrayList<>();
        named.filter(each -> !isBuiltIn(each)).ifPresent(ids::add);
        for (BuiltInLesson each : BuiltInLesson.values()) {
            ids.add(each.lessonName());
        }
        files(place).forEach(file -> ids.add(idOf(file)));
        return ids;
    }

    /** Whether it is in the list. */
    boolean has(String id) throws IOException {
        return ids().contains(id);
    }

    /** Whether it can be flown: it is in the list, or was drawn since the room was opened. */
    boolean isThere(String id) throws IOException {
        return ofDrawn(id).isPresent() || has(id);
    }

    private static boolean isBuiltIn(String id) {
        return BuiltInLesson.named(id).isPresent();
    }

    private static List<Path> files(Path directory) throws IOException {
        if (!Files.isDirectory(directory)) {
            return List.of();
        }
        try (Stream<Path> files = Files.list(directory)) {
            return files.filter(each -> each.getFileName().toString().matches("[A-Za-z0-9][A-Za-z0-9_-]*\\.yaml"))
                    .sorted()
                    .limit(MOST)
                    .toList();
        }
    }

    private static String idOf(Path file) {
        return file.getFileName().toString().replaceFirst("\\.yaml$", "");
    }

    /** The lesson's own, which stands at the seat and in the record book too. */
    private static String titleOf(BuiltInLesson lesson) {
        try {
            return LessonReader.read(lesson.lessonName()).title();
        } catch (LessonException e) {
            return lesson.title();
        }
    }

    private static String titleOf(Path file) {
        try {
            return LessonReader.readFile(file).title();
        } catch (LessonException e) {
            return file.getFileName() + " cannot be read: " + e.getMessage();
        }
    }

    /** Takes a lesson that was drawn for one flight; it is not in the list, and gone with the room. Its id. */
    synchronized String drawn(Lesson lesson) {
        String id = "from-here-" + Attempt.newDigits(random);
        drawn.put(id, lesson);
        return id;
    }

    private synchronized Optional<Lesson> ofDrawn(String id) {
        return Optional.ofNullable(drawn.get(id));
    }

    /** By its id; only what is in the list can be read, or was drawn here. */
    Lesson read(String id) throws LessonException {
        Optional<Lesson> here = ofDrawn(id);
        if (here.isPresent()) {
            return here.get();
        }
        if (named.filter(id::equals).isPresent() || isBuiltIn(id)) {
            return LessonReader.read(id);
        }
        if (!id.matches("[A-Za-z0-9][A-Za-z0-9_-]*") || !Files.isRegularFile(place.resolve(id + YAML))) {
            throw new LessonException("there is no lesson " + id);
        }
        return LessonReader.readFile(place.resolve(id + YAML));
    }

    /** The one after it in the list; the first after the last. */
    String after(String id) throws IOException {
        List<String> ids = ids();
        return ids.get((ids.indexOf(id) + 1) % ids.size());
    }

    /** Names of charts that a lesson can be prepared on: the built-in one, and those in {@code lessons/charts}. */
    List<String> charts() throws IOException {
        List<String> charts = new ArrayList<>(List.of(BUILT_IN_CHART));
        Path own = place.resolve(CHARTS);
        if (Files.isDirectory(own)) {
            try (Stream<Path> files = Files.list(own)) {
                files.filter(Files::isRegularFile)
                        .map(each -> each.getFileName().toString())
                        .filter(each -> !each.equals(BUILT_IN_CHART) && !each.startsWith("."))
                        .sorted()
                        .limit(MOST)
                        .forEach(charts::add);
            }
        }
        return charts;
    }

    /**
     * Reads a lesson that is not kept yet, where its chart is found.
     *
     * @throws IOException if it cannot be written to be read
     * @throws LessonException if something in it is wrong; one line
     */
    public synchronized Lesson draft(String yaml) throws IOException, LessonException {
        Path file = place.resolve(".trying" + YAML);
        keepBuiltInChart();
        Files.writeString(file, yaml);
        try {
            return LessonReader.readFile(file);
        } catch (LessonException e) {
            // A form has no file and no lines.
            throw new LessonException(
                    String.valueOf(e.getMessage())
                            .replaceFirst("^" + Pattern.quote(file.toString()) + "(:\\d+)?: ", "")
                            .replace(file.toString(), "the lesson"),
                    e);
        } finally {
            Files.deleteIfExists(file);
        }
    }

    private void keepBuiltInChart() throws IOException, LessonException {
        Path chart = place.resolve(CHARTS).resolve(BUILT_IN_CHART);
        if (!Files.exists(chart)) {
            Files.createDirectories(place.resolve(CHARTS));
            Lesson any = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
            if (any.files().chart() instanceof Lesson.KeptChart.Octets octets) {
                Durable.write(chart, octets.octets());
            }
        }
    }

    /** Name of a chart as a lesson kept here names it. */
    String chartPath(String name) throws IOException, LessonException {
        if (!charts().contains(name)) {
            throw new LessonException("there is no chart " + name + "; put chart files into " + place.resolve(CHARTS));
        }
        return CHARTS + "/" + name;
    }

    /** Whether one of this title is kept here; titles that differ in capital letters alone are one title. */
    boolean hasTitle(String title) throws IOException {
        return ofTitle(title).isPresent();
    }

    private Optional<Path> ofTitle(String title) throws IOException {
        return files(place).stream()
                .filter(each -> titleOf(each).equalsIgnoreCase(title))
                .findFirst();
    }

    /**
     * Keeps a lesson; an earlier one of the same title is replaced, one of another title never.
     *
     * @throws IOException if its title will not do, or it cannot be written; one line
     */
    public synchronized String keep(Lesson lesson) throws IOException {
        String title = lesson.title();
        if (title.codePoints().noneMatch(Character::isLetterOrDigit)) {
            throw new IOException("a lesson needs a title with letters or figures");
        }
        for (BuiltInLesson each : BuiltInLesson.values()) {
            if (title.equalsIgnoreCase(titles.computeIfAbsent(each, RoomLessons::titleOf))) {
                throw new IOException("a built-in lesson has this title; give yours another");
            }
        }
        Optional<Path> same = ofTitle(title);
        String id = same.isPresent() ? idOf(same.get()) : freeId(title);
        Durable.write(place.resolve(id + YAML), lesson.files().lessonYaml());
        return id;
    }

    /** Latin letters and figures of the title, numbered where another lesson has them already; a title in other letters gives none. */
    private String freeId(String title) {
        String letters = Normalizer.normalize(title, Normalizer.Form.NFD)
                .replaceAll("\\p{M}", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-");
        String name = letters.substring(0, Math.min(60, letters.length())).replaceAll("^-+|-+$", "");
        String first = name.isEmpty() ? "lesson" : name;
        String id = first;
        for (int i = 2; isBuiltIn(id) || Files.exists(place.resolve(id + YAML)); i++) {
            id = first + "-" + i;
        }
        return id;
    }
}
