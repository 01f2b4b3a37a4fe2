package org.rejoin.console.room;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.OwnMark;
import org.rejoin.console.book.Signature;
import org.rejoin.console.page.PageRoom.Answer;
import org.rejoin.console.page.PageRoom.Asker;
import org.rejoin.console.page.PageShow;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** The record book as the page asks for it: lists, one attempt, its flight, its report, remarks, marks, signatures. */
record RecordsDesk(RoomRecords records) {

    private static final List<String> LISTED_BY = List.of("pilot", "lesson", "words", "order", "backward");
    private static final int MOST_ROWS = 500;
    private static final int MOST_CHARACTERS = 1_000;
    private static final int MOST_OF_A_NAME = 80;
    private static final char NO_BREAK_SPACE = '\u00a0';

    /** {@code attempts}, {@code attempt/ID}, {@code attempt/ID/picture|report|whatif}; orders {@code sign|mark|remark|pilot}. */
    Answer ask(Asker asker, String path, Map<String, String> query, Optional<JsonNode> order) throws IOException {
        if (path.equals("attempts")) {
            return list(asker, query);
        }
        String[] parts = path.split("/", -1);
        if (parts.length < 2) {
            return Answer.bad("which attempt?");
        }
        if (!records.has(parts[1])) {
            return Answer.unknown(
                    "there is no attempt " + CleanText.line(parts[1]) + "; the record book lists those there are");
        }
        AttemptFolder folder = records.attempt(parts[1]);
        Attempt attempt = folder.attempt();
        if (!asker.instructor() && !attempt.pilotId().equals(asker.pilot())) {
            return Answer.notYours("not your attempt");
        }
        String what = parts.length > 2 ? parts[2] : "";
        if (order.isEmpty()) {
            return asked(folder, attempt, what, query);
        }
        return asker.instructor() ? ordered(folder, what, order.get()) : Answer.notYours("the instructor's alone");
    }

    private Answer list(Asker asker, Map<String, String> query) throws IOException {
        for (Map.Entry<String, String> each : query.entrySet()) {
            if (!LISTED_BY.contains(each.getKey())) {
                return Answer.bad("a list is asked for by " + String.join(", ", LISTED_BY) + ", not by "
                        + CleanText.line(each.getKey()));
            }
        }
        Optional<AttemptQuery.Order> by = AttemptQuery.Order.named(query.getOrDefault("order", "date"));
        if (by.isEmpty()) {
            return Answer.bad("order is one of " + AttemptQuery.Order.names() + ", not "
                    + CleanText.line(query.getOrDefault("order", "")));
        }
        String backward = query.getOrDefault("backward", "yes");
        if (!backward.equals("yes") && !backward.equals("no")) {
            return Answer.bad("backward is yes or no, not " + CleanText.line(backward));
        }
        String pilot = asker.instructor() ? query.getOrDefault("pilot", "") : asker.pilot();
        if (!pilot.isEmpty() && records.nobody(pilot)) {
            return Answer.unknown("there is no pilot " + CleanText.line(pilot) + " in the record book");
        }
        AttemptQuery wanted = new AttemptQuery(
                pilot,
                query.getOrDefault("lesson", ""),
                query.getOrDefault("words", ""),
                Optional.empty(),
                Optional.empty(),
                java.util.OptionalDouble.empty(),
                by.get(),
                backward.equals("yes"));
        List<AttemptRow> rows = records.list(wanted);
        ObjectNode json = RoomDesk.JSON.createObjectNode();
        json.put("all", rows.size());
        ArrayNode shown = json.putArray("rows");
        rows.stream().limit(MOST_ROWS).forEach(row -> write(shown.addObject(), row));
        return Answer.json(json.toString());
    }

    private static void write(ObjectNode json, AttemptRow row) {
        AttemptJson.write(json, row.attempt());
        row.grade().score().ifPresent(score -> json.put("score", Math.round(score * 10) / 10.0));
        row.grade().met().ifPresent(met -> json.put("met", met));
        json.put("standard", row.grade().standard());
        ArrayNode faults = json.putArray("faults");
        row.grade().faults().forEach(faults::add);
        json.put("signed_by", CleanText.of(row.signedBy().orElse("")));
        json.put("signature_matches", row.signatureMatches());
        ArrayNode changedFor = json.putArray("changed_for");
        row.changedFor().forEach(name -> changedFor.add(CleanText.of(name)));
        row.ownMark().ifPresent(mark -> json.put("own_mark", mark));
        row.answered().ifPresent(words -> json.put("answered", words));
    }

