package org.rejoin.console.watch;

import java.net.InetSocketAddress;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.rejoin.bridge.flight.Rule;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
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

    /** Address, format, pace and length. */
    String headline(long nowMicros) {
        double rateHz = rateHz(nowMicros);
        String pace = rateHz > 0
                ? String.format(Locale.ROOT, "%.1f a second", rateHz)
                : String.format(Locale.ROOT, "silent for %.0f s", Math.max(0, sinceS(nowMicros)));
        return WatchBoard.shown(address) + "  " + format().orElse("unknown format") + "  " + pace + "  " + length
                + " octets";
    }

    /** What comes, and what grading still lacks. */
    List<String> details() {
        List<String> lines = new ArrayList<>();
        if (samples != null) {
            lines.add("  " + samples.counts());
        }
        values().forEach(lines::add);
        if (last().isEmpty()) {
            lines.add("  octets:     " + hex());
            lines.add("  characters: " + characters());
        }
        List<Missing> missing = missing();
        missing.forEach(one -> lines.add("  " + advice(one)));
        faults().stream()
                .filter(fault -> missing.stream().noneMatch(one -> one.isNamedIn(fault)))
                .forEach(fault -> lines.add("  could not be read: " + fault));
        if (last().isEmpty()) {
            lines.add(
                    format().isEmpty()
                            ? "  let the simulator send DIS, NMEA 0183 or our JSON if it can; if it cannot, feed learn"
                                    + " works the format out while you fly"
                            : "  it looks like " + format().get()
                                    + ", but no position is in it: check what the simulator is told to send; if its names"
                                    + " or its layout are its own, feed learn works them out while you fly");
        } else if (missing.isEmpty() && faults().isEmpty()) {
            lines.add("  everything that grading needs is here");
        }
        return lines;
    }

    /** A line for each of its aircraft, with the name where there are several. */
    Stream<String> values() {
        List<FeedSample> last = aircraft();
        return last.stream()
                .map(sample -> (last.size() > 1 ? "  " + PlainText.name(sample.aircraft()) : "") + sample.values());
    }

    /** One JSON object. */
    String json(long nowMicros) {
        return Json.object(json -> {
            json.writeStringField("sender", WatchBoard.shown(address));
            json.writeStringField("format", format().orElse("unknown"));
            JsonNumbers.atMost(json, "rate_hz", rateHz(nowMicros), 2);
            json.writeNumberField("datagrams", datagrams);
            json.writeNumberField("octets", length);
            if (last().isPresent()) {
                json.writeObjectFieldStart("state");
                last().get().writeState(json);
                json.writeEndObject();
                if (aircraft().size() > 1) {
                    json.writeArrayFieldStart("aircraft");
                    for (FeedSample sample : aircraft()) {
                        json.writeStartObject();
                        json.writeStringField("name", sample.aircraft());
                        sample.writeState(json);
                        json.writeEndObject();
                    }
                    json.writeEndArray();
                }
            } else {
                json.writeStringField("hex", hex());
            }
            Json.texts(json, "faults", faults());
            Json.texts(
                    json,
                    "missing",
                    missing().stream()
                            .map(missing -> missing.name().toLowerCase(Locale.ROOT))
                            .toList());
        });
    }

    /** Datagrams a second over the last few seconds; 0 once silent for longer than two intervals. */
    private double rateHz(long nowMicros) {
        if (arrivals.size() < 2) {
            return 0;
        }
        double spanS = (arrivals.getLast() - arrivals.getFirst()) * 1e-6;
        double interval = spanS / (arrivals.size() - 1);
        boolean silent = sinceS(nowMicros) > Math.max(2, 2 * interval);
        return silent || interval <= 0 ? 0 : 1 / interval;
    }

    /** Since the last datagram; there is one, for it made this sender known. */
    private double sinceS(long nowMicros) {
        return (nowMicros - arrivals.getLast()) * 1e-6;
    }

    private Optional<String> format() {
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

    /** The first of each kind of what could not be read. */
    private List<String> faults() {
        return samples == null ? List.of() : samples.faults();
    }

    /** What to do about something that is missing: where it came and could not be read it is not to be added. */
    private String advice(Missing missing) {
        return faults().stream()
                .filter(missing::isNamedIn)
                .findFirst()
                .map(fault -> missing.what + " that can be read: " + fault)
                .orElse(missing.advice);
    }

    /** The last datagram's first octets in hexadecimal. */
    String hex() {
        return HexFormat.ofDelimiter(" ").formatHex(beginning) + (length > DUMPED ? " ..." : "");
    }

    /** The same as characters. */
    private String characters() {
        StringBuilder text = new StringBuilder();
        for (byte octet : beginning) {
            text.append((char) (octet & 0xFF));
        }
        return PlainText.of(text, DUMPED);
    }

    /** What grading needs and this sender does not give; names as in {@code --json}. */
    private List<Missing> missing() {
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
    private enum Missing {
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
    }
}
