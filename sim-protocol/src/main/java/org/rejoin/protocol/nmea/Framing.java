package org.rejoin.protocol.nmea;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.StateSink;

/**
 * Cuts datagrams into sentences: line ends, tag blocks, garbage, and a sentence that goes on in the next datagram. One
 * per sender.
 */
final class Framing {

    /** Octets kept of a sentence that has not ended. */
    private static final int LONGEST_CARRY = 1024;

    /** More than any real datagram holds; what follows is not read, so that a hostile one costs little. */
    private static final int MOST_PIECES = 256;

    private static final long CARRY_MICROS = 1_000_000;

    private static final byte[] UDPBC = {'U', 'd', 'P', 'b', 'C', 0};
    private static final byte[] RAUDP = {'R', 'a', 'U', 'd', 'P', 0};
    private static final byte[] RRUDP = {'R', 'r', 'U', 'd', 'P', 0};

    /** What was carried over, then the datagram. */
    private byte[] octets = new byte[2 * LONGEST_CARRY];

    private int length;
    private int at;
    private int carried;
    private long carryMicros;
    private long receivedMicros;
    private int offsetOfFirst;
    private int pieces;

    static int headerLength(ByteBuffer payload) {
        return startsWith(payload, UDPBC) ? UDPBC.length : 0;
    }

    static boolean isImageTransfer(ByteBuffer payload) {
        return startsWith(payload, RAUDP) || startsWith(payload, RRUDP);
    }

    private static boolean startsWith(ByteBuffer payload, byte[] prefix) {
        if (payload.capacity() < prefix.length) {
            return false;
        }
        for (int i = 0; i < prefix.length; i++) {
            if (payload.get(i) != prefix[i]) {
                return false;
            }
        }
        return true;
    }

    /** Drops a sentence that has waited too long for its end. */
    void advanceTo(long nowMicros, StateSink sink) {
        if (carried > 0 && nowMicros - carryMicros > CARRY_MICROS) {
            dropCarry(sink);
        }
    }

    private void dropCarry(StateSink sink) {
        pieces++;
        sink.other(new Malformed(0, PlainText.of(text(0, carried), 40), "the rest of the sentence within a second"));
        carried = 0;
    }

    /** Takes a datagram; {@link #next} then finds its sentences. */
    void begin(Datagram datagram, StateSink sink) {
        pieces = 0;
        advanceTo(datagram.receivedMicros(), sink);
        ByteBuffer payload = datagram.payload();
        int header = headerLength(payload);
        int added = payload.capacity() - header;
        if (carried > 0 && added > 0 && Octets.kind(payload.get(header)) == Octets.START) {
            dropCarry(sink);
        }
        if (added == 0) {
            fault(header, "nothing", "a sentence", sink);
        }
        if (octets.length < carried + added) {
            octets = Arrays.copyOf(octets, carried + added);
        }
        payload.get(header, octets, carried, added);
        offsetOfFirst = header - carried;
        // An empty datagram ends nothing: what is carried goes on waiting.
        at = added == 0 ? carried : 0;
        length = carried + added;
        carried = added == 0 ? carried : 0;
        receivedMicros = datagram.receivedMicros();
    }

    /** Goes on to the next sentence; what is no sentence goes to the sink. False if there is none. */
    boolean next(Sentence sentence, StateSink sink) {
        while (at < length) {
            if (pieces >= MOST_PIECES) {
                fault(at, "more sentences", "at most " + MOST_PIECES, sink);
                at = length;
                return false;
            }
            byte kind = Octets.kind(octets[at]);
            if (kind == Octets.LINE_END) {
                at++;
            } else if (kind != Octets.START) {
                garbage(sink);
            } else if (octets[at] == '\\') {
                tag(sink);
            } else {
                int stop = sentence.scan(octets, at, length);
                if (stop == length && !sentence.isComplete() && stop - at <= LONGEST_CARRY) {
                    carry();
                    return false;
                }
                sentence.place(
                        Math.max(0, offsetOfFirst + at), stop < length && Octets.kind(octets[stop]) == Octets.LINE_END);
                at = stop;
                pieces++;
                return true;
            }
        }
        return false;
    }

    private void carry() {
        carried = length - at;
        System.arraycopy(octets, at, octets, 0, carried);
        carryMicros = receivedMicros;
        at = length;
    }

    private void garbage(StateSink sink) {
        int from = at;
        at = nextEnd(at);
        String text = text(from, at);
        if (!text.isBlank()) {
            boolean sentenceFollows = at < length && Octets.kind(octets[at]) == Octets.START;
            fault(
                    from,
                    "not a sentence: " + PlainText.of(text, 40),
                    sentenceFollows ? "a sentence, without anything before it" : "a sentence",
                    sink);
        }
    }

    /** A bad tag block costs only itself; the sentence behind it has a checksum of its own. */
    private void tag(StateSink sink) {
        int from = at;
        int close = from + 1;
        while (close < length && octets[close] != '\\' && Octets.kind(octets[close]) != Octets.LINE_END) {
            close++;
        }
        boolean closed = close < length && octets[close] == '\\';
        if (!closed && close == length && close - from <= LONGEST_CARRY) {
            carry();
            return;
        }
        if (!closed || !isTag(from, close)) {
            String shown = PlainText.of(text(from, closed ? close + 1 : close), 40);
            fault(from, "tag block " + shown, "a tag block with its checksum", sink);
        }
        at = nextEnd(closed ? close + 1 : close);
    }

    private boolean isTag(int from, int close) {
        int star = close - 3;
        return star > from
                && octets[star] == '*'
                && Checksum.written(octets, star + 1, close) == Checksum.of(octets, from + 1, star);
    }

    /** Where a line ends or a sentence starts, from here on. */
    private int nextEnd(int from) {
        int end = from;
        while (end < length && Octets.kind(octets[end]) < Octets.LINE_END) {
            end++;
        }
        return end;
    }

    private void fault(int index, String found, String expected, StateSink sink) {
        pieces++;
        sink.other(new Malformed(Math.max(0, offsetOfFirst + index), found, expected));
    }

    private String text(int from, int to) {
        return new String(octets, from, to - from, StandardCharsets.ISO_8859_1);
    }
}
