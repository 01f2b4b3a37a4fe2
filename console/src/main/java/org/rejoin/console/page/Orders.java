package org.rejoin.console.page;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;

import org.rejoin.bridge.Seat;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Readback;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.report.CleanText;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * What the instructor asks for, done on the flight's thread and answered in JSON. An answer of kind {@code refused} says
 * why in one line, with the place in the words where there is one.
 */
final class Orders {

    /** No clearance or remark is longer, characters. */
    static final int MOST_CHARACTERS = 1_000;

    /** ATC's words that take an amendment back. */
    private static final String CANCEL = "cancel amended clearance, then as filed";

    private final PageActions actions;
    private final Lesson lesson;
    private final RoutePicture routes;

    Orders(PageActions actions, Lesson lesson, RoutePicture routes) {
        this.actions = actions;
        this.lesson = lesson;
        this.routes = routes;
    }

    /** Does it; the answer comes later, on the flight's thread. */
    void carryOut(SeatPage page, JsonNode order, Consumer<String> answer) {
        boolean taken = actions.execute(() -> {
            try {
                answer.accept(now(page, order));
            } catch (ClearanceException e) {
                answer.accept(refused(e));
            } catch (RuntimeException e) {
                answer.accept(refused("it did not work: " + e));
            }
        });
        if (!taken) {
            answer.accept(refused("the flight is over"));
        }
    }

    private String now(SeatPage page, JsonNode order) throws ClearanceException {
        String words = order.path("text").asText("").trim();
        String what = order.path("do").asText();
        if (words.length() > MOST_CHARACTERS) {
            return refused("longer than " + MOST_CHARACTERS + " characters");
        }
        if (words.isEmpty() && !what.equals("cancel")) {
            return refused("nothing was typed");
        }
        Optional<Seat> seat = actions.seat(page.id());
        OptionalDouble atS = seat.map(Seat::lastS).orElse(OptionalDouble.empty());
        if (atS.isEmpty() || seat.isEmpty()) {
            return refused("no sample of the aircraft has arrived yet");
        }
        return switch (what) {
            case "preview" -> previewed(seat.get().preview(words));
            case "issue" -> issued(page, seat.get(), words, altitude(order), atS.getAsDouble());
            case "cancel" -> issued(page, seat.get(), CANCEL, OptionalDouble.empty(), atS.getAsDouble());
            case "remark" -> {
                actions.remarked(page.id(), atS.getAsDouble(), words);
                page.remark(atS.getAsDouble(), words);
                yield JsonText.object("done", json -> {});
            }
            case "readback" -> checked(page, words);
            default -> refused("no such order");
        };
    }

    private static OptionalDouble altitude(JsonNode order) {
        JsonNode feet = order.path("altitude_ft");
        return feet.isNumber() && feet.asDouble() >= 0 && feet.asDouble() <= 60_000
                ? OptionalDouble.of(feet.asDouble())
                : OptionalDouble.empty();
    }

    private String previewed(AmendedRoute route) {
        return JsonText.object("preview", json -> routes.writeRoute(json, route));
    }

    private String issued(SeatPage page, Seat seat, String words, OptionalDouble altitudeFt, double atS)
            throws ClearanceException {
        AmendedRoute route = seat.issue(words, altitudeFt);
        actions.spoken(page.id(), atS, words, altitudeFt);
        return JsonText.object("issued", json -> routes.writeRoute(json, route));
    }

    private String checked(SeatPage page, String words) {
        Optional<AmendedRoute> route = page.route();
        if (route.isEmpty()) {
            return refused("no clearance was issued yet");
        }
        List<Readback.Element> elements =
                Readback.check(route.get().clearance(), words, lesson.chart(), lesson.filed());
        return JsonText.object("readback", json -> {
            json.writeArrayFieldStart("elements");
            for (Readback.Element element : elements) {
                json.writeStartArray();
                json.writeString(element.what());
                json.writeString(element.verdict().name());
                json.writeString(CleanText.of(element.expected()));
                json.writeString(CleanText.of(element.found()));
                json.writeEndArray();
            }
            json.writeEndArray();
        });
    }

    static String refused(String why) {
        return JsonText.object("refused", json -> json.writeStringField("why", CleanText.of(why)));
    }

    private static String refused(ClearanceException e) {
        return JsonText.object("refused", json -> {
            json.writeStringField("code", e.code().name());
            json.writeStringField("why", CleanText.of(String.valueOf(e.getMessage())));
            if (e.column().isPresent()) {
                json.writeNumberField("column", e.column().getAsInt());
                json.writeNumberField("length", e.length());
            }
        });
    }
}
