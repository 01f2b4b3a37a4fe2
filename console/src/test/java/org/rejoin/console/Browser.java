package org.rejoin.console;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;

/** A real headless browser with one page open, driven by the DevTools protocol over its own loopback socket. */
public final class Browser implements AutoCloseable {

    private static final ObjectMapper JSON = new ObjectMapper();

    private final Process process;
    private final WebSocket socket;
    private final AtomicInteger ids = new AtomicInteger();
    private final Map<Integer, CompletableFuture<JsonNode>> waiting = new ConcurrentHashMap<>();
    private final List<String> complaints = new CopyOnWriteArrayList<>();
    private final List<String> requests = new CopyOnWriteArrayList<>();

    public static Optional<Path> installed() {
        return Stream.of(System.getenv().getOrDefault("PATH", "").split(java.io.File.pathSeparator))
                .filter(directory -> !directory.isEmpty())
                .flatMap(directory -> Stream.of("chromium", "chromium-browser").map(Path.of(directory)::resolve))
                .filter(Files::isExecutable)
                .findFirst();
    }

    /**
     * The browser without a window, quiet, with a profile of its own; further options and addresses may be added. Where there
     * is none, the test that asks is left out.
     */
    public static List<String> command(Path profile) {
        assumeTrue(installed().isPresent(), "no browser on this machine");
        return new ArrayList<>(List.of(
                installed().orElseThrow().toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-quic",
                "--no-first-run",
                "--disable-background-networking",
                "--disable-component-update",
                "--disable-sync",
                "--user-data-dir=" + profile));
    }

    public Browser(Path folder, int width, int height) throws Exception {
        this(folder, width, height, List.of());
    }

    /** With further options, as a microphone that is fed from a file. */
    public Browser(Path folder, int width, int height, List<String> more) throws Exception {
        Path profile = Files.createTempDirectory(folder, "profile");
        List<String> command = command(profile);
        command.addAll(more);
        command.addAll(List.of("--remote-debugging-port=0", "--window-size=" + width + "," + height, "about:blank"));
        process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(profile.resolve("said.txt").toFile())
                .start();
        try {
            int port = port(profile.resolve("DevToolsActivePort"));
            HttpClient http = HttpClient.newHttpClient();
            JsonNode pages = JSON.readTree(http.send(
                            HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/json/list"))
                                    .build(),
                            HttpResponse.BodyHandlers.ofString())
                    .body());
            String address = "";
            for (JsonNode page : pages) {
                address = page.path("type").asText().equals("page")
                        ? page.path("webSocketDebuggerUrl").asText()
                        : address;
            }
            socket = http.newWebSocketBuilder()
                    .buildAsync(URI.create(address), new Heard())
                    .get(20, TimeUnit.SECONDS);
            for (String domain : List.of("Page", "Runtime", "Log", "Network")) {
                call(domain + ".enable", "{}");
            }
            size(width, height);
        } catch (Exception e) {
            process.destroyForcibly();
            throw e;
        }
    }

    private static int port(Path file) throws Exception {
        for (int i = 0; i < 300; i++) {
            if (Files.exists(file)) {
                List<String> lines = Files.readAllLines(file);
                if (lines.size() > 1) {
                    return Integer.parseInt(lines.get(0));
                }
            }
            Thread.sleep(100);
        }
        throw new IOException("the browser does not start");
    }

    private final class Heard implements WebSocket.Listener {
        private final StringBuilder text = new StringBuilder();

        @Override
        public CompletionStage<?> onText(WebSocket from, CharSequence data, boolean last) {
            text.append(data);
            if (last) {
                take(text.toString());
                text.setLength(0);
            }
            from.request(1);
            return CompletableFuture.completedFuture(null);
        }
    }

