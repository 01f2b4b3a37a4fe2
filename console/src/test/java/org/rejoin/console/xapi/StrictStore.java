package org.rejoin.console.xapi;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Collections;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;

/**
 * A record store on loopback that keeps to the letter of the Communication part (xAPI 1.0.3, sections 2.1, 2.8, 3, 4) and
 * of the Data part: version header, authorisation, batches all or nothing, statements that never change. Troubles can be
 * ordered beforehand.
 */
public final class StrictStore implements AutoCloseable {

    private static final ObjectMapper JSON = JsonMapper.builder()
            .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    /** What it answers instead of doing its work. */
    public record Trouble(int status, String retryAfter, boolean afterStoring) {
        /** Answers so and does nothing. */
        public static Trouble of(int status) {
            return new Trouble(status, "", false);
        }
    }

    private final HttpServer server;
    private final String authorization;
    private final Map<String, JsonNode> kept = Collections.synchronizedMap(new LinkedHashMap<>());
    private final Deque<Trouble> troubles = new ArrayDeque<>();
    private final List<Integer> answers = Collections.synchronizedList(new ArrayList<>());
    private final List<String> versions;
    private long largest = Long.MAX_VALUE;

    /** Starts it on a free port. */
    public StrictStore(String key, String secret, String... versions) throws IOException {
        this.versions = List.of(versions);
        this.authorization =
                "Basic " + Base64.getEncoder().encodeToString((key + ":" + secret).getBytes(StandardCharsets.UTF_8));
        this.server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/xapi/about", this::about);
        server.createContext("/xapi/statements", this::statements);
        server.start();
    }

    /** Its address. */
    public String endpoint() {
        return "http://127.0.0.1:" + server.getAddress().getPort() + "/xapi";
    }

    /** Statements it has, by identifier. */
    public Map<String, JsonNode> kept() {
        return Map.copyOf(kept);
    }

    /** Status of each answer to statements, in order. */
    public List<Integer> answers() {
        return List.copyOf(answers);
    }

    /** Orders troubles for the next requests with statements. */
    public synchronized void trouble(Trouble... next) {
        troubles.addAll(List.of(next));
    }

    void takeNoMoreThan(long octets) {
        largest = octets;
    }

    void keep(JsonNode statement) {
        kept.put(statement.path("id").asText(), statement);
    }

    private void about(HttpExchange exchange) throws IOException {
        ArrayNode list = JSON.createArrayNode();
        versions.forEach(list::add);
        answer(exchange, 200, JSON.createObjectNode().set("version", list).toString());
    }

    private synchronized Trouble next() {
        return troubles.isEmpty() ? Trouble.of(0) : troubles.removeFirst();
    }

    private void statements(HttpExchange exchange) throws IOException {
        byte[] body = exchange.getRequestBody().readAllBytes();
        Trouble trouble = next();
        if (trouble.status() != 0 && !trouble.afterStoring()) {
            refuse(exchange, trouble);
            return;
        }
        String version = String.valueOf(exchange.getRequestHeaders().getFirst("X-Experience-API-Version"));
        if (!versions.contains(version)) {
            said(exchange, 400, "version header " + version);
        } else if (!authorization.equals(exchange.getRequestHeaders().getFirst("Authorization"))) {
            said(exchange, 401, "who are you?");
        } else if (exchange.getRequestMethod().equals("GET")) {
            get(exchange);
        } else if (!exchange.getRequestMethod().equals("POST")) {
            said(exchange, 405, "POST and GET");
        } else if (body.length > largest) {
            said(exchange, 413, "too large");
        } else if (!"application/json".equals(exchange.getRequestHeaders().getFirst("Content-Type"))) {
            said(exchange, 400, "content type");
        } else {
            post(exchange, body, trouble);
        }
    }

    private void refuse(HttpExchange exchange, Trouble trouble) throws IOException {
        if (trouble.status() < 0) { // the connection breaks
            answers.add(trouble.status());
            exchange.close();
            return;
        }
        if (!trouble.retryAfter().isEmpty()) {
            exchange.getResponseHeaders().set("Retry-After", trouble.retryAfter());
        }
        said(exchange, trouble.status(), "trouble");
    }

    private void get(HttpExchange exchange) throws IOException {
        String query = String.valueOf(exchange.getRequestURI().getQuery());
        JsonNode found = kept.get(query.replaceFirst("^statementId=", ""));
        if (found == null) {
            said(exchange, 404, "none");
        } else {
            ObjectNode theirs = found.deepCopy();
            theirs.put("stored", "2026-06-01T15:00:00.000Z").put("version", "1.0.0");
            answer(exchange, 200, theirs.toString());
        }
    }

    private void post(HttpExchange exchange, byte[] body, Trouble after) throws IOException {
        JsonNode posted;
        try {
            posted = JSON.readTree(body);
        } catch (JsonProcessingException e) {
            said(exchange, 400, "no JSON: " + e.getOriginalMessage());
            return;
        }
        List<JsonNode> all = new ArrayList<>();
        if (posted.isArray()) {
            posted.forEach(all::add);
        } else {
            all.add(posted);
        }
        Set<String> ids = new LinkedHashSet<>();
        List<String> broken = new ArrayList<>();
        for (JsonNode each : all) {
            broken.addAll(StatementRules.broken(each));
            if (!ids.add(each.path("id").asText())) {
                broken.add("Communication 2.1.2: two statements with one id");
            }
        }
        if (!broken.isEmpty()) {
            said(exchange, 400, String.join("; ", broken));
            return;
        }
        for (JsonNode each : all) {
            JsonNode known = kept.get(each.path("id").asText());
            if (known != null && !known.equals(each)) {
                said(exchange, 409, "known and other");
                return;
            }
        }
        all.forEach(this::keep);
        if (after.status() != 0) {
            refuse(exchange, after);
            return;
        }
        ArrayNode answer = JSON.createArrayNode();
        ids.forEach(answer::add);
        answers.add(200);
        answer(exchange, 200, answer.toString());
    }

    private void said(HttpExchange exchange, int status, String words) throws IOException {
        answers.add(status);
        answer(exchange, status, JSON.createObjectNode().put("error", words).toString());
    }

    private static void answer(HttpExchange exchange, int status, String text) throws IOException {
        byte[] octets = text.getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "application/json");
        exchange.sendResponseHeaders(status, octets.length);
        exchange.getResponseBody().write(octets);
        exchange.close();
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
