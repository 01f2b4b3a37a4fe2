package org.rejoin.console.room;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;

import org.rejoin.console.book.Pilot;
import org.rejoin.console.flight.FarFromStart;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageRoom.Answer;
import org.rejoin.console.page.PageRoom.Asker;
import org.rejoin.console.words.CleanText;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.JsonNode;

/** What is ordered for a seat of the room: a lesson, the same again, a drill from here, its name, the end. */
record SeatsDesk(RoomRecords records, RoomLessons lessons, Room room) {

    private Optional<RoomSeat> seat(JsonNode order) {
        return room.seat(order.path("seat").asText());
    }

    /** Who is to fly there: named in the order, put into the roster if he is not in it; else who sits there. */
    private Optional<Pilot> pilot(JsonNode order, RoomSeat seat) throws IOException {
        if (!order.has("pilot")) {
            return seat.pilot();
        }
        String name = order.path("pilot").asText().strip();
        return name.isEmpty() ? Optional.empty() : Optional.of(records.pilot(records.name(name)));
    }

    /** Nobody flies two. */
    private Optional<Answer> fliesElsewhere(Optional<Pilot> pilot, RoomSeat seat) {
        return pilot.flatMap(who -> room.flownBy(who, seat)
                .map(other -> Answer.no(CleanText.line(who.name()) + " flies at " + other.label()
                        + ": end that attempt first, or give it to somebody else")));
    }

    Answer assign(JsonNode order) throws IOException {
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty()) {
            return Answer.no("that seat is not heard");
        }
        String lesson = order.path("lesson").asText();
        if (!lessons.has(lesson)) {
            return Answer.no("choose a lesson");
        }
        return begun(order, seat.get(), lesson);
    }

    private Answer begun(JsonNode order, RoomSeat seat, String lesson) throws IOException {
        Optional<Pilot> pilot = pilot(order, seat);
        Optional<Answer> refused = fliesElsewhere(pilot, seat);
        if (refused.isEmpty()) {
            room.assign(seat, pilot, lesson);
        }
        return refused.orElseGet(Answer::done);
    }

    /** The same lesson again, or the next one. */
    Answer again(JsonNode order) throws IOException {
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty() || seat.get().lesson().isEmpty()) {
            return Answer.no("nothing was flown there yet: choose a lesson");
        }
        String lesson = order.path("next").asBoolean()
                ? lessons.after(seat.get().lesson())
                : seat.get().lesson();
        if (!lessons.isThere(lesson)) {
            return Answer.no("the last lesson of this seat cannot be flown again (a drill from here is kept only until"
                    + " the program is closed): press Drill from here, or choose a lesson");
        }
        return begun(order, seat.get(), lesson);
    }

    Answer end(JsonNode order) {
        seat(order).ifPresent(room::end);
        return Answer.done();
    }

    /** A drill from where the aircraft is: the pilot may have one too, as long as no clearance of a lesson is in force. */
    Answer here(Asker asker, JsonNode order) throws IOException {
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty()
                || (!asker.instructor()
                        && !room.own(asker.pilot()).map(seat.get()::equals).orElse(false))) {
            return asker.instructor() ? Answer.no("that seat is not heard") : Answer.notYours("that is not your seat");
        }
        if (order.path("stop").asBoolean()) {
            room.drills().stop(seat.get());
            return Answer.done();
        }
        if (!seat.get().isFree() && !asker.instructor()) {
            return Answer.no("a clearance of your lesson is in force: fly it first");
        }
        Optional<Pilot> pilot =
                asker.instructor() ? pilot(order, seat.get()) : seat.get().pilot();
        Optional<Answer> refused = fliesElsewhere(pilot, seat.get());
        if (refused.isEmpty()) {
            room.drills().ask(seat.get(), pilot);
        }
        return refused.orElseGet(Answer::done);
    }

    /** Whether the aircraft of a seat is where a lesson begins; what to do where it is not. */
    Answer start(Map<String, String> query) throws IOException, LessonException {
        Optional<AircraftState> last = room.seat(query.getOrDefault("seat", "")).flatMap(RoomSeat::last);
        if (last.isEmpty()) {
            return Answer.no("that seat is not heard");
        }
        Lesson lesson = lessons.read(query.getOrDefault("lesson", ""));
        return Answer.json(RoomDesk.JSON
                .createObjectNode()
                .put(
                        "far",
                        FarFromStart.words(lesson, RoomSeat.position(last.get()))
                                .orElse(""))
                .toString());
    }

    Answer name(JsonNode order) throws IOException {
        String name = CleanText.line(order.path("label").asText()).strip();
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty() || name.isEmpty() || name.length() > 40) {
            return Answer.no("a seat's name has 1 to 40 characters");
        }
        seat.get().label(name);
        records.name(
                seat.get().key(), seat.get().marking(), room.alone(seat.get()) ? Optional.of(name) : Optional.empty());
        return Answer.done();
    }
}
