package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.security.cert.X509Certificate;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManager;
import javax.net.ssl.X509TrustManager;

import org.rejoin.bridge.feed.MicroClock;
import org.rejoin.console.Browser;
import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.door.PageCertificate;
import org.rejoin.console.door.Sessions;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.room.Room;
import org.rejoin.console.room.RoomDesk;
import org.rejoin.console.room.RoomLessons;
import org.rejoin.console.room.RoomRecords;
import org.rejoin.console.speech.Speech;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Who gets what of a practice room, asked as a browser asks. */
class RoomAccessTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    @SuppressWarnings("NullAway.Init") // each test opens its room first
    private RecordBook book;

    @SuppressWarnings("NullAway.Init")
    private PageServer server;

    @SuppressWarnings("NullAway.Init")
    private Room room;

    private HttpClient http = HttpClient.newHttpClient();
    private String scheme = "http";

    private void open(boolean tls) throws Exception {
        HomeFolder home = HomeFolder.open(folder.resolve("home"));
        book = new RecordBook(home, note -> {});
        RoomRecords.Grading none = new RoomRecords.Grading() {
            @Override
            public void end(AttemptFolder attempt) {
                throw new AssertionError("nothing is flown here");
            }

            @Override
            public Again again(AttemptFolder attempt) {
                throw new AssertionError("nothing is flown here");
            }
        };
        RoomRecords records = new RoomRecords(book, none, "rejoin test", note -> {});
        RoomLessons lessons = new RoomLessons(home, Optional.empty());
        Optional<PageCertificate> certificate = tls
                ? Optional.of(
                        PageCertificate.made(home, java.util.List.of(InetAddress.getLoopbackAddress()), Instant.now()))
                : Optional.empty();
        RoomDesk desk = new RoomDesk(
                records,
                lessons,
                Sessions.of(home.secret(), home.place()),
                certificate.map(PageCertificate::fingerprint).orElse(""),
                Map.of());
        server = PageServer.open(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                certificate.map(PageCertificate::keys),
                desk,
                Speech.NONE,
                note -> {});
        room = new Room(
                new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                java.util.Set.of(),
                MicroClock.steady(),
                new Room.Setting(
                        Formats.builtIn(), java.util.List.of(), lessons, records, Optional.empty(), note -> {}),
                server);
        scheme = tls ? "https" : "http";
        desk.open(room, address());
    }

    @AfterEach
    void close() throws Exception {
        if (room != null) {
            room.close();
            server.close();
            book.close();
        }
    }

    private String address() {
        return scheme + "://127.0.0.1:" + server.localAddress().getPort();
    }

    private HttpResponse<String> get(String path, String cookie) throws Exception {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address() + path));
        if (!cookie.isEmpty()) {
            request.header("Cookie", cookie);
        }
        return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private HttpResponse<String> post(String path, String json, String cookie, String origin) throws Exception {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address() + path))
                .header("Content-Type", "application/json")
                .header("Origin", origin)
                .POST(HttpRequest.BodyPublishers.ofString(json));
        if (!cookie.isEmpty()) {
            request.header("Cookie", cookie);
        }
        return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
    }

    private JsonNode ordered(String what, String json) throws Exception {
        HttpResponse<String> reply = post("/api/" + what, json, "", address());
        assertThat(reply.statusCode()).as(reply.body()).isEqualTo(200);
        return JSON.readTree(reply.body());
    }

    /** His cookie, for a code that the instructor opened. */
    private String joined(String pilot) throws Exception {
        String code =
                ordered("code", "{\"pilot\":\"" + pilot + "\"}").path("code").asText();
        HttpResponse<String> reply = post("/enter", "{\"token\":\"" + code + "\"}", "", address());
        assertThat(reply.statusCode()).isEqualTo(200);
        assertThat(reply.body()).contains("/own");
        return reply.headers().firstValue("Set-Cookie").orElseThrow();
    }

    private static String pair(String cookie) {
        return cookie.substring(0, cookie.indexOf(';'));
    }

    @Test
    void fromElsewhereNothingIsGivenWithoutACode() throws Exception {
        open(false);
        // The loopback network has more addresses than one: what comes from another is still this machine's own, so the
        // rule itself is asked.
        assertThat(new String[] {"192.0.2.7", "198.51.100.1", "2001:db8::1"})
                .allSatisfy(other -> assertThat(org.rejoin.console.page.PageRules.isOwn(
                                new InetSocketAddress(other, 40_000), new InetSocketAddress("192.0.2.1", 8_047)))
                        .isFalse());
        assertThat(post("/enter", "{\"token\":\"BCDFGH\"}", "", address()).statusCode())
                .isEqualTo(403);
    }

    @Test
    void aPilotOfThisMachineStaysAPilot() throws Exception {
        open(false);
        String cookie = joined("Anna");
        assertThat(cookie).contains("HttpOnly", "SameSite=Strict", "Max-Age=").doesNotContain("Secure");
        JsonNode me = JSON.readTree(get("/api/me", pair(cookie)).body());
        assertThat(me.path("is_instructor").asBoolean()).isFalse();
        assertThat(me.path("pilot").asText()).isEqualTo("Anna");
        assertThat(get("/", pair(cookie)).headers().firstValue("Location")).contains("/own");
    }

    @Test
    void aPilotSeesHisOwnAlone() throws Exception {
        open(false);
        String cookie = pair(joined("Anna"));
        assertThat(get("/stream/s1", cookie).statusCode()).isEqualTo(403);
        for (String path : new String[] {"pilots", "lessons", "charts"}) {
            assertThat(get("/api/" + path, cookie).statusCode()).as(path).isEqualTo(403);
        }
        for (String order : new String[] {
            "assign", "again", "end", "name", "code", "revoke", "shown", "instructor", "keep", "here", "rename"
        }) {
            assertThat(post("/api/" + order, "{}", cookie, address()).statusCode())
                    .as(order)
                    .isEqualTo(403);
        }
        assertThat(get("/api/attempts", cookie).statusCode()).isEqualTo(200);
    }

    @Test
    void takenBackIsOut() throws Exception {
        open(false);
        String cookie = pair(joined("Anna"));
        ordered("revoke", "{\"pilot\":\"Anna\"}");
        assertThat(get("/api/me", cookie).statusCode())
                .as("a stranger, at this machine's own browser too")
                .isEqualTo(401);
        assertThat(get("/", cookie).headers().firstValue("Location")).contains("/enter?out");
        assertThat(post("/api/code", "{\"instructor\":true}", cookie, address()).statusCode())
                .isEqualTo(401);
        assertThat(get("/api/me", pair(joined("Anna"))).statusCode())
                .as("by a new code, at once")
                .isEqualTo(200);
    }

    /** Ends when the server ends it; everything that was told until then. */
    private java.util.concurrent.CompletableFuture<String> stream(String path, String cookie) {
        return http.sendAsync(
                        HttpRequest.newBuilder(URI.create(address() + path))
                                .header("Cookie", cookie)
                                .build(),
                        HttpResponse.BodyHandlers.ofString())
                .thenApply(HttpResponse::body);
    }

    @Test
    void aTabletThatIsOutIsToldNothingMoreThoughItsPageIsStillOpen() throws Exception {
        open(false);
        String annas = pair(joined("Anna"));
        String bos = pair(joined("Bo"));
        var anna = stream("/stream/room", annas);
        var bo = stream("/stream/room", bos);
        awaitOpen(2);
        ordered("revoke", "{\"pilot\":\"Anna\"}");
        assertThat(anna.get(1, java.util.concurrent.TimeUnit.SECONDS)).contains("\"k\":\"room\"");
        assertThat(bo).isNotDone();
        assertThat(get("/stream/room", annas).statusCode()).isEqualTo(401);
        ordered("revoke", "{\"all\":true}");
        assertThat(bo.get(1, java.util.concurrent.TimeUnit.SECONDS)).contains("\"k\":\"room\"");
    }

    @Test
    void theOpenPageOfATabletThatIsOutBecomesThePageOfTheCodeAndTheInstructorIsTold() throws Exception {
        assumeTrue(Browser.installed().isPresent(), "no browser on this machine");
        open(false);
        String code = code("{\"pilot\":\"Anna\"}");
        try (Browser tablet = new Browser(folder, 800, 600);
                Browser desk = new Browser(folder, 1280, 900)) {
            desk.open(address() + "/");
            tablet.open(address() + "/enter#" + code);
            tablet.until("document.body?.textContent.includes('Anna, your instructor gives you a seat')");
            String out =
                    "[...document.querySelectorAll('button')].find((b) => b.ariaLabel === 'Disconnect tablets of Anna'"
                            + " || b.textContent.includes('all tablets of Anna'))";
            desk.until(out + " !== undefined");
            // The code that is open goes with them: it is not left to be typed in vain.
            desk.value(
                    "[...document.querySelectorAll('button')].find((b) => b.ariaLabel === 'Join code for Anna').click()");
            desk.untilText(".join", "For Anna");
            desk.value(out + ".click()");
            desk.until(out + ".textContent.includes('Press again')");
            desk.value(out + ".click()");
            desk.untilText("#tablets-out", "Anna's tablets are disconnected");
            desk.until("document.querySelector('.join') === null");
            tablet.until(
                    "location.pathname === '/enter'"
                            + " && document.getElementById('answer')?.textContent.includes('This device is not in the room any more')");
            assertThat(tablet.value("document.body.textContent").asText())
                    .contains("Ask your instructor for a new code")
                    .doesNotContain("Anna");
        }
    }

    /** As by "pilots forget" in another window, while the room is open. */
    @Test
    void aPilotWhoIsForgottenWhileTheRoomIsOpenIsOutAndStaysForgotten() throws Exception {
        open(false);
        String cookie = pair(joined("Anna"));
        String id =
                JSON.readTree(get("/api/me", cookie).body()).path("pilot_id").asText();
        String code = code("{\"pilot\":\"Anna\"}");
        var anna = stream("/stream/room", cookie);
        awaitOpen(1);
        try (RecordBook beside = new RecordBook(HomeFolder.existing(folder.resolve("home")), note -> {})) {
            beside.forget("Anna");
        }
        anna.get(3, java.util.concurrent.TimeUnit.SECONDS);
        assertThat(get("/api/paper?pilot=Anna", cookie).statusCode()).isEqualTo(401);
        assertThat(get("/own", cookie).headers().firstValue("Location")).contains("/enter?out");
        assertThat(entered(code)).isEqualTo(403);
        HttpResponse<String> old = post("/api/code", "{\"pilot\":\"" + id + "\"}", "", address());
        assertThat(old.body()).as("of an instructor's page that knew him").contains("any more");
        assertThat(get("/api/pilots", "").body()).isEqualTo("[]");
    }

    /** On the page, and by "pilots rename" in another window. */
    @Test
    void aPilotWhoIsRenamedWhileTheRoomIsOpenStaysIn() throws Exception {
        open(false);
        String cookie = pair(joined("Anna"));
        joined("Bo");
        ordered("rename", "{\"pilot\":\"Anna\",\"name\":\"Anna B.\"}");
        assertThat(JSON.readTree(get("/api/me", cookie).body()).path("pilot").asText())
                .isEqualTo("Anna B.");
        HttpResponse<String> number = post("/api/rename", "{\"pilot\":7,\"name\":\"Bea\"}", "", address());
        assertThat(number.statusCode()).isEqualTo(400);
        assertThat(number.body()).isEqualTo("pilot must be text");
        HttpResponse<String> two = post("/api/rename", "{\"pilot\":\"Anna B.\",\"name\":\"bo\"}", "", address());
        assertThat(two.statusCode()).isEqualTo(409);
        assertThat(two.body()).contains("another pilot is called Bo already");
        try (RecordBook beside = new RecordBook(HomeFolder.existing(folder.resolve("home")), note -> {})) {
            beside.rename("Anna B.", "Anneke");
        }
        assertThat(JSON.readTree(get("/api/me", cookie).body()).path("pilot").asText())
                .isEqualTo("Anneke");
        ordered("pilots", "{\"name\":\"abe\"}");
        assertThat(JSON.readTree(get("/api/pilots", "").body()).findValuesAsText("name"))
                .as("by name, whoever came first")
                .containsExactly("abe", "Anneke", "Bo");
    }

    @Test
    void whatIsNotUnderstoodAndWhoIsNotKnownAreNotTakenForSomethingElse() throws Exception {
        open(false);
        for (String bad : new String[] {"attempts?score=abc", "attempts?order=foo", "attempts?backward=maybe"}) {
            assertThat(get("/api/" + bad, "").statusCode()).as(bad).isEqualTo(400);
        }
        assertThat(get("/api/attempts?order=foo", "").body())
                .isEqualTo("order is one of date, pilot, lesson, score, not foo");
        assertThat(get("/api/attempts?pilot=Nobody", "").statusCode()).isEqualTo(404);
        assertThat(get("/api/attempt/nosuch", "").statusCode()).isEqualTo(404);
        assertThat(post("/api/pilots", "{\"name\":7}", "", address()).body()).isEqualTo("name must be text");
        assertThat(get("/api/pilots", "").body()).isEqualTo("[]");
    }

    @Test
    void aMarkThatIsNoNumberAndASignatureThatIsNoNameAreRefused() throws Exception {
        open(false);
        String id = Attempt.newId(Instant.now(), new SecureRandom());
        AttemptFolder kept = book.begin(new Attempt(
                id, "Anna", "", "REJOIN", "Hold", Instant.now(), java.util.OptionalDouble.of(60), "test", "", "", ""));
        String at = "/api/attempt/" + id;
        assertThat(post(at + "/mark", "{\"score\":\"abc\",\"by\":\"Kim\",\"reason\":\"so\"}", "", address())
                        .body())
                .isEqualTo("a mark is a number, 0 to 100, not \"abc\"");
        HttpResponse<String> signed = post(at + "/sign", "{\"name\":\"" + "x".repeat(3_000) + "\"}", "", address());
        assertThat(signed.statusCode()).isEqualTo(400);
        assertThat(signed.body()).isEqualTo("name has 3000 characters; 80 are the most");
        assertThat(post(at + "/sign", "{\"name\":7}", "", address()).statusCode())
                .isEqualTo(400);
        assertThat(kept.ownMark()).isEmpty();
        assertThat(kept.checked()).isEmpty();
        assertThat(post(at + "/mark", "{\"score\":80.55555,\"by\":\"Kim\",\"reason\":\"so\"}", "", address())
                        .statusCode())
                .isEqualTo(200);
        assertThat(kept.ownMark().orElseThrow().score())
                .as("as a score is shown")
                .isEqualTo(80.6);
    }

    private void awaitOpen(int pages) throws Exception {
        for (int tries = 0; server.open() < pages && tries < 100; tries++) {
            Thread.sleep(20);
        }
        assertThat(server.open()).isEqualTo(pages);
    }

    @Test
    void whatATabletThatIsOutSendsIsAnsweredWithANewCodeAsTheWayBack() throws Exception {
        open(false);
        String cookie = pair(joined("Anna"));
        ordered("revoke", "{\"pilot\":\"Anna\"}");
        HttpResponse<String> readback =
                post("/order", "{\"do\":\"readback\",\"text\":\"heading 110\"}", cookie, address());
        assertThat(readback.statusCode()).isEqualTo(401);
        assertThat(readback.body())
                .isEqualTo("this device is out: ask your instructor for a new code")
                .doesNotContain("token");
        assertThat(get("/own", cookie).headers().firstValue("Location")).contains("/enter?out");
    }

    @Test
    void aCodeSaysWhoseItIsAndUntilWhenAndEachDeviceItIsTypedOnIsIn() throws Exception {
        open(false);
        Instant before = Instant.now();
        JsonNode given = ordered("code", "{\"pilot\":\"Anna\"}");
        assertThat(given.path("for").asText()).isEqualTo("Anna");
        assertThat(Instant.parse(given.path("until_utc").asText()))
                .isBetween(before.plusSeconds(599), Instant.now().plusSeconds(600));
        assertThat(entered(given.path("code").asText())).isEqualTo(200);
        assertThat(entered(given.path("code").asText())).as("a second tablet").isEqualTo(200);
        assertThat(ordered("code", "{\"instructor\":true}").path("for").asText())
                .isEmpty();
        if (Browser.installed().isPresent()) {
            try (Browser desk = new Browser(folder, 1280, 900)) {
                desk.open(address() + "/");
                String button =
                        "[...document.querySelectorAll('button')].find((b) => b.ariaLabel === 'Join code for Anna')";
                desk.until(button + " !== undefined");
                desk.value(button + ".click()");
                desk.until("document.querySelector('.join') !== null");
                assertThat(desk.text(".join")).contains("For Anna", "Good until ", "as many devices as it is typed on");
            }
        }
    }

    @Test
    void withTheTabletsTheirCodesAreTakenBack() throws Exception {
        open(false);
        String annas = code("{\"pilot\":\"Anna\"}");
        String bos = code("{\"pilot\":\"Bo\"}");
        String instructors = code("{\"instructor\":true}");
        ordered("revoke", "{\"pilot\":\"Anna\"}");
        assertThat(entered(annas)).isEqualTo(403);
        assertThat(entered(bos)).isEqualTo(200);
        ordered("revoke", "{\"all\":true}");
        assertThat(entered(bos)).isEqualTo(403);
        assertThat(entered(instructors)).isEqualTo(403);
    }

    private String code(String whose) throws Exception {
        return ordered("code", whose).path("code").asText();
    }

    private int entered(String code) throws Exception {
        return post("/enter", "{\"token\":\"" + code + "\"}", "", address()).statusCode();
    }

    @Test
    void anotherSiteOrdersNothing() throws Exception {
        open(false);
        assertThat(post("/api/pilots", "{\"name\":\"Eve\"}", "", "http://example.org")
                        .statusCode())
                .isEqualTo(403);
        assertThat(get("/api/pilots", "").body()).isEqualTo("[]");
    }

    @Test
    void aNameIsNoMarkup() throws Exception {
        open(false);
        ordered("pilots", "{\"name\":\"<script>alert(1)</script>\"}");
        HttpResponse<String> reply = get("/api/pilots", "");
        assertThat(reply.headers().firstValue("Content-Type")).contains("application/json");
        assertThat(reply.headers().firstValue("Content-Security-Policy").orElse(""))
                .contains("script-src 'self'");
        assertThat(post("/api/pilots", "{\"name\":\"\"}", "", address()).body()).contains("1 to 80 characters");
    }

    @Test
    void encryptedWithACertificateMadeHere() throws Exception {
        SSLContext all = SSLContext.getInstance("TLS");
        all.init(
                null,
                new TrustManager[] {
                    new X509TrustManager() {
                        @Override
                        public void checkClientTrusted(X509Certificate[] chain, String type) {}

                        @Override
                        public void checkServerTrusted(X509Certificate[] chain, String type) {}

                        @Override
                        public X509Certificate[] getAcceptedIssuers() {
                            return new X509Certificate[0];
                        }
                    }
                },
                new SecureRandom());
        http = HttpClient.newBuilder().sslContext(all).build();
        open(true);
        assertThat(joined("Anna")).contains("; Secure");
        // Beside the code stands what a tablet shows of the certificate that it is served with.
        HttpResponse<String> served = get("/api/me", "");
        byte[] certificate =
                served.sslSession().orElseThrow().getPeerCertificates()[0].getEncoded();
        String fingerprint = HexFormat.ofDelimiter(":")
                .withUpperCase()
                .formatHex(MessageDigest.getInstance("SHA-256").digest(certificate));
        assertThat(ordered("code", "{\"pilot\":\"Bert\"}").path("fingerprint").asText())
                .isEqualTo(fingerprint);
        assertThat(JSON.readTree(served.body()).path("fingerprint").asText()).isEqualTo(fingerprint);
        assertThat(get("/", "").body()).contains("Practice room");
    }
}
