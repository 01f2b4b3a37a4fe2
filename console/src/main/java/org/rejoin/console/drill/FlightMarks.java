package org.rejoin.console.drill;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Durable;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.MissingNode;

/** The marks of a flight: of each amendment of each attempt in it, as hard as it was where it was heard. */
record FlightMarks(
        JsonNode more,
        List<Part> parts,
        List<Double> otherCourses,
        List<JsonNode> readbacks,
        Map<Skill, Double> ofLesson) {

    private static final ObjectMapper JSON = new ObjectMapper();

    /** Grade and list of clearances round their times to this, seconds. */
    private static final double SAME_S = 0.05;

    /** What was graded by itself. */
    private record Part(JsonNode graded, double atS, double endS, boolean repeated) {

        boolean holds(double timeS) {
            return timeS >= atS && timeS < endS;
        }
    }

    static FlightMarks read(Path place, String seat, JsonNode more, JsonNode grade) throws IOException {
        Path log = place.resolve(seat).resolve("log.jsonl");
        return new FlightMarks(
                more,
                parts(grade),
                events(log, "other_course_tracked").stream()
                        .map(event -> event.path("time_s").asDouble())
                        .toList(),
                events(log, "read_back"),
                kept(more.path("difficulty")).orElseGet(() -> ofLesson(place)));
    }

    private static List<Part> parts(JsonNode grade) {
        List<Part> parts = new ArrayList<>();
        Set<String> said = new HashSet<>();
        for (JsonNode attempt : grade.path("attempts")) {
            JsonNode amendments = attempt.path("amendments");
            for (int i = 0; i < amendments.size(); i++) {
                JsonNode amendment = amendments.get(i);
                double end = i + 1 < amendments.size()
                        ? amendments.get(i + 1).path("at_s").asDouble()
                        : attempt.path("to_s").asDouble(Double.POSITIVE_INFINITY);
                boolean repeated = !said.add(amendment.path("say").asText());
                parts.add(new Part(amendment, amendment.path("at_s").asDouble(), end, repeated));
            }
        }
        // Grades of before there were several attempts in a flight.
        return parts.isEmpty() ? List.of(new Part(grade, 0, Double.POSITIVE_INFINITY, false)) : parts;
    }

    /** The events of one kind; a log that is gone or cut off tells of none, or of the first ones. */
    private static List<JsonNode> events(Path log, String kind) throws IOException {
        List<JsonNode> events = new ArrayList<>();
        if (Files.exists(log)) {
            for (String line : Durable.lines(log)) {
                try {
                    JsonNode event = JSON.readTree(line);
                    if (event.path("event").asText().equals(kind)) {
                        events.add(event);
                    }
                } catch (JsonProcessingException e) {
                    return events;
                }
            }
        }
        return events;
    }

    /** Whether the clearance was read back right at the first try, or as the instructor marked it last; empty where unclear. */
    private Optional<Boolean> readBackRight(Part part) {
        Optional<String> outcome = Optional.empty();
        for (JsonNode each : readbacks) {
            boolean marked = each.path("how").asText().equals("marked");
            if (part.holds(each.path("time_s").asDouble()) && (marked || outcome.isEmpty())) {
                outcome = Optional.of(each.path("outcome").asText());
            }
        }
        return outcome.filter(word -> !word.equals("unclear")).map(word -> word.equals("right"));
    }

    List<Mark> marks(String pilot, Instant at, boolean again) {
        List<Mark> marks = new ArrayList<>();
        for (Part part : parts) {
            JsonNode clearance = clearance(part);
            Map<Skill, Double> difficulty = kept(clearance.path("difficulty")).orElse(ofLesson);
            boolean before = again || part.repeated();
            GradeMarks.Beside beside = new GradeMarks.Beside(
                    otherCourses.stream().anyMatch(part::holds), DrillText.number(clearance.path("lost_s")));
            marks.addAll(GradeMarks.of(part.graded(), beside, pilot, at, difficulty, before));
            double hard = difficulty.getOrDefault(Skill.HEAR, 0.0);
            readBackRight(part).ifPresent(right -> marks.add(new Mark(pilot, at, Skill.HEAR, hard, right, 0, before)));
        }
        return marks;
    }

    private JsonNode clearance(Part part) {
        for (JsonNode clearance : more.path("clearances")) {
            OptionalDouble heard = DrillText.number(clearance.path("at_s"));
            if (heard.isPresent() && Math.abs(heard.getAsDouble() - part.atS()) < SAME_S) {
                return clearance;
            }
        }
        return MissingNode.getInstance();
    }

    List<String> faults() {
        List<String> faults = new ArrayList<>();
        parts.forEach(part -> part.graded()
                .path("faults")
                .forEach(fault -> faults.add(fault.path("code").asText())));
        return faults;
    }

    private static Optional<Map<Skill, Double>> kept(JsonNode difficulty) {
        Map<Skill, Double> kept = new EnumMap<>(Skill.class);
        for (Skill skill : Skill.values()) {
            DrillText.number(difficulty.path(skill.name())).ifPresent(logit -> kept.put(skill, logit));
        }
        return kept.isEmpty() ? Optional.empty() : Optional.of(kept);
    }

    /** Worked out from the lesson beside it; standard where it leads to no line or cannot be read. */
    private static Map<Skill, Double> ofLesson(Path place) {
        Path lesson = place.resolve("lesson.yaml");
        try {
            return Files.exists(lesson)
                    ? features(LessonReader.readFile(lesson))
                            .map(Difficulty.BUILT_IN::of)
                            .orElseGet(FlightMarks::standard)
                    : standard();
        } catch (LessonException e) {
            return standard();
        }
    }

    private static Map<Skill, Double> standard() {
        Map<Skill, Double> all = new EnumMap<>(Skill.class);
        for (Skill skill : Skill.values()) {
            all.put(skill, 0.0);
        }
        return all;
    }

    /**
     * Of the first clearance of a lesson, heard where the practice aircraft would hear it; empty where it has no start
     * or its clearance leads to no line.
     */
    private static Optional<Features> features(Lesson lesson) {
        if (lesson.start().isEmpty() || lesson.amendments().isEmpty()) {
            return Optional.empty();
        }
        Lesson.Start start = lesson.start().get();
        Amendment first = lesson.amendments().get(0);
        LocalDate date = lesson.date().orElse(DrillRequest.USUAL_DATE);
        GroundVector ground = GroundVector.onHeading(
                start.heading().toTrue(MagneticModel.WMM2025.variation(start.position(), start.altitudeFt(), date)),
                start.speedKt(),
                lesson.wind());
        double seconds = first.when() instanceof Amendment.When.ElapsedS elapsed ? elapsed.seconds() : 0;
        Position heard = start.position().destination(ground.track(), ground.groundSpeedKt() * seconds / 3600);
        try {
            return Measured.of(
                    RouteAmender.amend(
                            lesson.chart(),
                            lesson.filed(),
                            ClearanceReader.read(first.say(), lesson.chart(), lesson.filed()),
                            start.at(heard, lesson.wind(), date)),
                    lesson.chart(),
                    Optional.of(start.heading()));
        } catch (ClearanceException e) {
            return Optional.empty();
        }
    }
}
