package org.rejoin.console.flight;

import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.profile.NearFit;
import org.rejoin.protocol.profile.Profile;

/**
 * Says within three seconds that what arrives cannot be flown by, from whom it comes, what it looks like, and what to do
 * next: a pilot must not sit before a silent screen.
 */
public final class UnreadFeed {

    /** A state of several sentences at one a second needs its time, microseconds. */
    private static final long PATIENCE_MICROS = 2_000_000;

    /** Positions may be sent more seldom than the rest, microseconds. */
    private static final long NO_POSITION_MICROS = 8_000_000;

    /** Who was complained of is looked at again so often, microseconds. */
    private static final long AGAIN_MICROS = 1_000_000;

    private static final int MOST_SENDERS = 16;
    private static final int SHOWN = 48;
    private static final int SHOWN_OCTETS = 16;

    private final List<WireFormat> formats;
    private final int port;
    private final Map<InetSocketAddress, Stranger> strangers = new LinkedHashMap<>();
    private long askedMicros;

    /** One sender so far: since when, and its last datagram. */
    private static final class Stranger {
        private final long sinceMicros;
        private Datagram last;
        private boolean said;
        private String standing = "";

        Stranger(Datagram first) {
            sinceMicros = first.receivedMicros();
            last = first;
        }
    }

    /**
     * Nothing heard yet.
     *
     * @param formats that are tried, profiles among them
     * @param port on which the feed arrives, for the command that is named
     */
    public UnreadFeed(List<WireFormat> formats, int port) {
        this.formats = List.copyOf(formats);
        this.port = port;
    }

    /** Looks at what arrives, in order of receipt. */
    public void heard(Datagram datagram) {
        Stranger stranger = strangers.get(datagram.sender());
        if (stranger != null) {
            stranger.last = datagram;
        } else if (strangers.size() < MOST_SENDERS) {
            strangers.put(datagram.sender(), new Stranger(datagram));
        }
    }

    /**
     * What should be said now, once for each sender.
     *
     * @param nowMicros on the clock of the datagrams
     * @param senders what came of them; asked only while there is somebody of whom nothing is known yet
     * @return one line a sender that cannot be flown by; mostly none
     */
    public List<String> look(long nowMicros, Supplier<List<AircraftSorter.SenderReport>> senders) {
        List<String> lines = new ArrayList<>();
        for (AircraftSorter.SenderReport report :
                settled(nowMicros) ? List.<AircraftSorter.SenderReport>of() : senders.get()) {
            Stranger stranger = strangers.get(report.sender());
            if (stranger != null && report.samples() > 0) {
                stranger.said = true; // it was understood once: what fails later is counted elsewhere
                stranger.standing = "";
            }
            if (stranger == null || stranger.said) {
                continue;
            }
            long waitedMicros = nowMicros - stranger.sinceMicros;
            boolean makesSense = report.notPositions() > 0;
            if (waitedMicros >= (makesSense ? NO_POSITION_MICROS : PATIENCE_MICROS)) {
                stranger.said = true;
                stranger.standing = words(report, stranger.last);
                lines.add(stranger.standing);
            }
        }
        return lines;
    }

    /**
     * {@return what was said and still holds, for a page that is opened later, one line a sender whose datagrams cannot be
     * flown by}
     */
    public List<String> standing() {
        return strangers.values().stream()
                .map(stranger -> stranger.standing)
                .filter(line -> !line.isEmpty())
                .toList();
    }

    private boolean settled(long nowMicros) {
        if (strangers.values().stream().anyMatch(stranger -> !stranger.said)) {
            return false;
        }
        boolean again = nowMicros - askedMicros >= AGAIN_MICROS && !standing().isEmpty();
        askedMicros = again ? nowMicros : askedMicros;
        return !again;
    }

    private String words(AircraftSorter.SenderReport report, Datagram last) {
        String who = report.sender().getAddress().getHostAddress() + ":"
                + report.sender().getPort();
        if (report.notPositions() > 0) {
            return who + " sends " + report.format().orElse("something known")
                    + " without a position: check what the simulator is told to send; feed watch shows what arrives";
        }
        String what = who + " sends what no format here reads, " + Words.say("%d octets a datagram: ", last.length())
                + excerpt(last);
        return what
                + nearest(last)
                        .map(near -> ". " + near)
                        .orElse(". Next: let it send DIS, NMEA 0183 or our JSON; if it cannot, end this and fly for"
                                + " \"feed learn --port " + port + " --out my-feed.yaml\", which works its format out");
    }

    private Optional<String> nearest(Datagram datagram) {
        return formats.stream()
                .filter(Profile.class::isInstance)
                .map(Profile.class::cast)
                .flatMap(profile -> NearFit.of(profile, datagram)
                        .map(what -> "Profile \"" + profile.name() + "\" nearly fits: " + what
                                + ". Next: mend the profile, or learn it anew with \"feed learn --port " + port
                                + " --out my-feed.yaml\"")
                        .stream())
                .findFirst();
    }

    private static String excerpt(Datagram datagram) {
        byte[] octets = new byte[datagram.length()];
        datagram.payload().get(0, octets);
        String text = new String(octets, StandardCharsets.ISO_8859_1);
        boolean readable = text.chars().allMatch(c -> (c >= ' ' && c <= '~') || c == '\r' || c == '\n' || c == '\t');
        if (readable && !text.isBlank()) {
            return "\"" + PlainText.of(text.lines().findFirst().orElse(""), SHOWN) + "\"";
        }
        int shown = Math.min(SHOWN_OCTETS, octets.length);
        return HexFormat.ofDelimiter(" ").formatHex(octets, 0, shown) + (octets.length > shown ? " ..." : "");
    }
}
