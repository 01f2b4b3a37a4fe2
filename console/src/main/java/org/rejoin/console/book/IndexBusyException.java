package org.rejoin.console.book;

import java.io.IOException;

/** Another program is at work on the index of the record book. */
public final class IndexBusyException extends IOException {

    private static final long serialVersionUID = 1;

    IndexBusyException(Exception cause) {
        super("another program is at work on the record book: end it, or try again when it is done", cause);
    }
}
