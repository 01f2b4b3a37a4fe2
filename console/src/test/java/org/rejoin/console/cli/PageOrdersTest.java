package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Orders by hand over real sockets, while a flight goes on, ends, or cannot be recorded. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class PageOrdersTest {

    private static final Pattern PAGE = Pattern.compile("page for the instructor: (http://127\\.0\\.0\\.1:\\d+)/");
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    private final StringWriter err = new StringWriter();
    private final ExecutorService pool = Executors.newCachedThreadPool();
    private final HttpClient http =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();

    @AfterEach
    void end() {
        pool.shutdownNow();
    }

    private Future<Integer> fly(Path out) {
        return pool.submit(() -> Rejoin.run(
                new PrintWriter(new StringWriter()),
                new PrintWriter(err, true),
                "fly",
                "heading-to-airway",
                "--page",
                "0",
                "--page-linger",
                "60",
                "--rate",
                "20",
                "--out",
                out.toString()));
    }

    private String page() throws Exception {
        for (int i = 0; i < 400; i++) {
            Matcher found = PAGE.matcher(err.toString());
            if (found.find()) {
                return found.group(1);
            }
            Thread.sleep(25);
        }
        throw new AssertionError("no page: " + err);
    }

    private JsonNode order(String page, String json) throws Exception {
        HttpResponse<String> answer = http.send(
                HttpRequest.newBuilder(URI.create(page + "/order"))
                        .timeout(Duration.ofSeconds(25))
                        .header("Origin", page)
                        .header("Content-Type", "application/json")
                        .POST(HttpRequest.BodyPublishers.ofString(json))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return JSON.readTree(answer.body());
    }

    /** As a browser learns it: from the stream. */
    private String seat(String page) throws Exception {
        HttpResponse<Stream<String>> stream = http.send(
                HttpRequest.newBuilder(URI.create(page + "/stream")).build(), HttpResponse.BodyHandlers.ofLines());
        try (Stream<String> lines = stream.body()) {
            String line = lines.filter(each -> each.contains("\"seat\":\"127.0.0.1:"))
                    .findFirst()
                    .orElseThrow();
            Matcher seat = Pattern.compile("\"seat\":\"([^\"]+)\"").matcher(line);
            assertThat(seat.find()).isTrue();
            return seat.group(1);
        }
    }

    private static String issue(String seat, int heading) {
        return "{\"do\":\"issue\",\"seat\":\"" + seat + "\",\"text\":\"fly heading " + heading
                + ", intercept V40, resume own navigation\"}";
    }

    @Test
    void ordersThatRaceWithTheEndAreAnsweredAndWhatWasKeptIsThere() throws Exception {
        Path out = folder.resolve("flight");
        Future<Integer> flying = fly(out);
        String page = page();
        String seat = seat(page);
        // Somebody looks, so the page lasts longer than the flight.
        HttpResponse<InputStream> watching = http.send(
                HttpRequest.newBuilder(URI.create(page + "/stream")).build(),
                HttpResponse.BodyHandlers.ofInputStream());
        List<JsonNode> answers = new CopyOnWriteArrayList<>();
        List<Future<?>> asking = new ArrayList<>();
        for (int b = 0; b < 4; b++) {
            int browser = b;
            asking.add(pool.submit(() -> {
                for (int i = 0; i < 60; i++) {
                    answers.add(order(
                            page,
                            i % 3 == 2
                                    ? "{\"do\":\"remark\",\"seat\":\"" + seat + "\",\"text\":\"" + browser + " " + i
                                            + "\"}"
                                    : issue(seat, 160 + (i * 7 + browser) % 40)));
                    if (browser == 0 && i == 20) {
                        order(page, "{\"do\":\"stop\"}");
                    }
                }
                return null;
            }));
        }
        for (Future<?> one : asking) {
            one.get(60, TimeUnit.SECONDS);
        }
        watching.body().close();
        assertThat(flying.get(60, TimeUnit.SECONDS)).as(err.toString()).isZero();
        assertThat(answers).hasSize(240);
        assertThat(answers)
                .filteredOn(answer -> answer.path("k").asText().equals("refused"))
                .isNotEmpty()
                .allMatch(answer -> answer.path("why").asText().equals("the flight is over"));
        long issued = answers.stream()
                .filter(answer -> answer.path("k").asText().equals("issued"))
                .peek(answer -> assertThat(answer.path("kept").asBoolean()).isTrue())
                .count();
        long remarked = answers.stream()
                .filter(answer -> answer.path("k").asText().equals("done"))
                .peek(answer -> assertThat(answer.path("kept").asBoolean()).isTrue())
                .count();
        assertThat(issued).isPositive();
        assertThat(remarked).isPositive();
        assertThat(Files.readAllLines(out.resolve("spoken.jsonl"))).hasSize((int) issued);
        assertThat(Files.readAllLines(out.resolve("remarks.jsonl"))).hasSize((int) remarked);
        List<String> log = Files.readAllLines(out.resolve("log.jsonl"));
        assertThat(log).filteredOn(line -> line.contains("\"flight_ended\"")).hasSize(1);
        assertThat(log).last().asString().contains("\"flight_ended\"");
        assertThat(log.stream().filter(line -> line.contains("\"clearance_issued\"")))
                .hasSizeGreaterThanOrEqualTo((int) issued);

        Path again = folder.resolve("again");
        Ran.well("debrief", out.toString(), "--out", again.toString());
        assertThat(again.resolve("log.jsonl")).hasSameTextualContentAs(out.resolve("log.jsonl"));
        assertThat(again.resolve("grade.json")).hasSameTextualContentAs(out.resolve("grade.json"));
    }

    /** One controller at a time speaks to an aircraft; of two pages the second hears what the first has just said. */
    @Test
    void ofTwoInstructorsTheSecondIsToldWhatTheFirstHasJustIssued() throws Exception {
        Path out = folder.resolve("flight");
        Future<Integer> flying = fly(out);
        String page = page();
        String seat = seat(page);
        String second = issue(seat, 190).replace("{", "{\"page\":\"two\",");
        assertThat(order(page, issue(seat, 170).replace("{", "{\"page\":\"one\","))
                        .path("k")
                        .asText())
                .isEqualTo("issued");
        JsonNode asked = order(page, second);
        assertThat(asked.path("k").asText()).isEqualTo("ask");
        assertThat(asked.path("why").asText()).contains("Another page has just issued", "fly heading 170");
        assertThat(order(page, "{\"page\":\"two\",\"do\":\"undo\",\"seat\":\"" + seat + "\"}")
                        .path("k")
                        .asText())
                .as("what he has not read he does not take back")
                .isEqualTo("ask");
        assertThat(order(page, second.replace("{", "{\"again\":true,"))
                        .path("k")
                        .asText())
                .isEqualTo("issued");
        assertThat(order(page, issue(seat, 180).replace("{", "{\"page\":\"two\","))
                        .path("k")
                        .asText())
                .as("he knows what he said himself")
                .isEqualTo("issued");
        order(page, "{\"do\":\"stop\"}");
        assertThat(flying.get(60, TimeUnit.SECONDS)).as(err.toString()).isZero();
        assertThat(Files.readAllLines(out.resolve("spoken.jsonl"))).hasSize(3);
    }

    /** The same as in a lesson and on the command line. */
    @Test
    void anAltitudeBesideTheWordsThatNobodyAssignsIsRefused() throws Exception {
        Path out = folder.resolve("flight");
        Future<Integer> flying = fly(out);
        String page = page();
        String seat = seat(page);
        for (String feet : List.of("0", "499", "60001", "\"low\"")) {
            for (String what : List.of("issue", "preview")) {
                JsonNode refused = order(
                        page, issue(seat, 170).replace("issue", what).replace("{", "{\"altitude_ft\":" + feet + ","));
                assertThat(refused.path("why").asText()).contains("500 to 60000 feet would be right");
            }
        }
        assertThat(order(page, issue(seat, 170).replace("{", "{\"altitude_ft\":500,"))
                        .path("k")
                        .asText())
                .isEqualTo("issued");
        order(page, "{\"do\":\"stop\"}");
        assertThat(flying.get(60, TimeUnit.SECONDS)).as(err.toString()).isZero();
    }

    @Test
    void whatCannotBeKeptIsNotCalledKept() throws Exception {
        Path out = folder.resolve("flight");
        Future<Integer> flying = fly(out);
        String page = page();
        String seat = seat(page);
        Files.createDirectory(out.resolve("spoken.jsonl"));
        Files.createDirectory(out.resolve("remarks.jsonl"));
        JsonNode issued = order(page, issue(seat, 170));
        assertThat(issued.path("k").asText()).isEqualTo("issued");
        assertThat(issued.path("kept").asBoolean(true)).isFalse();
        JsonNode remark = order(page, "{\"do\":\"remark\",\"seat\":\"" + seat + "\",\"text\":\"late\"}");
        assertThat(remark.path("k").asText()).isEqualTo("waits");
        assertThat(remark.path("why").asText()).startsWith("the remark is not kept: ");
        order(page, "{\"do\":\"stop\"}");
        assertThat(flying.get(60, TimeUnit.SECONDS)).as(err.toString()).isZero();
        assertThat(err.toString())
                .contains("the clearance cannot be kept, so a debrief will not have it: ")
                .contains("the remark cannot be kept: ");
    }
}
