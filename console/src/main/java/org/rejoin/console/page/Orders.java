package org.rejoin.console.page;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.JsonNode;

/**
 * What the instructor asks for, done on the flight's thread and answered in JSON. An answer of kind {@code refused} says
 * why in one line, with the place in the words where there is one.
 */
final class Orders {

    /** No clearance or remark is longer, characters. */
    static final int MOST_CHARACTERS = 1_000;

    /** ATC's words that take all amendments back. */
    private static final String CANCEL = "cancel amended clearance, then as filed";

    /** ATC's words that take the last one back (Pilot/Controller Glossary and ICAO Annex 10, volume II, 5.2.1.5.8: "disregard"). */
    private static final String DISREGARD = "disregard the amendment";

    private static final Set<String> WORDLESS = Set.of("cancel", "undo", "elements", "tapped", "again");

    /** What a pilot may do at his own seat. */
    private static final Set<String> THE_PILOTS = Set.of("readback", "again");

    /** Nobody reads in so short a time what another page has just issued, seconds (judgement). */
    private static final double UNREAD_S = 3;

    private final PageActions actions;
    private final Readbacks readbacks;
    private final RoutePicture routes;

    /** What was issued last to each seat; on the flight's thread. */
    private final Map<String, Last> last = new HashMap<>();

    private record Last(String page, String words, long nanos) {}

    /** Why the disk refuses a remark that waits for it. */
    private final Map<Remark, String> waiting = new ConcurrentHashMap<>();

    private record Remark(String seat, String words) {}

    /** An order that is not done; one line says why. */
    static final class Refused extends Exception {
        private static final long serialVersionUID = 1;

        Refused(String why) {
            super(why);
        }
    }

    Orders(PageActions actions, Lesson lesson, RoutePicture routes) {
        this.actions = actions;
        this.readbacks = new Readbacks(actions, lesson);
        this.routes = routes;
    }

    /** Whether somebody who is not the instructor may order this at his own seat. */
    static boolean isForPilots(String what) {
        return THE_PILOTS.contains(what);
    }

    /** Does it; the answer comes once and later, on the flight's thread or on that of the disk. */
    void carryOut(SeatPage page, JsonNode order, Consumer<String> answer) {
        actions.execute(
                () -> {
                    try {
                        now(page, order, answer);
                    } catch (ClearanceException e) {
                        answer.accept(refused(e));
                    } catch (Refused e) {
                        answer.accept(refused(String.valueOf(e.getMessage())));
                    } catch (RuntimeException e) {
                        answer.accept(refused("it did not work: " + e));
                    }
                },
                () -> answer.accept(refused("the flight is over")));
    }

    /** What somebody typed or said. */
    static String words(JsonNode order) {
        return order.path("text").asText(order.path("words").asText("")).trim();
    }

    private void now(SeatPage page, JsonNode order, Consumer<String> answer) throws ClearanceException, Refused {
        String words = words(order);
        String what = order.path("do").asText();
        if (words.length() > MOST_CHARACTERS) {
            throw new Refused("longer than " + MOST_CHARACTERS + " characters");
        }
        if (words.isEmpty() && !WORDLESS.contains(what)) {
            throw new Refused("nothing was typed");
        }
        FlightSession seat = actions.seat(page.id())
                .filter(flown -> flown.lastS().isPresent())
                .orElseThrow(() -> new Refused("no sample of the aircraft has arrived yet"));
        double atS = seat.lastS().orElseThrow();
        switch (what) {
            case "preview" -> answer.accept(previewed(page, seat.preview(words, altitude(order))));
            case "issue" -> {
                Optional<Entry.Issued> same = repeated(page, words, altitude(order));
                if (same.isPresent() && !order.path("again").asBoolean()) {
                    answer.accept(asked(page, same.get()));
                } else {
                    issue(page, seat, words, order, answer);
                }
            }
            case "cancel" -> issue(page, seat, CANCEL, order, answer);
            case "undo" -> issue(page, seat, DISREGARD, order, answer);
            case "remark" -> {
                if (order.path("waits").asBoolean()) {
                    waits(page, words, answer);
                } else {
                    remark(page, atS, words, answer);
                }
            }
            case "readback" -> readbacks.checked(page, seat, order, answer);
            case "elements" -> answer.accept(readbacks.elements(page, order));
            case "tapped" -> readbacks.tapped(page, seat, order, answer);
            case "again" -> readbacks.again(page, seat, order, answer);
            default -> throw new Refused("no such order");
        }
    }

    /** The clearance in force, where these words are its own: pressed twice, or meant again. */
    private static Optional<Entry.Issued> repeated(SeatPage page, String words, OptionalDouble altitudeFt) {
        return page.clearances()
                .current()
                .filter(issued ->
                        issued.route().clearance().text().strip().equalsIgnoreCase(words) && altitudeFt.isEmpty());
    }

