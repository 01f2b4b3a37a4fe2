package org.rejoin.console.drill;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.skill.Attempt;
import org.rejoin.console.skill.AttemptSource;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * The attempts of the data folder, read from the recordings themselves: {@code attempts/YYYY/MM/ID/}, each with
 * {@code attempt.json} and either {@code grade.json} and {@code lesson.yaml} of a flight, or {@code paper.jsonl} with one
 * mark a line: {@code {"skill", "difficulty", "right", "guess_chance"}}.
 *
 * <p>Of {@code attempt.json} these members are read: {@code pilot}, {@code ended_utc} (or {@code began_utc}),
 * {@code kind}, {@code drill}, {@code features}, {@code difficulty}, {@code work_out_s}; all but the first two may be
 * missing.
 */
public final class AttemptFolders implements AttemptSource {

    /** A version above this was written by a newer program. */
    public static final int VERSION = 1;

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final DateTimeFormatter ID = DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss.SSS'Z'", Locale.ROOT);
    private static final Duration A_DAY = Duration.ofDays(1);
    private static final int DEEPEST = 4;

    private final Path home;
    private final List<String> problems = new ArrayList<>();

    /**
     * A data folder.
     *
     * @param home may be missing: then there are no attempts
     */
    public AttemptFolders(Path home) {
        this.home = home;
    }

    @Override
    public List<Attempt> of(String pilot) throws IOException {
        return all().stream().filter(attempt -> attempt.pilot().equals(pilot)).toList();
    }

    /**
     * The attempts of all pilots.
     *
     * @return in order of time
     * @throws IOException if the folder cannot be read, or was written by a newer program
     */
    public List<Attempt> all() throws IOException {
        problems.clear();
        Path attempts = home.resolve("attempts");
        if (!Files.isDirectory(attempts)) {
            return List.of();
        }
        List<Path> files;
        try (Stream<Path> walk = Files.walk(attempts, DEEPEST)) {
            files = walk.filter(file -> String.valueOf(file.getFileName()).equals("attempt.json"))
                    .sorted()
                    .toList();
        }
        List<Raw> raw = new ArrayList<>();
        for (Path file : files) {
            raw(file).ifPresent(raw::add);
        }
        raw.sort(Comparator.comparing(Raw::at));
        Map<String, Instant> before = new HashMap<>();
        List<Attempt> read = new ArrayList<>();
        for (Raw each : raw) {
            String same = each.pilot() + "\n" + each.drill();
            Instant last = before.put(same, each.at());
            boolean again = last != null
                    && !each.drill().isEmpty()
                    && Duration.between(last, each.at()).compareTo(A_DAY) < 0;
            attempt(each, again).ifPresent(read::add);
        }
        return read;
    }

    /**
     * What could not be read, one line each.
     *
     * @return of the last reading
     */
    public List<String> problems() {
        return List.copyOf(problems);
    }

    private record Raw(Path folder, JsonNode json, String pilot, Instant at, String drill) {}

    private Optional<Raw> raw(Path file) throws IOException {
        Path folder = file.resolveSibling("");
        try {
            JsonNode json = JSON.readTree(file.toFile());
            int version = json.path("version").asInt(VERSION);
            if (version > VERSION) {
                throw new NewerException(file + " was written by a newer version (" + version
                        + ", this one reads up to " + VERSION + "); use that version of the program");
            }
            String time = json.path("ended_utc").asText(json.path("began_utc").asText(""));
            String pilot = json.path("pilot").asText("");
            if (pilot.isEmpty()) {
                return Optional.empty();
            }
            String drill = json.path("drill").asText(json.path("lesson").asText(""));
            return Optional.of(new Raw(folder, json, pilot, Instant.parse(time), drill));
        } catch (NewerException e) {
            throw e;
        } catch (IOException | DateTimeParseException e) {
            problems.add(file + ": left out: " + firstLine(e));
            return Optional.empty();
        }
    }

    private static final class NewerException extends IOException {
        private static final long serialVersionUID = 1L;

        private NewerException(String message) {
            super(message);
        }
    }

    private Optional<Attempt> attempt(Raw raw, boolean again) {
        try {
            Path paper = raw.folder().resolve("paper.jsonl");
            Path graded = raw.folder().resolve("grade.json");
            List<Mark> marks = new ArrayList<>();
            List<String> faults = new ArrayList<>();
            JsonNode features = raw.json().path("features");
            Attempt.Kind kind = Attempt.Kind.FLOWN;
            if (Files.exists(paper)) {
                kind = raw.json().path("kind").asText("paper").equals("listening")
                        ? Attempt.Kind.LISTENING
                        : Attempt.Kind.PAPER;
                for (String line : Files.readAllLines(paper)) {
                    mark(JSON.readTree(line), raw, again).ifPresent(marks::add);
                }
            } else if (Files.exists(graded)) {
                JsonNode grade = JSON.readTree(graded.toFile());
                marks.addAll(GradeMarks.of(grade, raw.pilot(), raw.at(), difficulty(raw), again));
                grade.path("faults")
                        .forEach(fault -> faults.add(fault.path("code").asText()));
            } else {
                return Optional.empty();
            }
            JsonNode seconds = raw.json().path("work_out_s");
            JsonNode radial = features.path("radial_deg");
            return Optional.of(new Attempt(
                    raw.json().path("id").asText(String.valueOf(raw.folder().getFileName())),
                    raw.pilot(),
                    raw.at(),
                    kind,
                    raw.drill(),
                    features.path("shape").asText(""),
                    features.path("turn").asText(""),
                    radial.isNumber() ? OptionalDouble.of(radial.asDouble()) : OptionalDouble.empty(),
                    seconds.isNumber() ? OptionalDouble.of(seconds.asDouble()) : OptionalDouble.empty(),
                    faults,
                    marks));
        } catch (IOException | IllegalArgumentException e) {
            problems.add(raw.folder() + ": left out: " + firstLine(e));
            return Optional.empty();
        }
    }

