package org.rejoin.console.xapi;

import java.net.URI;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * The rules of the Data part of the standard (xAPI 1.0.3, public repository adlnet/xAPI-Spec, sections in brackets) that a
 * store refuses a statement for. Written from the text and from the cases of ADL's public tests
 * (adlnet/lrs-conformance-test-suite); shares no code with what makes statements.
 */
final class StatementRules {

    /** 2.4.1 and the tests' cases: standard text form, variant of RFC 4122. */
    private static final Pattern UUID =
            Pattern.compile("(?i)[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}");

    /** 4.6: ISO 8601 4.4.3.2; weeks stand alone. */
    private static final Pattern DURATION = Pattern.compile(
            "P(?:\\d+(?:\\.\\d+)?W|(?=.)(?:\\d+Y)?(?:\\d+M)?(?:\\d+D)?(?:T(?=\\d)(?:\\d+H)?(?:\\d+M)?(?:\\d+(?:\\.\\d+)?S)?)?)");

    /** RFC 5646, as far as needed to tell a tag from a word of another kind. */
    private static final Pattern LANGUAGE = Pattern.compile("[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*");

    private static final Set<String> STATEMENT = Set.of(
            "id",
            "actor",
            "verb",
            "object",
            "result",
            "context",
            "timestamp",
            "stored",
            "authority",
            "version",
            "attachments");

    private final List<String> broken = new ArrayList<>();

    private StatementRules() {}

    /** The rules a statement breaks, a line each; none for one that every store takes. */
    static List<String> broken(JsonNode statement) {
        StatementRules rules = new StatementRules();
        rules.statement(statement);
        return rules.broken;
    }

    private void statement(JsonNode node) {
        only(node, "statement", STATEMENT);
        noNulls(node, "statement");
        for (String needed : List.of("actor", "verb", "object")) {
            check(node.path(needed).isObject(), "2.2: " + needed + " is missing");
        }
        if (node.has("id")) {
            check(isUuid(node.path("id")), "2.4.1: id");
        }
        agent(node.path("actor"), "actor");
        verb(node.path("verb"));
        boolean voided = node.path("verb").path("id").asText().endsWith("/voided");
        boolean activity = object(node.path("object"));
        check(
                !voided || node.path("object").path("objectType").asText().equals("StatementRef"),
                "2.3.2: voided needs a StatementRef");
        if (node.has("result")) {
            result(node.path("result"));
        }
        if (node.has("context")) {
            context(node.path("context"), activity);
        }
        if (node.has("timestamp")) {
            timestamp(node.path("timestamp"));
        }
        if (node.has("version")) {
            check(node.path("version").asText().matches("1\\.0(\\.\\d+)?|2\\.0\\.\\d+"), "2.4.10: version");
        }
        check(!node.has("stored") && !node.has("authority"), "2.4.8, 2.4.9: set by the store");
    }

    private void agent(JsonNode node, String what) {
        if (node.path("objectType").asText("Agent").equals("Group")) {
            broken.add("2.4.2: our " + what + " is never a group");
            return;
        }
        check(node.path("objectType").asText("Agent").equals("Agent"), "2.4.2: objectType of " + what);
        only(node, what, Set.of("objectType", "name", "mbox", "mbox_sha1sum", "openid", "account"));
        long identifiers = Set.of("mbox", "mbox_sha1sum", "openid", "account").stream()
                .filter(node::has)
                .count();
        check(identifiers == 1, "2.4.2.1: " + what + " has " + identifiers + " identifiers");
        if (node.has("mbox")) {
            check(node.path("mbox").asText().matches("mailto:[^@\\s]+@[^@\\s]+"), "2.4.2.3: mbox");
        }
        if (node.has("account")) {
            only(node.path("account"), "account", Set.of("homePage", "name"));
            check(isIri(node.path("account").path("homePage")), "2.4.2.4: homePage");
            check(isText(node.path("account").path("name")), "2.4.2.4: name");
        }
    }

    private void verb(JsonNode node) {
        only(node, "verb", Set.of("id", "display"));
        check(isIri(node.path("id")), "2.4.3: verb id");
        languages(node.path("display"), "verb display");
    }

    private boolean object(JsonNode node) {
        String type = node.path("objectType").asText("Activity");
        if (type.equals("StatementRef")) {
            only(node, "StatementRef", Set.of("objectType", "id"));
            check(isUuid(node.path("id")), "2.4.4.3: id");
            return false;
        }
        if (type.equals("Agent")) {
            agent(node, "object");
            return false;
        }
        activity(node, "object");
        return true;
    }

    private void activity(JsonNode node, String what) {
        only(node, what, Set.of("objectType", "id", "definition"));
        check(node.path("objectType").asText("Activity").equals("Activity"), "2.4.4.1: objectType of " + what);
        check(isIri(node.path("id")), "2.4.4.1: id of " + what);
        JsonNode definition = node.path("definition");
        if (node.has("definition")) {
            only(definition, "definition", Set.of("name", "description", "type", "moreInfo", "extensions"));
            languages(definition.path("name"), "name");
            languages(definition.path("description"), "description");
            check(!definition.has("type") || isIri(definition.path("type")), "2.4.4.1: type");
            extensions(definition.path("extensions"));
        }
    }

