package org.rejoin.console.cli;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/**
 * The practice room, the real program, killed while its page signs, marks, remarks and gives attempts to other pilots: what
 * was answered is on the disk, the index lists it, and nothing else changed.
 */
@Timeout(value = 30, unit = TimeUnit.MINUTES)
class KilledWhileSigningTest extends RealRoom {

    /** More by hand: {@code -Drejoin.sign-kills=50}. */
    private static final int KILLS = Integer.getInteger("rejoin.sign-kills", 2);

    private static final int ATTEMPTS = 5;
    private static final ObjectMapper JSON = new ObjectMapper();

    private final HttpClient http = HttpClient.newHttpClient();
    private int told;

    /** What the page was told is done, for each attempt. */
    private static final class Done {
        private final List<String> signed = new ArrayList<>();
        private final List<String> remarked = new ArrayList<>();
        private int marks;
        private String pilot = "Anna";
        /** Asked for when the program was killed: done or not, but nothing between. */
        private String pilotAsked = "";
    }

    private final Map<String, Done> all = new HashMap<>();

    private Done done(String id) {
        return requireNonNull(all.get(id));
    }

    private boolean ordered(String id, String what, String json) {
        try {
            return http.send(
                                    HttpRequest.newBuilder(URI.create(address() + "/api/attempt/" + id + "/" + what))
                                            .timeout(Duration.ofSeconds(30))
                                            .header("Content-Type", "application/json")
                                            .header("Origin", address())
                                            .POST(HttpRequest.BodyPublishers.ofString(json))
                                            .build(),
                                    HttpResponse.BodyHandlers.ofString())
                            .statusCode()
                    == 200;
        } catch (IOException e) {
            return false; // killed
        } catch (InterruptedException e) {
            throw new AssertionError(e);
        }
    }

    /** One of each, and a look at the list, which brings the index up to date. */
    private boolean round(String id, Done done) throws Exception {
        int n = ++told;
        if (!ordered(id, "sign", "{\"name\":\"C. Instructor\",\"certificate\":\"4711\",\"remark\":\"" + n + "\"}")) {
            return false;
        }
        done.signed.add(String.valueOf(n));
        if (!ordered(id, "mark", "{\"score\":" + n % 100 + ",\"by\":\"C. Instructor\",\"reason\":\"seen\"}")) {
            return false;
        }
        done.marks++;
        if (!ordered(id, "remark", "{\"t\":12,\"text\":\"remark " + n + "\"}")) {
            return false;
        }
        done.remarked.add("remark " + n);
        done.pilotAsked = "Pilot " + n % 7;
        if (!ordered(id, "pilot", "{\"name\":\"" + done.pilotAsked + "\"}")) {
            return false;
        }
        done.pilot = done.pilotAsked;
        try {
            http.send(
                    HttpRequest.newBuilder(URI.create(address() + "/api/attempts"))
                            .timeout(Duration.ofSeconds(30))
                            .build(),
                    HttpResponse.BodyHandlers.ofString());
            return true;
        } catch (IOException e) {
            return false; // killed
        }
    }

    private static List<String> texts(Path file, String member) throws IOException {
        List<String> texts = new ArrayList<>();
        if (Files.exists(file)) {
            for (String line : Files.readAllLines(file)) {
                texts.add(Ran.json(line).path(member).asText());
            }
        }
        return texts;
    }

    @Test
    void whatThePageWasToldIsDoneIsOnTheDiskAndInTheIndex() throws Exception {
        Ran.well("fly", "heading-to-airway", "--hz", "1", "--home", home.toString(), "--as", "Anna");
        Path first = requireNonNull(attempts("grade.json").get(0).getParent());
        Map<String, Path> places = copies(first, ATTEMPTS - 1);
        places.put(first.getFileName().toString(), first);
        places.keySet().forEach(each -> all.put(each, new Done()));
        SplittableRandom random = new SplittableRandom(20261128);
        for (int kill = 0; kill < KILLS; kill++) {
            killed(places, 20 + random.nextInt(600));
            isWhole(places, "kill " + kill);
        }
    }

    private void killed(Map<String, Path> places, int afterMs) throws Exception {
        freePorts();
        try (RealProgram room = room()) {
            List<String> ids = places.keySet().stream().sorted().toList();
            Thread killer = new Thread(() -> {
                try {
                    Thread.sleep(afterMs);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
                room.process().destroyForcibly();
            });
            killer.start();
            int next = 0;
            while (round(ids.get(next % ids.size()), done(ids.get(next % ids.size())))) {
                next++;
            }
            killer.join();
            room.process().waitFor();
        }
    }

    /** What was answered is on the disk, in its order; behind it at most the one that had no answer when the program died. */
    private static void assertKept(List<String> onDisk, List<String> answered, String when) {
        assertThat(onDisk).as(when).hasSizeBetween(answered.size(), answered.size() + 1);
        assertThat(onDisk.subList(0, answered.size())).as(when).isEqualTo(answered);
    }

    private void isWhole(Map<String, Path> places, String when) throws Exception {
        String listed =
                Ran.well("attempts", "--home", home.toString(), "--json").out();
        Map<String, JsonNode> rows = new HashMap<>();
        for (String line : listed.lines().toList()) {
            JsonNode row = Ran.json(line);
            rows.put(row.path("id").asText(), row);
        }
        assertThat(rows.keySet()).as(when).isEqualTo(places.keySet());
        for (Map.Entry<String, Path> each : places.entrySet()) {
            Done done = done(each.getKey());
            Path place = each.getValue();
            JsonNode row = requireNonNull(rows.get(each.getKey()));
            // Answered: there. Not answered: there whole, or not at all; then it counts from here on.
            List<String> signed = texts(place.resolve("signatures.jsonl"), "remark");
            assertKept(signed, done.signed, when);
            List<String> remarked = texts(place.resolve("remarks.jsonl"), "text");
            assertKept(remarked, done.remarked, when);
            int marks = texts(place.resolve("marks.jsonl"), "reason").size();
            assertThat(marks - done.marks).as(when).isBetween(0, 1);
            String pilot = JSON.readTree(place.resolve("attempt.json").toFile())
                    .path("pilot")
                    .asText();
            assertThat(pilot).as(when).isIn(done.pilot, done.pilotAsked);
            assertThat(row.path("pilot").asText()).as(when).isEqualTo(pilot);
            assertThat(row.path("signed_by").asText("")).as(when).isEqualTo(signed.isEmpty() ? "" : "C. Instructor");
            done.signed.clear();
            done.signed.addAll(signed);
            done.remarked.clear();
            done.remarked.addAll(remarked);
            done.marks = marks;
            done.pilot = pilot;
        }
    }
}
