package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Pattern;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.console.json.Json;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.ReadBack;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * How clearances are read back at a seat, whichever way it came: typed, tapped by the instructor, or heard by a recogniser
 * and confirmed by the pilot. Each goes into the flight's record and its recording. On the flight's thread.
 */
record Readbacks(PageActions actions, Lesson lesson) {

    private static final Set<String> VERDICTS = Set.of("right", "wrong", "missing", "unclear");
    private static final Set<String> WAYS = Set.of("heard", "typed");
    private static final int MOST_ELEMENTS = 40;

    /** The clearance that is meant: by its number, else the one in force. */
    private static Entry.Issued meant(SeatPage page, JsonNode order) throws Orders.Refused {
        JsonNode number = order.path("clearance");
        return (number.isInt()
                        ? page.clearances().issued(number.asInt())
                        : page.clearances().current())
                .orElseThrow(() -> new Orders.Refused("no clearance was issued yet"));
    }

    /** Each element of a clearance against these words, with the callsign that the aircraft itself sends. */
    static List<Readback.Element> elements(SeatPage page, Lesson lesson, Entry.Issued issued, String words) {
        return Readback.check(
                issued.route().clearance(), withoutLabel(page, words), lesson.chart(), lesson.filed(), page.callsign());
    }

    /** A seat that sends no callsign may be called by its name all the same (AIM 4-4-7 b 1). */
    private static String withoutLabel(SeatPage page, String words) {
        if (page.callsign().isPresent()) {
            return words;
        }
        String own = Pattern.quote(page.label());
        return words.replaceFirst("(?i)[,\\s]*\\b" + own + "[.\\s]*$", "")
                .replaceFirst("(?i)^\\s*" + own + "\\b[,\\s]*", "");
    }

    /** What is to be read back of a clearance. */
    String elements(SeatPage page, JsonNode order) throws Orders.Refused {
        Entry.Issued issued = meant(page, order);
        List<Readback.Element> elements = elements(page, lesson, issued, "");
        return Message.json("elements", json -> {
            json.writeNumberField("clearance", page.clearances().numberOf(issued));
            Json.member(
                    json,
                    "elements",
                    elements.stream()
                            .map(each -> List.of(each.what(), CleanText.of(each.expected()), each.must()))
                            .toList());
        });
    }

    /** As the instructor heard it, or as he marks one that was kept before: each element right, wrong, missing or unclear. */
    void tapped(SeatPage page, FlightSession seat, JsonNode order, Consumer<String> answer) throws Orders.Refused {
        List<ReadBack.Element> elements = new ArrayList<>();
        for (JsonNode each : order.path("elements")) {
            String verdict = each.path(2).asText();
            if (!VERDICTS.contains(verdict) || elements.size() >= MOST_ELEMENTS) {
                throw new Orders.Refused("an element is right, wrong, missing or unclear");
            }
            elements.add(new ReadBack.Element(
                    CleanText.of(each.path(0).asText()),
                    CleanText.of(each.path(1).asText()),
                    CleanText.of(each.path(3).asText("")),
                    verdict));
        }
        if (elements.isEmpty()) {
            throw new Orders.Refused("no element was tapped");
        }
        String how = order.path("marked").asBoolean() ? "marked" : "tapped";
        keep(page, seat, readback(page, seat, order, meant(page, order), how, "", elements), answer);
    }

