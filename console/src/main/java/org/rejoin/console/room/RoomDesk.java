package org.rejoin.console.room;

import java.io.IOException;
import java.net.InetAddress;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.door.JoinCodes;
import org.rejoin.console.door.Role;
import org.rejoin.console.door.Sessions;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageRoom;
import org.rejoin.console.page.SeatPage;
import org.rejoin.console.speech.PilotVoice;
import org.rejoin.console.words.CleanText;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;

/** What the page asks of the room and orders there, in JSON: seats, pilots, codes; records and lessons by their own desks. */
public final class RoomDesk implements PageRoom {

    static final ObjectMapper JSON = new ObjectMapper();
    private static final double OLD_S = 3;
    private static final double JUMP_SHOWN_S = 10;

    /** A map is told twice a second: a jump is in one of two looks, seconds. */
    private static final double MAP_JUMP_S = 0.75;

    /** Silent for longer and without an attempt, a seat is not listed, seconds (common practice, no source). */
    private static final double GONE_S = 600;

    private final RoomRecords records;
    private final RoomLessons lessons;
    private final RecordsDesk recordsDesk;
    private final LessonsDesk lessonsDesk;
    private final Sessions sessions;
    private final JoinCodes codes;
    private final Map<String, Part> parts;
    private final String fingerprint;
    private final AtomicReference<@Nullable Room> room = new AtomicReference<>();
    private volatile String address = "";

    /** Answers for a part of the page that another package owns, as progress and drills. */
    public interface Part {
        /**
         * Answers.
         *
         * @param pilot name of the pilot it is about; for a pilot always himself
         * @param order what is asked, by an instructor or where {@link #isForPilots} by a pilot; empty for a question
         * @return the answer
         * @throws IOException if it cannot be answered; one line
         */
        Answer ask(String pilot, Optional<JsonNode> order) throws IOException;

        /**
         * Whether a pilot may order it too, for himself.
         *
         * @return false where an order is the instructor's alone
         */
        default boolean isForPilots() {
            return false;
        }

        /**
         * What is to be read back without a flight.
         *
         * @param id of it
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
     * @param records of the data folder
     * @param lessons to choose from
     * @param sessions of tablets
     * @param fingerprint of the certificate; empty text where the page is not encrypted
     * @param parts by the first word of their path
     */
    public RoomDesk(
            RoomRecords records, RoomLessons lessons, Sessions sessions, String fingerprint, Map<String, Part> parts) {
        this.records = records;
        this.lessons = lessons;
        this.sessions = sessions;
        this.fingerprint = fingerprint;
        this.parts = Map.copyOf(parts);
        this.codes = new JoinCodes();
        this.recordsDesk = new RecordsDesk(records);
        this.lessonsDesk = new LessonsDesk(lessons);
    }

    /**
     * The room is open.
     *
     * @param opened with its feed
     * @param pageAddress where tablets open the page, without a path
     */
    public void open(Room opened, String pageAddress) {
        room.set(opened);
        address = pageAddress;
    }

    @Override
    public Optional<Asker> session(String cookie) {
        return sessions.holder(cookie, Instant.now())
                .map(session -> new Asker(session.role() == Role.INSTRUCTOR, session.subject()));
    }

    @Override
    public Joined join(String code, InetAddress from) {
        return codes.join(code, from.getHostAddress(), Instant.now())
                .fold(
                        joined -> new Joined(
                                Optional.of(sessions.begin(joined.role(), joined.subject(), Instant.now())),
                                joined.role() == Role.INSTRUCTOR,
                                ""),
                        unknown -> kept("there is no such code, or it is older than ten minutes: ask for a new one"),
                        wait -> kept(
                                "too many wrong codes: wait " + (wait.after().toSeconds() + 1) + " s and try again"));
    }

    private static Joined kept(String outside) {
        return new Joined(Optional.empty(), false, outside);
    }

    private List<RoomSeat> known() {
        Room open = room.get();
        return open == null ? List.of() : open.known();
    }

    private Optional<RoomSeat> own(Asker asker) {
        return known().stream()
                .filter(seat -> !asker.pilot().isEmpty()
                        && seat.pilot()
                                .map(Pilot::id)
                                .filter(asker.pilot()::equals)
                                .isPresent())
                .reduce((older, newer) -> newer.ageS() < older.ageS() ? newer : older);
    }

