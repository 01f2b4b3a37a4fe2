package org.rejoin.console.room;

import java.io.IOException;
import java.net.InetAddress;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.door.Sessions;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageRoom;
import org.rejoin.console.page.PageRoom.Answer;
import org.rejoin.console.page.PageRoom.Asker;
import org.rejoin.console.page.PageRoom.Joined;
import org.rejoin.console.speech.PilotVoice;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;

/** What the page asks of the room and orders there, in JSON: seats, pilots, codes; records and lessons by their own desks. */
public final class RoomDesk implements PageRoom {

    static final ObjectMapper JSON = new ObjectMapper();

    private final RoomRecords records;
    private final RoomLessons lessons;
    private final RecordsDesk recordsDesk;
    private final LessonsDesk lessonsDesk;
    private final DoorDesk door;
    private final Map<String, Part> parts;
    private final AtomicReference<@Nullable Room> room = new AtomicReference<>();
    private volatile String address = "";

    /** Answers for a part of the page that another package owns, as progress and drills. */
    public interface Part {
        /**
         * Answers.
         *
         * @param pilot name of the pilot it is about; for a pilot always himself
         * @param order what is asked, by an instructor or where {@link #isForPilots} by a pilot; empty for a question
         * @throws IOException if it cannot be answered; one line
         */
        Answer ask(String pilot, Optional<JsonNode> order) throws IOException;

        /** Answers, by what stands behind the path too; the pilot is one of the members of {@code query}. */
        default Answer ask(String pilot, Map<String, String> query, Optional<JsonNode> order) throws IOException {
            for (String name : query.keySet()) {
                if (!name.equals("pilot")) {
                    return Answer.bad("only a pilot can be asked for here, not " + CleanText.line(name));
                }
            }
            return ask(pilot, order);
        }

        /** {@return whether a pilot may order it too, for himself; false where an order is the instructor's alone} */
        default boolean isForPilots() {
            return false;
        }

        /**
         * What is to be read back without a flight.
         *
         * @param pilot name of the pilot who asks; empty for an instructor
         * @return empty where there is none of that name for him
         */
        default Optional<Exercise> exercise(String id, String pilot) {
            return Optional.empty();
        }
    }

    /**
     * A desk for a room that opens.
     *
     * @param fingerprint of the certificate; empty text where the page is not encrypted
     * @param parts by the first word of their path
     */
    public RoomDesk(
            RoomRecords records, RoomLessons lessons, Sessions sessions, String fingerprint, Map<String, Part> parts) {
        this.records = records;
        this.lessons = lessons;
        this.door = new DoorDesk(records, sessions, fingerprint);
        this.parts = Map.copyOf(parts);
        this.recordsDesk = new RecordsDesk(records);
        this.lessonsDesk = new LessonsDesk(lessons);
    }

    /** The room is open; tablets open the page at that address, without a path. */
    public void open(Room opened, String pageAddress) {
        room.set(opened);
        opened.whenForgotten(door::forgotten);
        address = pageAddress;
    }

    @Override
    public Optional<Asker> session(String cookie) {
        return door.session(cookie);
    }

    @Override
    public boolean over(String cookie) {
        return door.over(cookie);
    }

    @Override
    public long takenBack() {
        return door.takenBack();
    }

    @Override
    public Joined join(String code, InetAddress from) {
        return door.join(code, from);
    }

    private List<RoomSeat> known() {
        Room open = room.get();
        return open == null ? List.of() : open.known();
    }

    private Optional<RoomSeat> own(Asker asker) {
        return Optional.ofNullable(room.get()).flatMap(open -> open.own(asker.pilot()));
    }

    @Override
    public boolean maySee(Asker asker, String show) {
        return records.shown() || mayTalk(asker, show);
    }

    @Override
    public boolean mayTalk(Asker asker, String show) {
        return asker.instructor()
                || own(asker).map(seat -> seat.id().equals(show)).orElse(false);
    }

