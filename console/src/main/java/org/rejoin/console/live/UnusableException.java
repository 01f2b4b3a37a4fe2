package org.rejoin.console.live;

import java.io.IOException;

/** What the user named for a flight cannot be used: his to mend, other than trouble that comes later on. */
public final class UnusableException extends IOException {

    private static final long serialVersionUID = 1L;

    private final IOException why;

    private UnusableException(IOException cause) {
        super(cause.getMessage(), cause);
        this.why = cause;
    }

    /** {@return why it cannot be used, as the reader of it said} */
    public IOException why() {
        return why;
    }

    /** Reads or opens what the user named. */
    interface Source<T> {
        T read() throws IOException;
    }

    static <T> T in(Source<T> source) throws UnusableException {
        try {
            return source.read();
        } catch (IOException e) {
            throw new UnusableException(e);
        }
    }
}
