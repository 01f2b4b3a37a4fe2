package org.rejoin.console.xapi;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.text.Normalizer;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.GradeSummary;
import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.DecimalNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * One graded attempt as a statement. Its identifier follows from the recording, so the same flight is the same
 * statement however often it is made; nothing in it comes from the clock.
 */
public record Statement(UUID id, String attempt, ObjectNode json) {

    /** Top of all names of ours; {@code .invalid} is reserved for names that lead nowhere (RFC 2606). */
    public static final String BASE = "https://rejoin.invalid";

    private static final String VERBS = "http://adlnet.gov/expapi/verbs/";
    private static final String TYPES = "http://adlnet.gov/expapi/activities/";
    private static final UUID FLIGHTS = NameUuid.of(NameUuid.URL, BASE + "/xapi/flight");
    private static final ObjectMapper LINES = new ObjectMapper();
    private static final DateTimeFormatter MILLIS = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    /**
     * The identifier of a flight's statement, a UUID of version 5: by the hash of its datagrams, hexadecimal, whose
     * grade it is, and the version of the program that graded.
     */
    static UUID idOf(String recordingSha256, String seat, String version) {
        return NameUuid.of(FLIGHTS, recordingSha256 + "/" + seat + "/grade/" + version);
    }

    /**
     * Makes the statement of an attempt.
     *
     * @param opaque makes of a name what says nothing about its bearer, always the same
     * @return empty where there is none to make: not over, not graded, or of nobody
     */
    public static Optional<Statement> of(AttemptFolder folder, UnaryOperator<String> opaque) throws IOException {
        Attempt attempt = folder.attempt();
        Optional<JsonNode> grade = folder.grade(attempt.seat());
        if (grade.isEmpty()
                || attempt.durationS().isEmpty()
                || attempt.pilot().isEmpty()
                || attempt.practicePilot().isPresent()) {
            return Optional.empty();
        }
        String who = attempt.pilotId().isEmpty() ? opaque.apply("pilot/" + attempt.pilot()) : attempt.pilotId();
        String seat = attempt.aircraft() + "/" + who;
        UUID id = idOf(
                AttemptFolder.sha256(folder.place().resolve("flight.pcap")),
                seat,
                attempt.program().replaceFirst("^\\D*", ""));
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("id", id.toString());
        json.set("actor", agent("/seats", who));
        GradeSummary summary = GradeSummary.of(grade.get());
        boolean complete = Completion.of(
                grade.get(), folder.place().resolve(attempt.seat()).resolve("log.jsonl"));
        verb(json, verbOf(summary, complete));
        String revision = revision(folder.place());
        lesson(json, attempt, revision);
        result(json, attempt, summary, complete, grade.get());
        readbacks(folder.place())
                .ifPresent(array ->
                        ((ObjectNode) json.path("result").path("extensions")).set(BASE + "/xapi/ext/readbacks", array));
        context(json, attempt, summary, who, revision, opaque);
        json.put("timestamp", MILLIS.format(attempt.end()));
        return Optional.of(new Statement(id, attempt.id(), (ObjectNode) inFull(json)));
    }

    /** Its numbers without exponents: the library keeps ten as 1E+1. */
    private static JsonNode inFull(JsonNode json) {
        if (json.isBigDecimal() && json.decimalValue().scale() < 0) {
            return DecimalNode.valueOf(json.decimalValue().setScale(0));
        }
        if (json instanceof ObjectNode object) {
            object.properties().forEach(member -> member.setValue(inFull(member.getValue())));
        } else if (json instanceof ArrayNode array) {
            for (int i = 0; i < array.size(); i++) {
                array.set(i, inFull(array.get(i)));
            }
        }
        return json;
    }

    /** The statement that voids one that was sent. */
    static Statement voiding(Statement sent) {
        UUID id = NameUuid.of(FLIGHTS, sent.id() + "/void");
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        json.put("id", id.toString());
        json.set("actor", sent.json().path("actor").deepCopy());
        verb(json, "voided");
        json.putObject("object")
                .put("objectType", "StatementRef")
                .put("id", sent.id().toString());
        return new Statement(id, sent.attempt(), json);
    }

    private static String verbOf(GradeSummary grade, boolean complete) {
        if (grade.met().isPresent()) {
            return grade.met().get() ? "passed" : "failed";
        }
        return complete ? "completed" : "attempted";
    }

    private static void verb(ObjectNode json, String word) {
        ObjectNode verb = json.putObject("verb");
        verb.put("id", VERBS + word);
        verb.putObject("display").put("en", word);
    }

    private static ObjectNode agent(String page, String name) {
        ObjectNode agent = JsonNodeFactory.instance.objectNode();
        agent.put("objectType", "Agent");
        agent.putObject("account").put("homePage", BASE + page).put("name", name);
        return agent;
    }

    private static ObjectNode activity(String path) {
        return JsonNodeFactory.instance
                .objectNode()
                .put("objectType", "Activity")
                .put("id", BASE + "/xapi/" + path);
    }

    private static void lesson(ObjectNode json, Attempt attempt, String revision) {
        String short12 = revision.isEmpty() ? "unknown" : revision.substring(0, 12);
        ObjectNode activity = activity("lesson/" + slug(attempt.lesson()) + "/" + short12);
        ObjectNode definition = activity.putObject("definition");
        definition.put("type", TYPES + "simulation");
        if (!attempt.lesson().isEmpty()) {
            definition.putObject("name").put("en", attempt.lesson());
        }
        json.set("object", activity);
    }