    @Override
    public boolean maySee(Asker asker, String show) {
        return asker.instructor()
                || records.shown()
                || own(asker).map(seat -> seat.id().equals(show)).orElse(false);
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
        return known().stream()
                .filter(seat -> seat.id().equals(show))
                .findFirst()
                .flatMap(RoomSeat::pilot);
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
            if (isHere(seat) && maySee(asker, seat.id())) {
                write(seats.addObject(), seat, asker.instructor());
            }
        }
        return board.toString();
    }

    @Override
    public List<Seen> seen() {
        List<Seen> seen = new ArrayList<>();
        for (RoomSeat seat : known()) {
            if (isHere(seat)) {
                seat.last().ifPresent(last -> seen.add(seen(seat, last)));
            }
        }
        return seen;
    }

    private static Seen seen(RoomSeat seat, AircraftState last) {
        return new Seen(
                seat.id(),
                CleanText.of(seat.pilot().map(Pilot::name).orElse(seat.label())),
                RoomSeat.position(last),
                last.trackTrueDeg(),
                last.groundSpeedKt().orElse(0),
                seat.ageS(),
                seat.ageS() > OLD_S,
                seat.jumped(MAP_JUMP_S),
                seat.ageS() <= OLD_S
                        && seat.flight()
                                .flatMap(RoomFlight::page)
                                .map(page -> !page.tile().off().isEmpty())
                                .orElse(false));
    }

    /** A simulator that was closed long ago is no seat any more. */
    private static boolean isHere(RoomSeat seat) {
        return seat.ageS() < GONE_S || seat.flight().isPresent();
    }

    /** How the data of a seat stands, in one word. */
    private static String state(RoomSeat seat) {
        if (seat.ageS() > OLD_S) {
            return "silent";
        }
        if (seat.last().map(AircraftState::paused).orElse(false)) {
            return "paused";
        }
        return seat.jumped(JUMP_SHOWN_S) ? "jumped" : "flying";
    }

