package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A drill from its choice to what it tells of the pilot, and homework there and back. */
@Timeout(value = 180, unit = TimeUnit.SECONDS)
class DrillFlownTest extends CommandsInTurn {

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    private String in(String name) {
        return folder.resolve(name).toString();
    }

    /** As a person's recording has it: that the practice aircraft flew it is not said. */
    static Path flownByAPerson(Path recording) throws IOException {
        Path feed = recording.resolve("feed.yaml");
        assertThat(Files.readString(feed)).contains("practice_pilot: ");
        Files.writeString(feed, Files.readString(feed).replaceFirst("practice_pilot: .*\n", ""));
        return recording;
    }

    /** A person flies as the practice aircraft does by this habit. */
    private void flownBy(String pilot, String habit) throws Exception {
        Path recording = folder.resolve("flown-by-" + pilot);
        done("fly", in("next.yaml"), "--out", recording.toString(), "--pilot", habit);
        done("attempts", "add", flownByAPerson(recording).toString(), "--home", in("home"), "--pilot", pilot);
    }

    private static JsonNode of(Map<String, JsonNode> skills, String skill) {
        return Objects.requireNonNull(skills.get(skill), skill);
    }

    private Map<String, JsonNode> progress(String pilot) throws Exception {
        done("progress", "--home", in("home"), "--pilot", pilot, "--json");
        Map<String, JsonNode> skills = new HashMap<>();
        json().path("skills").forEach(skill -> skills.put(skill.path("skill").asText(), skill));
        return skills;
    }

    @Test
    void theNextDrillIsFlownIntoTheBookAndProgressShowsItsMarks() throws Exception {
        done(
                "drill",
                "next",
                "--home",
                in("home"),
                "--pilot",
                "Ann",
                "--seed",
                "4",
                "--out",
                in("next.yaml"),
                "--json");
        assertThat(err).contains("nothing that Ann flew or answered himself").contains("every skill is unknown");
        JsonNode drawn = json();
        flownBy("Ann", "good");

        Path kept;
        try (Stream<Path> files = Files.walk(folder.resolve("home/attempts"))) {
            kept = files.filter(file -> file.endsWith("attempt.json"))
                    .findFirst()
                    .orElseThrow();
        }
        JsonNode attempt = JSON.readTree(kept.toFile());
        assertThat(attempt.path("drill").asText())
                .isEqualTo(
                        drawn.path("filed").asText() + ": " + drawn.path("say").asText());
        // Measured where it was heard in flight: what was drawn, but for the seconds to the next sample.
        for (String feature : List.of("angle_deg", "crosswind_kt")) {
            assertThat(attempt.path("features").path(feature).asDouble())
                    .as(feature)
                    .isCloseTo(drawn.path("features").path(feature).asDouble(), within(1.0));
        }
        for (String feature : List.of("shape", "turn", "extras", "reciprocal_trap", "look_alike", "turn_at_fix")) {
            assertThat(attempt.path("features").path(feature))
                    .as(feature)
                    .isEqualTo(drawn.path("features").path(feature));
        }
        assertThat(attempt.path("difficulty")).isEqualTo(drawn.path("difficulty"));
        assertThat(attempt.path("clearances").path(0).path("lost_s").isNumber()).isTrue();

        Map<String, JsonNode> skills = progress("ann");
        for (String skill : List.of("COURSE", "HEADING", "INTERCEPT", "TRACK", "TIMELY")) {
            boolean judged = drawn.path("difficulty").has(skill);
            assertThat(of(skills, skill).path("marks").asInt()).as(skill).isEqualTo(judged ? 1 : 0);
            if (judged) {
                assertThat(of(skills, skill).path("p").asDouble()).as(skill).isGreaterThan(0.38);
                assertThat(of(skills, skill).path("words").asText()).isIn("unknown", "coming");
            }
        }
        assertThat(of(skills, "HEAR").path("marks").asInt()).isZero();

        flownBy("Bo", "fly-through");
        assertThat(of(progress("Bo"), "INTERCEPT").path("p").asDouble()).isLessThan(0.38);
        done("drill", "next", "--home", in("home"), "--pilot", "Ann", "--seed", "4", "--json");
        assertThat(json().path("say")).isNotEqualTo(drawn.path("say"));
        done("attempts", "rebuild", "--home", in("home"));
        assertThat(JSON.readTree(kept.toFile())).isEqualTo(attempt);
    }

