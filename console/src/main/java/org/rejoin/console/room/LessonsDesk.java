package org.rejoin.console.room;

import java.io.IOException;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Map;

import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageRoom.Answer;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLGenerator;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;

/** Lessons as the page prepares them: what there is to choose from, a draft tried, a draft kept. */
record LessonsDesk(RoomLessons lessons) {

    private static final YAMLMapper YAML = YAMLMapper.builder()
            .disable(YAMLGenerator.Feature.WRITE_DOC_START_MARKER)
            .build();

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HHmm", Locale.ROOT);

    /** A lesson that was prepared once is work: another takes its place only where that is said. */
    Answer keep(JsonNode order) throws IOException, LessonException {
        Lesson lesson = lessons.draft(yaml(order));
        ObjectNode json = RoomDesk.JSON.createObjectNode();
        if (lessons.hasTitle(lesson.title()) && !order.path("replace").asBoolean()) {
            json.put("asks", "There is a lesson of this title already. Replace it, or give this one another title.");
        } else {
            json.put("id", lessons.keep(lesson));
        }
        return Answer.json(json.toString());
    }

    /** What there is to choose from, or one of them as the form takes it. */
    Answer lessons(Map<String, String> query) throws IOException, LessonException {
        return query.containsKey("id") ? text(query.get("id")) : list();
    }

    private Answer list() throws IOException {
        ArrayNode all = RoomDesk.JSON.createArrayNode();
        lessons.all()
                .forEach(each -> all.addObject()
                        .put("id", each.id())
                        .put("title", CleanText.of(each.title()))
                        .put("own", each.own()));
        return Answer.json(all.toString());
    }

    /** A lesson as the form takes it. */
    private Answer text(String id) throws IOException, LessonException {
        Lesson lesson = lessons.read(id);
        ObjectNode tree = (ObjectNode) YAML.readTree(lesson.files().lessonYaml());
        // A plain 0730 is a number to this reader.
        lesson.time().ifPresent(time -> tree.put("time_utc", TIME.format(time)));
        return Answer.json(tree.toString());
    }

    Answer charts() throws IOException {
        ArrayNode all = RoomDesk.JSON.createArrayNode();
        lessons.charts().forEach(all::add);
        return Answer.json(all.toString());
    }

    /** The form as a lesson file. What was left empty is left out; what is wrong is said by whoever reads the file. */
    private String yaml(JsonNode draft) throws IOException, LessonException {
        ObjectNode lesson = RoomDesk.JSON.createObjectNode();
        lesson.put("title", draft.path("title").asText("").strip());
        lesson.put("chart", lessons.chartPath(draft.path("chart").asText()));
        lesson.put("filed", draft.path("filed").asText("").strip());
        for (String each : new String[] {"date", "time_utc", "standard"}) {
            String given = draft.path(each).asText("").strip();
            if (!given.isEmpty()) {
                lesson.put(each, given);
            }
        }
        for (String each : new String[] {"start", "wind"}) {
            if (draft.path(each).isObject()) {
                lesson.set(each, draft.get(each));
            }
        }
        ArrayNode amendments = lesson.putArray("amendments");
        draft.path("amendments").forEach(amendments::add);
        return YAML.writeValueAsString(lesson);
    }

    /** Chart, filed route and start, before anything is flown; nothing where they cannot be read, as while they are typed. */
    Answer drawn(JsonNode order) throws IOException {
        ObjectNode json = RoomDesk.JSON.createObjectNode();
        try {
            json.put("picture", Tryout.outline(lessons.draft(yaml(order))));
        } catch (LessonException e) {
            json.put("why", CleanText.of(String.valueOf(e.getMessage())));
        }
        return Answer.json(json.toString());
    }

    /** Flown once, before anybody flies it. */
    Answer tried(JsonNode order) throws IOException, LessonException {
        Lesson lesson = lessons.draft(yaml(order));
        Tryout tryout = Tryout.of(lesson);
        ObjectNode json = RoomDesk.JSON.createObjectNode();
        tryout.problem().ifPresent(why -> json.put("problem", CleanText.of(why)));
        tryout.grade().score().ifPresent(score -> json.put("score", JsonNumbers.rounded(score, 1)));
        ArrayNode notes = json.putArray("notes");
        lesson.notes().forEach(each -> notes.add(CleanText.of(each)));
        ArrayNode spoken = json.putArray("spoken");
        for (Tryout.Spoken each : tryout.spoken()) {
            ObjectNode one = spoken.addObject();
            one.put("t", each.atS());
            one.put("say", CleanText.of(each.say()));
            ArrayNode warnings = one.putArray("warnings");
            each.warnings().forEach(warning -> warnings.add(CleanText.of(warning)));
        }
        json.put("picture", tryout.picture());
        return Answer.json(json.toString());
    }
}
