package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import javax.imageio.ImageIO;

import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A day of two pilots in the practice room: the real program, a real browser, sockets of this machine. */
@Timeout(value = 8, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class RoomDayInBrowserTest extends RealRoom {

    @BeforeEach
    void aBrowserIsThere() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
    }

    private static String seat(String id) {
        return ".seat-row[data-seat=\"" + id + "\"]";
    }

    private static void press(Browser browser, String within, String name) throws Exception {
        String find =
                "[...document.querySelectorAll(" + quoted(within) + " + ' button')].find((b) => b.innerText.startsWith("
                        + quoted(name) + ") || (b.getAttribute('aria-label') || '').startsWith(" + quoted(name) + "))";
        browser.until(find + " !== undefined");
        browser.value(find + ".click()");
    }

    private static String quoted(String text) {
        return "'" + text.replace("'", "\\'") + "'";
    }

    private void give(Browser browser, String id, String pilot, String lesson) throws Exception {
        browser.untilText(seat(id), "Begin at");
        browser.until("document.querySelectorAll('" + seat(id) + " select option').length > 1");
        browser.retype(seat(id) + " input[type=text]", pilot);
        browser.choose(seat(id) + " select", lesson);
        press(browser, seat(id), "Begin at");
    }

    /** Once is not enough: a slip must not end a flight. */
    private static void end(Browser browser, String id) throws Exception {
        press(browser, seat(id), "End the attempt");
        press(browser, seat(id), "Press again to end it");
        browser.untilText(seat(id), "Debrief");
    }

    /** The square code in a picture, read by a library of others (ZXing). */
    private static String scanned(byte[] png) throws Exception {
        BufferedImage picture = ImageIO.read(new ByteArrayInputStream(png));
        int width = picture.getWidth();
        int height = picture.getHeight();
        int[] pixels = picture.getRGB(0, 0, width, height, null, 0, width);
        return new QRCodeReader()
                .decode(new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(width, height, pixels))))
                .getText();
    }

    @Test
    void twoPilotsFlyThreeLessonsTheProgramIsKilledAndTheSheetHasTheRightName() throws Exception {
        try (Simulator one = new Simulator(feed, 60).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800);
                Browser tablet = new Browser(folder, 820, 1180)) {
            String link;
            try (RealProgram first = room()) {
                desk.open(address() + "/");
                give(desk, "s1", "Anna Ocean", "radial-outbound");
                desk.untilText(seat("s1"), "Anna Ocean flies");

                // A tablet joins by the code that the page shows.
                press(desk, ".columns", "Join code for Anna Ocean");
                desk.untilText(".join", "Good until ");
                desk.until("document.querySelector('.join .code').naturalWidth > 0");
                desk.picture("room-home-1280x800");
                link = address() + "/enter#" + desk.text(".code-text");
                assertThat(desk.text(".join")).contains("Only this machine reaches that address");
                // As a tablet's camera does.
                assertThat(scanned(desk.screen())).isEqualTo(link);
                // Or typed, where the link of an older code was opened before.
                tablet.open(address() + "/enter");
                assertThat(tablet.text("main")).contains("Join code");
                tablet.type("#token", "BCDFGH");
                tablet.key("Enter");
                tablet.untilText("#answer", "there is no such code");
                tablet.value("location.hash = '#" + desk.text(".code-text") + "'");
                tablet.untilText("#strip", "Anna Ocean");
                tablet.untilText("#next", "turn");
                tablet.picture("room-own-820x1180");

                // Its lesson goes through, and it is in the book; the next one is a press.
                desk.open(address() + "/live");
                desk.untilText(".tile", "Anna Ocean");
                desk.picture("room-live-1280x800");
                desk.open(address() + "/");
                end(desk, "s1");
                one.fly(LessonReader.read("radial-inbound"), Habit.GOOD);
                give(desk, "s1", "Anna Ocean", "radial-inbound");
                desk.untilText(seat("s1"), "Anna Ocean flies Radial inbound");
                tablet.untilText("#title", "Radial inbound");

                // A second pilot at another aircraft; then the program is killed.
                try (Simulator two = new Simulator(feed, 60).fly(LessonReader.read("heading-to-airway"), Habit.LATE)) {
                    desk.untilText(seat("s2"), "waits for a lesson");
                    give(desk, "s2", "Bert", "heading-to-airway");
                    desk.untilText(seat("s2"), "Bert flies");
                    Thread.sleep(1_500);
                }
            }
            try (RealProgram again = room()) {
                assertThat(again.said()).contains("in whose flight the program was ended");
                // The tablet is still in, though nobody did anything.
                tablet.untilText("#strip", "Anna Ocean, your instructor gives you a seat");
                // What was flown before is not left standing as if it were flown now.
                tablet.untilText("#clock", "--:--");
                desk.open(address() + "/book");
                desk.untilText("table.book", "Anna Ocean");
                desk.until("document.querySelectorAll('table.book tbody tr').length === 3");
                desk.picture("room-book-1280x800");
                desk.retype("#find", "bert");
                desk.until("document.querySelectorAll('table.book tbody tr').length === 1");
                assertThat(desk.text("table.book tbody")).contains("Bert");

                // Signed and printed with the right name.
                desk.retype("#find", "radial outbound");
                desk.untilText("table.book tbody", "Anna Ocean");
                desk.until("document.querySelectorAll('table.book tbody tr').length === 1");
                String id = desk.value("document.querySelector('table.book tbody tr').dataset.attempt")
                        .asText();
                desk.open(address() + "/debrief?id=" + id);
                desk.untilText("#result", "of 100");
                desk.retype("#late-remark", "well led");
                desk.click("#keep-remark");
                desk.until("/\\d\\d:\\d\\d well led/.test(document.getElementById('side').innerText)");
                desk.retype("#sign-name", "C. Instructor");
                desk.retype("#sign-certificate", "4711");
                desk.click("#sign");
                desk.untilText("#side", "C. Instructor, certificate 4711");
                desk.picture("room-debrief-1280x800");
                String report = desk.value("fetch('/api/attempt/" + id + "/report').then((r) => r.text())")
                        .asText();
                assertThat(report)
                        .contains("Anna Ocean")
                        .contains("C. Instructor")
                        .contains("well led");
                // And the tablet shows the next flight by itself.
                one.fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                desk.open(address() + "/");
                give(desk, "s1", "Anna Ocean", "radial-outbound");
                tablet.untilText("#log", "flight began");
                // Of a program that was killed no page hears more than that it is gone.
                assertThat(desk.complaints()).allMatch(each -> each.contains("net::ERR_"));
                // Until the seat is its pilot's again, the tablet may not follow it.
                assertThat(tablet.complaints())
                        .allMatch(each -> each.contains("net::ERR_") || each.matches(".*403.*/(stream/s1|enter)"));
                try (Stream<Path> found = Files.walk(home.resolve("attempts"))) {
                    assertThat(found.filter(each -> each.endsWith("flight.pcap")))
                            .hasSize(4);
                }
            }
        }
    }
}