    private static Optional<Mark> mark(JsonNode line, Raw raw, boolean again) {
        return Skill.named(line.path("skill").asText(""))
                .filter(skill -> line.path("right").isBoolean())
                .map(skill -> new Mark(
                        raw.pilot(),
                        raw.at(),
                        skill,
                        line.path("difficulty").asDouble(),
                        line.path("right").asBoolean(),
                        line.path("guess_chance").asDouble(),
                        again));
    }

    /** As it was kept with the attempt; else worked out from the lesson beside it. */
    private static Map<Skill, Double> difficulty(Raw raw) {
        Map<Skill, Double> kept = new EnumMap<>(Skill.class);
        for (Skill skill : Skill.values()) {
            JsonNode logit = raw.json().path("difficulty").path(skill.name());
            if (logit.isNumber()) {
                kept.put(skill, logit.asDouble());
            }
        }
        if (!kept.isEmpty()) {
            return kept;
        }
        Path lesson = raw.folder().resolve("lesson.yaml");
        if (Files.exists(lesson)) {
            try {
                return features(LessonReader.readFile(lesson))
                        .map(Difficulty.BUILT_IN::of)
                        .orElseGet(AttemptFolders::standard);
            } catch (LessonException e) {
                return standard();
            }
        }
        return standard();
    }

    /** Of a lesson about which nothing is known. */
    private static Map<Skill, Double> standard() {
        Map<Skill, Double> all = new EnumMap<>(Skill.class);
        for (Skill skill : Skill.values()) {
            all.put(skill, 0.0);
        }
        return all;
    }

    /**
     * The features of a lesson: of its first clearance, heard where the practice aircraft would hear it.
     *
     * @param lesson any
     * @return empty where it has no start or its clearance leads to no line
     */
    public static Optional<Features> features(Lesson lesson) {
        if (lesson.start().isEmpty() || lesson.amendments().isEmpty()) {
            return Optional.empty();
        }
        Lesson.Start start = lesson.start().get();
        Amendment first = lesson.amendments().get(0);
        java.time.LocalDate date = lesson.date().orElse(DrillRequest.USUAL_DATE);
        GroundVector ground = GroundVector.onHeading(
                start.heading().toTrue(MagneticModel.WMM2025.variation(start.position(), start.altitudeFt(), date)),
                start.speedKt(),
                lesson.wind());
        double seconds = first.when() instanceof Amendment.When.ElapsedS elapsed ? elapsed.seconds() : 0;
        Position heard = start.position().destination(ground.track(), ground.groundSpeedKt() * seconds / 3600);
        try {
            return Measured.of(
                    RouteAmender.amend(
                            lesson.chart(),
                            lesson.filed(),
                            ClearanceReader.read(first.say(), lesson.chart(), lesson.filed()),
                            new Situation(
                                    heard,
                                    OptionalDouble.of(start.altitudeFt()),
                                    start.speedKt(),
                                    Optional.of(start.heading()),
                                    lesson.wind(),
                                    date)),
                    lesson.chart(),
                    Optional.of(start.heading()));
        } catch (ClearanceException e) {
            return Optional.empty();
        }
    }

    /**
     * Keeps an attempt that was not flown.
     *
     * @param pilot whose it is
     * @param kind "paper" or "listening"
     * @param at when it ended
     * @param result kept in {@code attempt.json} beside pilot and time
     * @param marks one line each in {@code paper.jsonl}
     * @return its folder
     * @throws IOException if it cannot be written
     */
    public Path keep(String pilot, String kind, Instant at, ObjectNode result, List<Mark> marks) throws IOException {
        ZonedDateTime utc = at.atZone(ZoneOffset.UTC);
        Path month = home.resolve("attempts")
                .resolve(String.format(Locale.ROOT, "%04d", utc.getYear()))
                .resolve(String.format(Locale.ROOT, "%02d", utc.getMonthValue()));
        Files.createDirectories(month);
        String base = ID.format(utc) + "-" + kind;
        Path folder = month.resolve(base);
        for (int n = 2; Files.exists(folder); n++) {
            folder = month.resolve(base + "-" + n);
        }
        Files.createDirectory(folder);
        StringBuilder lines = new StringBuilder();
        for (Mark mark : marks) {
            ObjectNode line = JSON.createObjectNode();
            line.put("skill", mark.skill().name());
            line.put("difficulty", mark.difficulty());
            line.put("right", mark.right());
            line.put("guess_chance", mark.guessChance());
            lines.append(line).append('\n');
        }
        Files.writeString(folder.resolve("paper.jsonl"), lines);
        ObjectNode attempt = JSON.createObjectNode();
        attempt.put("version", VERSION);
        attempt.put("id", String.valueOf(folder.getFileName()));
        attempt.put("pilot", pilot);
        attempt.put("kind", kind);
        attempt.put("ended_utc", at.toString());
        attempt.setAll(result);
        // Last: a folder without it is no attempt yet.
        Files.writeString(folder.resolve("attempt.json"), attempt.toPrettyString() + "\n");
        return folder;
    }

    private static String firstLine(Exception e) {
        return String.valueOf(e.getMessage()).lines().findFirst().orElse("");
    }
}
