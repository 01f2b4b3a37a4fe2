package org.rejoin.console.best;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.log.EventText;

import com.fasterxml.jackson.core.JsonGenerator;

/**
 * One clearance as it could have been flown and as it was: what an instructor draws on the board.
 *
 * @param best path
 * @param cost of the path that was flown
 */
public record Comparison(BestPath best, Cost cost) {

    /** A turn is said to be late or early from here, seconds: the time a roll takes; common practice, no source. */
    private static final double LATE_S = 3;

    /** Seconds lost are worth a word from here; common practice, no source. */
    private static final double LOST_S = 3;

    /** Points closer together show no more, seconds. */
    private static final double EVERY_S = 0.5;

    /** Past the line by less than this is on it, nautical miles (the log's own limit). */
    private static final double PAST_NM = 0.1;

    /**
     * Compares a flight with the best path for one clearance.
     *
     * @param route amended by the clearance
     * @param heardS when it was heard, seconds since the first sample
     * @param flown under it, in order of time
     * @param events under it, in order of time
     * @return empty where there is no best path, or nothing was flown
     */
    public static Optional<Comparison> of(
            AmendedRoute route, double heardS, List<Point> flown, List<FlightEvent> events) {
        if (flown.isEmpty()) {
            return Optional.empty();
        }
        Point first = flown.get(0);
        return BestPath.of(
                        route,
                        heardS,
                        route.situation().position(),
                        new GroundVector(new TrueDirection(first.trackTrueDeg()), first.groundSpeedKt()))
                .map(best -> new Comparison(best, new CostFinder(best, flown, events).cost()));
    }

    /**
     * The comparison for each clearance of a flight.
     *
     * @param record of the flight, with its points
     * @return in order of time; a clearance without a best path, or one taken back before it was complete, is left out
     */
    public static List<Comparison> all(FlightRecord record) {
        List<Entry.Issued> clearances = record.issued().stream()
                .filter(issued -> !issued.clearance().routeStays())
                .toList();
        List<Point> flown = thinned(record, clearances);
        List<FlightEvent> events = record.events();
        List<Comparison> all = new ArrayList<>();
        for (int i = 0; i < clearances.size(); i++) {
            double fromS = clearances.get(i).timeS();
            double toS = i + 1 < clearances.size() ? clearances.get(i + 1).timeS() : Double.POSITIVE_INFINITY;
            if (withdrawn(record, fromS, toS)) {
                continue;
            }
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
    private static List<Point> thinned(FlightRecord record, List<Entry.Issued> clearances) {
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

    /** Taken back between these times before it was complete. */
    private static boolean withdrawn(FlightRecord record, double fromS, double toS) {
        for (Entry entry : record.entries()) {
            if (entry.timeS() < fromS || entry.timeS() >= toS) {
                continue;
            }
            if (entry instanceof Entry.Happened happened && happened.event() instanceof FlightEvent.AmendmentComplete) {
                return false;
            }
            if (entry instanceof Entry.Withdrawn) {
                return true;
            }
        }
        return false;
    }

    /**
     * For a debrief.
     *
     * @return lines
     */
    public List<String> lines() {
        List<String> lines = new ArrayList<>();
        lines.add("BEST FLYABLE PATH for the clearance of " + EventText.clock(best.heardS()));
        for (BestPath.TurnOnto turn : best.turns()) {
            lines.add(String.format(
                    Locale.ROOT,
                    "  %s  turn %s onto %s%s, rolled out at %s",
                    EventText.clock(turn.beginsS()),
                    turn.turnDeg() < 0 ? "left" : "right",
                    turn.what(),
                    turn.toLineNm() > 0
                            ? String.format(Locale.ROOT, ", %.2f NM before reaching the line", turn.toLineNm())
                            : "",
                    EventText.clock(turn.rollsOutS())));
        }
        lines.add("  as flown: " + sentence());
        return lines;
    }

    /**
     * The cost in one sentence.
     *
     * @return without a stop
     */
    public String sentence() {
        List<String> parts = new ArrayList<>();
        cost.turnedLateS().ifPresent(late -> {
            String onto = best.ontoCourse().map(BestPath.TurnOnto::what).orElse("the course");
            parts.add(
                    Math.abs(late) < LATE_S
                            ? "turned onto " + onto + " in time"
                            : String.format(
                                    Locale.ROOT,
                                    "turned %.0f s %s onto %s",
                                    Math.abs(late),
                                    late > 0 ? "late" : "early",
                                    onto));
        });
        if (cost.pastLineNm() > PAST_NM) {
            parts.add(String.format(Locale.ROOT, "%.2f NM past the line", cost.pastLineNm()));
        }
        parts.add(cost.lost()
                .map(lost -> lost.seconds() < LOST_S
                        ? "no time lost"
                        : String.format(
                                Locale.ROOT,
                                "%.0f s lost%s",
                                lost.seconds(),
                                lost.nm() >= 0.1 ? String.format(Locale.ROOT, ", %.1f NM farther", lost.nm()) : ""))
                .orElse("time not compared: the amendment was not completed, or not all of it was flown and seen"));
        return String.join("; ", parts);
    }

    /**
     * Writes it as an object.
     *
     * @param json where to
     * @throws IOException if the generator's target fails
     */
    public void write(JsonGenerator json) throws IOException {
        json.writeStartObject();
        number(json, "heard_s", best.heardS());
        number(json, "complete_s", best.completeS());
        number(json, "length_nm", best.lengthNm());
        json.writeArrayFieldStart("turns");
        for (BestPath.TurnOnto turn : best.turns()) {
            json.writeStartObject();
            json.writeStringField("onto", turn.what());
            number(json, "begins_s", turn.beginsS());
            number(json, "rolls_out_s", turn.rollsOutS());
            number(json, "turn_deg", turn.turnDeg());
            number(json, "to_line_nm", turn.toLineNm());
            number(json, "begins_latitude_deg", turn.begins().latitudeDeg());
            number(json, "begins_longitude_deg", turn.begins().longitudeDeg());
            number(json, "rolls_out_latitude_deg", turn.rollsOut().latitudeDeg());
            number(json, "rolls_out_longitude_deg", turn.rollsOut().longitudeDeg());
            json.writeEndObject();
        }
        json.writeEndArray();
        json.writeArrayFieldStart("path");
        for (BestPath.Point point : best.points()) {
            json.writeStartObject();
            number(json, "time_s", point.timeS());
            number(json, "latitude_deg", point.position().latitudeDeg());
            number(json, "longitude_deg", point.position().longitudeDeg());
            json.writeEndObject();
        }
        json.writeEndArray();
        if (cost.turnedLateS().isPresent()) {
            number(json, "turned_late_s", cost.turnedLateS().getAsDouble());
        }
        number(json, "past_line_nm", cost.pastLineNm());
        if (cost.lost().isPresent()) {
            number(json, "lost_s", cost.lost().get().seconds());
            number(json, "lost_nm", cost.lost().get().nm());
        }
        json.writeStringField("text", sentence());
        json.writeEndObject();
    }

    private static void number(JsonGenerator json, String name, double value) throws IOException {
        json.writeNumberField(name, EventJson.rounded(name, value));
    }
}
