package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.log.EventText;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.speech.Listener;
import org.rejoin.console.speech.Microphone;
import org.rejoin.console.speech.Recogniser;
import org.rejoin.console.speech.Sound;
import org.rejoin.console.speech.Speaker;
import org.rejoin.console.speech.Speech;
import org.rejoin.console.speech.Voice;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.netty.buffer.Unpooled;
import io.netty.channel.embedded.EmbeddedChannel;
import io.netty.handler.codec.http.DefaultHttpContent;
import io.netty.handler.codec.http.DefaultHttpRequest;
import io.netty.handler.codec.http.HttpMethod;
import io.netty.handler.codec.http.HttpVersion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** The clearance as sound, asked for over HTTP, made by the real speech program. */
@Timeout(value = 60, unit = TimeUnit.SECONDS)
class SpeechPageTest {

    private static final String SEAT = "127.0.0.1:40000 OCN512";
    private static final String TOKEN = "correct-horse-battery";
    private static final ObjectMapper JSON = new ObjectMapper();

    private final HttpClient client = HttpClient.newHttpClient();

    private static Speech speech() throws Exception {
        Optional<Voice> voice = Voice.of(
                Optional.empty(),
                Optional.empty(),
                Optional.ofNullable(System.getenv("PATH")).orElse(""));
        assumeTrue(voice.isPresent(), "no speech program on this machine");
        return new Speech(voice.map(Speaker::new), Optional.empty(), 130, false);
    }

