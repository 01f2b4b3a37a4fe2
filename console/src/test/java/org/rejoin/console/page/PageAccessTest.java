package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.practice.Habit;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Who is let in, and what holds when a stranger tries. Requests by hand over a socket: a library would mend them. */
@Timeout(value = 60, unit = TimeUnit.SECONDS)
class PageAccessTest {

    private static final String TOKEN = "correct-horse-battery";
    private static final String SEAT = "127.0.0.1:40000 REJOIN";

    private static String ask(FlownPage page, String method, String path, String headers, String body)
            throws Exception {
        try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port(page))) {
            socket.setSoTimeout(5_000);
            socket.getOutputStream()
                    .write((method + " " + path + " HTTP/1.1\r\n" + headers + "Connection: close\r\nContent-Length: "
                                    + body.length() + "\r\n\r\n" + body)
                            .getBytes(StandardCharsets.ISO_8859_1));
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static int port(FlownPage page) {
        return page.server.localAddress().getPort();
    }

    private static String host(FlownPage page) {
        return "Host: 127.0.0.1:" + port(page) + "\r\n";
    }

    private static String origin(FlownPage page) {
        return "Origin: http://127.0.0.1:" + port(page) + "\r\n";
    }

    private static final String JSON = "Content-Type: application/json\r\n";

    @Test
    void aForeignHostIsRefused() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.empty())) {
            assertThat(ask(page, "GET", "/", host(page), "")).startsWith("HTTP/1.1 200");
            assertThat(ask(page, "GET", "/", "Host: localhost:" + port(page) + "\r\n", ""))
                    .startsWith("HTTP/1.1 200");
            for (String foreign : new String[] {
                "Host: evil.example:" + port(page) + "\r\n",
                "Host: 127.0.0.1\r\n",
                "Host: 127.0.0.2:" + port(page) + "\r\n",
                ""
            }) {
                assertThat(ask(page, "GET", "/", foreign, "")).startsWith("HTTP/1.1 421");
            }
        }
    }

    /** RFC 9112, section 3.2: a request with more than one Host is answered with 400. */
    @Test
    void twoHostsAreRefused() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.empty())) {
            for (String second : new String[] {"Host: evil.example\r\n", host(page)}) {
                assertThat(ask(page, "GET", "/", host(page) + second, "")).startsWith("HTTP/1.1 400");
            }
        }
    }

    /** Ten wrong ones a minute; then the right one is not taken either, and whoever is in stays in. */
    @Test
    void guessesAreLimitedAndItIsSaid() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.of(TOKEN))) {
            String session = cookie(page, TOKEN);
            String own = host(page) + origin(page) + JSON;
            for (int i = 0; i < Guesses.MOST; i++) {
                assertThat(ask(page, "POST", "/enter", own, "{\"token\":\"guess" + i + "\"}"))
                        .startsWith("HTTP/1.1 403");
            }
            for (String token : new String[] {"guess", TOKEN}) {
                assertThat(ask(page, "POST", "/enter", own, "{\"token\":\"" + token + "\"}"))
                        .startsWith("HTTP/1.1 429")
                        .contains("too many wrong tokens came from your address: wait ");
            }
            assertThat(page.warned).singleElement().asString().contains("127.0.0.1", "10 wrong tokens");
            assertThat(ask(page, "GET", "/", host(page) + session, "")).startsWith("HTTP/1.1 200");
        }
    }

    /** The student's token tells nothing of the instructor's: made twice beside the same one, it is another one. */
    @Test
    void aStudentsTokenHasNothingToDoWithTheInstructors() throws Exception {
        Set<String> made = new HashSet<>();
        for (int i = 0; i < 3; i++) {
            try (FlownPage page = new FlownPage("radial-outbound", Optional.of(TOKEN))) {
                String student = page.server.studentToken().orElseThrow();
                assertThat(student).matches("[0-9a-f]{32}");
                assertThat(made.add(student)).isTrue();
            }
        }
    }

    @Test
    void anOrderOfAnotherSiteIsRefused() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.empty())) {
            String stop = "{\"do\":\"stop\"}";
            for (String foreign : new String[] {"Origin: http://evil.example\r\n", "Origin: null\r\n", ""}) {
                assertThat(ask(page, "POST", "/order", host(page) + foreign + JSON, stop))
                        .startsWith("HTTP/1.1 403");
            }
            // A form of another site can send only this kind without being asked first.
            assertThat(ask(page, "POST", "/order", host(page) + origin(page) + "Content-Type: text/plain\r\n", stop))
                    .startsWith("HTTP/1.1 415");
            assertThat(ask(page, "GET", "/order", host(page), "")).startsWith("HTTP/1.1 404");
            assertThat(ask(page, "GET", "/stream", host(page) + "Sec-Fetch-Site: cross-site\r\n", ""))
                    .startsWith("HTTP/1.1 403");
            assertThat(page.pressed).isEmpty();
            assertThat(ask(page, "POST", "/order", host(page) + origin(page) + JSON, stop))
                    .startsWith("HTTP/1.1 200");
            assertThat(page.pressed).containsExactly("stop");
        }
    }

    @Test
    void withoutTheTokenThereIsOnlyTheDoor() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.of(TOKEN))) {
            assertThat(ask(page, "GET", "/", host(page), "")).contains("303").contains("location: /enter");
            assertThat(ask(page, "GET", "/model.js", host(page), "")).startsWith("HTTP/1.1 303");
            assertThat(ask(page, "GET", "/enter", host(page), "")).startsWith("HTTP/1.1 200");
            assertThat(ask(page, "GET", "/stream", host(page), "")).startsWith("HTTP/1.1 401");
            String stop = "{\"do\":\"stop\"}";
            String own = host(page) + origin(page) + JSON;
            assertThat(ask(page, "POST", "/order", own, stop)).startsWith("HTTP/1.1 401");
            String name = "Cookie: page-" + port(page) + "=";
            for (String wrong :
                    new String[] {"wrong", TOKEN, page.server.studentToken().orElseThrow()}) {
                assertThat(ask(page, "POST", "/order", own + name + wrong + "\r\n", stop))
                        .startsWith("HTTP/1.1 401");
            }
            assertThat(ask(page, "POST", "/enter", own, "{\"token\":\"wrong\"}"))
                    .startsWith("HTTP/1.1 403");
            String asInstructor = cookie(page, TOKEN);
            String asStudent = cookie(page, page.server.studentToken().orElseThrow());
            assertThat(ask(page, "GET", "/", host(page) + asStudent, "")).contains("location: /student");
            assertThat(ask(page, "GET", "/desk.js", host(page) + asStudent, "")).startsWith("HTTP/1.1 303");
            assertThat(ask(page, "POST", "/order", own + asStudent, stop)).startsWith("HTTP/1.1 403");
            assertThat(page.pressed).isEmpty();
            assertThat(ask(page, "POST", "/order", own + asInstructor, stop)).startsWith("HTTP/1.1 200");
        }
    }

    /** What a browser sends back after it has shown a token. */
    private static String cookie(FlownPage page, String token) throws Exception {
        String answer = ask(page, "POST", "/enter", host(page) + origin(page) + JSON, "{\"token\":\"" + token + "\"}");
        // RFC 6265, section 4.1: cookies do not keep ports apart, so the name must.
        Matcher set = Pattern.compile(
                        "set-cookie: (page-" + port(page) + "=[0-9a-f]{32}); HttpOnly; SameSite=Strict; Path=/\r\n")
                .matcher(answer);
        assertThat(set.find()).as(answer).isTrue();
        assertThat(answer).startsWith("HTTP/1.1 200").doesNotContain(token);
        return "Cookie: " + set.group(1) + "\r\n";
    }

    @Test
    void aCookieIsWorthNothingToAnotherServer() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.of(TOKEN));
                FlownPage other = new FlownPage("radial-outbound", Optional.of(TOKEN))) {
            String here = cookie(page, TOKEN);
            String there = cookie(other, TOKEN);
            assertThat(ask(page, "GET", "/", host(page) + here, "")).startsWith("HTTP/1.1 200");
            // A browser sends both to both, in one line.
            String both = here.strip() + "; " + there.substring("Cookie: ".length());
            assertThat(ask(page, "GET", "/", host(page) + both, "")).startsWith("HTTP/1.1 200");
            assertThat(ask(other, "GET", "/", host(other) + both, "")).startsWith("HTTP/1.1 200");
            assertThat(ask(other, "GET", "/", host(other) + here, "")).startsWith("HTTP/1.1 303");
            String renamed = here.replace("page-" + port(page), "page-" + port(other));
            assertThat(ask(other, "GET", "/", host(other) + renamed, "")).startsWith("HTTP/1.1 303");
        }
    }

    @Test
    void atTheUsualPortAHostNeedsNone() throws Exception {
        // RFC 9110, section 4.2.3: http://h and http://h:80 are the same.
        InetSocketAddress local = new InetSocketAddress(InetAddress.getLoopbackAddress(), 80);
        for (String host : new String[] {"127.0.0.1", "127.0.0.1:80", "localhost", "LOCALHOST:80"}) {
            assertThat(PageAccess.isHost(host, local)).as(host).isTrue();
            for (String origin : new String[] {host, host.replace(":80", ""), host.replace(":80", "") + ":80"}) {
                assertThat(PageAccess.isOrigin("http://", "http://" + origin, host, local))
                        .as(origin)
                        .isTrue();
            }
        }
        byte[] one = new byte[16];
        one[15] = 1;
        InetSocketAddress six = new InetSocketAddress(InetAddress.getByAddress(one), 80);
        assertThat(PageAccess.isHost("[::1]", six)).isTrue();
        assertThat(PageAccess.isHost("[::1]:80", six)).isTrue();
        for (String host : new String[] {"", ":80", "127.0.0.1:8080", "127.0.0.1:80:80", "evil.example", "127.0.0.2"}) {
            assertThat(PageAccess.isHost(host, local)).as(host).isFalse();
        }
        assertThat(PageAccess.isOrigin("http://", "https://127.0.0.1", "127.0.0.1", local))
                .isFalse();
    }

    @Test
    void aPageAtTheUsualPortIsOpenedAndTakesOrders() throws Exception {
        FlownPage opened;
        try {
            opened = new FlownPage(
                    "radial-outbound", new InetSocketAddress(InetAddress.getLoopbackAddress(), 80), Optional.empty());
        } catch (IOException e) {
            assumeTrue(false, "port 80 is not free to this user: " + e.getMessage());
            return;
        }
        try (FlownPage page = opened) {
            for (String host : new String[] {"127.0.0.1", "127.0.0.1:80", "localhost"}) {
                String headers = "Host: " + host + "\r\nOrigin: http://" + host.replace(":80", "") + "\r\n" + JSON;
                assertThat(ask(page, "GET", "/", headers, "")).startsWith("HTTP/1.1 200");
                assertThat(ask(page, "POST", "/order", headers, "{\"do\":\"stop\"}"))
                        .startsWith("HTTP/1.1 200");
            }
            assertThat(page.pressed).hasSize(3);
        }
    }

    @Test
    void everyAnswerForbidsWhatIsNotOurs() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.empty())) {
            for (String path : new String[] {"/", "/main.js", "/nothing", "/../../etc/passwd", "/%2e%2e/x"}) {
                assertThat(ask(page, "GET", path, host(page), ""))
                        .contains("Content-Security-Policy: default-src 'none'; script-src 'self'")
                        .contains("X-Content-Type-Options: nosniff")
                        .contains("Referrer-Policy: no-referrer")
                        .contains("Permissions-Policy: camera=()")
                        .contains("microphone=()")
                        .doesNotContain("unsafe");
            }
            assertThat(ask(page, "POST", "/order", host(page) + origin(page) + JSON, "x".repeat(9_000)))
                    .startsWith("HTTP/1.1 413");
            assertThat(ask(page, "POST", "/order", host(page) + origin(page) + JSON, "[[["))
                    .startsWith("HTTP/1.1 400");
            assertThat(ask(page, "DELETE", "/", host(page), "")).startsWith("HTTP/1.1 405");
            assertThat(ask(page, "GET", "/main.js?x=1", host(page), "")).startsWith("HTTP/1.1 200");
        }
    }

    /** W3C, Permissions Policy: an empty list forbids it to the page and to all it holds. */
    @Test
    void theMicrophoneIsForPagesThatAPilotTalksOn() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.empty())) {
            assertThat(ask(page, "GET", "/student", host(page), ""))
                    .contains("microphone=(self)", "camera=()")
                    .contains("Content-Security-Policy: default-src 'none'; script-src 'self'")
                    .doesNotContain("worker-src", "media-src", "blob:");
            assertThat(ask(page, "GET", "/talk-worklet.js", host(page), "")).contains("microphone=()");
        }
    }

    @Test
    void aNetworkAddressWithoutATokenIsRefusedAtTheStart() throws Exception {
        InetSocketAddress everywhere = new InetSocketAddress(0);
        InetSocketAddress here = new InetSocketAddress(InetAddress.getLoopbackAddress(), 0);
        assertThatThrownBy(() -> new FlownPage("radial-outbound", everywhere, Optional.empty()))
                .hasMessageContaining("--page-token");
        assertThatThrownBy(() -> new FlownPage("radial-outbound", here, Optional.of("short")))
                .hasMessageContaining("12 or more");
    }

    @Test
    void aPageThatStopsReadingIsLetGoAndHoldsNobodyUp() throws Exception {
        try (FlownPage page = new FlownPage("radial-outbound", Optional.empty())) {
            page.fly(SEAT, page.states(Habit.GOOD, 5).subList(0, 300));
            try (Socket deaf = new Socket()) {
                deaf.setReceiveBufferSize(4_096);
                deaf.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port(page)));
                deaf.getOutputStream()
                        .write(("GET /stream HTTP/1.1\r\n" + host(page) + "\r\n")
                                .getBytes(StandardCharsets.ISO_8859_1));
                String longLine = "x".repeat(4_000);
                long waited = 0;
                while (page.server.dropped() == 0 && waited < 40_000) {
                    page.onThread(() -> {
                        for (int i = 0; i < 200; i++) {
                            page.page(SEAT).note(longLine);
                        }
                    });
                    Thread.sleep(60);
                    waited += 60;
                }
                assertThat(page.server.dropped()).isEqualTo(1);
            }
            // The flight goes on, and who reads is told.
            page.onThread(
                    () -> page.page(SEAT).happened(new Entry.Happened(60, new FlightEvent.CourseCrossed(61, 40))));
            try (Socket reader = new Socket(InetAddress.getLoopbackAddress(), port(page))) {
                reader.setSoTimeout(10_000);
                reader.getOutputStream()
                        .write(("GET /stream HTTP/1.1\r\n" + host(page) + "\r\n")
                                .getBytes(StandardCharsets.ISO_8859_1));
                InputStream in = reader.getInputStream();
                StringBuilder heard = new StringBuilder();
                byte[] some = new byte[65_536];
                while (heard.indexOf("crossed the course at 40 degrees") < 0) {
                    int count = in.read(some);
                    assertThat(count).isPositive();
                    heard.append(new String(some, 0, count, StandardCharsets.ISO_8859_1));
                }
            }
        }
    }
}
