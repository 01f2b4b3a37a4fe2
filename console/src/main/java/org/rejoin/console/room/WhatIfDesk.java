package org.rejoin.console.room;

import java.io.IOException;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.feed.DayClock;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.best.Comparison;
import org.rejoin.console.best.WhatIf;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.grade.AmendmentGrade;
import org.rejoin.console.grade.AttemptGrade;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.page.PageShow;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.util.TokenBuffer;

/**
 * What if: a flight of the record book with a turn begun elsewhere, another bank or another wind; where it would have gone,
 * and its grade, by the tracker and the grader that graded the flight.
 */
final class WhatIfDesk {

    /** Drawn is every so many states, which are half a second apart. */
    private static final int DRAWN_EVERY = 4;

    /** What rounding to a whole number takes away at most, and a hair for its own rounding. */
    private static final double HALF = 0.5 + 1e-9;

    /** At the least an aircraft is to climb or descend so fast, feet a minute. */
    private static final double LEAST_FPM =
            Rules.STANDARD.of(Rule.Altitude.class).rateFpm();

    /** Two clearances are never heard within so long of each other: nearer, it is the same one, seconds. */
    private static final double SAME_S = 1;

    private final Lesson lesson;
    private final Debrief debrief;
    private final PageServer.Setting setting;
    private final List<WhatIf> all;

    WhatIfDesk(RoomRecords.Grading.Again again) {
        this.lesson = again.lesson();
        this.debrief = again.debrief();
        this.setting = again.setting();
        this.all = WhatIf.all(debrief.record());
    }

    /**
     * What can be moved; with {@code clearance} (from 0), {@code leg}, {@code before_nm}, {@code bank_deg}, {@code from_deg}
     * and {@code wind_kt}: the flight with that.
     */
    String answer(Map<String, String> query) throws IOException {
        ObjectNode json = RoomDesk.JSON.createObjectNode();
        if (query.containsKey("clearance")) {
            try {
                int index = (int) number(query, "clearance");
                if (index < 0 || index >= all.size()) {
                    throw new IOException("there is no such clearance");
                }
                WhatIf whatIf = all.get(index);
                WhatIf.Choice choice = new WhatIf.Choice(
                        (int) number(query, "leg"),
                        number(query, "before_nm"),
                        number(query, "bank_deg"),
                        asGiven(
                                new Wind(new TrueDirection(number(query, "from_deg")), number(query, "wind_kt")),
                                whatIf.wind()));
                other(json, whatIf, choice);
            } catch (IllegalArgumentException e) {
                throw new IOException(e.getMessage(), e);
            }
        } else {
            movable(json);
        }
        return json.toString();
    }

    /** The page is given whole degrees and knots: where those come back, the lesson's wind is meant. */
    static Wind asGiven(Wind asked, Wind lesson) {
        return Math.abs(asked.from().turnTo(lesson.from())) <= HALF
                        && Math.abs(asked.speedKt() - lesson.speedKt()) <= HALF
                ? lesson
                : asked;
    }

