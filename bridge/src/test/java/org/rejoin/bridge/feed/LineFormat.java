package org.rejoin.bridge.feed;

import java.nio.charset.StandardCharsets;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateSink;
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
        private final StateDraft open = new StateDraft();
        private long openSince;

        @Override
        public void decode(Datagram datagram, StateSink sink) {
            close(sink);
            for (String line : text(datagram).split("\n", -1)) {
                String[] words = line.split(" ", -1);
                switch (words[0]) {
                    case "L" -> {
                        close(sink);
                        open.receivedS(datagram.receivedS())
                                .position(Double.parseDouble(words[3]), Double.parseDouble(words[4]))
                                .source(Double.parseDouble(words[2]), Double.POSITIVE_INFINITY)
                                .aircraft(words[1], "CALL" + words[1]);
                        openSince = datagram.receivedMicros();
                    }
                    case "P" -> sink.other(new Decoded.Control(Decoded.Control.What.PAUSED, "", Decoded.NO_EXERCISE));
                    case "R" -> sink.other(new Decoded.Control(Decoded.Control.What.RESUMED, "", Decoded.NO_EXERCISE));
                    case "N" -> sink.other(new Decoded.NotAPosition("nothing"));
                    default -> sink.other(new Decoded.Malformed(0, line, "L, P, R or N"));
                }
            }
        }

        @Override
        public void advanceTo(long nowMicros, StateSink sink) {
            if (nowMicros - openSince >= 80_000) {
                close(sink);
            }
        }

        private void close(StateSink sink) {
            if (open.hasPosition()) {
                sink.sample(open);
            }
            open.clear();
        }

        private static String text(Datagram datagram) {
            return StandardCharsets.US_ASCII
                    .decode(datagram.payload().duplicate())
                    .toString();
        }
    }
}