    private Answer asked(AttemptFolder folder, Attempt attempt, String what, Map<String, String> query)
            throws IOException {
        if (folder.isAnswered() && !what.isEmpty()) {
            return Answer.no("this drill was answered and not flown: it has no flight to show, to print or to compare;"
                    + " its answers stand in its debrief");
        }
        return switch (what) {
            case "" -> Answer.json(AttemptJson.of(folder).toString());
            case "picture" -> picture(attempt);
            case "report" ->
                Answer.of(
                        "text/html; charset=utf-8", records.again(attempt.id()).report());
            case "whatif" -> Answer.json(new WhatIfDesk(records.again(attempt.id())).answer(query));
            default -> Answer.unknown("nothing of that name can be asked of an attempt");
        };
    }

    private Answer picture(Attempt attempt) throws IOException {
        RoomRecords.Grading.Again again = records.again(attempt.id());
        return Answer.of(
                "text/plain; charset=utf-8",
                PageShow.replayed(
                        again.setting(),
                        attempt.id(),
                        label(attempt),
                        again.debrief().grade(),
                        again.debrief().record()));
    }

    /** Who and when, in one piece: the page shortens a label of several words. */
    private static String label(Attempt attempt) {
        String time = attempt.began().toString().substring(0, 16).replace('T', NO_BREAK_SPACE);
        return CleanText.line(attempt.pilot().isEmpty() ? attempt.aircraft() : attempt.pilot())
                        .replace(' ', NO_BREAK_SPACE)
                + NO_BREAK_SPACE
                + time;
    }

    private Answer ordered(AttemptFolder folder, String what, JsonNode order) throws IOException {
        try {
            switch (what) {
                case "sign" ->
                    folder.sign(
                            new Signature.Words(
                                    words(order, "name"),
                                    words(order, "certificate"),
                                    "",
                                    words(order, "training"),
                                    words(order, "remark")),
                            Instant.now());
                case "mark" ->
                    folder.mark(new OwnMark(mark(order), words(order, "by"), words(order, "reason"), Instant.now()));
                case "remark" ->
                    new InstructorFile(folder.place())
                            .keep(new InstructorFile.Remark(time(order, folder), "", needed(words(order, "text"))));
                case "pilot" -> folder.keep(folder.attempt().flownBy(records.pilot(words(order, "name"))));
                default -> {
                    return Answer.unknown("nothing of that name can be done to an attempt");
                }
            }
        } catch (IllegalArgumentException e) {
            return Answer.bad(String.valueOf(e.getMessage()));
        }
        records.forgetAgain(folder.attempt().id());
        return Answer.done();
    }

    /** In the flight, to the second after its end: the page's own clock rounds. */
    private double time(JsonNode order, AttemptFolder folder) throws IOException {
        if (folder.isAnswered()) {
            throw new IllegalArgumentException(
                    "a remark needs a time of a flight, and this drill was not flown: give it a"
                            + " mark with a reason, or sign it with a remark");
        }
        double t = order.path("t").asDouble(Double.NaN);
        double endS = records.again(folder.attempt().id()).debrief().record().events().stream()
                .mapToDouble(FlightEvent::timeS)
                .max()
                .orElse(0);
        if (!(t >= 0 && t <= endS + 1)) {
            throw new IllegalArgumentException(
                    Words.say("a remark needs a time of the flight, 0 to %.0f seconds", endS));
        }
        return t;
    }

    private static String words(JsonNode order, String name) {
        JsonNode given = order.path(name);
        if (!given.isMissingNode() && !given.isTextual()) {
            throw new IllegalArgumentException(name + " must be text");
        }
        String text = CleanText.line(given.asText("")).strip();
        int most = name.equals("remark") || name.equals("reason") || name.equals("text") || name.equals("training")
                ? MOST_CHARACTERS
                : MOST_OF_A_NAME;
        if (text.length() > most) {
            throw new IllegalArgumentException(
                    name + " has " + text.length() + " characters; " + most + " are the most");
        }
        return text;
    }

    /** As typed, or a number. */
    private static double mark(JsonNode order) {
        JsonNode score = order.path("score");
        if (score.isNumber()) {
            return score.asDouble();
        }
        try {
            return Double.parseDouble(score.asText("").strip());
        } catch (NumberFormatException e) {
            throw new IllegalArgumentException(
                    "a mark is a number, 0 to 100, not \"" + CleanText.line(score.asText("")) + "\"");
        }
    }

    private static String needed(String text) throws IOException {
        if (text.isEmpty()) {
            throw new IOException("nothing was typed");
        }
        return text;
    }
}
