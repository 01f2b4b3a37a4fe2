package org.rejoin.protocol.detect;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.json.JsonFormat;

/**
 * Chooses a format by the first octets.
 *
 * @param formats in the order in which they are tried
 */
record AutoFormat(List<WireFormat> formats) implements WireFormat {

    private static final int FAILURES_BEFORE_NEW_CHOICE = 20;
    private static final int MOST_SENDERS = 64;

    @Override
    public String name() {
        return "auto";
    }

    @Override
    public boolean recognises(Datagram datagram) {
        return choose(datagram).isPresent();
    }

    private Optional<WireFormat> choose(Datagram datagram) {
        return formats.stream().filter(f -> f.recognises(datagram)).findFirst();
    }

    @Override
    public Decoder newDecoder() {
        return new AutoDecoder();
    }

    @Override
    public Encoder newEncoder() {
        return new JsonFormat().newEncoder();
    }

    /** A choice; {@code failures} are datagrams in a row of which nothing could be made. */
    private record Choice(Decoder decoder, int failures) {}

    private final class AutoDecoder implements Decoder {

        // Forgets the sender longest unheard, so that forged addresses cost no memory.
        private final Map<InetSocketAddress, Choice> choices = new LinkedHashMap<>(16, 0.75f, true) {
            @Override
            protected boolean removeEldestEntry(Map.Entry<InetSocketAddress, Choice> eldest) {
                return size() > MOST_SENDERS;
            }
        };

        @Override
        public List<Decoded> decode(Datagram datagram) {
            Choice choice = choices.get(datagram.sender());
            List<Decoded> out = new ArrayList<>();
            if (choice == null || choice.failures >= FAILURES_BEFORE_NEW_CHOICE) {
                Optional<WireFormat> found = choose(datagram);
                if (found.isPresent()) {
                    if (choice != null) {
                        out.addAll(choice.decoder.advanceTo(Long.MAX_VALUE));
                    }
                    choice = new Choice(found.get().newDecoder(), 0);
                } else if (choice == null) {
                    out.add(new Malformed(0, beginning(datagram), expected()));
                    return out;
                }
            }
            List<Decoded> decoded = choice.decoder.decode(datagram);
            boolean failed = !decoded.isEmpty() && decoded.stream().allMatch(Malformed.class::isInstance);
            choices.put(datagram.sender(), new Choice(choice.decoder, failed ? choice.failures + 1 : 0));
            out.addAll(decoded);
            return out;
        }

        @Override
        public List<Decoded> advanceTo(long nowMicros) {
            List<Decoded> out = new ArrayList<>();
            choices.values().forEach(choice -> out.addAll(choice.decoder.advanceTo(nowMicros)));
            return out;
        }
    }

    private String expected() {
        return "one of " + formats.stream().map(WireFormat::name).collect(Collectors.joining(", "));
    }

    private static String beginning(Datagram datagram) {
        StringBuilder octets = new StringBuilder("octets");
        for (int i = 0; i < Math.min(8, datagram.length()); i++) {
            int octet = datagram.payload().get(i) & 0xFF;
            octets.append(' ').append(Character.forDigit(octet >> 4, 16)).append(Character.forDigit(octet & 15, 16));
        }
        return datagram.length() == 0 ? "nothing" : octets.toString();
    }
}
