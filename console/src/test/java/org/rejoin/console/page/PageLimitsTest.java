package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.FlightSession;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.speech.Speech;

import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

/** Whatever students and strangers open or leave open, the instructor gets in. Over real sockets, with small limits. */
@Timeout(value = 60, unit = TimeUnit.SECONDS)
class PageLimitsTest {

    private static final String TOKEN = "correct-horse-battery";
    private static final PageLimits SMALL = new PageLimits(12, 2, 3, 2, 400, 30);

    private final List<Socket> sockets = new ArrayList<>();
    private PageServer server;
    private String instructor;
    private String student;

    @BeforeEach
    void open() throws Exception {
        Lesson lesson = LessonReader.read("radial-outbound");
        server = PageServer.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                Optional.of(TOKEN),
                new PageServer.Setting(
                        lesson,
                        ToleranceSet.read(lesson.standard()),
                        () -> LocalDate.of(2026, 6, 1),
                        FlownPage.CAUTION,
                        false),
                new Nobody(),
                Speech.NONE,
                SMALL);
        instructor = cookie(TOKEN);
        student = cookie(server.studentToken().orElseThrow());
    }

    @AfterEach
    void close() throws Exception {
        for (Socket socket : sockets) {
            socket.close();
        }
        server.close();
    }

    private Socket connected(String from) throws IOException {
        Socket socket = new Socket();
        sockets.add(socket);
        socket.bind(new InetSocketAddress(from, 0));
        socket.setSoTimeout(10_000);
        socket.connect(server.localAddress());
        return socket;
    }

    private Socket asked(String from, String request, String headers) throws IOException {
        Socket socket = connected(from);
        say(socket, request, headers, "");
        return socket;
    }

    private void say(Socket socket, String request, String headers, String body) throws IOException {
        String at = "127.0.0.1:" + server.localAddress().getPort();
        socket.getOutputStream()
                .write((request + " HTTP/1.1\r\nHost: " + at + "\r\nOrigin: http://" + at + "\r\n" + headers
                                + "Content-Type: application/json\r\nContent-Length: " + body.length() + "\r\n\r\n"
                                + body)
                        .getBytes(StandardCharsets.ISO_8859_1));
    }

    /** The status line and headers; the body stays. */
    private static String head(Socket socket) throws IOException {
        InputStream in = socket.getInputStream();
        StringBuilder head = new StringBuilder();
        while (head.indexOf("\r\n\r\n") < 0) {
            int octet = in.read();
            if (octet < 0) {
                return head + "(closed)";
            }
            head.append((char) octet);
        }
        return head.toString();
    }

    private String cookie(String token) throws IOException {
        Socket socket = connected("127.0.0.1");
        say(socket, "POST /enter", "", "{\"token\":\"" + token + "\"}");
        Matcher set = Pattern.compile("set-cookie: ([^;]+);").matcher(head(socket));
        assertThat(set.find()).isTrue();
        socket.close();
        return "Cookie: " + set.group(1) + "\r\n";
    }

    private Socket stream(String from, String cookie) throws IOException {
        return asked(from, "GET /stream", cookie);
    }

    private static boolean gone(Socket socket) throws IOException {
        try {
            return socket.getInputStream().read() < 0;
        } catch (java.net.SocketException e) {
            return true; // reset: gone as well
        }
    }

    @Test
    @EnabledOnOs(OS.LINUX) // every address of 127/8 is this machine's
    void studentsPagesTakeNeitherTheInstructorsPlaceNorEachOthers() throws Exception {
        assertThat(head(stream("127.0.0.1", student))).startsWith("HTTP/1.1 200");
        assertThat(head(stream("127.0.0.1", student))).startsWith("HTTP/1.1 200");
        // A third from there would be one student taking all the places.
        assertThat(head(stream("127.0.0.1", student))).startsWith("HTTP/1.1 503");
        assertThat(head(stream("127.0.0.2", student))).startsWith("HTTP/1.1 200");
        assertThat(head(stream("127.0.0.3", student))).startsWith("HTTP/1.1 503");
        Socket first = stream("127.0.0.1", instructor);
        assertThat(head(first)).startsWith("HTTP/1.1 200");
        assertThat(head(stream("127.0.0.1", instructor))).startsWith("HTTP/1.1 200");
        assertThat(head(stream("127.0.0.1", instructor))).startsWith("HTTP/1.1 503");
        // A page that is closed makes room.
        first.close();
        String answer = "";
        for (int i = 0; i < 100 && !answer.startsWith("HTTP/1.1 200"); i++) {
            Thread.sleep(20);
            answer = head(stream("127.0.0.1", instructor));
        }
        assertThat(answer).startsWith("HTTP/1.1 200");
    }

    @Test
    @EnabledOnOs(OS.LINUX)
    void connectionsBeyondTheLimitCostStrangersFirstAndTheInstructorNever() throws Exception {
        Socket desk = stream("127.0.0.1", instructor);
        assertThat(head(desk)).startsWith("HTTP/1.1 200");
        Socket seat = stream("127.0.0.3", student);
        assertThat(head(seat)).startsWith("HTTP/1.1 200");
        List<Socket> idle = new ArrayList<>();
        for (int i = 0; i < 3 * SMALL.connections(); i++) {
            idle.add(connected("127.0.0.2"));
            // One after another, or the system would refuse some before the program sees them.
            assertThat(head(asked("127.0.0.1", "GET /", instructor + "Connection: close\r\n")))
                    .startsWith("HTTP/1.1 200");
        }
        for (Socket oldest : idle.subList(0, SMALL.connections())) {
            assertThat(gone(oldest)).isTrue();
        }
        // Students who hold many open cost their own.
        List<Socket> held = new ArrayList<>();
        for (int i = 0; i < 2 * SMALL.connections(); i++) {
            Socket one = asked("127.0.0.2", "GET /student", student);
            assertThat(head(one)).startsWith("HTTP/1.1 200");
            held.add(one);
        }
        assertThat(head(asked("127.0.0.1", "GET /", instructor))).startsWith("HTTP/1.1 200");
        byte[] page = new byte[1 << 20];
        int read = held.get(0).getInputStream().readNBytes(page, 0, page.length);
        assertThat(read).isPositive().isLessThan(page.length); // its page, then the end
        // The two that were there before are told the news still: a status a second.
        for (Socket there : List.of(desk, seat)) {
            for (int lines = 0; lines < 3; ) {
                int octet = there.getInputStream().read();
                assertThat(octet).isNotNegative();
                lines += octet == '\n' ? 1 : 0;
            }
        }
    }

    @Test
    void aRequestThatTakesTooLongIsClosedThoughItNeverIsIdle() throws Exception {
        Socket slow = connected("127.0.0.1");
        slow.setSoTimeout(20);
        byte[] endless = "GET / HTTP/1.1\r\nX-Header: ".getBytes(StandardCharsets.ISO_8859_1);
        boolean closed = false;
        for (int i = 0; i < 1_000 && !closed; i++) {
            try {
                slow.getOutputStream().write(i < endless.length ? endless[i] : 'x');
                closed = slow.getInputStream().read() < 0;
            } catch (java.net.SocketTimeoutException e) {
                closed = false;
            } catch (IOException e) {
                closed = true;
            }
        }
        assertThat(closed).isTrue();
    }

    @Test
    void aPageThatIsOpenLongIsNotARequestThatTakesLong() throws Exception {
        Socket desk = stream("127.0.0.1", instructor);
        assertThat(head(desk)).startsWith("HTTP/1.1 200");
        // A status comes every second, the limit is less than half of that.
        for (int statuses = 0; statuses < 3; ) {
            StringBuilder line = new StringBuilder();
            for (int octet = desk.getInputStream().read();
                    octet != '\n';
                    octet = desk.getInputStream().read()) {
                assertThat(octet).isNotNegative();
                line.append((char) octet);
            }
            statuses += line.indexOf("\"status\"") >= 0 ? 1 : 0;
        }
    }

    @Test
    void whoeverIsConnectedWhenThePageEndsIsToldSo() throws Exception {
        Socket desk = stream("127.0.0.1", instructor);
        assertThat(head(desk)).startsWith("HTTP/1.1 200");
        Socket idle = connected("127.0.0.1");
        Socket half = connected("127.0.0.1");
        half.getOutputStream().write("POST /order HTTP/1.1\r\n".getBytes(StandardCharsets.ISO_8859_1));
        Socket kept = asked("127.0.0.1", "GET /nothing", student);
        assertThat(head(kept)).startsWith("HTTP/1.1 404");
        server.close();
        assertThat(gone(idle)).isTrue();
        assertThat(gone(half)).isTrue();
        byte[] rest = new byte[1 << 22];
        assertThat(desk.getInputStream().readNBytes(rest, 0, rest.length)).isLessThan(rest.length);
    }

    /** Nobody flies. */
    private static final class Nobody implements PageActions {
        @Override
        public void execute(Runnable work, Runnable tooLate) {
            tooLate.run();
        }

        @Override
        public Optional<FlightSession> seat(String id) {
            return Optional.empty();
        }

        @Override
        public void keep(InstructorFile.Note note, Consumer<Kept> done, Runnable later) {
            throw new AssertionError("nobody flies");
        }

        @Override
        public void start() {
            throw new AssertionError("nobody flies");
        }

        @Override
        public void stop() {
            throw new AssertionError("nobody flies");
        }
    }
}