    /** Typed, or heard and confirmed: what the recogniser was not sure of, and nobody has corrected, stays unclear. */
    void checked(SeatPage page, FlightSession seat, JsonNode order, Consumer<String> answer) throws Orders.Refused {
        String words = Orders.words(order);
        Entry.Issued issued = meant(page, order);
        int number = page.clearances().numberOf(issued);
        Optional<PageRoom.Heard> heard = page.clearances().heard(number);
        String way = order.path("how").asText("typed");
        if (!WAYS.contains(way)) {
            throw new Orders.Refused("a readback is heard or typed");
        }
        if (way.equals("heard") && heard.isEmpty()) {
            throw new Orders.Refused("nothing was heard for this clearance");
        }
        List<Readback.Element> elements =
                way.equals("heard") && heard.get().words().equals(words)
                        ? heard.get().elements()
                        : elements(page, lesson, issued, words);
        List<ReadBack.Element> kept = elements.stream()
                .map(each -> new ReadBack.Element(
                        each.what(),
                        CleanText.of(each.expected()),
                        CleanText.of(each.found()),
                        each.verdict().name().toLowerCase(Locale.ROOT)))
                .toList();
        ReadBack readback = readback(page, seat, order, issued, way, CleanText.of(words), kept);
        told(page, seat, readback);
        keep(page, readback, "the readback");
        heard.filter(each -> way.equals("heard"))
                .flatMap(PageRoom.Heard::wav)
                .map(wav -> new InstructorFile.Sound(number, wav))
                .ifPresent(sound -> keep(page, sound, "the sound"));
        answer.accept(Message.json("readback", json -> {
            json.writeStringField("outcome", readback.outcome().name().toLowerCase(Locale.ROOT));
            Json.member(
                    json,
                    "elements",
                    elements.stream()
                            .map(each -> List.of(
                                    each.what(),
                                    each.verdict(),
                                    CleanText.of(each.expected()),
                                    CleanText.of(each.found()),
                                    each.must()))
                            .toList());
        }));
    }

    private void keep(SeatPage page, InstructorFile.Note note, String what) {
        actions.keep(
                note,
                done -> done.problem().ifPresent(why -> page.noteToInstructor(what + " is not kept: " + why)),
                () -> page.noteToInstructor(what + " is kept now"));
    }

    private static ReadBack readback(
            SeatPage page,
            FlightSession seat,
            JsonNode order,
            Entry.Issued issued,
            String how,
            String words,
            List<ReadBack.Element> elements) {
        int number = page.clearances().numberOf(issued);
        double now = seat.lastS().orElse(0);
        OptionalDouble began = time(order, "began_s", issued.timeS(), now);
        return new ReadBack(
                now,
                page.id(),
                words,
                new ReadBack.Talk(
                        number,
                        how,
                        how.equals("heard")
                                ? page.clearances()
                                        .heard(number)
                                        .map(PageRoom.Heard::words)
                                        .orElse("")
                                : "",
                        OptionalDouble.of(issued.timeS()),
                        began,
                        began.isPresent() ? time(order, "ended_s", began.getAsDouble(), now) : OptionalDouble.empty()),
                elements);
    }

    /** A time of the flight, as the page saw it: not before the clearance, and not in the future by more than it may lag. */
    private static OptionalDouble time(JsonNode order, String name, double from, double now) {
        JsonNode time = order.path(name);
        return time.isNumber() && time.asDouble() >= from && time.asDouble() <= now + 5
                ? OptionalDouble.of(time.asDouble())
                : OptionalDouble.empty();
    }

    private void keep(SeatPage page, FlightSession seat, ReadBack readback, Consumer<String> answer) {
        told(page, seat, readback);
        actions.keep(
                readback,
                kept -> answer.accept(
                        kept.problem().isPresent()
                                ? Orders.refused("the readback is not kept: "
                                        + kept.problem().get())
                                : Message.json("done", json -> json.writeBooleanField("kept", kept.onDisk()))),
                () -> page.noteToInstructor("the readback is kept now"));
    }

    private static void told(SeatPage page, FlightSession seat, ReadBack readback) {
        page.readBack(readback);
        seat.heard(readback.event());
    }

    /** The pilot asks to hear a clearance again. */
    void again(SeatPage page, FlightSession seat, JsonNode order, Consumer<String> answer) throws Orders.Refused {
        InstructorFile.Again again = new InstructorFile.Again(
                seat.lastS().orElse(0), page.id(), page.clearances().numberOf(meant(page, order)));
        seat.heard(again.event());
        int times = page.clearances().again(again.number());
        actions.keep(
                again,
                kept -> answer.accept(Message.json("again", json -> {
                    json.writeNumberField("clearance", again.number());
                    json.writeNumberField("times", times);
                    json.writeBooleanField("kept", kept.onDisk());
                })),
                () -> {});
    }
}
