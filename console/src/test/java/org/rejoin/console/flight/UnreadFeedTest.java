package org.rejoin.console.flight;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.profile.Profile;

import org.junit.jupiter.api.Test;

/** A feed that is not understood is said within three seconds, once, with the next step. */
class UnreadFeedTest {

    private static final InetSocketAddress SENDER = new InetSocketAddress(InetAddress.getLoopbackAddress(), 40123);
    private static final String PROFILE = """
            profile: 1
            name: ours
            binary: {magic: 41 42, length: 24}
            values:
              - {is: latitude, at: 4, type: f64, unit: deg}
              - {is: longitude, at: 12, type: f64, unit: deg}
            """;

    private static Datagram datagram(double atS, byte[] octets) {
        return Datagram.of(Math.round(atS * 1e6), SENDER, octets);
    }

    private static Datagram text(double atS, String text) {
        return datagram(atS, text.getBytes(StandardCharsets.US_ASCII));
    }

    private static List<AircraftSorter.SenderReport> report(long samples, long notPositions, long unrecognised) {
        return List.of(new AircraftSorter.SenderReport(
                SENDER,
                notPositions > 0 ? Optional.of("nmea") : Optional.empty(),
                samples + notPositions + unrecognised,
                samples,
                notPositions,
                0,
                unrecognised,
                List.of()));
    }

    private static List<String> look(UnreadFeed feed, double atS, List<AircraftSorter.SenderReport> report) {
        return feed.look(Math.round(atS * 1e6), () -> report);
    }

    @Test
    void anUnknownLayoutIsSaidOnceWithSenderExcerptAndNextStep() {
        UnreadFeed feed = new UnreadFeed(List.of(new JsonFormat()), 3000);
        feed.heard(text(100, "POS;38.2;-49.9\r\n"));
        assertThat(look(feed, 101, report(0, 0, 1))).isEmpty();
        assertThat(look(feed, 102.9, report(0, 0, 2)))
                .singleElement()
                .asString()
                .contains(
                        "127.0.0.1:40123",
                        "\"POS;38.2;-49.9\"",
                        "16 octets",
                        "feed learn --port 3000 --out my-feed.yaml");
        assertThat(look(feed, 110, report(0, 0, 9))).isEmpty();
    }

    /** For a page that is opened later: what was said holds until the sender is understood. */
    @Test
    void whatWasSaidStandsUntilTheSenderIsUnderstood() {
        UnreadFeed feed = new UnreadFeed(List.of(new JsonFormat()), 3000);
        feed.heard(text(100, "POS;38.2;-49.9\r\n"));
        assertThat(feed.standing()).isEmpty();
        List<String> said = look(feed, 102.9, report(0, 0, 2));
        assertThat(feed.standing()).isEqualTo(said).hasSize(1);
        look(feed, 110, report(0, 0, 9));
        assertThat(feed.standing()).isEqualTo(said);
        assertThat(look(feed, 112, report(1, 0, 9))).isEmpty();
        assertThat(feed.standing()).isEmpty();
    }

    @Test
    void octetsThatAreNoTextAreShownAsOctets() {
        UnreadFeed feed = new UnreadFeed(List.of(), 3000);
        feed.heard(datagram(0, new byte[] {1, 2, (byte) 0xAB, 0}));
        assertThat(look(feed, 3, report(0, 0, 1))).singleElement().asString().contains("01 02 ab 00");
    }

    @Test
    void aFeedThatIsReadIsNotSpokenOf() {
        UnreadFeed feed = new UnreadFeed(List.of(), 3000);
        feed.heard(text(0, "{}"));
        assertThat(look(feed, 5, report(1, 0, 3))).isEmpty();
        assertThat(look(feed, 60, report(1, 0, 300))).isEmpty();
    }

    @Test
    void sentencesWithoutAPositionAreGivenMoreTime() {
        UnreadFeed feed = new UnreadFeed(List.of(), 3000);
        feed.heard(text(0, "$GPHDT,12.0,T*00\r\n"));
        assertThat(look(feed, 3, report(0, 3, 0))).isEmpty();
        assertThat(look(feed, 9, report(0, 9, 0)))
                .singleElement()
                .asString()
                .contains("nmea without a position", "feed watch");
    }

    @Test
    void aProfileThatNearlyFitsIsNamedWithWhatIsDifferent() throws Exception {
        Profile format = Profile.parse(PROFILE);
        UnreadFeed longer = new UnreadFeed(List.of(format), 3000);
        byte[] octets = new byte[28];
        octets[0] = 0x41;
        octets[1] = 0x42;
        longer.heard(datagram(0, octets));
        assertThat(look(longer, 3, report(0, 0, 3)))
                .singleElement()
                .asString()
                .contains("\"ours\" nearly fits", "28 octets, the profile says 24");
        UnreadFeed other = new UnreadFeed(List.of(format), 3000);
        other.heard(datagram(0, new byte[24]));
        assertThat(look(other, 3, report(0, 0, 3))).singleElement().asString().contains("begin with 00 00", "41 42");
        UnreadFeed far = new UnreadFeed(List.of(format), 3000);
        far.heard(datagram(0, new byte[200]));
        assertThat(look(far, 3, report(0, 0, 3))).singleElement().asString().contains("no format", "feed learn");
    }
}
