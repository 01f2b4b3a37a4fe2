package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.InputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.concurrent.TimeUnit;

import org.rejoin.bridge.tracker.TrackerEvent;
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
            assertThat(ask(page, "POST", "/order", own + "Cookie: page=wrong\r\n", stop))
                    .startsWith("HTTP/1.1 401");
            assertThat(ask(page, "POST", "/enter", own, "{\"token\":\"wrong\"}"))
                    .startsWith("HTTP/1.1 403");
            assertThat(ask(page, "POST", "/enter", own, "{\"token\":\"" + TOKEN + "\"}"))
                    .contains("set-cookie: page=" + TOKEN + "; HttpOnly; SameSite=Strict");
            String student = page.server.studentToken().orElseThrow();
            String asStudent = "Cookie: page=" + student + "\r\n";
            assertThat(ask(page, "GET", "/", host(page) + asStudent, "")).contains("location: /student");
            assertThat(ask(page, "GET", "/desk.js", host(page) + asStudent, "")).startsWith("HTTP/1.1 303");
            assertThat(ask(page, "POST", "/order", own + asStudent, stop)).startsWith("HTTP/1.1 403");
            assertThat(page.pressed).isEmpty();
            assertThat(ask(page, "POST", "/order", own + "Cookie: page=" + TOKEN + "\r\n", stop))
                    .startsWith("HTTP/1.1 200");
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
            page.onThread(() -> page.page(SEAT).event(new TrackerEvent.CourseCrossed(61, 40)));
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