    private void take(String text) {
        JsonNode message;
        try {
            message = JSON.readTree(text);
        } catch (IOException e) {
            throw new AssertionError(text, e);
        }
        if (message.has("id")) {
            Optional.ofNullable(waiting.remove(message.get("id").asInt()))
                    .ifPresent(answer -> answer.complete(message));
        }
        JsonNode parameters = message.path("params");
        switch (message.path("method").asText()) {
            case "Runtime.exceptionThrown" -> complaints.add(parameters.toString());
            case "Runtime.consoleAPICalled" -> complaints.add(parameters.toString());
            case "Log.entryAdded" ->
                complaints.add(parameters.path("entry").path("text").asText() + " "
                        + parameters.path("entry").path("url").asText());
            case "Network.requestWillBeSent" ->
                requests.add(parameters.path("request").path("url").asText());
            default -> {}
        }
    }

    public JsonNode call(String method, String parameters) throws Exception {
        int id = ids.incrementAndGet();
        CompletableFuture<JsonNode> answer = new CompletableFuture<>();
        waiting.put(id, answer);
        socket.sendText("{\"id\":" + id + ",\"method\":\"" + method + "\",\"params\":" + parameters + "}", true)
                .get(10, TimeUnit.SECONDS);
        return answer.get(30, TimeUnit.SECONDS);
    }

    public void size(int width, int height) throws Exception {
        call(
                "Emulation.setDeviceMetricsOverride",
                "{\"width\":" + width + ",\"height\":" + height + ",\"deviceScaleFactor\":1,\"mobile\":false}");
    }

    /** The next page, loaded; never mistaken for the one before. */
    public void open(String address) throws Exception {
        value("window.isBefore = true");
        call("Page.navigate", "{\"url\":" + JSON.writeValueAsString(address) + "}");
        until("!window.isBefore && document.readyState === 'complete'");
    }

    /** A script that runs in every page opened from now on, before its own. */
    public void beforeEachPage(String script) throws Exception {
        call("Page.addScriptToEvaluateOnNewDocument", "{\"source\":" + JSON.writeValueAsString(script) + "}");
    }

    /** Presses the main button at a point of the window, CSS pixels. */
    public void press(double x, double y) throws Exception {
        for (String type : List.of("mouseMoved", "mousePressed", "mouseReleased")) {
            String button = type.equals("mouseMoved") ? "none" : "left";
            call(
                    "Input.dispatchMouseEvent",
                    "{\"type\":\"" + type + "\",\"x\":" + x + ",\"y\":" + y + ",\"button\":\"" + button
                            + "\",\"clickCount\":1}");
        }
    }

    /** Draws with the main button from one point of the window to another, CSS pixels. */
    public void drag(double fromX, double fromY, double toX, double toY) throws Exception {
        mouse("mouseMoved", fromX, fromY, 0);
        mouse("mousePressed", fromX, fromY, 1);
        mouse("mouseMoved", (fromX + toX) / 2, (fromY + toY) / 2, 1);
        mouse("mouseMoved", toX, toY, 1);
        mouse("mouseReleased", toX, toY, 0);
    }

    private void mouse(String type, double x, double y, int buttons) throws Exception {
        call(
                "Input.dispatchMouseEvent",
                "{\"type\":\"" + type + "\",\"x\":" + x + ",\"y\":" + y + ",\"button\":\"left\",\"buttons\":" + buttons
                        + ",\"clickCount\":1}");
    }

    /** The value of an expression, as JSON. */
    public JsonNode value(String expression) throws Exception {
        JsonNode answer = call(
                "Runtime.evaluate",
                "{\"returnByValue\":true,\"awaitPromise\":true,\"expression\":" + JSON.writeValueAsString(expression)
                        + "}");
        assertThat(answer.path("result").has("exceptionDetails"))
                .as(answer.toString())
                .isFalse();
        return answer.path("result").path("result").path("value");
    }

    public String text(String selector) throws Exception {
        return value("document.querySelector('" + selector + "').innerText").asText();
    }

    public void click(String selector) throws Exception {
        value("document.querySelector('" + selector + "').click()");
    }

    /** Presses an element as a hand does: in sight, at its middle. */
    public void press(String selector) throws Exception {
        until("document.querySelector('" + selector + "') !== null");
        value("document.querySelector('" + selector + "').scrollIntoView({block: 'center'})");
        JsonNode at = value("(() => { const r = document.querySelector('" + selector
                + "').getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()");
        press(at.get(0).asDouble(), at.get(1).asDouble());
    }

