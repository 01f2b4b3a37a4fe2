package org.rejoin.console.cli;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Objects;
import java.util.concurrent.TimeUnit;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

/** The practice room, the real program, on data folders that are missing, damaged, full, read-only, taken, or killed at. */
@Timeout(value = 5, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class RoomTroubleTest extends RealRoom {

    /** More by hand. */
    private static final int KILLS = Integer.getInteger("rejoin.index-kills", 2);

    private String assign() throws Exception {
        return assign("s1");
    }

    private String assign(String seat) throws Exception {
        return post("/api/assign", "{\"seat\":\"" + seat + "\",\"pilot\":\"Anna\",\"lesson\":\"heading-to-airway\"}");
    }

    private String post(String path, String order) throws Exception {
        return sent(
                request(path)
                        .header("Content-Type", "application/json")
                        .header("Origin", address())
                        .POST(HttpRequest.BodyPublishers.ofString(order)),
                HttpResponse.BodyHandlers.ofString());
    }

    private String ask(String path) throws Exception {
        return sent(request(path), HttpResponse.BodyHandlers.ofString());
    }

    private HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create(address() + path));
    }

    private static <T> T sent(HttpRequest.Builder request, HttpResponse.BodyHandler<T> body) throws Exception {
        return HttpClient.newHttpClient().send(request.build(), body).body();
    }

    /** One line, and the exit code of bad input. */
    private void isRefused(String... words) throws Exception {
        try (RealProgram program =
                RealProgram.start(folder, "room", "--home", home.toString(), "--port", "0", "--page", "0")) {
            assertThat(program.awaitEnd()).as(program.said()).isEqualTo(2);
            assertThat(program.said()).startsWith("rejoin: ").hasLineCount(1).contains(words);
        }
    }

    /** Kept, it would be given to whichever of the two is heard first the next time. */
    @Test
    void theNameOfOneOfTwoThatNobodyCanTellApartIsNotKept() throws Exception {
        Path room = home.resolve("room.json");
        try (RealProgram program = room();
                Simulator first = new Simulator(feed, 40).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            named("s1", "Door");
            assertThat(Files.readString(room)).contains("Door");
            try (Simulator second = new Simulator(feed, 40).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
                named("s2", "Window");
                assertThat(Files.readString(room)).doesNotContain("Window", "Door");
            }
        }
    }

    /** As soon as it is heard. */
    private void named(String seat, String label) throws Exception {
        String answer = "";
        while (!answer.startsWith("{")) {
            answer = post("/api/name", "{\"seat\":\"" + seat + "\",\"label\":\"" + label + "\"}");
            Thread.sleep(20);
        }
    }

    /** As after a crash of the simulator: another port, the same callsign, back at the start of the lesson. */
    @Test
    void aSimulatorThatIsStartedAgainKeepsItsSeatAndItsPilot() throws Exception {
        try (RealProgram program = room()) {
            try (Simulator first = new Simulator(feed, 40).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
                while (!assign("s1").contains("done")) {
                    Thread.sleep(50);
                }
                Thread.sleep(2000);
            }
            Thread.sleep(13_000);
            try (Simulator again = new Simulator(feed, 40).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
                while (!ask("/api/attempts").contains("\"all\":2")) {
                    Thread.sleep(100);
                }
                assertThat(ask("/api/attempts").split("\"pilot\":\"Anna\"", -1)).hasSize(3);
                assertThat(assign("s2")).contains("that seat is not heard");
                // Another of that name while this one is heard is another seat, and nobody flies two.
                try (Simulator other = new Simulator(feed, 40).fly(LessonReader.read("radial-outbound"), Habit.GOOD)) {
                    String answer = assign("s2");
                    while (answer.contains("not heard")) {
                        Thread.sleep(50);
                        answer = assign("s2");
                    }
                    assertThat(answer).contains("Anna flies at REJOIN1");
                }
            }
        }
        // Opened again: who sat there and what was flown is known.
        try (RealProgram program = room();
                Simulator later = new Simulator(feed, 40).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            while (!post("/api/again", "{\"seat\":\"s1\"}").contains("done")) {
                Thread.sleep(50);
            }
            while (!ask("/api/attempts").contains("\"all\":3")) {
                Thread.sleep(100);
            }
            assertThat(ask("/api/attempts").split("\"pilot\":\"Anna\"", -1)).hasSize(4);
        }
    }

    @Test
    void aFolderThatIsMissingIsBegunAndASecondRoomOnItIsRefused() throws Exception {
        try (RealProgram first = room()) {
            assertThat(home).isDirectory();
            isRefused("is in use by another program", "the practice room");
            assertThat(ask("/api/attempts")).contains("\"all\":0");
        }
        // What held it was killed: it is free.
        try (RealProgram next = room()) {
            assertThat(next.process().isAlive()).isTrue();
        }
    }

    /** On the terminal and on Home, and gone from there when it can be read. */
    @Test
    void aSimulatorThatCannotBeReadIsSaid() throws Exception {
        try (RealProgram room = room()) {
            String who = "127.0.0.1:" + room.simulator().getLocalPort() + " sends what no format here reads";
            while (!room.said().contains(who)) {
                assertThat(room.process().isAlive()).isTrue();
                room.send(new byte[] {0x4B, 0x54, 1, 0, 7});
                Thread.sleep(100);
            }
            assertThat(room.said()).contains("4b 54 01", "feed learn --port " + room.port());
            while (!board().contains(who)) {
                Thread.sleep(50);
            }
            room.send(RealProgram.flight().subList(0, 10));
            while (board().contains(who)) {
                assertThat(room.process().isAlive()).isTrue();
                Thread.sleep(50);
            }
        }
    }

    /** Nobody has to be asked for his name again because the program was ended; a day later he has gone home. */
    @Test
    void aRoomThatWasKilledKnowsWhoSatWhere() throws Exception {
        try (Simulator simulator = new Simulator(feed, 10).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            try (RealProgram room = room()) {
                await(() -> board().contains("\"id\":\"s1\""));
                assertThat(board()).contains("\"pilot\":\"\"");
                assertThat(assign()).contains("done");
                await(() -> board().contains("\"pilot\":\"Anna\""));
                await(() -> attempts("flight.pcap").stream().anyMatch(each -> size(each) > 2_000));
                room.process().destroyForcibly().waitFor();
            }
            try (RealProgram room = room()) {
                await(() -> board().contains("\"id\":\"s1\""));
                assertThat(board()).contains("\"pilot\":\"Anna\"");
                assertThat(ask("/api/me").replaceFirst(".*\"interrupted\":", ""))
                        .as("which attempt was closed")
                        .contains("\"pilot\":\"Anna\"", "\"duration_s\":");
                room.process().destroyForcibly().waitFor();
            }
            Path kept = home.resolve("room.json");
            Files.writeString(
                    kept,
                    Files.readString(kept)
                            .replaceAll(
                                    "\"since_s\" ?: ?\\d+",
                                    "\"since_s\":"
                                            + Instant.now()
                                                    .minus(1, ChronoUnit.DAYS)
                                                    .getEpochSecond()));
            try (RealProgram room = room()) {
                await(() -> board().contains("\"id\":\"s1\""));
                assertThat(board()).contains("\"pilot\":\"\"");
            }
        }
    }

    /** As by "pilots forget" in another window: his seat is free, and what it showed is not there any more. */
    @Test
    void theSeatOfAPilotWhoIsForgottenIsFreeAndShowsNothingOfHim() throws Exception {
        try (RealProgram room = room();
                Simulator simulator = new Simulator(feed, 20).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            await(() -> assign().contains("done"));
            await(() -> attempts("flight.pcap").stream().anyMatch(each -> size(each) > 2_000));
            assertThat(board()).contains("\"pilot\":\"Anna\"");
            post("/api/end", "{\"seat\":\"s1\"}");
            await(() -> ask("/api/attempts").contains("\"duration_s\""));
            assertThat(Files.readString(home.resolve("room.json"))).contains("\"id\"");
            try (RealProgram forget =
                    RealProgram.start(folder, "pilots", "--home", home.toString(), "forget", "Anna", "--yes")) {
                assertThat(forget.awaitEnd()).as(forget.said()).isZero();
            }
            await(() -> board().contains("\"pilot\":\"\""));
            assertThat(board()).contains("\"attempt\":\"\"", "\"stage\":\"free\"");
            assertThat(first("/stream/s1", "data:")).contains("\"k\":\"nothing\"");
            assertThat(Files.readString(home.resolve("room.json"))).doesNotContain("\"id\"");
            assertThat(ask("/api/attempts")).contains("\"all\":0");
        }
    }

    private String board() throws Exception {
        return first("/stream/room", "\"k\":\"room\"");
    }

    /** The first line of a stream with these words. */
    private String first(String path, String words) throws Exception {
        InputStream stream = sent(request(path), HttpResponse.BodyHandlers.ofInputStream());
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (line.contains(words)) {
                    return line;
                }
            }
        }
        return "";
    }

    @Test
    void aFolderOfANewerVersionAndAFileAreLeftAlone() throws Exception {
        Files.createDirectories(home);
        Path kept = Files.writeString(home.resolve("folder.json"), "{\"format\": 7}");
        isRefused("was written by a newer version");
        assertThat(kept).hasContent("{\"format\": 7}");
        home = Files.writeString(folder.resolve("file"), "mine");
        isRefused("is a file");
        assertThat(home).hasContent("mine");
    }

    /** Root may write everywhere but where there is no file system that takes it. */
    @Test
    @EnabledOnOs(OS.LINUX)
    void aFolderThatCannotBeWrittenIsOneLine() throws Exception {
        home = Path.of("/proc/rejoin");
        isRefused("/proc/rejoin");
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aFullDiskIsSaidAtTheSeatAndTheRoomStaysOpen() throws Exception {
        try (SmallDisk disk = SmallDisk.in(folder, "1m")) {
            home = disk.place().resolve("home");
            try (RealProgram program = room("--lesson", "heading-to-airway")) {
                disk.fill();
                try (Simulator simulator =
                        new Simulator(feed, 20).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
                    program.awaitSaid("No space left on device");
                    assertThat(ask("/")).contains("Practice room");
                    disk.makeRoom();
                    // With room again the next attempt is recorded.
                    assertThat(assign()).contains("done");
                    await(() -> attempts("flight.pcap").stream().anyMatch(each -> size(each) > 2_000));
                }
                assertThat(program.process().isAlive()).isTrue();
                assertThat(program.said()).doesNotContain("Exception");
            }
        }
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aDiskThatFillsInFlightIsSaidAtTheSeatAndWithRoomAgainNothingIsLost() throws Exception {
        try (SmallDisk disk = SmallDisk.in(folder, "1m")) {
            home = disk.place().resolve("home");
            try (RealProgram program = room("--lesson", "heading-to-airway");
                    Simulator simulator =
                            new Simulator(feed, 20).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
                await(() -> attempts("flight.pcap").stream().anyMatch(each -> size(each) > 2_000));
                Path attempt =
                        Objects.requireNonNull(attempts("flight.pcap").get(0).getParent());
                disk.fill();
                await(
                        () -> board().contains(
                                        "Recording stopped: No space left on device. Make room on the disk: it goes on by itself."));
                assertThat(orderAtSeat("issue", "maintain 5000")).contains("\"kept\":false");
                assertThat(orderAtSeat("remark", "watch the speed"))
                        .contains("\"k\":\"waits\"", "the remark is not kept: No space left on device");
                assertThat(orderAtSeat("remark", "watch the speed")).contains("\"k\":\"waits\"");
                assertThat(ask("/api/attempts")).contains("disk", "full").doesNotContain("rebuild");
                disk.makeRoom();
                await(() -> board().contains("\"trouble\":\"\""));
                await(() -> Files.isRegularFile(attempt.resolve("remarks.jsonl"))
                        && Files.readString(attempt.resolve("spoken.jsonl")).contains("maintain 5000"));
                assertThat(Files.readString(attempt.resolve("remarks.jsonl")).split("watch the speed", -1))
                        .as("once")
                        .hasSize(2);
                assertThat(program.said()).doesNotContain("Exception");
            }
        }
    }

    private String orderAtSeat(String what, String words) throws Exception {
        return post("/order", "{\"show\":\"s1\",\"seat\":\"\",\"do\":\"" + what + "\",\"text\":\"" + words + "\"}");
    }

    private interface Is {
        boolean so() throws Exception;
    }

    private static void await(Is is) throws Exception {
        for (int i = 0; i < 600; i++) {
            if (is.so()) {
                return;
            }
            Thread.sleep(100);
        }
        throw new AssertionError("it never came");
    }

    private static long size(Path file) {
        try {
            return Files.size(file);
        } catch (IOException e) {
            return 0;
        }
    }

    @Test
    void anIndexThatIsDamagedOrWasKilledAtIsMadeAgainAndNothingIsLost() throws Exception {
        int all = 12;
        try (RealProgram fly = RealProgram.start(
                folder, "fly", "heading-to-airway", "--hz", "1", "--home", home.toString(), "--as", "Anna")) {
            assertThat(fly.awaitEnd()).as(fly.said()).isZero();
        }
        copies(requireNonNull(attempts("flight.pcap").get(0).getParent()), all - 1);
        Files.writeString(home.resolve("index.db"), "no index at all");
        try (RealProgram program = room()) {
            assertThat(ask("/api/attempts")).contains("\"all\":" + all);
        }
        for (int kill = 0; kill < KILLS; kill++) {
            try (RealProgram rebuild = RealProgram.start(folder, "attempts", "rebuild", "--home", home.toString())) {
                await(() ->
                        rebuild.process().toHandle().info().totalCpuDuration().isPresent());
                Thread.sleep(300 + 1500L * kill / KILLS);
                rebuild.process().destroyForcibly().waitFor();
            }
            try (RealProgram list = RealProgram.start(folder, "attempts", "--home", home.toString(), "--csv")) {
                assertThat(list.awaitEnd()).as(list.said()).isZero();
                assertThat(list.said().lines().filter(line -> line.contains("Anna")))
                        .as("after kill " + kill)
                        .hasSize(all);
            }
        }
    }
}
