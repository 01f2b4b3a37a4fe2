package org.rejoin.bridge.feed;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.WireFormat;

/**
 * A format of the tests: lines of "L aircraft seconds latitude longitude", the last of which is only given out 80 ms
 * after it came or when another datagram comes; "P" and "R" pause and resume all, "N" is something else.
 */
final class LineFormat implements WireFormat {

    @Override
    public String name() {
        return "line";
    }

    @Override
    public boolean recognises(Datagram datagram) {
        return datagram.length() > 0 && "LPRN".indexOf(datagram.payload().get(0)) >= 0;
    }

    @Override
    public Decoder newDecoder() {
        return new LineDecoder();
    }

    @Override
    public Encoder newEncoder() {
        throw new UnsupportedOperationException();
    }

    private static final class LineDecoder implements Decoder {
        private Optional<Decoded.Sample> open = Optional.empty();
        private long openSince;

        @Override
        public List<Decoded> decode(Datagram datagram) {
            List<Decoded> found = new ArrayList<>(close());
            for (String line : text(datagram).split("\n", -1)) {
                String[] words = line.split(" ", -1);
                switch (words[0]) {
                    case "L" -> {
                        found.addAll(close());
                        open = Optional.of(new Decoded.Sample(
                                AircraftState.at(
                                        datagram.receivedS(),
                                        Double.parseDouble(words[3]),
                                        Double.parseDouble(words[4])),
                                Optional.of(SourceTime.monotonic(Double.parseDouble(words[2]))),
                                words[1],
                                "CALL" + words[1]));
                        openSince = datagram.receivedMicros();
                    }
                    case "P" -> found.add(new Decoded.Control(Decoded.Control.What.PAUSED, ""));
                    case "R" -> found.add(new Decoded.Control(Decoded.Control.What.RESUMED, ""));
                    case "N" -> found.add(new Decoded.NotAPosition("nothing"));
                    default -> found.add(new Decoded.Malformed(0, line, "L, P, R or N"));
                }
            }
            return found;
        }

        @Override
        public List<Decoded> advanceTo(long nowMicros) {
            return nowMicros - openSince >= 80_000 ? close() : List.of();
        }

        private List<Decoded> close() {
            List<Decoded> closed = open.<List<Decoded>>map(List::of).orElse(List.of());
            open = Optional.empty();
            return closed;
        }

        private static String text(Datagram datagram) {
            return StandardCharsets.US_ASCII
                    .decode(datagram.payload().duplicate())
                    .toString();
        }
    }
}