    @Test
    void homeworkGoesHomeAsOneFileAndComesBackAsOne() throws Exception {
        done(
                "drill",
                "sitting",
                "--home",
                in("home"),
                "--pilot",
                "Ann",
                "--count",
                "2",
                "--goal",
                "outbound radials in the wind",
                "--out",
                in("work.zip"));
        Path home = folder.resolve("at-home");
        unzip(folder.resolve("work.zip"), home);
        JsonNode sitting = JSON.readTree(home.resolve("sitting.json").toFile());
        assertThat(sitting.path("goal").asText()).isEqualTo("outbound radials in the wind");
        assertThat(sitting.path("drills")).hasSize(2);
        String say = sitting.path("drills").get(0).path("say").asText();
        assertThat(Files.readString(home.resolve("README.txt")))
                .contains("Drills for Ann", "Goal: outbound radials in the wind", "drill-01.yaml", "drill-02.yaml")
                .contains("rejoin listen drill-01.yaml --out flown-01", "attempts add FILE.zip", "training only")
                .doesNotContain(say);
        for (JsonNode drill : sitting.path("drills")) {
            String lesson = drill.path("lesson").asText();
            done(
                    "fly",
                    home.resolve(lesson).toString(),
                    "--out",
                    home.resolve("flown-" + lesson).toString());
            flownByAPerson(home.resolve("flown-" + lesson));
        }
        Path back = folder.resolve("back.zip");
        zip(home, back);
        done("attempts", "add", "--home", in("home"), "--pilot", "Ann", back.toString());
        assertThat(out.lines()).hasSize(2);
        assertThat(of(progress("Ann"), "TRACK").path("marks").asInt()).isEqualTo(2);
        // The same once more, as a folder: each is in the book already.
        done("attempts", "add", "--home", in("home"), "--pilot", "Ann", home.toString());
        assertThat(out).isEmpty();
        assertThat(err.lines()).hasSize(2).allSatisfy(line -> assertThat(line).contains("in the record book already"));

        refused("attempts", "add", "--home", in("home"), "--pilot", "Ann", in("work.zip"));
        assertThat(err).contains("holds no folder with flight.pcap and lesson.yaml");
        Files.writeString(folder.resolve("not.zip"), "not a zip file");
        refused("attempts", "add", "--home", in("home"), "--pilot", "Ann", in("not.zip"));
        assertThat(err).contains("is no zip file");
        try (ZipOutputStream evil = new ZipOutputStream(Files.newOutputStream(folder.resolve("evil.zip")))) {
            evil.putNextEntry(new ZipEntry("../outside/flight.pcap"));
            evil.write(1);
        }
        refused("attempts", "add", "--home", in("home"), "--pilot", "Ann", in("evil.zip"));
        assertThat(err).contains("would lie outside");
    }

    private static void unzip(Path archive, Path into) throws IOException {
        Files.createDirectories(into);
        try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(archive))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                Files.copy(zip, into.resolve(entry.getName()));
            }
        }
    }

    private static void zip(Path root, Path archive) throws IOException {
        try (OutputStream out = Files.newOutputStream(archive);
                ZipOutputStream zip = new ZipOutputStream(out);
                Stream<Path> files = Files.walk(root)) {
            for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
                zip.putNextEntry(new ZipEntry(root.relativize(file).toString()));
                Files.copy(file, zip);
            }
        }
    }
}
