package org.rejoin.protocol.nmea;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;

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

    private String carry = "";
    private long carryMicros;

    /**
     * A sentence from its start character up to, not including, its line end.
     *
     * @param offset in the datagram; 0 if it began in the one before
     * @param text starts with '$' or '!'
     * @param terminated whether a line end followed, or only the end of the datagram or another sentence
     */
    record Raw(int offset, String text, boolean terminated) {}

    static int headerLength(ByteBuffer octets) {
        return startsWith(octets, UDPBC) ? UDPBC.length : 0;
    }

    static boolean isImageTransfer(ByteBuffer octets) {
        return startsWith(octets, RAUDP) || startsWith(octets, RRUDP);
    }

    private static boolean startsWith(ByteBuffer octets, byte[] prefix) {
        return octets.capacity() >= prefix.length
                && octets.slice(0, prefix.length).equals(ByteBuffer.wrap(prefix));
    }

    /** Drops a sentence that has waited too long for its end. */
    void advanceTo(long nowMicros, List<Decoded> out) {
        if (!carry.isEmpty() && nowMicros - carryMicros > CARRY_MICROS) {
            dropCarry(out);
        }
    }

    private void dropCarry(List<Decoded> out) {
        out.add(new Malformed(0, PlainText.of(carry, 40), "the rest of the sentence within a second"));
        carry = "";
    }

    /** Sentences in order; what is no sentence goes to {@code out}. */
    List<Raw> split(Datagram datagram, List<Decoded> out) {
        advanceTo(datagram.receivedMicros(), out);
        int start = headerLength(datagram.payload());
        ByteBuffer octets = datagram.payload().slice(start, datagram.length() - start);
        String text = StandardCharsets.ISO_8859_1.decode(octets).toString();
        if (text.isEmpty()) {
            out.add(new Malformed(start, "nothing", "a sentence"));
            return List.of();
        }
        if (!carry.isEmpty()) {
            if (isStart(text.charAt(0))) {
                dropCarry(out);
            } else {
                start -= carry.length();
                text = carry + text;
                carry = "";
            }
        }
        List<Raw> sentences = new ArrayList<>();
        int lineStart = 0;
        for (int i = 0; i <= text.length(); i++) {
            if (sentences.size() + out.size() >= MOST_PIECES) {
                out.add(new Malformed(Math.max(0, start + i), "more sentences", "at most " + MOST_PIECES));
                break;
            }
            boolean atEnd = i == text.length();
            if (atEnd || isLineEnd(text.charAt(i))) {
                line(text.substring(lineStart, i), start + lineStart, !atEnd, datagram, sentences, out);
                lineStart = i + 1;
            }
        }
        return sentences;
    }

    private void line(
            String line, int offset, boolean terminated, Datagram datagram, List<Raw> sentences, List<Decoded> out) {
        int at = nextStart(line, 0);
        if (!line.substring(0, at).isBlank()) {
            String expected = at == line.length() ? "a sentence" : "a sentence, without anything before it";
            out.add(new Malformed(
                    Math.max(0, offset), "not a sentence: " + PlainText.of(line.substring(0, at), 40), expected));
        }
        while (at < line.length() && sentences.size() + out.size() < MOST_PIECES) {
            boolean tag = line.charAt(at) == '\\';
            int end = tag ? line.indexOf('\\', at + 1) + 1 : nextStart(line, at + 1);
            boolean last = end == line.length();
            if (tag && end == 0) {
                end = line.length();
                last = true;
            }
            String piece = line.substring(at, end);
            if (last && !terminated && !isComplete(piece, tag) && piece.length() <= LONGEST_CARRY) {
                carry = piece;
                carryMicros = datagram.receivedMicros();
                return;
            }
            int pieceOffset = Math.max(0, offset + at);
            if (tag) {
                checkTag(piece, pieceOffset, out);
            } else {
                sentences.add(new Raw(pieceOffset, piece.stripTrailing(), last && terminated));
            }
            at = nextStart(line, end);
        }
    }

    private static boolean isComplete(String piece, boolean tag) {
        return tag
                ? piece.length() > 1 && piece.endsWith("\\")
                : piece.indexOf('*') >= 0 && piece.indexOf('*') + 2 < piece.length();
    }

    /** A bad tag block costs only itself; the sentence behind it has a checksum of its own. */
    private static void checkTag(String tag, int offset, List<Decoded> out) {
        int star = tag.lastIndexOf('*');
        boolean good = star > 0
                && tag.length() == star + 4
                && Checksum.written(tag, star + 1) == Checksum.of(tag.substring(1, star));
        if (!good) {
            out.add(new Malformed(offset, "tag block " + PlainText.of(tag, 40), "a tag block with its checksum"));
        }
    }

    private static int nextStart(String line, int from) {
        int at = from;
        while (at < line.length() && !isStart(line.charAt(at))) {
            at++;
        }
        return at;
    }

    private static boolean isStart(char c) {
        return c == '$' || c == '!' || c == '\\';
    }

    private static boolean isLineEnd(char c) {
        return c == '\r' || c == '\n' || c == 0;
    }
}
