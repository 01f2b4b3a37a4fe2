package org.rejoin.console.watch;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.DatagramSink;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

/** Everything that {@code feed watch} knows, and how it says it. Used by the feed's thread and the printing one. */
public final class WatchBoard implements DatagramSink {

    private static final int MOST_SENDERS = 64;

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
            lines.add(sender.headline(nowMicros));
            lines.addAll(sender.details());
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
                    String headline = sender.headline(nowMicros);
                    return sender.last().isEmpty()
                            ? Stream.of(headline + "  " + sender.hex())
                            : sender.values().map(values -> headline + values);
                })
                .toList();
    }

    /** One object a sender. */
    public synchronized List<String> json(long nowMicros) {
        return senders.values().stream().map(sender -> sender.json(nowMicros)).toList();
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

    static String shown(InetSocketAddress address) {
        return address.getAddress().getHostAddress() + ":" + address.getPort();
    }
}
