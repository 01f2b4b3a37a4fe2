package org.rejoin.console.cli;

import java.io.IOException;

import org.rejoin.console.live.LiveFlight;

/** What the user gave cannot be used: one line that says what, where, and what would be right. Ends with exit code 2. */
final class BadInput extends Exception {

    private static final long serialVersionUID = 1L;

    BadInput(String message) {
        super(message);
    }

    private BadInput(IOException cause) {
        super(OutputFile.said(cause), cause);
    }

    /** What the user named for a flight cannot be used. */
    static BadInput of(LiveFlight.UnusableException unusable) {
        return new BadInput(unusable.why());
    }

    /** Reads or opens what the user named; that it cannot be is his to mend. Trouble with the disk later on is not. */
    static <T> T in(Terminal.Work<T, IOException> source) throws BadInput {
        try {
            return source.done();
        } catch (IOException e) {
            throw new BadInput(e);
        }
    }
}
