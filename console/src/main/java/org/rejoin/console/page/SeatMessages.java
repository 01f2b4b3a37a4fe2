package org.rejoin.console.page;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.log.EventText;
import org.rejoin.console.recording.ReadBack;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.core.JsonGenerator;

/** What the page is told of one seat, in a bounded queue; what finds no room is counted. */
final class SeatMessages {

    private static final int ROOM = 20_000;

    private final String seat;
    private final BlockingQueue<Message> waiting = new ArrayBlockingQueue<>(ROOM);
    private final AtomicLong lost = new AtomicLong();
    private final Map<String, String> said = new HashMap<>();

    /** Nothing is told yet of the seat of that name. */
    SeatMessages(String seat) {
        this.seat = seat;
    }

    /** Takes all that waits; called on the page's thread. */
    List<Message> take() {
        List<Message> all = new ArrayList<>();
        waiting.drainTo(all);
        return all;
    }

    /** Those that found no room. */
    long lost() {
        return lost.get();
    }

    private void offer(Message message) {
        if (!waiting.offer(message)) {
            lost.incrementAndGet();
        }
    }

    private String object(String kind, Json.Content members) {
        return Message.json(kind, json -> {
            json.writeStringField("seat", seat);
            members.write(json);
        });
    }

    /** Only the last counts. */
    private void latest(Topic topic, String kind, Json.Content members) {
        offer(new Message(topic, kind, object(kind, members)));
    }

    /** Likewise, and told where it is another than what was told last. */
    private void changed(Topic topic, String kind, Json.Content members) {
        String json = object(kind, members);
        if (!json.equals(said.put(kind, json))) {
            offer(new Message(topic, kind, json));
        }
    }

    private void kept(Topic topic, String kind, Json.Content members) {
        offer(new Message(topic, "", object(kind, members)));
    }

    /** Age and state of its data, as told to every page; may be asked from any thread. */
    static String age(String seat, double ageS, DataState state) {
        return Message.json("age", json -> {
            json.writeStringField("seat", seat);
            json.writeNumberField("age_s", Math.round(ageS * 10) / 10.0);
            json.writeStringField("state", state.name());
        });
    }

    void next(NextAction next, Point.Phase phase) {
        changed(Topic.NEXT, "next", json -> {
            json.writeStringField("text", next.text());
            json.writeBooleanField("now", next.inNm() == 0);
            json.writeStringField("phase", phase.words());
        });
    }

    void grade(Grade soFar) {
        changed(Topic.GRADE, "grade", json -> {
            json.writeFieldName("grade");
            GradeJson.write(soFar, json);
        });
    }

    /** The controller takes a clearance back, for so many a time. */
    void disregard(int number, double timeS, String spoken) {
        latest(Topic.OPEN, "disregard", json -> {
            json.writeNumberField("number", number);
            json.writeNumberField("t", JsonNumbers.rounded(timeS, 2));
            json.writeStringField("spoken", spoken);
        });
    }

    /** No clearance and no amended route any more. */
    void asFiled() {
        latest(Topic.OPEN, "cleared", json -> {});
        latest(Topic.ROUTE, "amended", json -> {});
    }

    void amended(int clearance, AmendedRoute route, RoutePicture picture) {
        latest(Topic.ROUTE, "amended", json -> {
            json.writeNumberField("clearance", clearance);
            picture.writeRoute(json, route, route.situation().heading());
        });
    }

    /** The pilot is called whatever he is shown; the words are what a voice of his browser speaks. */
    void cleared(int clearance, Entry.Issued issued, String spoken, boolean givenBack) {
        latest(Topic.OPEN, "cleared", json -> {
            json.writeNumberField("clearance", clearance);
            json.writeNumberField("t", JsonNumbers.rounded(issued.timeS(), 2));
            json.writeStringField("spoken", spoken);
            json.writeBooleanField("given_back", givenBack);
        });
    }

    void event(FlightEvent event, Optional<AmendedRoute> route) {
        Topic topic = switch (event.kind()) {
            case CLEARANCE_ISSUED, CLEARANCE_AS_BEFORE -> Topic.WORDS;
            case READ_BACK -> Topic.GRADE;
            default -> Topic.OPEN;
        };
        String[] line = EventText.line(event, route).split(" {2}", 2);
        kept(topic, "event", json -> {
            json.writeNumberField("t", JsonNumbers.rounded(event.timeS(), 2));
            json.writeStringField("name", event.name());
            json.writeStringField("clock", line[0]);
            json.writeStringField("text", CleanText.of(line[1]));
        });
    }

    void over() {
        latest(Topic.OPEN, "over", json -> {});
    }

    void note(Topic topic, String text) {
        kept(topic, "note", json -> json.writeStringField("text", CleanText.of(text)));
    }

    void remark(double timeS, String text) {
        remark(timeS, "", text);
    }

    private void remark(double timeS, String kind, String text) {
        kept(Topic.INSTRUCTOR, "remark", json -> {
            json.writeNumberField("t", JsonNumbers.rounded(timeS, 2));
            json.writeStringField("clock", Words.clock(timeS));
            if (!kind.isEmpty()) {
                json.writeStringField("kind", kind);
            }
            json.writeStringField("text", CleanText.of(text));
        });
    }

    void readBack(ReadBack readback) {
        String text = readback.elements().stream()
                .map(each -> switch (each.verdict()) {
                    case "right" -> "\u2713 " + Readback.called(each.what());
                    case "missing" -> "missing: " + Readback.said(each.what(), each.cleared());
                    case "unclear" -> "unclear: " + Readback.said(each.what(), each.cleared());
                    default ->
                        "wrong: "
                                + (each.cleared().isEmpty()
                                        ? Readback.said(each.what(), each.found()) + ", no part of the clearance"
                                        : Readback.said(each.what(), each.cleared()));
                })
                .collect(Collectors.joining(", "));
        remark(readback.elapsedS(), "readback", text);
        String key = "readback " + readback.talk().number();
        offer(new Message(Topic.INSTRUCTOR, key, object("readback", json -> write(readback, json))));
    }

    /** Element by element, with the times it took. */
    private static void write(ReadBack readback, JsonGenerator json) throws IOException {
        ReadBack.Talk talk = readback.talk();
        json.writeNumberField("clearance", talk.number());
        json.writeStringField("clock", Words.clock(readback.elapsedS()));
        json.writeStringField("how", talk.how());
        json.writeStringField("words", CleanText.of(readback.heard()));
        json.writeStringField("outcome", readback.outcome().name().toLowerCase(Locale.ROOT));
        JsonNumbers.write(json, "began_s", talk.beganS().orElse(Double.NaN));
        JsonNumbers.write(json, "ended_s", talk.endedS().orElse(Double.NaN));
        JsonNumbers.write(json, "copy_s", between(talk.issuedS(), talk.beganS()));
        JsonNumbers.write(json, "read_s", between(talk.beganS(), talk.endedS()));
        Json.member(
                json,
                "elements",
                readback.elements().stream()
                        .map(each -> List.of(
                                each.what(),
                                CleanText.of(each.cleared()),
                                CleanText.of(each.found()),
                                each.verdict(),
                                Readback.isDue(each.what())))
                        .toList());
    }

    /** NaN where either is not known. */
    private static double between(OptionalDouble from, OptionalDouble to) {
        return to.orElse(Double.NaN) - from.orElse(Double.NaN);
    }
}