    private void result(JsonNode node) {
        only(node, "result", Set.of("score", "success", "completion", "response", "duration", "extensions"));
        JsonNode score = node.path("score");
        if (node.has("score")) {
            only(score, "score", Set.of("scaled", "raw", "min", "max"));
            score.forEach(each -> check(each.isNumber(), "2.4.5.1: a score is a number"));
            double scaled = score.path("scaled").asDouble();
            check(scaled >= -1 && scaled <= 1, "2.4.5.1: scaled");
            double min = score.path("min").asDouble(Double.NEGATIVE_INFINITY);
            double max = score.path("max").asDouble(Double.POSITIVE_INFINITY);
            double raw = score.path("raw").asDouble(min);
            check(min < max && raw >= min && raw <= max, "2.4.5.1: raw within min and max");
        }
        for (String truth : List.of("success", "completion")) {
            check(!node.has(truth) || node.path(truth).isBoolean(), "2.4.5: " + truth);
        }
        check(!node.has("response") || node.path("response").isTextual(), "2.4.5: response");
        check(
                !node.has("duration")
                        || DURATION.matcher(node.path("duration").asText()).matches(),
                "4.6: duration " + node.path("duration"));
        extensions(node.path("extensions"));
    }

    private void context(JsonNode node, boolean activity) {
        only(
                node,
                "context",
                Set.of(
                        "registration",
                        "instructor",
                        "team",
                        "contextActivities",
                        "revision",
                        "platform",
                        "language",
                        "statement",
                        "extensions"));
        check(!node.has("registration") || isUuid(node.path("registration")), "2.4.6: registration");
        if (node.has("instructor")) {
            agent(node.path("instructor"), "instructor");
        }
        check(
                activity || (!node.has("revision") && !node.has("platform")),
                "2.4.6: revision and platform only with an Activity");
        check(!node.has("language") || isLanguage(node.path("language").asText()), "2.4.6: language");
        JsonNode activities = node.path("contextActivities");
        if (node.has("contextActivities")) {
            only(activities, "contextActivities", Set.of("parent", "grouping", "category", "other"));
            activities.forEach(list -> {
                check(list.isArray(), "2.4.6.2: a list");
                list.forEach(each -> activity(each, "context activity"));
            });
        }
        extensions(node.path("extensions"));
    }

    private void timestamp(JsonNode node) {
        String text = node.asText();
        check(node.isTextual() && !text.matches(".*-00(:?00)?$"), "4.5: offset of " + text);
        try {
            OffsetDateTime.parse(text);
        } catch (DateTimeException e) {
            broken.add("4.5: timestamp " + text);
        }
    }

    private void extensions(JsonNode node) {
        if (node.isMissingNode()) {
            return;
        }
        check(node.isObject(), "4.1: extensions are a map");
        node.fieldNames().forEachRemaining(key -> check(isIri(key), "4.1: key " + key));
    }

    private void languages(JsonNode node, String what) {
        if (!node.isMissingNode()) {
            check(node.isObject(), "4.2: " + what);
            node.properties()
                    .forEach(each -> check(
                            isLanguage(each.getKey()) && each.getValue().isTextual(),
                            "4.2: " + what + " " + each.getKey()));
        }
    }

    /** 2.2: unknown and miswritten properties; 2.3: no nulls, no empty objects, outside of extensions. */
    private void only(JsonNode node, String what, Set<String> known) {
        check(node.isObject() && !node.isEmpty(), "2.2: " + what + " is an object that is not empty");
        node.fieldNames().forEachRemaining(name -> check(known.contains(name), "2.2: " + what + " has " + name));
    }

    private void noNulls(JsonNode node, String path) {
        if (node.isObject()) {
            for (Map.Entry<String, JsonNode> member : node.properties()) {
                if (!member.getKey().equals("extensions")) {
                    noNulls(member.getValue(), path + "." + member.getKey());
                }
            }
        } else if (node.isArray()) {
            node.forEach(each -> noNulls(each, path));
        } else {
            check(!node.isNull(), "2.2: null at " + path);
        }
    }

    private void check(boolean holds, String rule) {
        if (!holds) {
            broken.add(rule);
        }
    }

    private static boolean isText(JsonNode node) {
        return node.isTextual() && !node.textValue().isEmpty();
    }

    static boolean isUuid(JsonNode node) {
        return node.isTextual() && UUID.matcher(node.textValue()).matches();
    }

    private static boolean isIri(JsonNode node) {
        return node.isTextual() && isIri(node.textValue());
    }

    /** RFC 3987: a scheme, then anything but spaces and brackets; a scheme has letters, digits and + - . only. */
    private static boolean isIri(String text) {
        if (!text.matches("[A-Za-z][A-Za-z0-9+.-]*:[^\\s<>\"{}|\\\\^`]+")) {
            return false;
        }
        try {
            return URI.create(text).isAbsolute();
        } catch (IllegalArgumentException e) {
            return false;
        }
    }

    private static boolean isLanguage(String text) {
        return LANGUAGE.matcher(text).matches();
    }
}