    private static String asked(SeatPage page, Entry.Issued issued) {
        return asked(
                "This clearance was issued to " + page.label() + " at " + Words.clock(issued.timeS())
                        + " and is in force. Issue it again?",
                "Issue it again");
    }

    private static String asked(String why, String yes) {
        return Message.json("ask", json -> {
            json.writeStringField("why", CleanText.of(why));
            json.writeStringField("yes", yes);
        });
    }

    /** What another page issued to this seat so shortly before that whoever orders cannot have read it. */
    private Optional<String> unread(SeatPage page, JsonNode order) {
        return Optional.ofNullable(last.get(page.id()))
                .filter(each -> !each.page().equals(order.path("page").asText())
                        && System.nanoTime() - each.nanos() < UNREAD_S * 1e9)
                .map(Last::words);
    }

    /** Beside the words; none where none is given. */
    private static OptionalDouble altitude(JsonNode order) throws Refused {
        JsonNode feet = order.path("altitude_ft");
        if (feet.isMissingNode() || feet.isNull()) {
            return OptionalDouble.empty();
        }
        if (!feet.isNumber() || feet.asDouble() < Clearance.LOWEST_FT || feet.asDouble() > Clearance.HIGHEST_FT) {
            throw new Refused("the altitude beside the words is " + feet.asText() + ": " + Clearance.LOWEST_FT + " to "
                    + Clearance.HIGHEST_FT + " feet would be right");
        }
        return OptionalDouble.of(feet.asDouble());
    }

    private String previewed(SeatPage page, AmendedRoute route) {
        Optional<MagneticDirection> heading = page.heading();
        return Message.json("preview", json -> routes.writeRoute(json, route, heading));
    }

    /** In force at once; the answer waits for the disk and says whether a debrief will have it. */
    private void issue(SeatPage page, FlightSession seat, String words, JsonNode order, Consumer<String> answer)
            throws ClearanceException, Refused {
        Optional<String> unread = unread(page, order);
        if (unread.isPresent() && !order.path("again").asBoolean()) {
            answer.accept(asked(
                    "Another page has just issued to " + page.label() + ": \u201c" + unread.get()
                            + "\u201d. Issue yours after it?",
                    "Issue it all the same"));
            return;
        }
        OptionalDouble altitudeFt =
                order.path("do").asText().equals("issue") ? altitude(order) : OptionalDouble.empty();
        double atS = seat.lastS().orElseThrow();
        AmendedRoute route = seat.issue(words, altitudeFt);
        Optional<MagneticDirection> heading = page.heading();
        last.put(page.id(), new Last(order.path("page").asText(), words, System.nanoTime()));
        actions.keep(
                new InstructorFile.Spoken(atS, page.id(), words, altitudeFt),
                kept -> {
                    kept.problem()
                            .ifPresent(why -> page.noteToInstructor(
                                    "this clearance is not kept yet, and a debrief would not have it: " + why));
                    answer.accept(Message.json("issued", json -> {
                        routes.writeRoute(json, route, heading);
                        json.writeBooleanField("kept", kept.onDisk());
                    }));
                },
                () -> page.noteToInstructor(
                        "the clearance of " + Words.clock(atS) + " is kept now, a debrief will have it"));
    }

    private void remark(SeatPage page, double atS, String words, Consumer<String> answer) {
        Remark remark = new Remark(page.id(), words);
        String why = waiting.get(remark);
        if (why != null) { // pressed again meanwhile
            answer.accept(waits(why));
            return;
        }
        actions.keep(
                new InstructorFile.Remark(atS, page.id(), words),
                kept -> {
                    if (kept.problem().isPresent()) {
                        waiting.put(remark, kept.problem().get());
                        answer.accept(waits(kept.problem().get()));
                        return;
                    }
                    page.remark(atS, words);
                    answer.accept(Message.json("done", json -> json.writeBooleanField("kept", kept.onDisk())));
                },
                () -> {
                    waiting.remove(remark);
                    page.remark(atS, words);
                });
    }

    /** Whether a remark that the disk refused is still not kept. */
    private void waits(SeatPage page, String words, Consumer<String> answer) {
        String why = waiting.get(new Remark(page.id(), words));
        answer.accept(why == null ? Message.json("done", json -> {}) : waits(why));
    }

    private static String waits(String why) {
        return Message.json(
                "waits", json -> json.writeStringField("why", "the remark is not kept: " + CleanText.of(why)));
    }

    static String refused(String why) {
        return Message.json("refused", json -> json.writeStringField("why", CleanText.of(why)));
    }

    private static String refused(ClearanceException e) {
        return Message.json("refused", json -> {
            json.writeStringField("code", e.code().name());
            json.writeStringField("why", CleanText.of(String.valueOf(e.getMessage())));
            if (e.column().isPresent()) {
                json.writeNumberField("column", e.column().getAsInt());
                json.writeNumberField("length", e.length());
            }
        });
    }
}
