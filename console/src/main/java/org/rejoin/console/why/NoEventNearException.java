package org.rejoin.console.why;

/** There is nothing to explain at that time; the message names the nearest event. */
public final class NoEventNearException extends Exception {

    private static final long serialVersionUID = 1L;

    NoEventNearException(String message) {
        super(message);
    }
}
