package org.rejoin.console.drill;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A paper drill answered and marked, element by element in the order asked. */
public record PaperResult(PaperDrill paper, List<Item> items) {

    public PaperResult {
        items = List.copyOf(items);
    }

    /**
     * One element with the answer as typed, an empty text where there was none, and the seconds it took, 0 where not
     * measured.
     */
    public record Item(Question question, String given, double seconds) {
        /** {@return whether it is right; true if the answer is near enough} */
        public boolean right() {
            return question.answer().accepts(given);
        }
    }

    /** {@return how many are right; 0 to the number of items} */
    public long right() {
        return items.stream().filter(Item::right).count();
    }

    /** {@return time for all of it, seconds} */
    public double seconds() {
        return items.stream().mapToDouble(Item::seconds).sum();
    }

    /**
     * One mark a skill that the shape of the drill shows: right if every element of it is. A skill shown by two-way
     * questions alone could have been guessed.
     */
    public List<Mark> marks(String pilot, Instant at) {
        Map<Skill, List<Item>> bySkill = new LinkedHashMap<>();
        items.forEach(item -> bySkill.computeIfAbsent(item.question().skill(), skill -> new ArrayList<>())
                .add(item));
        Map<Skill, Double> difficulty = paper.drill().difficulty();
        List<Mark> marks = new ArrayList<>();
        bySkill.forEach((skill, all) -> {
            if (difficulty.containsKey(skill)) {
                double guess = all.stream()
                        .mapToDouble(item -> item.question().answer().guessChance())
                        .reduce(1, (a, b) -> a * b);
                marks.add(new Mark(
                        pilot, at, skill, difficulty.get(skill), all.stream().allMatch(Item::right), guess, false));
            }
        });
        return marks;
    }

    /**
     * The result as it is kept in {@code attempt.json}: {@link #json()} with what the pilot had before him, places as a
     * pilot writes them, what tells the drill from others, and the time if it was taken.
     */
    public ObjectNode kept(Chart chart) {
        ObjectNode object = json();
        paper.sheet().forEach(object.putArray("sheet")::add);
        for (int i = 0; i < items.size(); i++) {
            Question question = items.get(i).question();
            if (question.isDrawn() && object.path("elements").get(i) instanceof ObjectNode each) {
                each.put(
                        "given_place", PaperDrill.asTyped(question, items.get(i).given(), chart));
                each.put(
                        "answer_place",
                        PaperDrill.asTyped(question, question.answer().words(), chart));
            }
        }
        object.put("drill", FlownClearances.drill(paper.drill().filed(), paper.say()));
        object.set("line", DrillText.lineJson(Measured.line(paper.route())));
        if (seconds() > 0) {
            JsonNumbers.put(object, "work_out_s", seconds(), 1);
        }
        return object;
    }

    /** {@return the result as one JSON object; answers, right answers, the working} */
    public ObjectNode json() {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("kind", "paper");
        object.put("say", paper.say());
        object.put("filed", paper.drill().filed().text());
        object.put("seed", paper.drill().seed());
        object.set("features", DrillText.featuresJson(paper.drill().features()));
        object.set("difficulty", DrillText.difficulty(paper.drill().difficulty()));
        object.put("right", right());
        object.put("asked", items.size());
        JsonNumbers.put(object, "seconds", seconds(), 1);
        ArrayNode elements = object.putArray("elements");
        for (Item item : items) {
            ObjectNode each = elements.addObject();
            each.put("code", item.question().code());
            each.put("skill", item.question().skill().name());
            each.put("ask", item.question().ask());
            each.put("given", item.given());
            each.put("answer", item.question().answer().words());
            each.put("near", item.question().answer().near());
            each.put("right", item.right());
            JsonNumbers.put(each, "seconds", item.seconds(), 1);
            each.put("working", item.question().working());
        }
        return object;
    }
}
