package org.rejoin.console.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * A drill that was answered, on paper or by ear, as it is told afterwards: from what {@code attempt.json} keeps of it.
 *
 * @param sheet what the pilot had before him, ATC's words last
 * @param readback as typed or heard; empty of a drill on paper
 * @param elements in the order asked; none where an earlier version kept none
 */
public record KeptDrill(List<String> sheet, String readback, List<Element> elements) {

    public KeptDrill {
        sheet = List.copyOf(sheet);
        elements = List.copyOf(elements);
    }

    /**
     * One element.
     *
     * @param ask the question; of a readback what of the clearance it is
     * @param verdict "right", "wrong", "missing", "left out" where that is allowed, "unclear"
     * @param given as answered; empty where there was no answer
     * @param near how near to it is near enough; may be empty
     * @param working how it is worked out; may be empty
     */
    public record Element(String ask, String verdict, String given, String answer, String near, String working) {

        /** {@return whether nothing of it is wrong or in doubt} */
        public boolean isFine() {
            return verdict.equals("right") || verdict.equals("left out");
        }

        /** {@return what was answered and what is right; empty where the answer is the right one to the letter} */
        public Optional<String> answers() {
            if (isFine() && (given.equals(answer) || given.isEmpty())) {
                return Optional.empty();
            }
            return Optional.of("answered: " + (given.isEmpty() ? "nothing" : given) + ", correct: "
                    + (answer.isEmpty() ? "nothing of the kind" : answer) + (near.isEmpty() ? "" : ", " + near));
        }
    }

    /**
     * Reads what is there of the members of {@code attempt.json} beside the book's own; what is missing is left out.
     */
    public static KeptDrill of(JsonNode more) {
        List<String> sheet = new ArrayList<>();
        more.path("sheet").forEach(line -> sheet.add(CleanText.line(line.asText())));
        if (sheet.isEmpty()) {
            text(more, "filed").ifPresent(filed -> sheet.add("Filed: " + filed));
            text(more, "say").ifPresent(say -> sheet.add("ATC: " + say));
        }
        List<Element> elements = new ArrayList<>();
        more.path("elements").forEach(each -> elements.add(each.has("what") ? readBack(each) : asked(each)));
        return new KeptDrill(sheet, text(more, "readback").orElse(""), elements);
    }

    private static Element asked(JsonNode each) {
        return new Element(
                text(each, "ask").orElse(""),
                each.path("right").asBoolean() ? "right" : "wrong",
                text(each, "given_place").or(() -> text(each, "given")).orElse(""),
                text(each, "answer_place").or(() -> text(each, "answer")).orElse(""),
                text(each, "near").orElse(""),
                text(each, "working").orElse(""));
    }

    private static Element readBack(JsonNode each) {
        String verdict = text(each, "verdict").orElse("");
        boolean may = verdict.equals("missing") && !each.path("must").asBoolean(true);
        return new Element(
                Readback.called(text(each, "what").orElse("")),
                may ? "left out" : verdict,
                text(each, "found").orElse(""),
                text(each, "expected").orElse(""),
                "",
                "");
    }

    private static Optional<String> text(JsonNode node, String name) {
        return Optional.of(CleanText.line(node.path(name).asText(""))).filter(text -> !text.isEmpty());
    }

    /** {@return its elements for a terminal, without control characters, each with answer, right answer and working} */
    public List<String> lines() {
        List<String> lines = new ArrayList<>();
        for (Element each : elements) {
            lines.add((each.isFine() ? each.verdict() + "  " : each.verdict().toUpperCase(java.util.Locale.ROOT) + "  ")
                    + each.ask());
            each.answers().ifPresent(answers -> lines.add("       " + answers));
            if (!each.working().isEmpty()) {
                lines.add("       " + each.working());
            }
        }
        return lines;
    }

    /** {@return the same for a page: sheet, readback, elements with ask, fine, verdict, answers, working} */
    public ObjectNode json() {
        ObjectNode json = JsonNodeFactory.instance.objectNode();
        sheet.forEach(json.putArray("sheet")::add);
        json.put("readback", readback);
        ArrayNode all = json.putArray("elements");
        for (Element each : elements) {
            all.addObject()
                    .put("ask", each.ask())
                    .put("fine", each.isFine())
                    .put("verdict", each.verdict())
                    .put("answers", each.answers().orElse(""))
                    .put("working", each.working());
        }
        return json;
    }
}
