package org.rejoin.console.room;

import java.io.IOException;
import java.util.Optional;

import org.rejoin.console.book.Pilot;
import org.rejoin.console.page.PageRoom.Answer;
import org.rejoin.console.page.PageRoom.Asker;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;

/** What is ordered for a seat of the room: a lesson, the same again, a drill from here, its name, the end. */
final class SeatsDesk {

    private final RoomRecords records;
    private final RoomLessons lessons;
    private final Room room;

    SeatsDesk(RoomRecords records, RoomLessons lessons, Room room) {
        this.records = records;
        this.lessons = lessons;
        this.room = room;
    }

    static boolean answers(String what) {
        return what.equals("assign") || what.equals("again") || what.equals("end") || what.equals("name");
    }

    Answer ordered(String what, JsonNode order) throws IOException {
        return switch (what) {
            case "assign" -> assign(order);
            case "again" -> again(order);
            case "end" -> {
                seat(order).ifPresent(room::end);
                yield Answer.done();
            }
            case "name" -> name(order);
            default -> Answer.no("nothing of that name can be done with a seat");
        };
    }

    private Optional<RoomSeat> seat(JsonNode order) {
        return room.seat(order.path("seat").asText());
    }

    /** A pilot by his name is put into the roster if he is not in it. */
    private Answer assign(JsonNode order) throws IOException {
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty()) {
            return Answer.no("that seat is not heard");
        }
        String name = order.path("pilot").asText("").strip();
        Optional<Pilot> pilot = name.isEmpty() ? Optional.empty() : Optional.of(records.pilot(records.name(name)));
        String lesson = order.path("lesson").asText();
        if (!lessons.has(lesson)) {
            return Answer.no("choose a lesson");
        }
        Optional<RoomSeat> elsewhere = pilot.flatMap(who -> room.flownBy(who, seat.get()));
        if (elsewhere.isPresent()) {
            return Answer.no(CleanText.line(name) + " flies at "
                    + elsewhere.get().label() + ": end that attempt first, or give it to somebody else");
        }
        room.assign(seat.get(), pilot, lesson);
        return Answer.done();
    }

    /** The same lesson again, or the next one, by the same pilot. */
    private Answer again(JsonNode order) throws IOException {
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty() || seat.get().lesson().isEmpty()) {
            return Answer.no("nothing was flown there yet: choose a lesson");
        }
        String lesson = order.path("next").asBoolean()
                ? lessons.after(seat.get().lesson())
                : seat.get().lesson();
        room.assign(seat.get(), seat.get().pilot(), lesson);
        return Answer.done();
    }

    /** A drill from where the aircraft is: the pilot may have one too, as long as no clearance of a lesson is in force. */
    Answer here(Asker asker, JsonNode order) {
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
        room.drills().ask(seat.get());
        return Answer.done();
    }

    private Answer name(JsonNode order) throws IOException {
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