    /** Types in place of what a field holds. */
    public void retype(String selector, String text) throws Exception {
        value("document.querySelector('" + selector + "').focus()");
        value("document.querySelector('" + selector + "').select()");
        call("Input.insertText", "{\"text\":" + JSON.writeValueAsString(text) + "}");
    }

    /** Chooses in a list, by value. */
    public void choose(String selector, String value) throws Exception {
        value("(() => { const e = document.querySelector('" + selector + "'); e.value = '" + value
                + "'; e.dispatchEvent(new Event('change', {bubbles: true})); })()");
    }

    /** An order of the page to its server; the answer. */
    public String post(String path, String json) throws Exception {
        return value("fetch('" + path + "', {method: 'POST', headers: {'Content-Type': 'application/json'}, body: "
                        + JSON.writeValueAsString(json) + "}).then((r) => r.text())")
                .asText();
    }

    public void type(String selector, String text) throws Exception {
        value("document.querySelector('" + selector + "').focus()");
        call("Input.insertText", "{\"text\":" + JSON.writeValueAsString(text) + "}");
    }

    /** Presses and releases a key, by its name in the UI Events standard; Enter and Tab act as on a keyboard. */
    public void key(String key) throws Exception {
        boolean letter = key.length() == 1;
        String more = switch (key) {
            case "Enter" -> ",\"code\":\"Enter\",\"text\":\"\\r\",\"windowsVirtualKeyCode\":13";
            case "Tab" -> ",\"code\":\"Tab\",\"windowsVirtualKeyCode\":9";
            case "ArrowLeft" -> ",\"code\":\"ArrowLeft\",\"windowsVirtualKeyCode\":37";
            default -> letter ? ",\"text\":\"" + key + "\"" : ",\"code\":\"" + key + "\"";
        };
        String type = letter || key.equals("Enter") ? "keyDown" : "rawKeyDown";
        call("Input.dispatchKeyEvent", "{\"type\":\"" + type + "\",\"key\":\"" + key + "\"" + more + "}");
        call(
                "Input.dispatchKeyEvent",
                "{\"type\":\"keyUp\",\"key\":\"" + key + "\"" + more.replaceFirst(",\"text\":\"[^\"]*\"", "") + "}");
    }

    /** Waits for a text within what an element shows, 30 s at most. */
    public void untilText(String selector, String part) throws Exception {
        until("(document.querySelector(" + JSON.writeValueAsString(selector) + ")?.innerText ?? '').includes("
                + JSON.writeValueAsString(part) + ")");
    }

    /** Waits for a condition, or for what a promise says, 30 s at most. */
    public void until(String condition) throws Exception {
        for (int i = 0; i < 300; i++) {
            if (value("Promise.resolve(" + condition + ").then(Boolean)").asBoolean()) {
                return;
            }
            Thread.sleep(100);
        }
        throw new AssertionError("never: " + condition + "; page says: " + text("body") + "; console: " + complaints);
    }

    public void picture(String name) throws Exception {
        Path file = Path.of("target", name + ".png");
        Files.write(file, screen());
        assertThat(file).isNotEmptyFile();
    }

    /** What is seen now, as PNG. */
    public byte[] screen() throws Exception {
        JsonNode answer = call("Page.captureScreenshot", "{\"format\":\"png\"}");
        return Base64.getDecoder().decode(answer.path("result").path("data").asText());
    }

    /** What the console said. */
    public List<String> complaints() {
        return new ArrayList<>(complaints);
    }

    /** Addresses asked for. */
    public List<String> requests() {
        return new ArrayList<>(requests);
    }

    /** Its helpers too, and waits for them: they write to the profile until they end. */
    @Override
    public void close() {
        socket.abort();
        List<ProcessHandle> all = new ArrayList<>(process.descendants().toList());
        all.add(process.toHandle());
        process.destroy();
        try {
            if (!process.waitFor(10, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
            for (ProcessHandle each : all) {
                each.destroyForcibly();
                each.onExit().get(10, TimeUnit.SECONDS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (ExecutionException | TimeoutException e) {
            throw new IllegalStateException("the browser does not end", e);
        }
    }
}
