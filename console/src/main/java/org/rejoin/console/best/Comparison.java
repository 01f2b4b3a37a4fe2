package org.rejoin.console.best;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.core.JsonGenerator;

/** One clearance as it could have been flown and as it was: what an instructor draws on the board. */
public record Comparison(BestPath best, Cost cost) {

    /** A turn is said to be late or early from here, seconds: the time a roll takes; common practice, no source. */
    private static final double LATE_S = 3;

    /** Seconds lost are worth a word from here; common practice, no source. */
    private static final double LOST_S = 3;

    /** Points closer together show no more, seconds. */
    static final double EVERY_S = 0.5;

    /** Past the line by less than this is on it, nautical miles (the log's own limit). */
    private static final double PAST_NM = 0.1;

    /**
     * Compares a flight with the best path for one clearance that was heard so many seconds since the first sample;
     * points and events are those under it, in order of time. Empty where there is no best path, or nothing was flown.
     */
    public static Optional<Comparison> of(
            AmendedRoute route, double heardS, List<Point> flown, List<FlightEvent> events) {
        if (flown.isEmpty()) {
            return Optional.empty();
        }
        return BestPath.of(route, heardS, route.situation().position(), Recorded.ground(flown.get(0)))
                .map(best -> new Comparison(best, new CostFinder(best, flown, events).cost()));
    }

    /**
     * The comparison for each clearance of a flight whose record has its points, in order of time; a clearance without
     * a best path, or one taken back before it was complete, is left out.
     */
    public static List<Comparison> all(FlightRecord record) {
        List<Entry.Issued> clearances = record.amendments();
        List<Point> flown = thinned(record, clearances);
        List<FlightEvent> events = record.events();
        Set<AmendedRoute> withdrawn = withdrawn(record);
        List<Comparison> all = new ArrayList<>();
        for (int i = 0; i < clearances.size(); i++) {
            if (withdrawn.contains(clearances.get(i).route())) {
                continue;
            }
            double fromS = clearances.get(i).timeS();
            double toS = i + 1 < clearances.size() ? clearances.get(i + 1).timeS() : Double.POSITIVE_INFINITY;
            of(
                            clearances.get(i).route(),
                            fromS,
                            flown.stream()
                                    .filter(at -> at.timeS() >= fromS && at.timeS() <= toS)
                                    .toList(),
                            events.stream()
                                    .filter(event -> event.timeS() >= fromS && event.timeS() < toS)
                                    .toList())
                    .ifPresent(all::add);
        }
        return all;
    }

    /** Two points a second at most, and each at which a clearance was heard. */
    static List<Point> thinned(FlightRecord record, List<Entry.Issued> clearances) {
        Set<Double> heard = clearances.stream().map(Entry.Issued::timeS).collect(Collectors.toSet());
        List<Point> thin = new ArrayList<>();
        record.points().forEach(point -> {
            if (thin.isEmpty()
                    || heard.contains(point.timeS())
                    || point.timeS() - thin.get(thin.size() - 1).timeS() >= EVERY_S - 1e-6) {
                thin.add(point);
            }
        });
        return thin;
    }

    /**
     * Which of the clearances of the route were taken back before they were complete. The order of the record decides: one
     * that is taken back and the one that is in force again then have the same time.
     */
    private static Set<AmendedRoute> withdrawn(FlightRecord record) {
        Set<AmendedRoute> withdrawn = Collections.newSetFromMap(new IdentityHashMap<>());
        AmendedRoute inForce = null;
        boolean complete = false;
        for (Entry entry : record.entries()) {
            if (entry instanceof Entry.Issued issued && !issued.clearance().routeStays()) {
                inForce = issued.route();
                complete = false;
            } else if (entry instanceof Entry.Happened happened
                    && happened.event() instanceof FlightEvent.AmendmentComplete) {
                complete = true;
            } else if (entry instanceof Entry.Withdrawn && !complete) {
                withdrawn.add(inForce);
            }
        }
        return withdrawn;
    }