    private static void result(
            ObjectNode json, Attempt attempt, GradeSummary summary, boolean complete, JsonNode grade) {
        ObjectNode result = json.putObject("result");
        if (summary.score().isPresent()) {
            BigDecimal raw = BigDecimal.valueOf(summary.score().getAsDouble())
                    .max(BigDecimal.ZERO)
                    .min(BigDecimal.valueOf(100));
            ObjectNode score = result.putObject("score");
            score.put("scaled", raw.movePointLeft(2));
            score.put("raw", raw);
            score.put("min", 0);
            score.put("max", 100);
        }
        summary.met().ifPresent(met -> result.put("success", met));
        result.put("completion", complete);
        result.put("duration", duration(attempt.durationS().orElse(0)));
        ObjectNode more = result.putObject("extensions");
        for (String list : List.of("criteria", "faults")) {
            JsonNode each = grade.path(list);
            more.set(
                    BASE + "/xapi/ext/" + list,
                    each.isArray() ? each.deepCopy() : JsonNodeFactory.instance.arrayNode());
        }
    }

    /** Each readback: of which clearance, how it came, its times and elements; words as heard stay here. */
    private static Optional<ArrayNode> readbacks(Path folder) throws IOException {
        ArrayNode all = JsonNodeFactory.instance.arrayNode();
        for (String line : Durable.lines(folder.resolve("readbacks.jsonl"))) {
            JsonNode read = LINES.readTree(line);
            ObjectNode each = all.addObject();
            for (String key : List.of("elapsed_s", "clearance", "how", "issued_s", "began_s", "ended_s", "elements")) {
                if (read.has(key)) {
                    each.set(key, read.get(key));
                }
            }
        }
        return all.isEmpty() ? Optional.empty() : Optional.of(all);
    }

    private static void context(
            ObjectNode json,
            Attempt attempt,
            GradeSummary summary,
            String who,
            String revision,
            UnaryOperator<String> opaque) {
        ObjectNode context = json.putObject("context");
        context.put("registration", NameUuid.of(FLIGHTS, "registration/" + who).toString());
        if (!attempt.instructor().isEmpty()) {
            context.set("instructor", agent("/instructors", opaque.apply("instructor/" + attempt.instructor())));
        }
        context.put("platform", attempt.program().isEmpty() ? "Rejoin" : attempt.program());
        if (!revision.isEmpty()) {
            context.put("revision", "lesson sha256 " + revision);
        }
        context.put("language", "en");
        ObjectNode activities = context.putObject("contextActivities");
        if (!summary.standard().isEmpty()) {
            activities.putArray("grouping").add(activity("standard/" + slug(summary.standard())));
        }
        activities.putArray("category").add(activity("profile/1"));
        ObjectNode more = context.putObject("extensions");
        more.put(BASE + "/xapi/ext/device", "uncredited");
        more.put(BASE + "/xapi/ext/attempt", attempt.id());
    }

    private static String revision(Path folder) throws IOException {
        Path lesson = folder.resolve("lesson.yaml");
        return Files.isRegularFile(lesson) ? AttemptFolder.sha256(lesson) : "";
    }

    /** ISO 8601, hundredths of a second. */
    static String duration(double seconds) {
        long hundredths = Math.round(seconds * 100);
        long minutes = hundredths / 6000;
        String hours = minutes >= 60 ? minutes / 60 + "H" : "";
        return String.format(
                Locale.ROOT, "PT%s%dM%d.%02dS", hours, minutes % 60, hundredths % 6000 / 100, hundredths % 100);
    }

    /** Letters and digits of ASCII with hyphens, for use in a name. */
    private static String slug(String text) {
        String plain = Normalizer.normalize(text, Normalizer.Form.NFD)
                .toLowerCase(Locale.ROOT)
                .replaceAll("\\p{M}+", "")
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
        return plain.isEmpty() ? "unnamed" : plain.substring(0, Math.min(60, plain.length()));
    }

    /** Statements in order as a JSON list, one a line. */
    public static String text(List<Statement> statements) {
        StringBuilder text = new StringBuilder("[");
        for (int i = 0; i < statements.size(); i++) {
            text.append(i == 0 ? "\n" : ",\n").append(statements.get(i).json());
        }
        return text.append("\n]\n").toString();
    }

    /** Identifiers that are a function of a name: version 5 of RFC 9562, section 5.5. The JDK's own are version 3. */
    static final class NameUuid {

        /** RFC 9562, section 6.6. */
        static final UUID DNS = UUID.fromString("6ba7b810-9dad-11d1-80b4-00c04fd430c8");

        /** RFC 9562, section 6.6. */
        static final UUID URL = UUID.fromString("6ba7b811-9dad-11d1-80b4-00c04fd430c8");

        private NameUuid() {}

        static UUID of(UUID namespace, String name) {
            byte[] octets = name.getBytes(StandardCharsets.UTF_8);
            ByteBuffer hashed = ByteBuffer.allocate(16 + octets.length)
                    .putLong(namespace.getMostSignificantBits())
                    .putLong(namespace.getLeastSignificantBits())
                    .put(octets);
            byte[] hash = Arrays.copyOf(sha1(hashed.array()), 16);
            hash[6] = (byte) ((hash[6] & 0x0F) | 0x50);
            hash[8] = (byte) ((hash[8] & 0x3F) | 0x80);
            ByteBuffer bits = ByteBuffer.wrap(hash);
            return new UUID(bits.getLong(), bits.getLong());
        }

        private static byte[] sha1(byte[] octets) {
            try {
                return MessageDigest.getInstance("SHA-1").digest(octets);
            } catch (NoSuchAlgorithmException e) {
                throw new IllegalStateException("every Java has SHA-1", e);
            }
        }
    }
}
