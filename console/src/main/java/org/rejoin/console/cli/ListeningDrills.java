package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.drill.Drill;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillMaker;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.drill.NoDrillException;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageRoom;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.room.RoomDesk;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.speech.Aloud;
import org.rejoin.console.speech.PilotVoice;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * Listening drills of the page: a clearance is spoken once, read back aloud or typed, marked and kept. Each pilot has one at
 * a time, until he has read it back. Called on one thread but where it says so.
 */
final class ListeningDrills implements RoomDesk.Part {

    private static final String CALLSIGN = "Rejoin one";

    /** Other seeds than those of the drill to fly, whose words stand on the same page. */
    private static final long APART = 1_000_000;

    /** Nobody takes longer to copy or to read back, seconds. */
    private static final double LONGEST_S = 600;

    private static final int MOST_CHARACTERS = 1_000;

    private final RoomParts.Book book;
    private final Map<String, Sitting> sittings = new ConcurrentHashMap<>();
    /** What the recogniser doubts is unclear, and stays so where the pilot leaves the words. */
    private final Map<String, PageRoom.Heard> heard = new ConcurrentHashMap<>();

    /** A drill that waits for its readback, and how often it was told. */
    private record Sitting(String id, Drill drill, DrillChart on, int told) {
        Sitting again() {
            return new Sitting(id, drill, on, told + 1);
        }
    }

    ListeningDrills(RoomParts.Book book) {
        this.book = book;
    }

    @Override
    public boolean isForPilots() {
        return true;
    }

    /** Asked from any thread. */
    @Override
    public Optional<PageRoom.Exercise> exercise(String id, String pilot) {
        return sittings.entrySet().stream()
                .filter(each -> each.getValue().id().equals(id)
                        && (pilot.isEmpty() || each.getKey().equals(pilot)))
                .map(each -> new PageRoom.Exercise(
                        each.getValue().drill().route().clearance(),
                        Optional.of(CALLSIGN),
                        each.getValue().on().chart(),
                        each.getValue().drill().filed(),
                        voice(each.getKey()),
                        what -> heard.put(id, what)))
                .findFirst();
    }

    /** As it was learnt at a seat. */
    private PilotVoice voice(String pilot) {
        try (RecordBook records = book.open()) {
            Optional<Pilot> known = records.roster().find(pilot);
            return known.isPresent()
                    ? records.roster()
                            .voice(known.get())
                            .flatMap(PilotVoice::of)
                            .orElse(PilotVoice.STRANGER)
                    : PilotVoice.STRANGER;
        } catch (IOException e) {
            return PilotVoice.STRANGER;
        }
    }

    @Override
    public PageRoom.Answer ask(String pilot, Optional<JsonNode> order) throws IOException {
        try {
            return order.isPresent() ? readBack(pilot, order.get()) : next(pilot);
        } catch (NoDrillException | LessonException e) {
            return PageRoom.Answer.no(String.valueOf(e.getMessage()));
        }
    }

    private PageRoom.Answer next(String pilot) throws IOException, NoDrillException, LessonException {
        Sitting now = sittings.get(pilot);
        if (now == null) {
            DrillChart chart = DrillWishes.builtInChart();
            int flown = book.attempts(pilot).size();
            Drill drill = new DrillMaker(chart).makeForPaper(DrillRequest.usual(APART + flown));
            now = new Sitting("listen-" + flown + "-" + Long.toHexString(System.nanoTime()), drill, chart, 0);
        }
        now = now.again();
        sittings.put(pilot, now);
        return PageRoom.Answer.json(JsonNodeFactory.instance
                .objectNode()
                .put("id", now.id())
                .put("filed", now.drill().filed().text())
                .put("callsign", CALLSIGN)
                .put(
                        "spoken",
                        Aloud.of(
                                now.drill().route().clearance(),
                                Optional.of(CALLSIGN),
                                now.on().chart()))
                .put("told", now.told())
                .toString());
    }