    /** Its lines for a debrief. */
    public List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add("BEST FLYABLE PATH for the clearance of " + Words.clock(best.heardS()));
        for (BestPath.TurnOnto turn : best.turns()) {
            lines.add(Words.say(
                    "  %s  turn %s onto %s%s, rolled out at %s",
                    Words.clock(turn.beginsS()),
                    Words.side(turn.turnDeg()),
                    turn.what(),
                    turn.toLineNm() > 0 ? Words.say(", %.2f NM before reaching the line", turn.toLineNm()) : "",
                    Words.clock(turn.rollsOutS())));
        }
        lines.add("  as flown: " + sentence());
        return lines;
    }

    /** {@return the cost in one sentence, without a stop} */
    public String sentence() {
        List<String> parts = new ArrayList<>();
        cost.turnedLateS().ifPresent(late -> {
            String onto = best.ontoCourse().map(BestPath.TurnOnto::what).orElse("the course");
            parts.add(
                    Math.abs(late) < LATE_S
                            ? "turned onto " + onto + " in time"
                            : Words.say("turned %.0f s %s onto %s", Math.abs(late), late > 0 ? "late" : "early", onto));
        });
        if (cost.pastLineNm() > PAST_NM) {
            parts.add(Words.say("%.2f NM past the line", cost.pastLineNm()));
        }
        parts.add(cost.lost()
                .map(lost -> lost.seconds() < LOST_S
                        ? "no time lost"
                        : Words.say(
                                "%.0f s lost%s",
                                lost.seconds(), lost.nm() >= 0.1 ? Words.say(", %.1f NM farther", lost.nm()) : ""))
                .orElse("time not compared: the amendment was not completed, or not all of it was flown and seen"));
        return String.join("; ", parts);
    }

    /** Writes it as an object. */
    public void write(JsonGenerator json) throws IOException {
        json.writeStartObject();
        JsonNumbers.write(json, "heard_s", best.heardS());
        JsonNumbers.write(json, "complete_s", best.completeS());
        JsonNumbers.write(json, "length_nm", best.lengthNm());
        json.writeArrayFieldStart("turns");
        for (BestPath.TurnOnto turn : best.turns()) {
            json.writeStartObject();
            json.writeStringField("onto", turn.what());
            JsonNumbers.write(json, "begins_s", turn.beginsS());
            JsonNumbers.write(json, "rolls_out_s", turn.rollsOutS());
            JsonNumbers.write(json, "turn_deg", turn.turnDeg());
            JsonNumbers.write(json, "to_line_nm", turn.toLineNm());
            JsonNumbers.place(json, "begins_", turn.begins());
            JsonNumbers.place(json, "rolls_out_", turn.rollsOut());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("path");
        for (BestPath.Point point : best.points()) {
            json.writeStartObject();
            JsonNumbers.write(json, "time_s", point.timeS());
            JsonNumbers.place(json, "", point.position());
            json.writeEndObject();
        }
        json.writeEndArray();
        if (cost.turnedLateS().isPresent()) {
            JsonNumbers.write(json, "turned_late_s", cost.turnedLateS().getAsDouble());
        }
        JsonNumbers.write(json, "past_line_nm", cost.pastLineNm());
        if (cost.lost().isPresent()) {
            JsonNumbers.write(json, "lost_s", cost.lost().get().seconds());
            JsonNumbers.write(json, "lost_nm", cost.lost().get().nm());
        }
        json.writeStringField("text", sentence());
        json.writeEndObject();
    }

    /**
     * What flying another path than the best one cost.
     *
     * @param turnedLateS seconds between where a standard-rate turn from the heading as flown would have rolled out on the
     *     course and where the turn began; negative when it began early; empty where no heading was flown to a turn
     * @param pastLineNm farthest on the far side of the course before established on it, nautical miles, 0 or more
     * @param lost compared where both are established on the leg that completes the amendment; empty when it was never
     *     complete, or the flight was set elsewhere or not seen on the way
     */
    public record Cost(OptionalDouble turnedLateS, double pastLineNm, Optional<Lost> lost) {

        /**
         * Time and distance over the ground beyond those of the best path, seconds and nautical miles; negative where the
         * pilot was quicker.
         */
        public record Lost(double seconds, double nm) {}
    }
}
