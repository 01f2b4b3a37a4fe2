package org.rejoin.console.page;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.words.CleanText;

import org.jspecify.annotations.Nullable;

/**
 * The whole picture: what each audience gets as it changes, and all of it again for a page that is opened later. Text of
 * server-sent events (HTML Living Standard, section 9.2). Confined to the page's thread.
 */
final class Picture {

    /** Where a lesson stands. */
    enum Stage {
        /** For the instructor's start. */
        WAITING,
        /** In flight. */
        FLYING,
        /** Ended. */
        OVER
    }

    /** What is told of a show that there is not. */
    static final String NOTHING = line("{\"k\":\"nothing\"}");

    private final PageServer.Setting setting;
    private final RoutePicture routes;
    private final Map<String, SeatPicture> seats = new LinkedHashMap<>();
    private final Set<Topic> shown = EnumSet.complementOf(EnumSet.of(Topic.INSTRUCTOR));
    private Stage stage;
    private volatile Load load = new Load(0, 0);
    private volatile List<String> unread = List.of();
    private volatile String notRecorded = "";

    Picture(PageServer.Setting setting, RoutePicture routes) {
        this.setting = setting;
        this.routes = routes;
        this.stage = setting.waits() ? Stage.WAITING : Stage.FLYING;
    }

    /** Text for each audience; empty where there is nothing new. */
    static final class Texts {
        private final Map<Audience, StringBuilder> texts = new EnumMap<>(Audience.class);

        Texts() {
            for (Audience audience : Audience.values()) {
                texts.put(audience, new StringBuilder());
            }
        }

        String of(Audience audience) {
            return text(audience).toString();
        }

        /** Everyone is told this. */
        void all(String json) {
            texts.values().forEach(text -> text.append(line(json)));
        }

        private StringBuilder text(Audience audience) {
            return Objects.requireNonNull(texts.get(audience));
        }
    }

    boolean sees(Audience audience, Topic topic) {
        return audience == Audience.INSTRUCTOR || shown.contains(topic);
    }

    /** Shows something to the students or hides it; their pages must be told everything again. */
    void show(Topic topic, boolean visible) {
        if (visible) {
            shown.add(topic);
        } else {
            shown.remove(topic);
        }
    }

    void stage(Stage now) {
        stage = now;
    }

    void add(SeatPage seat, Texts texts) {
        if (seats.putIfAbsent(seat.id(), new SeatPicture(seat)) == null) {
            texts.all(seatLine(seat.id(), seat.label()));
        }
    }

    private String seatLine(String id, String label) {
        return Message.json("seat", json -> {
            json.writeStringField("seat", id);
            json.writeStringField("label", CleanText.of(label));
            Optional<Lesson.Radio> radio = setting.lesson().radio();
            if (radio.isPresent()) {
                json.writeObjectFieldStart("radio");
                JsonNumbers.write(json, "voice_over_noise_db", radio.get().voiceOverNoiseDb());
                json.writeNumberField("seed", radio.get().seed());
                json.writeEndObject();
            }
        });
    }

    /** What is new since the last call. */
    void update(Texts texts) {
        seats.forEach((id, seat) -> {
            SeatPicture.Told fresh = seat.update();
            for (Audience audience : Audience.values()) {
                tell(texts.text(audience), audience, id, fresh);
            }
        });
    }

    private record Load(double behindS, long lost) {}

    /** How the flight keeps up with what is sent; may be told from any thread. */
    void load(double behindS, long lost) {
        load = new Load(behindS, lost);
    }

    /** What arrives and cannot be flown by, a line each; may be told from any thread. */
    void unread(List<String> lines) {
        unread = List.copyOf(lines);
    }

    /** Why nothing is recorded just now; empty where all is; may be told from any thread. */
    void notRecorded(String why) {
        notRecorded = why;
    }

    /** The stage, what students are shown, and what was lost on the way. */
    String status(int pages, long dropped) {
        return Message.json("status", json -> {
            json.writeStringField("stage", stage.name());
            for (Topic topic : Topic.SHOWN) {
                json.writeBooleanField(topic.word(), shown.contains(topic));
            }
            json.writeNumberField("pages", pages);
            json.writeNumberField("dropped", dropped);
            json.writeNumberField("behind_s", Math.round(load.behindS()));
            json.writeNumberField("not_taken", load.lost());
            json.writeStringField("not_recorded", CleanText.of(notRecorded));
            Json.texts(json, "unread", unread.stream().map(CleanText::of).toList());
            json.writeNumberField(
                    "lost", seats.values().stream().mapToLong(SeatPicture::lost).sum());
        });
    }

    /** Everything, for a page that has just been opened. */
    String whole(Audience audience, int pages, long dropped) {
        Lesson lesson = setting.lesson();
        ToleranceSet set = setting.set();
        StringBuilder text = new StringBuilder(PageServer.RETRY);
        text.append(line(Message.json("hello", json -> {
            json.writeStringField("title", CleanText.of(lesson.title()));
            json.writeStringField("route", CleanText.of(lesson.filed().text()));
            json.writeStringField("standard", CleanText.of(set.title()));
            json.writeStringField("caution", setting.caution());
            json.writeNumberField("heading_limit_deg", set.limits().headingDeg());
            json.writeNumberField("altitude_limit_ft", set.limits().altitudeFt());
            json.writeNumberField("wind_from_deg", lesson.wind().from().deg());
            json.writeNumberField("wind_kt", lesson.wind().speedKt());
            routes.writeVariation(json);
            routes.writeChart(json);
        })));
        text.append(line(status(pages, dropped)));
        seats.forEach((id, seat) -> {
            text.append(line(seatLine(id, seat.label())));
            tell(text, audience, id, seat.all());
        });
        return text.append(line("{\"k\":\"ready\"}")).toString();
    }

    private void tell(StringBuilder text, Audience audience, String seat, SeatPicture.Told told) {
        told.messages().stream()
                .filter(message -> sees(audience, message.topic()))
                .forEach(message -> text.append(line(message.json())));
        if (sees(audience, Topic.POSITION) && told.hasRows()) {
            rows(text, seat, told.rows(), told.now(), sees(audience, Topic.ROUTE));
        }
    }

    static void rows(StringBuilder text, String seat, List<Row> fresh, @Nullable Row now, boolean withLine) {
        text.append("data: ");
        String head = Message.json("rows", json -> json.writeStringField("seat", seat));
        text.append(head, 0, head.length() - 1).append(",\"rows\":[");
        for (int i = 0; i < fresh.size(); i++) {
            text.append(i == 0 ? "" : ",");
            fresh.get(i).write(text, withLine);
        }
        text.append(']');
        if (now != null) {
            text.append(",\"now\":");
            now.write(text, withLine);
        }
        text.append("}\n");
    }

    /** One line of an event: what is told at one time is one event, for a browser takes its time for each. */
    static String line(String json) {
        return "data: " + json + "\n";
    }
}
