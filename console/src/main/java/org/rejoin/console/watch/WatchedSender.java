package org.rejoin.console.watch;

import java.net.InetSocketAddress;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

import org.rejoin.bridge.flight.Rule;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/** One sender under {@code feed watch}: how often it sends, in which format, and what of it can be graded. */
public final class WatchedSender {

    /** A format once recognised is kept until so many datagrams in a row make no sense in it. */
    private static final int FAILURES = 20;

    /** So long is one shown that is heard no more. */
    private static final double GONE_MICROS = Rule.FeedLost.DIS.timeoutS() * 1e6;

    private static final int MOST_AIRCRAFT = 16;
    private static final int DUMPED = 32;
    private static final int RATE_ARRIVALS = 200;
    private static final long RATE_MICROS = 10_000_000;

    private final InetSocketAddress address;
    private final List<WireFormat> formats;
    private final Deque<Long> arrivals = new ArrayDeque<>();
    private @Nullable WireFormat format;
    private @Nullable FeedSamples samples;
    private final Map<String, Heard> aircraft = new LinkedHashMap<>();
    private boolean clock;
    private int failures;
    private long datagrams;
    private int length;
    private byte[] beginning = {};

    WatchedSender(InetSocketAddress address, List<WireFormat> formats) {
        this.address = address;
        this.formats = formats;
    }

    void accept(Datagram datagram) {
        datagrams++;
        arrived(datagram.receivedMicros());
        length = datagram.length();
        beginning = new byte[Math.min(DUMPED, datagram.length())];
        datagram.payload().get(0, beginning);
        if (format == null || failures >= FAILURES) {
            recognise(datagram);
        }
        if (samples != null) {
            List<FeedSample> found = samples.accept(datagram);
            failures = found.isEmpty() && !samples.understoodLast() ? failures + 1 : 0;
            for (FeedSample sample : found) {
                heard(sample, datagram.receivedMicros());
                clock = samples.hasClock();
            }
        }
    }

    private void recognise(Datagram datagram) {
        failures = 0;
        for (WireFormat candidate : formats) {
            if (candidate.recognises(datagram)) {
                if (candidate != format) {
                    format = candidate;
                    samples = new FeedSamples(candidate);
                    aircraft.clear();
                }
                return;
            }
        }
    }

    private void heard(FeedSample sample, long micros) {
        aircraft.values().removeIf(other -> micros - other.micros() > GONE_MICROS);
        if (aircraft.size() < MOST_AIRCRAFT || aircraft.containsKey(sample.aircraft())) {
            aircraft.put(sample.aircraft(), new Heard(sample, micros));
        }
    }

    /** The last of one aircraft. */
    private record Heard(FeedSample sample, long micros) {}

    private void arrived(long micros) {
        arrivals.addLast(micros);
        while (arrivals.size() > RATE_ARRIVALS || micros - arrivals.getFirst() > RATE_MICROS) {
            arrivals.removeFirst();
        }
    }

    InetSocketAddress address() {
        return address;
    }

    /** Datagrams a second over the last few seconds; 0 once silent for longer than two intervals. */
    double rateHz(long nowMicros) {
        if (arrivals.size() < 2) {
            return 0;
        }
        double spanS = (arrivals.getLast() - arrivals.getFirst()) * 1e-6;
        double interval = spanS / (arrivals.size() - 1);
        boolean silent = (nowMicros - arrivals.getLast()) * 1e-6 > Math.max(2, 2 * interval);
        return silent || interval <= 0 ? 0 : 1 / interval;
    }

    double silentS(long nowMicros) {
        return arrivals.isEmpty() ? 0 : Math.max(0, (nowMicros - arrivals.getLast()) * 1e-6);
    }

    long datagrams() {
        return datagrams;
    }

    int length() {
        return length;
    }

    Optional<String> format() {
        return Optional.ofNullable(format).map(WireFormat::name);
    }

    /** The last sample of each of its aircraft, the one first heard in front; empty where nothing decodes. */
    List<FeedSample> aircraft() {
        return aircraft.values().stream().map(Heard::sample).toList();
    }

    /** The last sample of the aircraft first heard. */
    Optional<FeedSample> last() {
        return aircraft().stream().findFirst();
    }

    /** Samples and faults in words; empty where no format was recognised. */
    Optional<String> counts() {
        return Optional.ofNullable(samples).map(FeedSamples::counts);
    }

    /** The first of each kind of what could not be read. */
    List<String> faults() {
        return samples == null ? List.of() : samples.faults();
    }

    /** What to do about something that is missing: where it came and could not be read it is not to be added. */
    String advice(Missing missing) {
        return faults().stream()
                .filter(missing::isNamedIn)
                .findFirst()
                .map(fault -> missing.what + " that can be read: " + fault)
                .orElse(missing.advice());
    }

    /** The last datagram's first octets in hexadecimal. */
    String hex() {
        return HexFormat.ofDelimiter(" ").formatHex(beginning) + (length > DUMPED ? " ..." : "");
    }

    /** The same as characters. */
    String characters() {
        StringBuilder text = new StringBuilder();
        for (byte octet : beginning) {
            text.append((char) (octet & 0xFF));
        }
        return PlainText.of(text, DUMPED);
    }

    /** What grading needs and this sender does not give; names as in {@code --json}. */
    List<Missing> missing() {
        if (last().isEmpty()) {
            return List.of(Missing.POSITION);
        }
        AircraftState state = last().get().state();
        List<Missing> missing = new ArrayList<>();
        if (state.headingTrueDeg().isEmpty() && state.headingMagneticDeg().isEmpty()) {
            missing.add(Missing.HEADING);
        }
        if (state.altitudeMslFt().isEmpty()) {
            missing.add(Missing.ALTITUDE);
        }
        if (state.groundSpeedKt().isEmpty()) {
            missing.add(Missing.SPEED);
        }
        if (!clock) {
            missing.add(Missing.TIME);
        }
        return missing;
    }

    /** Something that grading needs, and what to do when it does not come. */
    enum Missing {
        POSITION("no position", "itude_deg", "no position: nothing that arrives can be flown by"),
        HEADING(
                "no heading",
                "heading|orientation",
                "no heading: add the true or magnetic heading to what the simulator sends; without it the assigned"
                        + " heading cannot be graded"),
        ALTITUDE(
                "no altitude",
                "altitude",
                "no altitude: add the altitude above mean sea level; without it altitude is not graded"),
        SPEED(
                "no ground speed",
                "ground[_ ]speed",
                "no ground speed: add it; without it the turn lead is worked out from positions alone"),
        TIME(
                "no clock",
                "time_s",
                "no clock: times of receipt are used, which is good enough on one machine; over a busy network let the"
                        + " simulator send its time as well");

        private final String what;
        private final Pattern named;
        private final String advice;

        Missing(String what, String named, String advice) {
            this.what = what;
            this.named = Pattern.compile("^found [^,]*(" + named + ")");
            this.advice = advice;
        }

        /** Whether a fault is of this: the decoders call it so. */
        boolean isNamedIn(String fault) {
            return named.matcher(fault).find();
        }

        String advice() {
            return advice;
        }
    }
}
