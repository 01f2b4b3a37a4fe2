package org.rejoin.console.room;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.page.DataState;
import org.rejoin.console.page.PageRoom;
import org.rejoin.console.page.SeatPage;
import org.rejoin.console.page.Tile;
import org.rejoin.console.words.CleanText;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** A seat as the board and the map of the room show it. */
final class SeatOnBoard {

    /** A map is told twice a second: a jump is in one of two looks, seconds. */
    private static final double MAP_JUMP_S = 0.75;

    /** Silent for longer and without an attempt, a seat is not listed, seconds (common practice, no source). */
    private static final double GONE_S = 600;

    private SeatOnBoard() {}

    static PageRoom.Seen seen(RoomSeat seat, AircraftState last) {
        return new PageRoom.Seen(
                seat.id(),
                CleanText.of(seat.pilot().map(Pilot::name).orElse(seat.label())),
                RoomSeat.position(last),
                last.trackTrueDeg(),
                last.groundSpeedKt().orElse(0),
                seat.ageS(),
                seat.ageS() > DataState.OLD_S,
                seat.jumped(MAP_JUMP_S),
                seat.ageS() <= DataState.OLD_S
                        && seat.flight()
                                .flatMap(RoomFlight::page)
                                .map(page -> !page.tile().off().isEmpty())
                                .orElse(false));
    }

    /** A simulator that was closed long ago is no seat any more. */
    static boolean isHere(RoomSeat seat) {
        return seat.ageS() < GONE_S || seat.flight().isPresent();
    }

    /** How the data of a seat stands, in one word. */
    private static String state(RoomSeat seat) {
        boolean paused = seat.last().map(AircraftState::paused).orElse(false);
        return DataState.of(seat.ageS(), paused, seat.jumped(DataState.JUMP_SHOWN_S))
                .name()
                .toLowerCase(Locale.ROOT);
    }

    static void write(ObjectNode json, RoomSeat seat, boolean instructor) {
        json.put("id", seat.id());
        json.put("label", CleanText.of(seat.label()));
        json.put("from", seat.key().label());
        json.put("pilot", CleanText.of(seat.pilot().map(Pilot::name).orElse("")));
        json.put("pilot_id", seat.pilot().map(Pilot::id).orElse(""));
        json.put("lesson", seat.lesson());
        json.put("title", seat.flight().map(flight -> flight.lesson().title()).orElse(""));
        json.put("attempt", seat.attempt());
        json.put(
                "stage",
                seat.flight().isPresent() ? "flying" : seat.preparing() ? "beginning" : seat.over() ? "ended" : "free");
        json.put("by_instructor", seat.byInstructor());
        json.put("trouble", CleanText.of(trouble(seat)));
        json.put("may_drill", seat.isFree());
        json.put("from_here", CleanText.of(seat.fromHere()));
        json.put("state", state(seat));
        json.put("age_s", Math.round(seat.ageS() * 10) / 10.0);
        ArrayNode lacks = json.putArray("lacks");
        seat.last().ifPresent(last -> lacks(last).forEach(lacks::add));
        ObjectNode now = json.putObject("now");
        seat.last().ifPresent(last -> {
            last.altitudeMslFt().ifPresent(feet -> now.put("altitude_ft", Math.round(feet)));
            last.groundSpeedKt().ifPresent(knots -> now.put("ground_speed_kt", Math.round(knots)));
        });
        Optional<Tile> tile = seat.flight().flatMap(RoomFlight::page).map(SeatPage::tile);
        tile.ifPresent(shown -> {
            now.put("time_s", Math.round(shown.timeS()));
            shown.headingMagneticDeg().ifPresent(deg -> now.put("heading", Angles.figures(deg)));
            json.put("phase", shown.phase());
            json.put("next", CleanText.of(shown.next()));
            shown.score().ifPresent(score -> json.put("score", JsonNumbers.rounded(score, 1)));
            json.put("faults", shown.faults());
            ArrayNode off = json.putArray("off");
            shown.off()
                    .forEach(each -> off.addObject()
                            .put("what", each.what())
                            .put("for_s", Math.max(0, Math.round(shown.timeS() - each.sinceS()))));
            json.put(
                    "complete",
                    instructor && seat.flight().map(RoomFlight::complete).orElse(false));
        });
    }

    /** What is going on now stands before what went wrong before. */
    private static String trouble(RoomSeat seat) {
        String why = seat.flight().map(RoomFlight::notRecorded).orElse("");
        return why.isEmpty()
                ? seat.trouble()
                : "Recording stopped: " + why
                        + (why.toLowerCase(Locale.ROOT).contains("space")
                                ? ". Make room on the disk: it goes on by itself."
                                : ". It is tried again.");
    }

    /** What a feed does not send and a lesson would use. */
    private static List<String> lacks(AircraftState last) {
        List<String> lacks = new ArrayList<>();
        if (last.altitudeMslFt().isEmpty()) {
            lacks.add("altitude");
        }
        if (last.headingMagneticDeg().isEmpty() && last.headingTrueDeg().isEmpty()) {
            lacks.add("heading");
        }
        if (last.groundSpeedKt().isEmpty()) {
            lacks.add("ground speed");
        }
        if (last.indicatedAirspeedKt().isEmpty()) {
            lacks.add("airspeed");
        }
        return lacks;
    }
}