    private static FlownPage page(Optional<String> token, Speech speech) throws Exception {
        FlownPage page = new FlownPage(
                "radial-outbound", new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), token, speech);
        List<AircraftState> states = page.states(Habit.GOOD, 1);
        page.fly(SEAT, states.subList(0, 200));
        return page;
    }

    private static String seat() {
        return "seat=" + URLEncoder.encode(SEAT, StandardCharsets.UTF_8);
    }

    private HttpResponse<byte[]> get(FlownPage page, String path, String... headers) throws Exception {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(page.address() + path));
        for (int i = 0; i < headers.length; i += 2) {
            request.header(headers[i], headers[i + 1]);
        }
        return client.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
    }

    private HttpResponse<String> post(FlownPage page, String path, String body, String... headers) throws Exception {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(page.address() + path))
                .header("Origin", page.address())
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofString(body));
        for (int i = 0; i < headers.length; i += 2) {
            request.header(headers[i], headers[i + 1]);
        }
        return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private static String text(HttpResponse<byte[]> response) {
        return new String(response.body(), StandardCharsets.UTF_8);
    }

    @Test
    void theClearanceThatWasIssuedIsHeard() throws Exception {
        try (FlownPage page = page(Optional.empty(), speech())) {
            JsonNode able = JSON.readTree(text(get(page, "/api/speech")));
            assertThat(able.path("voice").path("program").asText()).isIn("flite", "espeak-ng");
            assertThat(able.path("words_a_minute").asInt()).isEqualTo(130);
            assertThat(able.path("install").isNull()).isTrue();
            HttpResponse<byte[]> said = get(page, "/api/speech/said?clearance=1&" + seat());
            assertThat(said.statusCode()).as(text(said)).isEqualTo(200);
            assertThat(said.headers().firstValue("Content-Type")).contains("audio/wav");
            double usual = Sound.read(said.body(), 60).seconds();
            assertThat(usual).isBetween(3.0, 40.0);
            assertThat(Microphone.rms(Sound.read(said.body(), 60))).isGreaterThan(0.01);
            double fast = Sound.read(
                            get(page, "/api/speech/said?clearance=1&wpm=200&" + seat())
                                    .body(),
                            60)
                    .seconds();
            assertThat(fast).isLessThan(usual * 0.85);
        }
    }

    @Test
    void whatIsNotThereIsSaidInOneLine() throws Exception {
        try (FlownPage page = page(Optional.empty(), Speech.NONE)) {
            HttpResponse<byte[]> none = get(page, "/api/speech/said?clearance=1&" + seat());
            assertThat(none.statusCode()).isEqualTo(404);
            assertThat(text(none)).contains("no speech program", "flite").doesNotContain("\n");
            JsonNode able = JSON.readTree(text(get(page, "/api/speech")));
            assertThat(able.path("voice").isNull()).isTrue();
            assertThat(able.path("install").asText()).contains("flite or espeak-ng");
            assertThat(get(page, "/api/speech/said?clearance=9&" + seat()).statusCode())
                    .isEqualTo(404);
            assertThat(get(page, "/api/speech/said?clearance=x&" + seat()).statusCode())
                    .isEqualTo(400);
            assertThat(get(page, "/api/speech/said?clearance=1&seat=nobody").statusCode())
                    .isEqualTo(404);
        }
    }

    @Test
    void withoutATokenNothingIsSaidAndOfAnotherSitesPageNothing() throws Exception {
        try (FlownPage page = page(Optional.of(TOKEN), Speech.NONE)) {
            assertThat(get(page, "/api/speech").statusCode()).isEqualTo(401);
            assertThat(post(page, "/api/speech/again", "{}").statusCode()).isEqualTo(401);
            assertThat(get(page, "/api/speech", "Sec-Fetch-Site", "cross-site").statusCode())
                    .isEqualTo(403);
        }
    }

    @Test
    void sayAgainIsCountedInTheLog() throws Exception {
        try (FlownPage page = page(Optional.empty(), Speech.NONE)) {
            String order = "{\"seat\":\"" + SEAT + "\",\"clearance\":1}";
            assertThat(post(page, "/api/speech/again", order).body()).contains("\"times\":1");
            assertThat(post(page, "/api/speech/again", order).body()).contains("\"times\":2");
            assertThat(post(page, "/api/speech/again", "{\"seat\":\"" + SEAT + "\",\"clearance\":7}")
                            .body())
                    .contains("no clearance was issued yet");
            page.onThread(
                    () -> assertThat(page.seat(SEAT).orElseThrow().record().events())
                            .filteredOn(FlightEvent.SaidAgain.class::isInstance)
                            .extracting(event -> EventText.line(event, Optional.empty()))
                            .hasSize(2)
                            .allMatch(line -> line.endsWith("say again: clearance 1")));
        }
    }

    private String cookie(FlownPage page, String token) throws Exception {
        return post(page, "/enter", "{\"token\":\"" + token + "\"}")
                .headers()
                .firstValue("Set-Cookie")
                .orElseThrow()
                .replaceFirst(";.*", "");
    }

    /** All students have one token: of two aircraft nobody can tell which is his. */
    @Test
    void aStudentSpeaksForASeatOnlyWhereNoOtherIsFlown() throws Exception {
        try (FlownPage page = page(Optional.of(TOKEN), Speech.NONE)) {
            String student = cookie(page, page.server.studentToken().orElseThrow());
            String again = "{\"seat\":\"" + SEAT + "\",\"clearance\":1}";
            assertThat(post(page, "/api/speech/again", again, "Cookie", student).body())
                    .contains("\"times\":1");
            page.fly("127.0.0.1:40001 OCN513", page.states(Habit.GOOD, 1).subList(0, 200));
            HttpResponse<String> refused = post(page, "/api/speech/again", again, "Cookie", student);
            assertThat(refused.statusCode()).isEqualTo(403);
            assertThat(refused.body()).contains("not your seat").doesNotContain("\n");
            String readback = "{\"do\":\"readback\",\"seat\":\"" + SEAT + "\",\"text\":\"then as filed\"}";
            assertThat(post(page, "/order", readback, "Cookie", student).statusCode())
                    .isEqualTo(403);
            assertThat(post(page, "/api/speech/again", again, "Cookie", cookie(page, TOKEN))
                            .body())
                    .contains("\"times\":2");
        }
    }

    /** What an instructor taps is not the pilot's to say. */
    @Test
    void aReadbackThatAPilotTypesIsKeptAsTyped() throws Exception {
        try (FlownPage page = page(Optional.empty(), Speech.NONE)) {
            String order = "{\"do\":\"readback\",\"seat\":\"" + SEAT
                    + "\",\"clearance\":1,\"text\":\"then as filed\",\"began_s\":100,\"ended_s\":100,\"how\":\"%s\"}";
            assertThat(post(page, "/order", order.formatted("tapped")).body()).contains("a readback is heard or typed");
            assertThat(post(page, "/order", order.formatted("heard")).body())
                    .contains("nothing was heard for this clearance");
            page.onThread(() -> assertThat(readbacks(page)).isEmpty());
            post(page, "/order", order.formatted("typed"));
            page.onThread(() -> assertThat(readbacks(page)).singleElement().satisfies(event -> {
                assertThat(event.how()).isEqualTo("typed");
                assertThat(event.copyS()).isEmpty();
                assertThat(event.readS())
                        .as("the keyboard tells nothing of how long he talked")
                        .isEmpty();
            }));
        }
    }

    @Test
    void aBodyThatIsTooLargeIsRefused() throws Exception {
        try (FlownPage page = page(Optional.empty(), Speech.NONE)) {
            String large = "x".repeat(9_000);
            try {
                HttpResponse<String> refused = post(page, "/api/speech/again", large);
                assertThat(refused.statusCode()).isEqualTo(413);
                assertThat(refused.body()).isEqualTo("too large: a request here may have 8192 octets");
            } catch (java.io.IOException e) {
                // The connection was closed while it was still being sent.
            }
        }
    }

    @Test
    void soundIsAskedForWhereSoundIsTaken() throws Exception {
        try (FlownPage page = page(Optional.empty(), Speech.NONE)) {
            HttpResponse<String> refused = post(page, "/api/speech/heard?clearance=1", "{}");
            assertThat(refused.statusCode()).isEqualTo(415);
            assertThat(refused.body()).isEqualTo("audio/wav is needed here, not application/json");
        }
    }

    /** A head alone tells who asks: of a stranger's sound no more is taken than of anything else. */
    @Test
    void aStrangersSoundIsRefusedBeforeItIsTakenIn() {
        DefaultHttpRequest head =
                new DefaultHttpRequest(HttpVersion.HTTP_1_1, HttpMethod.POST, "/api/speech/heard?a=b");
        for (boolean known : new boolean[] {false, true}) {
            EmbeddedChannel connection =
                    new EmbeddedChannel(new BodyLimit(8_192, SpeechDesk.MOST_SOUND, (context, request) -> known));
            connection.writeInbound(head);
            connection.writeInbound(new DefaultHttpContent(Unpooled.buffer().writeZero(8_192)));
            assertThat(connection.isOpen()).isTrue();
            connection.writeInbound(new DefaultHttpContent(Unpooled.buffer().writeZero(1)));
            assertThat(connection.isOpen()).isEqualTo(known);
            connection.finishAndReleaseAll();
        }
    }

    @Test
    void aStrangersOrderIsNotRead() throws Exception {
        try (FlownPage page = page(Optional.of(TOKEN), Speech.NONE)) {
            assertThat(post(page, "/order", "{ this is none").statusCode()).isEqualTo(401);
            String student = cookie(page, page.server.studentToken().orElseThrow());
            assertThat(post(page, "/order", "{ this is none", "Cookie", student).statusCode())
                    .isEqualTo(400);
        }
    }

    /** Spoken by a program, heard by another, confirmed, kept. */
    @Test
    void aReadbackIsHeardAndCountsWhenItIsConfirmed() throws Exception {
        String path = Optional.ofNullable(System.getenv("PATH")).orElse("");
        Speech voice = speech();
        assumeTrue(
                java.nio.file.Files.isExecutable(java.nio.file.Path.of("/usr/bin/pocketsphinx_batch")),
                "no recogniser on this machine");
        Speech both = new Speech(
                voice.speaker(),
                Optional.of(new Listener(Recogniser.of(Optional.empty(), Optional.empty(), path), path)),
                130,
                false);
        try (FlownPage page = page(Optional.empty(), both)) {
            assertThat(text(get(page, "/api/speech"))).contains("\"hearing\":{\"program\":\"pocketsphinx_batch\"}");
            assertThat(text(get(page, "/api/speech/calibrate"))).contains(Listener.KNOWN_SENTENCE);
            byte[] wav = voice.speaker()
                    .orElseThrow()
                    .say(
                            "heading one one zero, intercept the petrel zero six six radial, join victor forty, then as filed",
                            150)
                    .wav();
            HttpRequest request = HttpRequest.newBuilder(
                            URI.create(page.address() + "/api/speech/heard?clearance=1&" + seat()))
                    .header("Origin", page.address())
                    .header("Content-Type", "audio/wav")
                    .POST(HttpRequest.BodyPublishers.ofByteArray(wav))
                    .build();
            JsonNode heard = JSON.readTree(
                    client.send(request, HttpResponse.BodyHandlers.ofString()).body());
            assertThat(heard.path("elements").findValuesAsText("element"))
                    .contains("heading", "station", "radial", "airway", "rest of the route");
            // Before it counts nothing tells what ATC said, or what is right.
            assertThat(heard.path("elements").findValuesAsText("verdict")).containsOnly("heard");
            assertThat(heard.path("elements").findValuesAsText("said")).isEmpty();
            assertThat(heard.path("elements").findValuesAsText("element")).doesNotContain("callsign");
            page.onThread(
                    () -> assertThat(readbacks(page)).as("nothing counts yet").isEmpty());
            String order = JSON.createObjectNode()
                    .put("do", "readback")
                    .put("seat", SEAT)
                    .put("clearance", 1)
                    .put("how", "heard")
                    .put("words", heard.path("words").asText())
                    .put("began_s", 100)
                    .put("ended_s", 106)
                    .toString();
            assertThat(post(page, "/order", order).body()).contains("\"k\":\"readback\"");
            page.onThread(() -> assertThat(readbacks(page)).singleElement().satisfies(event -> {
                assertThat(event.how()).isEqualTo("heard");
                assertThat(event.copyS().orElseThrow()).isCloseTo(70, within(1e-6));
                assertThat(event.readS()).hasValue(6);
            }));
        }
    }

    private static List<FlightEvent.ReadBack> readbacks(FlownPage page) {
        return page.seat(SEAT).orElseThrow().record().events().stream()
                .filter(FlightEvent.ReadBack.class::isInstance)
                .map(FlightEvent.ReadBack.class::cast)
                .toList();
    }
}
