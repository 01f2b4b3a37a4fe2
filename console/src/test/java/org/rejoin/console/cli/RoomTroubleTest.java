package org.rejoin.console.cli;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** The practice room, the real program, on data folders that are missing, damaged, full, read-only, taken, or killed at. */
@Timeout(value = 5, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class RoomTroubleTest {

    /** More by hand. */
    private static final int KILLS = Integer.getInteger("rejoin.index-kills", 2);

    @TempDir
    private Path folder;

    private Path home;
    private int page;

    @BeforeEach
    void aFreePort() throws Exception {
        home = folder.resolve("home");
        page = RealProgram.freePagePort();
    }

    private RealProgram start(String... args) throws Exception {
        return RealProgram.start(folder, 0, List.of(), Map.of(), List.of(args));
    }

    private RealProgram room(int feed, int pagePort, String... more) throws Exception {
        List<String> args = new ArrayList<>(List.of(
                "room", "--home", home.toString(), "--port", String.valueOf(feed), "--page", String.valueOf(pagePort)));
        args.addAll(List.of(more));
        return RealProgram.start(folder, feed, List.of(), Map.of(), args);
    }

    private RealProgram open(String... more) throws Exception {
        RealProgram program = room(RealProgram.freePort(), page, more);
        program.awaitSaid("Ctrl-C closes the room");
        return program;
    }

    private String assign() throws Exception {
        return assign("s1");
    }

    private String assign(String seat) throws Exception {
        return post("assign", "{\"seat\":\"" + seat + "\",\"pilot\":\"Anna\",\"lesson\":\"heading-to-airway\"}");
    }

    private String post(String what, String order) throws Exception {
        String address = "http://127.0.0.1:" + page;
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(address + "/api/" + what))
                                .header("Content-Type", "application/json")
                                .header("Origin", address)
                                .POST(HttpRequest.BodyPublishers.ofString(order))
                                .build(),
                        HttpResponse.BodyHandlers.ofString())
                .body();
    }

    private String ask(String path) throws Exception {
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + page + path))
                                .build(),
                        HttpResponse.BodyHandlers.ofString())
                .body();
    }

    /** One line, and the exit code of bad input. */
    private void isRefused(String... words) throws Exception {
        try (RealProgram program = room(RealProgram.freePort(), 0)) {
            assertThat(program.awaitEnd()).as(program.said()).isEqualTo(2);
            assertThat(program.said()).startsWith("rejoin: ").hasLineCount(1).contains(words);
        }
    }

    /** As after a crash of the simulator: another port, the same callsign, back at the start of the lesson. */
    @Test
    void aSimulatorThatIsStartedAgainKeepsItsSeatAndItsPilot() throws Exception {
        int feed = RealProgram.freePort();
        try (RealProgram program = room(feed, page)) {
            program.awaitSaid("Ctrl-C closes the room");
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
        try (RealProgram program = room(feed, page);
                Simulator later = new Simulator(feed, 40).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            program.awaitSaid("Ctrl-C closes the room");
            while (!post("again", "{\"seat\":\"s1\"}").contains("done")) {
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
        try (RealProgram first = open()) {
            assertThat(home).isDirectory();
            isRefused("is in use by another program", "the practice room");
            assertThat(ask("/api/attempts")).contains("\"all\":0");
        }
        // What held it was killed: it is free.
        try (RealProgram next = open()) {
            assertThat(next.process().isAlive()).isTrue();
        }
    }

    /** On the terminal and on Home, and gone from there when it can be read. */
    @Test
    void aSimulatorThatCannotBeReadIsSaid() throws Exception {
        try (RealProgram room = open();
                DatagramSocket socket = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            String who = "127.0.0.1:" + socket.getLocalPort() + " sends what no format here reads";
            while (!room.said().contains(who)) {
                assertThat(room.process().isAlive()).isTrue();
                room.send(socket, new byte[] {0x4B, 0x54, 1, 0, 7});
                Thread.sleep(100);
            }
            assertThat(room.said()).contains("4b 54 01", "feed learn --port " + room.port());
            while (!board().contains(who)) {
                Thread.sleep(50);
            }
            for (byte[] state : RealProgram.flight().subList(0, 10)) {
                room.send(socket, state);
            }
            while (board().contains(who)) {
                assertThat(room.process().isAlive()).isTrue();
                Thread.sleep(50);
            }
        }
    }

    /** Nobody has to be asked for his name again because the program was ended; a day later he has gone home. */
    @Test
    void aRoomThatWasKilledKnowsWhoSatWhere() throws Exception {
        int feed = RealProgram.freePort();
        try (Simulator simulator = new Simulator(feed, 10).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            try (RealProgram room = room(feed, page)) {
                room.awaitSaid("Ctrl-C closes the room");
                await(() -> board().contains("\"id\":\"s1\""));
                assertThat(board()).contains("\"pilot\":\"\"");
                assertThat(assign()).contains("done");
                await(() -> board().contains("\"pilot\":\"Anna\""));
                await(() -> attempts().stream().anyMatch(each -> size(each) > 2_000));
                room.process().destroyForcibly().waitFor();
            }
            try (RealProgram room = room(feed, page)) {
                room.awaitSaid("Ctrl-C closes the room");
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
            try (RealProgram room = room(feed, page)) {
                room.awaitSaid("Ctrl-C closes the room");
                await(() -> board().contains("\"id\":\"s1\""));
                assertThat(board()).contains("\"pilot\":\"\"");
            }
        }
    }

    /** As by "pilots forget" in another window: his seat is free, and what it showed is not there any more. */
    @Test
    void theSeatOfAPilotWhoIsForgottenIsFreeAndShowsNothingOfHim() throws Exception {
        int feed = RealProgram.freePort();
        try (RealProgram room = room(feed, page);
                Simulator simulator = new Simulator(feed, 20).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            room.awaitSaid("Ctrl-C closes the room");
            await(() -> assign().contains("done"));
            await(() -> attempts().stream().anyMatch(each -> size(each) > 2_000));
            assertThat(board()).contains("\"pilot\":\"Anna\"");
            post("end", "{\"seat\":\"s1\"}");
            await(() -> ask("/api/attempts").contains("\"duration_s\""));
            assertThat(Files.readString(home.resolve("room.json"))).contains("\"id\"");
            try (RealProgram forget = start("pilots", "--home", home.toString(), "forget", "Anna", "--yes")) {
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
        HttpResponse<InputStream> stream = HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + page + path))
                                .build(),
                        HttpResponse.BodyHandlers.ofInputStream());
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(stream.body(), StandardCharsets.UTF_8))) {
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
        Path disk = Files.createDirectories(folder.resolve("disk"));
        assumeTrue(
                "root".equals(System.getProperty("user.name"))
                        && new ProcessBuilder("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", disk.toString())
                                        .start()
                                        .waitFor()
                                == 0,
                "no small file system can be made here");
        home = disk.resolve("home");
        int feed = RealProgram.freePort();
        try (RealProgram program = room(feed, page, "--lesson", "heading-to-airway")) {
            program.awaitSaid("Ctrl-C closes the room");
            fill(disk.resolve("ballast"));
            try (Simulator simulator =
                    new Simulator(feed, 20).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
                program.awaitSaid("No space left on device");
                assertThat(ask("/")).contains("Practice room");
                Files.delete(disk.resolve("ballast"));
                // With room again the next attempt is recorded.
                assertThat(assign()).contains("done");
                await(() -> attempts().stream().anyMatch(each -> size(each) > 2_000));
            }
            assertThat(program.process().isAlive()).isTrue();
            assertThat(program.said()).doesNotContain("Exception");
        } finally {
            assertThat(new ProcessBuilder("umount", "-l", disk.toString())
                            .start()
                            .waitFor())
                    .isZero();
        }
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void aDiskThatFillsInFlightIsSaidAtTheSeatAndWithRoomAgainNothingIsLost() throws Exception {
        Path disk = Files.createDirectories(folder.resolve("disk"));
        assumeTrue(
                "root".equals(System.getProperty("user.name"))
                        && new ProcessBuilder("mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", disk.toString())
                                        .start()
                                        .waitFor()
                                == 0,
                "no small file system can be made here");
        home = disk.resolve("home");
        int feed = RealProgram.freePort();
        try (RealProgram program = room(feed, page, "--lesson", "heading-to-airway");
                Simulator simulator = new Simulator(feed, 20).fly(LessonReader.read("heading-to-airway"), Habit.GOOD)) {
            program.awaitSaid("Ctrl-C closes the room");
            await(() -> attempts().stream().anyMatch(each -> size(each) > 2_000));
            Path attempt = Objects.requireNonNull(attempts().get(0).getParent());
            fill(disk.resolve("ballast"));
            await(
                    () -> board().contains(
                                    "Recording stopped: No space left on device. Make room on the disk: it goes on by itself."));
            assertThat(orderAtSeat("issue", "maintain 5000")).contains("\"kept\":false");
            assertThat(orderAtSeat("remark", "watch the speed"))
                    .contains("\"k\":\"waits\"", "the remark is not kept: No space left on device");
            assertThat(orderAtSeat("remark", "watch the speed")).contains("\"k\":\"waits\"");
            assertThat(ask("/api/attempts")).contains("disk", "full").doesNotContain("rebuild");
            Files.delete(disk.resolve("ballast"));
            await(() -> board().contains("\"trouble\":\"\""));
            await(() -> Files.isRegularFile(attempt.resolve("remarks.jsonl"))
                    && Files.readString(attempt.resolve("spoken.jsonl")).contains("maintain 5000"));
            assertThat(Files.readString(attempt.resolve("remarks.jsonl")).split("watch the speed", -1))
                    .as("once")
                    .hasSize(2);
            assertThat(program.said()).doesNotContain("Exception");
        } finally {
            assertThat(new ProcessBuilder("umount", "-l", disk.toString())
                            .start()
                            .waitFor())
                    .isZero();
        }
    }

    private String orderAtSeat(String what, String words) throws Exception {
        String address = "http://127.0.0.1:" + page;
        return HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(address + "/order"))
                                .header("Content-Type", "application/json")
                                .header("Origin", address)
                                .POST(HttpRequest.BodyPublishers.ofString("{\"show\":\"s1\",\"seat\":\"\",\"do\":\""
                                        + what + "\",\"text\":\"" + words + "\"}"))
                                .build(),
                        HttpResponse.BodyHandlers.ofString())
                .body();
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

    private List<Path> attempts() throws IOException {
        if (!Files.isDirectory(home.resolve("attempts"))) {
            return List.of();
        }
        try (Stream<Path> found = Files.walk(home.resolve("attempts"))) {
            return found.filter(each -> each.endsWith("flight.pcap")).toList();
        }
    }

    private static void fill(Path ballast) throws IOException {
        byte[] block = new byte[1024];
        try (FileChannel channel = FileChannel.open(ballast, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
            while (true) {
                channel.write(java.nio.ByteBuffer.wrap(block));
            }
        } catch (IOException e) {
            // full
        }
    }

    @Test
    void anIndexThatIsDamagedOrWasKilledAtIsMadeAgainAndNothingIsLost() throws Exception {
        int all = 12;
        try (RealProgram fly =
                start("fly", "heading-to-airway", "--hz", "1", "--home", home.toString(), "--as", "Anna")) {
            assertThat(fly.awaitEnd()).as(fly.said()).isZero();
        }
        copyAttempts(all);
        Files.writeString(home.resolve("index.db"), "no index at all");
        try (RealProgram program = open()) {
            assertThat(ask("/api/attempts")).contains("\"all\":" + all);
        }
        for (int kill = 0; kill < KILLS; kill++) {
            try (RealProgram rebuild = start("attempts", "rebuild", "--home", home.toString())) {
                await(() ->
                        rebuild.process().toHandle().info().totalCpuDuration().isPresent());
                Thread.sleep(300 + 1500L * kill / KILLS);
                rebuild.process().destroyForcibly().waitFor();
            }
            try (RealProgram list = start("attempts", "--home", home.toString(), "--csv")) {
                assertThat(list.awaitEnd()).as(list.said()).isZero();
                assertThat(list.said().lines().filter(line -> line.contains("Anna")))
                        .as("after kill " + kill)
                        .hasSize(all);
            }
        }
    }

    /** The same flight under other identifiers. */
    private void copyAttempts(int all) throws IOException {
        Path first = requireNonNull(attempts().get(0).getParent());
        String id = first.getFileName().toString();
        for (int i = 1; i < all; i++) {
            String other = id.substring(0, id.length() - 2) + String.format(Locale.ROOT, "%02d", i);
            Path to = Files.createDirectories(first.resolveSibling(other));
            try (Stream<Path> files = Files.list(first)) {
                for (Path file : files.filter(Files::isRegularFile).toList()) {
                    Files.copy(file, to.resolve(file.getFileName()));
                }
            }
            Path json = to.resolve("attempt.json");
            Files.writeString(json, Files.readString(json).replace(id, other));
        }
    }
}