    @Override
    public Optional<PilotVoice> voice(String show) {
        try {
            Optional<Pilot> pilot = pilotAt(show);
            return pilot.isPresent() ? records.voice(pilot.get()) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    @Override
    public void keepVoice(String show, PilotVoice voice) {
        try {
            Optional<Pilot> pilot = pilotAt(show);
            if (pilot.isPresent()) {
                records.keepVoice(pilot.get(), voice);
            }
        } catch (IOException e) {
            // The seat has it until the flight is over.
        }
    }

    private Optional<Pilot> pilotAt(String show) {
        return Optional.ofNullable(room.get()).flatMap(open -> open.seat(show)).flatMap(RoomSeat::pilot);
    }

    @Override
    public String board(Asker asker) {
        ObjectNode board = JSON.createObjectNode();
        board.put("k", "room");
        Optional<RoomSeat> own = own(asker);
        own.ifPresent(seat -> board.put("own", seat.id()));
        board.put("shown", records.shown());
        Room open = room.get();
        if (open != null && asker.instructor()) {
            board.put("behind_s", Math.round(open.behindS()));
            board.put("lost", open.lost());
            board.put("refused", open.refused());
            ArrayNode unread = board.putArray("unread");
            open.unread().forEach(line -> unread.add(CleanText.of(line)));
        }
        ArrayNode seats = board.putArray("seats");
        for (RoomSeat seat : known()) {
            if (SeatOnBoard.isHere(seat) && maySee(asker, seat.id())) {
                SeatOnBoard.write(seats.addObject(), seat, asker.instructor());
            }
        }
        return board.toString();
    }

    @Override
    public List<Seen> seen() {
        List<Seen> seen = new ArrayList<>();
        for (RoomSeat seat : known()) {
            if (SeatOnBoard.isHere(seat)) {
                seat.last().ifPresent(last -> seen.add(SeatOnBoard.seen(seat, last)));
            }
        }
        return seen;
    }

    @Override
    public Optional<Exercise> exercise(Asker asker, String id) {
        try {
            String pilot = asker.instructor() ? "" : records.name(asker.pilot());
            return parts.values().stream()
                    .flatMap(part -> part.exercise(id, pilot).stream())
                    .findFirst();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    @Override
    public Answer ask(Asker asker, String path, Map<String, String> query, Optional<JsonNode> order) {
        try {
            String first = path.replaceFirst("/.*", "");
            Part part = parts.get(first);
            if (part != null) {
                if (order.isPresent() && !asker.instructor() && !part.isForPilots()) {
                    return Answer.notYours("the instructor's alone");
                }
                String asked = order.map(each -> each.path("pilot").asText()).orElse(query.getOrDefault("pilot", ""));
                String pilot = asker.instructor() ? asked : asker.pilot();
                if (!asker.instructor() && records.find(pilot).isEmpty()) {
                    return Answer.no("you are in the roster no more: ask your instructor for a new code");
                }
                if (pilot.isEmpty()) {
                    return Answer.bad("choose a pilot");
                }
                if (records.nobody(pilot)) {
                    return Answer.unknown("there is no pilot " + CleanText.line(pilot) + " in the record book");
                }
                return part.ask(records.name(pilot), query, order);
            }
            if (first.equals("me")) {
                return Answer.json(me(asker).toString());
            }
            if (first.equals("attempts") || first.equals("attempt")) {
                return recordsDesk.ask(asker, path, query, order);
            }
            if (first.equals("here") && order.isPresent()) {
                return seats().here(asker, order.get());
            }
            if (!asker.instructor()) {
                return Answer.notYours("the instructor's alone");
            }
            return order.isPresent() ? ordered(first, order.get()) : asked(first, query);
        } catch (IOException | LessonException e) {
            return Answer.no(CleanText.line(String.valueOf(e.getMessage())));
        }
    }

    private ObjectNode me(Asker asker) throws IOException {
        ObjectNode json = JSON.createObjectNode();
        json.put("is_instructor", asker.instructor());
        json.put("pilot_id", asker.pilot());
        json.put(
                "pilot",
                asker.pilot().isEmpty()
                        ? ""
                        : records.find(asker.pilot()).map(Pilot::name).orElse(""));
        if (asker.instructor()) {
            json.put("instructor", records.instructor());
            json.put("shown", records.shown());
            json.put("address", address);
            json.put("fingerprint", door.fingerprint());
            ArrayNode interrupted = json.putArray("interrupted");
            for (Attempt each : records.interrupted()) {
                AttemptJson.write(interrupted.addObject(), each);
            }
            Room open = room.get();
            json.put(
                    "feed",
                    open == null
                            ? ""
                            : open.localAddress().getAddress().getHostAddress() + ":"
                                    + open.localAddress().getPort());
        }
        return json;
    }

    /** What an instructor alone may ask. */
    private Answer asked(String what, Map<String, String> query) throws IOException, LessonException {
        return switch (what) {
            case "pilots" -> pilots();
            case "lessons" -> lessonsDesk.lessons(query);
            case "charts" -> lessonsDesk.charts();
            case "start" -> seats().start(query);
            default -> Answer.unknown("nothing of that name can be asked");
        };
    }

    /** What an instructor alone may order. */
    private Answer ordered(String what, JsonNode order) throws IOException, LessonException {
        return switch (what) {
            case "draw" -> lessonsDesk.drawn(order);
            case "try" -> lessonsDesk.tried(order);
            case "keep" -> lessonsDesk.keep(order);
            case "assign" -> seats().assign(order);
            case "again" -> seats().again(order);
            case "end" -> seats().end(order);
            case "name" -> seats().name(order);
            case "code" -> door.code(order, address);
            case "revoke" -> door.revoke(order);
            case "pilots", "instructor", "rename" ->
                order.path("name").isTextual()
                        ? named(what, order.path("name").asText(), order)
                        : Answer.bad("name must be text");
            case "shown" -> {
                records.shown(order.path("visible").asBoolean());
                yield Answer.done();
            }
            default -> Answer.unknown("nothing of that name can be done");
        };
    }

    private Answer named(String what, String name, JsonNode order) throws IOException {
        return switch (what) {
            case "pilots" -> added(name);
            case "rename" ->
                order.path("pilot").isTextual()
                        ? renamed(order.path("pilot").asText(), name)
                        : Answer.bad("pilot must be text");
            default -> {
                records.instructor(name);
                yield Answer.done();
            }
        };
    }

    /** What is left under the name before stands in {@code left}; an empty text where all is under the new one. */
    private Answer renamed(String pilot, String name) throws IOException {
        RecordBook.Renamed renamed = records.rename(pilot, name);
        Optional.ofNullable(room.get()).ifPresent(Room::called);
        return Answer.json(JSON.createObjectNode()
                .put("left", CleanText.line(renamed.left().orElse("")))
                .toString());
    }

    private Answer pilots() throws IOException {
        ArrayNode all = JSON.createArrayNode();
        records.pilots().stream()
                .sorted(Comparator.comparing(Pilot::name, String.CASE_INSENSITIVE_ORDER))
                .forEach(each -> all.addObject().put("id", each.id()).put("name", each.name()));
        return Answer.json(all.toString());
    }

    private SeatsDesk seats() {
        Room open = room.get();
        if (open == null) {
            throw new IllegalStateException("the room is not open yet");
        }
        return new SeatsDesk(records, lessons, open);
    }

    private Answer added(String name) throws IOException {
        boolean known = records.find(name).isPresent();
        Pilot pilot = records.pilot(name);
        return Answer.json(JSON.createObjectNode()
                .put("id", pilot.id())
                .put("name", pilot.name())
                .put("known", known)
                .toString());
    }
}