    private static double number(Map<String, String> query, String name) throws IOException {
        try {
            double value = Double.parseDouble(query.getOrDefault(name, ""));
            if (Double.isFinite(value)) {
                return value;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw new IOException(name + " is not a number");
    }

    private void movable(ObjectNode json) {
        ArrayNode turns = json.putArray("turns");
        for (int i = 0; i < all.size(); i++) {
            WhatIf whatIf = all.get(i);
            for (WhatIf.Movable turn : whatIf.turns()) {
                ObjectNode one = turns.addObject();
                one.put("clearance", i);
                one.put("heard_s", JsonNumbers.rounded(turn.heardS(), 1));
                one.put("leg", turn.leg());
                one.put("onto", turn.onto());
                one.put("near", turn.near());
                one.put("best_nm", JsonNumbers.rounded(turn.bestBeforeNm(), 2));
                turn.flownBeforeNm().ifPresent(nm -> one.put("flown_nm", JsonNumbers.rounded(nm, 2)));
                one.put("bank_deg", JsonNumbers.rounded(turn.bankDeg(), 0));
                one.put("tas_kt", JsonNumbers.rounded(turn.trueAirspeedKt(), 0));
                one.put(
                        "wind_from_deg",
                        JsonNumbers.rounded(whatIf.wind().from().deg(), 0));
                one.put("wind_kt", JsonNumbers.rounded(whatIf.wind().speedKt(), 0));
                one.put("hold", whatIf.endsInHold());
                ArrayNode line = one.putArray("line");
                PageShow.onPlan(setting, along(turn.line())).forEach(at -> at(line, at));
            }
        }
    }

    /** A line or an arc, and a piece beyond either end. */
    private static List<Position> along(GroundPath line) {
        int pieces = line.fold(straight -> 8, arc -> 60);
        List<Position> places = new ArrayList<>();
        double beyondNm = line.fold(straight -> 5.0, arc -> 0.0);
        for (int i = 0; i <= pieces; i++) {
            places.add(line.pointAt(-beyondNm + (line.lengthNm() + 2 * beyondNm) * i / pieces));
        }
        return places;
    }

    private static void at(ArrayNode line, double[] eastSouth) {
        line.add(JsonNumbers.rounded(eastSouth[0], 4)).add(JsonNumbers.rounded(eastSouth[1], 4));
    }

    private void other(ObjectNode json, WhatIf whatIf, WhatIf.Choice choice) throws IOException {
        Optional<WhatIf.Flight> found = whatIf.flight(choice);
        if (found.isEmpty()) {
            json.put(
                    "why",
                    "that way the aircraft does not get onto its lines: a leg is too short to come back to, or the wind too"
                            + " strong to make the course good");
            return;
        }
        WhatIf.Flight flight = found.get();
        FlownAircraft aircraft = fly(flight.states(), choice.wind());
        json.put("begins_s", JsonNumbers.rounded(flight.beginsS(), 1));
        json.put("radius_nm", JsonNumbers.rounded(flight.radiusNm(), 2));
        path(json, flight);
        ObjectNode flown = json.putObject("flown");
        side(flown, debrief.record(), debrief.grade(), whatIf.heardS());
        ObjectNode other = json.putObject("other");
        side(other, aircraft.record(), aircraft.grade(), whatIf.heardS());
    }

    private void path(ObjectNode json, WhatIf.Flight flight) {
        List<AircraftState> drawn = new ArrayList<>();
        int index = 0;
        for (AircraftState state : flight.states()) {
            if (state.timeS() >= flight.differsS() && index++ % DRAWN_EVERY == 0) {
                drawn.add(state);
            }
        }
        List<Position> places = new ArrayList<>(drawn.stream()
                .map(state -> new Position(state.latitudeDeg(), state.longitudeDeg()))
                .toList());
        places.add(flight.begins());
        List<double[]> plan = PageShow.onPlan(setting, places);
        ArrayNode rows = json.putArray("rows");
        for (int i = 0; i < drawn.size(); i++) {
            ArrayNode row = rows.addArray().add(drawn.get(i).timeS());
            at(row, plan.get(i));
            row.add(JsonNumbers.rounded(drawn.get(i).trackTrueDeg().orElse(0), 1));
        }
        at(json.putArray("begins"), plan.get(plan.size() - 1));
    }

    /**
     * By the same tracker and grader; what the instructor said in flight is said again. The model flies no heights: an
     * altitude that the recording ends before is neither said nor seen.
     */
    private FlownAircraft fly(List<AircraftState> modelled, Wind wind) {
        double heightsUntilS = heightsUntilS(debrief.record(), debrief.set().limits());
        List<AircraftState> states = modelled.stream()
                .map(state -> state.timeS() < heightsUntilS ? state : withoutHeight(state))
                .toList();
        List<InstructorFile.Spoken> spoken = debrief.said().spoken().stream()
                .filter(each -> each.elapsedS() < heightsUntilS || isAmendment(each.elapsedS()))
                .map(each ->
                        new InstructorFile.Spoken(each.elapsedS(), Tryout.ALONE.label(), each.say(), each.altitudeFt()))
                .toList();
        return Tryout.flown(
                lesson.in(wind),
                debrief.set(),
                debrief::date,
                new Said(spoken, List.of(), List.of(), List.of()),
                debrief.aircraft().label(),
                clock(),
                states);
    }

    private boolean isAmendment(double heardS) {
        return debrief.record().amendments().stream().anyMatch(each -> Math.abs(each.timeS() - heardS) < SAME_S);
    }

    /**
     * Since when an altitude is assigned that the aircraft was not at when the recording ended, sooner than it had to be; no
     * end where there is none.
     */
    private static double heightsUntilS(FlightRecord record, Limits limits) {
        double atFt = Double.NaN;
        double sinceS = Double.POSITIVE_INFINITY;
        double assignedFt = Double.NaN;
        double dueS = Double.NEGATIVE_INFINITY;
        double endS = 0;
        for (Entry entry : record.entries()) {
            if (entry instanceof Entry.Issued issued
                    && issued.clearance().altitudeFt().isPresent()) {
                assignedFt = issued.clearance().altitudeFt().getAsDouble();
                sinceS = issued.timeS();
                dueS = sinceS + Math.abs(assignedFt - atFt) / LEAST_FPM * 60;
            } else if (entry instanceof Point point) {
                atFt = point.state().altitudeMslFt().orElse(atFt);
                endS = point.timeS();
            }
        }
        return endS < dueS && Math.abs(assignedFt - atFt) > limits.altitudeFt() ? sinceS : Double.POSITIVE_INFINITY;
    }

    private static AircraftState withoutHeight(AircraftState state) {
        return new AircraftState(
                state.timeS(),
                state.latitudeDeg(),
                state.longitudeDeg(),
                OptionalDouble.empty(),
                state.headingTrueDeg(),
                state.headingMagneticDeg(),
                state.trackTrueDeg(),
                state.groundSpeedKt(),
                OptionalDouble.empty(),
                state.pitchDeg(),
                state.rollDeg(),
                state.indicatedAirspeedKt(),
                state.paused());
    }

    /** The time of day of the flight as it was flown; the time of receipt says no more than its clearances do. */
    private DayClock clock() {
        Optional<LocalTime> began = debrief.record().issued().stream()
                .findFirst()
                .flatMap(issued -> issued.route()
                        .situation()
                        .utc()
                        .map(time -> time.minusNanos(Math.round(issued.flownS() * 1e9))));
        return new DayClock(began, debrief.began().atOffset(ZoneOffset.UTC).toLocalTime());
    }

    /** Grade and cost of one clearance. */
    private static void side(ObjectNode json, FlightRecord record, Grade grade, double heardS) throws IOException {
        Optional<AmendmentGrade> amendment = grade.attempts().stream()
                .flatMap(attempt -> attempt.amendments().stream())
                .filter(each -> Math.abs(each.atS() - heardS) < SAME_S)
                .findFirst();
        if (amendment.isPresent()) {
            AmendmentGrade one = amendment.get();
            json.set(
                    "grade",
                    tree(out -> GradeJson.write(
                            new Grade(
                                    grade.standard(),
                                    grade.task(),
                                    List.of(new AttemptGrade(one.atS(), one.atS(), List.of(one))),
                                    List.of(),
                                    Optional.empty()),
                            out)));
        }
        Optional<Comparison> comparison = Comparison.all(record).stream()
                .filter(each -> Math.abs(each.best().heardS() - heardS) < SAME_S)
                .findFirst();
        if (comparison.isPresent()) {
            OptionalDouble late = comparison.get().cost().turnedLateS();
            late.ifPresent(seconds -> json.put("turned_late_s", JsonNumbers.rounded(seconds, 0)));
            json.put("past_line_nm", JsonNumbers.rounded(comparison.get().cost().pastLineNm(), 2));
            comparison.get().cost().lost().ifPresent(lost -> {
                json.put("lost_s", JsonNumbers.rounded(lost.seconds(), 0));
                json.put("lost_nm", JsonNumbers.rounded(lost.nm(), 1));
            });
        }
    }

    private static JsonNode tree(Json.Content content) throws IOException {
        try (TokenBuffer buffer = new TokenBuffer(RoomDesk.JSON, false)) {
            content.write(buffer);
            return RoomDesk.JSON.readTree(buffer.asParser());
        }
    }
}