    private PageRoom.Answer readBack(String pilot, JsonNode order) throws IOException {
        Sitting now = sittings.get(pilot);
        String words = order.path("words").asText("").strip();
        if (now == null || !now.id().equals(order.path("id").asText())) {
            return PageRoom.Answer.no("that drill is over: ask for the next one");
        }
        if (words.isEmpty() || words.length() > MOST_CHARACTERS) {
            return PageRoom.Answer.no("a readback has 1 to " + MOST_CHARACTERS + " characters");
        }
        List<Readback.Element> elements = elements(now, words);
        Readback.Outcome outcome = Readback.outcome(elements);
        int again = Math.max(Math.max(0, order.path("again").asInt(0)), now.told() - 1);
        boolean spoken = order.path("how").asText().equals("heard");
        // The keyboard tells nothing of how long he talked.
        OptionalDouble copyS = spoken ? seconds(order.path("copy_s")) : OptionalDouble.empty();
        OptionalDouble readS = spoken ? seconds(order.path("read_s")) : OptionalDouble.empty();
        ObjectNode result = DrillListen.json(now.drill(), words, elements);
        result.put("how", spoken ? "heard" : "typed");
        result.put("again", again);
        copyS.ifPresent(s -> result.put("copy_s", s));
        readS.ifPresent(s -> result.put("read_s", s));
        OptionalDouble taken = copyS.isPresent() || readS.isPresent()
                ? OptionalDouble.of(copyS.orElse(0) + readS.orElse(0))
                : OptionalDouble.empty();
        Path folder = keep(pilot, now.drill(), result, taken, outcome, again);
        sittings.remove(pilot);
        PageRoom.Heard last = heard.remove(now.id());
        if (last != null && last.wav().isPresent() && spoken) {
            new InstructorFile(folder)
                    .keep(new InstructorFile.Sound(1, last.wav().get()));
        }
        return PageRoom.Answer.json(answer(now.drill(), elements, outcome).toString());
    }

    private List<Readback.Element> elements(Sitting now, String words) {
        PageRoom.Heard last = heard.get(now.id());
        return last != null && last.words().strip().equals(words)
                ? last.elements()
                : Readback.check(
                        now.drill().route().clearance(),
                        words,
                        now.on().chart(),
                        now.drill().filed(),
                        Optional.of(CALLSIGN));
    }

    /** Of a drill that was heard twice nobody knows what once would have given: it is kept, and marks nothing. */
    private Path keep(
            String pilot, Drill drill, ObjectNode result, OptionalDouble seconds, Readback.Outcome outcome, int again)
            throws IOException {
        Instant now = Instant.now();
        List<Mark> marks = again > 0 || outcome == Readback.Outcome.UNCLEAR
                ? List.of()
                : List.of(new Mark(
                        pilot,
                        now,
                        Skill.HEAR,
                        Difficulty.BUILT_IN.readOnce(drill.features()),
                        outcome == Readback.Outcome.RIGHT,
                        0,
                        false));
        return book.keep(pilot, "Listening: " + drill.title(), now, seconds, result, marks);
    }

    private static OptionalDouble seconds(JsonNode node) {
        return node.isNumber() && node.asDouble() >= 0 && node.asDouble() <= LONGEST_S
                ? OptionalDouble.of(Math.round(node.asDouble() * 10) / 10.0)
                : OptionalDouble.empty();
    }

    private static ObjectNode answer(Drill drill, List<Readback.Element> elements, Readback.Outcome outcome) {
        ObjectNode answer = JsonNodeFactory.instance.objectNode();
        answer.put("say", drill.say());
        answer.put("outcome", outcome.name().toLowerCase(Locale.ROOT));
        ArrayNode array = answer.putArray("elements");
        for (Readback.Element element : elements) {
            array.addArray()
                    .add(element.what())
                    .add(element.verdict().name())
                    .add(element.expected())
                    .add(element.found())
                    .add(element.must());
        }
        return answer;
    }
}
