package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.console.speech.Sound;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Ctrl-C while a pilot's readback is being recognised: the program that hears ends with Rejoin, and no sound is left. */
@Timeout(value = 3, unit = TimeUnit.MINUTES)
class ClosedWhileItHearsTest extends RealRoom {

    private static final ObjectMapper JSON = new ObjectMapper();

    private final HttpClient http = HttpClient.newHttpClient();
    private String cookie = "";

    private HttpRequest.Builder request(String path) {
        HttpRequest.Builder request =
                HttpRequest.newBuilder(URI.create(address() + path)).header("Origin", address());
        return cookie.isEmpty() ? request : request.header("Cookie", cookie);
    }

    private HttpResponse<String> post(String path, String json) throws Exception {
        return http.send(
                request(path)
                        .header("Content-Type", "application/json")
                        .POST(BodyPublishers.ofString(json))
                        .build(),
                HttpResponse.BodyHandlers.ofString());
    }

    /** Twenty seconds of a murmur: long enough to be heard when the program is closed. */
    private static byte[] murmur() {
        float[] samples = new float[(int) (19.5 * Sound.RATE_HZ)];
        for (int i = 0; i < samples.length; i++) {
            samples[i] = (float) (0.3 * Math.sin(i * 0.05) * Math.sin(i * 0.0007));
        }
        return Sound.of(samples).wav();
    }

    @Test
    void noSoundAndNoProgramIsLeft() throws Exception {
        assumeTrue(installed("pocketsphinx_batch"), "no recogniser on this machine");
        assumeTrue(installed("kill"), "no kill on this machine");
        Path temp = Files.createDirectory(folder.resolve("temp"));
        try (RealProgram program =
                RealProgram.room(folder, home, feed, page, List.of("-Djava.io.tmpdir=" + temp), "--hear")) {
            JsonNode code =
                    JSON.readTree(post("/api/code", "{\"pilot\":\"Anna\"}").body());
            cookie = post("/enter", "{\"token\":" + code.get("code") + "}")
                    .headers()
                    .firstValue("Set-Cookie")
                    .orElseThrow()
                    .replaceFirst(";.*", "");
            JsonNode drill =
                    JSON.readTree(http.send(request("/api/listen").build(), HttpResponse.BodyHandlers.ofString())
                            .body());
            CompletableFuture<HttpResponse<String>> heard = http.sendAsync(
                    request("/api/speech/heard?exercise=" + drill.path("id").asText())
                            .header("Content-Type", "audio/wav")
                            .POST(BodyPublishers.ofByteArray(murmur()))
                            .build(),
                    HttpResponse.BodyHandlers.ofString());
            while (program.process().descendants().findAny().isEmpty()) {
                assertThat(heard.isDone()).as("heard before anybody looked").isFalse();
                Thread.sleep(5);
            }
            List<ProcessHandle> children = program.process().descendants().toList();
            assertThat(sounds(temp)).isNotEmpty();
            // It closes as by Ctrl-C, which a program begun in the background may be told to ignore.
            assertThat(new ProcessBuilder(
                                    "kill",
                                    "-TERM",
                                    String.valueOf(program.process().pid()))
                            .start()
                            .waitFor())
                    .isZero();
            program.awaitEnd();
            assertThat(children).noneMatch(ProcessHandle::isAlive);
            assertThat(sounds(temp)).isEmpty();
        }
    }

    private static List<Path> sounds(Path temp) throws Exception {
        try (Stream<Path> all = Files.list(temp)) {
            return all.filter(each -> String.valueOf(each.getFileName()).startsWith("rejoin-sound-"))
                    .toList();
        }
    }
}
