package org.rejoin.console.watch;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.console.json.Json;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.WireFormat;

/** Everything that {@code feed watch} knows, and how it says it. Used by the feed's thread and the printing one. */
public final class WatchBoard implements DatagramSink {

    private static final int MOST_SENDERS = 64;
    private static final int MOST_NAME = 32;

    private String listening;
    private final List<WireFormat> formats;
    private final Map<InetSocketAddress, WatchedSender> senders = new LinkedHashMap<>();
    private long leftOut;

    /** Nothing heard yet at that address and port, as shown. */
    public WatchBoard(String listening, List<WireFormat> formats) {
        this.listening = listening;
        this.formats = List.copyOf(formats);
    }

    /** Where it listens once the port is open, which the system chooses where 0 was asked for. */
    public synchronized void listensOn(InetSocketAddress address) {
        listening = shown(address);
    }

    @Override
    public synchronized void accept(Datagram datagram) {
        WatchedSender sender = senders.get(datagram.sender());
        if (sender == null) {
            if (senders.size() >= MOST_SENDERS) {
                leftOut++;
                return;
            }
            sender = new WatchedSender(datagram.sender(), formats);
            senders.put(datagram.sender(), sender);
        }
        sender.accept(datagram);
    }

    /** The whole picture, for a terminal and for the end. */
    public synchronized List<String> picture(long nowMicros, long refused) {
        List<String> lines = new ArrayList<>();
        if (senders.isEmpty()) {
            lines.add("nothing has arrived on " + listening
                    + " yet: let the simulator send UDP to this address and port");
        }
        for (WatchedSender sender : senders.values()) {
            lines.add(headline(sender, nowMicros));
            lines.addAll(details(sender));
        }
        long aircraft = senders.values().stream()
                .mapToLong(sender -> sender.aircraft().size())
                .sum();
        if (senders.size() > 1 || aircraft > 1) {
            lines.add("  " + senders.size() + (senders.size() == 1 ? " sender, " : " senders, ") + aircraft
                    + " aircraft: listen follows the first one heard unless told with --aircraft or --every-aircraft");
        }
        lines.addAll(losses(refused));
        return lines;
    }

    /** One line an aircraft, for a file or a pipe. */
    public synchronized List<String> plain(long nowMicros) {
        if (senders.isEmpty()) {
            return List.of("nothing has arrived on " + listening + " yet");
        }
        return senders.values().stream()
                .flatMap(sender -> {
                    String headline = headline(sender, nowMicros);
                    return sender.last().isEmpty()
                            ? Stream.of(headline + "  " + sender.hex())
                            : values(sender).map(values -> headline + values);
                })
                .toList();
    }

    /** One object a sender. */
    public synchronized List<String> json(long nowMicros) {
        return senders.values().stream()
                .map(sender -> object(sender, nowMicros))
                .toList();
    }

    private static String headline(WatchedSender sender, long nowMicros) {
        double rateHz = sender.rateHz(nowMicros);
        String pace = rateHz > 0
                ? String.format(Locale.ROOT, "%.1f a second", rateHz)
                : String.format(Locale.ROOT, "silent for %.0f s", sender.silentS(nowMicros));
        return shown(sender.address()) + "  " + sender.format().orElse("unknown format") + "  " + pace + "  "
                + sender.length() + " octets";
    }

    private static List<String> details(WatchedSender sender) {
        List<String> lines = new ArrayList<>();
        sender.counts().ifPresent(counts -> lines.add("  " + counts));
        values(sender).forEach(lines::add);
        if (sender.last().isEmpty()) {
            lines.add("  octets:     " + sender.hex());
            lines.add("  characters: " + sender.characters());
        }
        List<WatchedSender.Missing> missing = sender.missing();
        missing.forEach(one -> lines.add("  " + sender.advice(one)));
        sender.faults().stream()
                .filter(fault -> missing.stream().noneMatch(one -> one.isNamedIn(fault)))
                .forEach(fault -> lines.add("  could not be read: " + fault));
        if (sender.last().isEmpty()) {
            lines.add(
                    sender.format().isEmpty()
                            ? "  let the simulator send DIS, NMEA 0183 or our JSON if it can; if it cannot, feed learn"
                                    + " works the format out while you fly"
                            : "  it looks like " + sender.format().get()
                                    + ", but no position is in it: check what the simulator is told to send; if its names"
                                    + " or its layout are its own, feed learn works them out while you fly");
        } else if (missing.isEmpty() && sender.faults().isEmpty()) {
            lines.add("  everything that grading needs is here");
        }
        return lines;
    }

    /** A line for each of its aircraft, with the name where there are several. */
    private static Stream<String> values(WatchedSender sender) {
        List<FeedSample> aircraft = sender.aircraft();
        return aircraft.stream()
                .map(sample -> (aircraft.size() > 1 ? "  " + PlainText.of(sample.aircraft(), MOST_NAME) : "")
                        + sample.values());
    }

    private List<String> losses(long refused) {
        List<String> lines = new ArrayList<>();
        if (refused > 0) {
            lines.add("  " + refused + " datagrams of senders that --allow does not name were dropped");
        }
        if (leftOut > 0) {
            lines.add("  " + leftOut + " datagrams of more than " + MOST_SENDERS + " senders were left out");
        }
        return lines;
    }

    private static String object(WatchedSender sender, long nowMicros) {
        return Json.object(json -> {
            json.writeStringField("sender", shown(sender.address()));
            json.writeStringField("format", sender.format().orElse("unknown"));
            JsonNumbers.atMost(json, "rate_hz", sender.rateHz(nowMicros), 2);
            json.writeNumberField("datagrams", sender.datagrams());
            json.writeNumberField("octets", sender.length());
            if (sender.last().isPresent()) {
                json.writeObjectFieldStart("state");
                sender.last().get().writeState(json);
                json.writeEndObject();
                if (sender.aircraft().size() > 1) {
                    json.writeArrayFieldStart("aircraft");
                    for (FeedSample sample : sender.aircraft()) {
                        json.writeStartObject();
                        json.writeStringField("name", sample.aircraft());
                        sample.writeState(json);
                        json.writeEndObject();
                    }
                    json.writeEndArray();
                }
            } else {
                json.writeStringField("hex", sender.hex());
            }
            Json.texts(json, "faults", sender.faults());
            Json.texts(
                    json,
                    "missing",
                    sender.missing().stream()
                            .map(missing -> missing.name().toLowerCase(Locale.ROOT))
                            .toList());
        });
    }

    private static String shown(InetSocketAddress address) {
        return address.getAddress().getHostAddress() + ":" + address.getPort();
    }
}
