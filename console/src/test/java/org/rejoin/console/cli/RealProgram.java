package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

/**
 * The program in a process of its own, and what it says.
 *
 * @param port where it listens; 0 if it does not, or on one of its own
 * @param simulator from where datagrams are sent to it
 */
record RealProgram(Process process, Path out, int port, DatagramSocket simulator) implements AutoCloseable {

    private static final Pattern PAGE = Pattern.compile("page for the instructor: (http://127\\.0\\.0\\.1:\\d+)/");

    /** Runs {@code listen} on a free port until it listens. */
    static RealProgram listen(Path folder, String... more) throws Exception {
        return listen(folder, List.of(), more);
    }

    /** The same with options of the virtual machine. */
    static RealProgram listen(Path folder, List<String> java, String... more) throws Exception {
        int port = freePort();
        List<String> args = new ArrayList<>(List.of("listen", "--port", String.valueOf(port)));
        args.addAll(List.of(more));
        RealProgram program = start(folder, port, java, Map.of(), args);
        program.awaitSaid("listening on");
        return program;
    }

    static RealProgram start(Path folder, String... args) throws Exception {
        return start(folder, 0, List.of(), Map.of(), List.of(args));
    }

    static RealProgram start(
            Path folder, int port, List<String> java, Map<String, String> environment, List<String> args)
            throws Exception {
        Path out = Files.createTempFile(folder, "said", ".txt");
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.add("-XX:TieredStopAtLevel=1");
        command.addAll(java);
        command.addAll(List.of("-cp", System.getProperty("java.class.path"), Rejoin.class.getName()));
        command.addAll(args);
        ProcessBuilder builder =
                new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(out.toFile());
        builder.environment().putAll(environment);
        return new RealProgram(builder.start(), out, port, new DatagramSocket(0, InetAddress.getLoopbackAddress()));
    }

    static int freePort() throws Exception {
        try (DatagramSocket free = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            return free.getLocalPort();
        }
    }

    /** A practice room with its page, until it is open. */
    static RealProgram room(Path folder, Path home, int feed, int page, List<String> java, String... more)
            throws Exception {
        List<String> args = new ArrayList<>(List.of(
                "room", "--home", home.toString(), "--port", String.valueOf(feed), "--page", String.valueOf(page)));
        args.addAll(List.of(more));
        RealProgram program = start(folder, feed, java, Map.of(), args);
        program.awaitSaid("Ctrl-C closes the room");
        return program;
    }

    static int freePagePort() throws Exception {
        try (ServerSocket free = new ServerSocket(0)) {
            return free.getLocalPort();
        }
    }

    /** A flight, a state each second of it, as datagrams. */
    static List<byte[]> flight() throws Exception {
        List<byte[]> sent = new ArrayList<>();
        WireFormat.Encoder encoder = new JsonFormat().newEncoder();
        new PracticeFlight(LessonReader.read("heading-to-airway"), LocalDate.of(2026, 6, 1), Habit.GOOD)
                .fly(1, state -> sent.addAll(encoder.encode(state)));
        return sent;
    }

    void send(byte[] payload) throws Exception {
        send(simulator, payload);
    }

    /** One each millisecond. */
    void send(List<byte[]> payloads) throws Exception {
        for (byte[] payload : payloads) {
            send(payload);
            Thread.sleep(1);
        }
    }

    void send(DatagramSocket from, byte[] payload) throws Exception {
        from.send(new DatagramPacket(payload, payload.length, InetAddress.getLoopbackAddress(), port));
    }

    String said() throws Exception {
        return Files.readString(out);
    }

    void awaitSaid(String words) throws Exception {
        while (!said().contains(words)) {
            assertThat(process.isAlive() || said().contains(words)).as(said()).isTrue();
            Thread.sleep(10);
        }
    }

    int awaitEnd() throws Exception {
        assertThat(process.waitFor(90, TimeUnit.SECONDS)).as(said()).isTrue();
        return process.exitValue();
    }

    /** The end of a program that is killed. */
    void kill() throws Exception {
        process.destroyForcibly();
        assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
    }

    /** {@return the address of its page} */
    String page() throws Exception {
        Matcher found = PAGE.matcher(said());
        assertThat(found.find()).as(said()).isTrue();
        return found.group(1);
    }

    @Override
    public void close() {
        simulator.close();
        process.destroyForcibly();
    }
}
