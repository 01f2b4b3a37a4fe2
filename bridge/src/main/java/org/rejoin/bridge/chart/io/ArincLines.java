package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.io.InputStream;

/**
 * Cuts a stream into records in constant memory, however long its lines are. A line ends with LF, CR or both; where a
 * record follows its forerunner without any, after exactly 132 columns, that is taken too.
 */
final class ArincLines {

    private static final int BUFFER = 1 << 16;

    /** Enough to tell whether a record begins: type, area, section and subsection. */
    private static final int SIGNATURE = 6;

    private final InputStream in;
    private final ArincRecord record = new ArincRecord();
    private final byte[] buffer = new byte[BUFFER];
    private int next;
    private int end;
    private int line;
    private boolean tooLong;

    ArincLines(InputStream in) {
        this.in = in;
    }

    /** Whether octets look like the start of a record: S or T, area, section; or a header. */
    static boolean startsRecord(byte[] octets, int offset, int limit) {
        if (limit - offset < SIGNATURE) {
            return false;
        }
        if (octets[offset] == 'H' && octets[offset + 1] == 'D' && octets[offset + 2] == 'R') {
            return octets[offset + 3] >= '0' && octets[offset + 3] <= '9';
        }
        if (octets[offset] != 'S' && octets[offset] != 'T') {
            return false;
        }
        for (int i = 1; i <= 3; i++) {
            boolean letter = octets[offset + i] >= 'A' && octets[offset + i] <= 'Z';
            if (!letter && octets[offset + i] != ' ') {
                return false;
            }
        }
        byte subsection = octets[offset + 5];
        return "ADEHPRTU".indexOf(octets[offset + 4]) >= 0
                && (subsection == ' ' || (subsection >= 'A' && subsection <= 'Z'));
    }

    /** Goes to the next line that is not empty; false at the end of the stream. */
    boolean advance() throws IOException {
        while (ensure(1)) {
            line++;
            ensure(ArincRecord.COLUMNS);
            int available = Math.min(ArincRecord.COLUMNS, end - next);
            int length = 0;
            while (length < available && buffer[next + length] != '\n' && buffer[next + length] != '\r') {
                length++;
            }
            record.fill(line, buffer, next, length);
            next += length;
            tooLong = false;
            if (length < ArincRecord.COLUMNS || !recordFollows()) {
                finishLine();
            }
            if (length > 0) {
                return true;
            }
        }
        return false;
    }

    /** The current line. */
    ArincRecord record() {
        return record;
    }

    /** Whether the current line had more than blanks after its last column. */
    boolean tooLong() {
        return tooLong;
    }

    private boolean recordFollows() throws IOException {
        return ensure(SIGNATURE) && startsRecord(buffer, next, end);
    }

    private void finishLine() throws IOException {
        while (ensure(1)) {
            int at = next;
            while (at < end && buffer[at] != '\n' && buffer[at] != '\r') {
                tooLong |= buffer[at++] != ' ';
            }
            next = at;
            if (at < end) {
                next++;
                if (buffer[at] == '\r' && ensure(1) && buffer[next] == '\n') {
                    next++;
                }
                return;
            }
        }
    }

    /** Tries to have so many octets at hand; false where the stream ends before. */
    private boolean ensure(int count) throws IOException {
        if (end - next >= count) {
            return true;
        }
        System.arraycopy(buffer, next, buffer, 0, end - next);
        end -= next;
        next = 0;
        while (end < count) {
            int read = in.read(buffer, end, BUFFER - end);
            if (read < 0) {
                return false;
            }
            end += read;
        }
        return true;
    }
}