    private static void write(ObjectNode json, RoomSeat seat, boolean instructor) {
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
        json.put("trouble", CleanText.of(seat.trouble()));
        json.put("may_drill", isFree(seat));
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
        Optional<SeatPage.Tile> tile = seat.flight().flatMap(RoomFlight::page).map(SeatPage::tile);
        tile.ifPresent(shown -> {
            now.put("time_s", Math.round(shown.timeS()));
            shown.headingMagneticDeg().ifPresent(deg -> now.put("heading", Angles.figures(deg)));
            json.put("phase", shown.phase());
            json.put("next", CleanText.of(shown.next()));
            shown.score().ifPresent(score -> json.put("score", Math.round(score)));
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

    @Override
    public Optional<Exercise> exercise(Asker asker, String id) {
        try {
            String pilot = asker.instructor() ? "" : name(asker.pilot());
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
                    return Answer.no("the instructor's alone");
                }
                String asked = order.map(each -> each.path("pilot").asText()).orElse(query.getOrDefault("pilot", ""));
                String pilot = asker.instructor() ? asked : asker.pilot();
                return pilot.isEmpty() ? Answer.no("choose a pilot") : part.ask(name(pilot), order);
            }
            if (first.equals("me")) {
                return Answer.json(me(asker).toString());
            }
            if (first.equals("attempts") || first.equals("attempt")) {
                return recordsDesk.ask(asker, path, query, order);
            }
            if (first.equals("here") && order.isPresent()) {
                return here(asker, order.get());
            }
            if (!asker.instructor()) {
                return Answer.no("the instructor's alone");
            }
            if (LessonsDesk.answers(first)) {
                return lessonsDesk.ask(first, query, order);
            }
            return order.isPresent() ? ordered(first, order.get()) : asked(first);
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
            json.put("fingerprint", fingerprint);
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

    private Answer asked(String what) throws IOException {
        return switch (what) {
            case "pilots" -> {
                ArrayNode all = JSON.createArrayNode();
                records.pilots()
                        .forEach(each -> all.addObject().put("id", each.id()).put("name", each.name()));
                yield Answer.json(all.toString());
            }
            default -> Answer.no("nothing of that name can be asked");
        };
    }

    private Answer ordered(String what, JsonNode order) throws IOException {
        return switch (what) {
            case "pilots" -> pilot(records.pilot(order.path("name").asText()));
            case "instructor" -> {
                records.instructor(order.path("name").asText());
                yield done();
            }
            case "shown" -> {
                records.shown(order.path("visible").asBoolean());
                yield done();
            }
            case "assign" -> assign(order);
            case "again" -> again(order);
            case "end" -> {
                seat(order).ifPresent(seat -> open().end(seat));
                yield done();
            }
            case "name" -> name(order);
            case "code" -> code(order);
            case "revoke" -> revoke(order);
            default -> Answer.no("nothing of that name can be done");
        };
    }

    private Room open() {
        Room open = room.get();
        if (open == null) {
            throw new IllegalStateException("the room is not open yet");
        }
        return open;
    }

    private Optional<RoomSeat> seat(JsonNode order) {
        return open().seat(order.path("seat").asText());
    }

    private static Answer pilot(Pilot pilot) {
        return Answer.json(JSON.createObjectNode()
                .put("id", pilot.id())
                .put("name", pilot.name())
                .toString());
    }

    private static Answer done() {
        return Answer.json("{\"done\":true}");
    }

    /** A pilot by his name is put into the roster if he is not in it. */
    private Answer assign(JsonNode order) throws IOException {
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty()) {
            return Answer.no("that seat is not heard");
        }
        String name = order.path("pilot").asText("").strip();
        Optional<Pilot> pilot = name.isEmpty() ? Optional.empty() : Optional.of(records.pilot(name(name)));
        String lesson = order.path("lesson").asText();
        if (!lessons.has(lesson)) {
            return Answer.no("choose a lesson");
        }
        open().assign(seat.get(), pilot, lesson);
        return done();
    }

    /** The roster finds a pilot by identifier too; his name is what is kept. */
    private String name(String nameOrId) throws IOException {
        return records.find(nameOrId).map(Pilot::name).orElse(nameOrId);
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
        open().assign(seat.get(), seat.get().pilot(), lesson);
        return done();
    }

    /** Whether no clearance is in force at a seat. */
    private static boolean isFree(RoomSeat seat) {
        return !seat.preparing()
                && seat.flight().filter(flight -> !flight.complete()).isEmpty();
    }

    /** A drill from where the aircraft is: the pilot may have one too, as long as no clearance of a lesson is in force. */
    private Answer here(Asker asker, JsonNode order) {
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty()
                || (!asker.instructor() && !own(asker).map(seat.get()::equals).orElse(false))) {
            return Answer.no("that is not your seat");
        }
        if (order.path("stop").asBoolean()) {
            open().drills().stop(seat.get());
            return done();
        }
        if (!isFree(seat.get()) && !asker.instructor()) {
            return Answer.no("a clearance of your lesson is in force: fly it first");
        }
        open().drills().ask(seat.get());
        return done();
    }

    private Answer name(JsonNode order) throws IOException {
        String name = CleanText.line(order.path("label").asText()).strip();
        Optional<RoomSeat> seat = seat(order);
        if (seat.isEmpty() || name.isEmpty() || name.length() > 40) {
            return Answer.no("a seat's name has 1 to 40 characters");
        }
        seat.get().label(name);
        records.name(seat.get().key(), seat.get().marking(), name);
        return done();
    }

    /** For a pilot's tablet, or for another instructor's. */
    private Answer code(JsonNode order) throws IOException {
        boolean instructor = order.path("instructor").asBoolean();
        String subject = instructor
                ? ""
                : records.pilot(name(order.path("pilot").asText())).id();
        String code = codes.open(instructor ? Role.INSTRUCTOR : Role.PILOT, subject, Instant.now());
        return Answer.json(JSON.createObjectNode()
                .put("code", code)
                .put("link", address + "/enter#" + code)
                .put("page", address + "/enter")
                .put("fingerprint", fingerprint)
                .toString());
    }

    private Answer revoke(JsonNode order) throws IOException {
        if (order.path("all").asBoolean()) {
            sessions.revokeAll(Instant.now());
        } else {
            Optional<Pilot> pilot = records.find(order.path("pilot").asText());
            if (pilot.isEmpty()) {
                return Answer.no("that pilot is not in the roster");
            }
            sessions.revokeAllOf(pilot.get().id(), Instant.now());
        }
        return done();
    }
}
