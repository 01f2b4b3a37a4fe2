package org.rejoin.console.drill;

/** A chart or a place that gives no drill of the kind asked for; the message says why, in one line. */
public final class NoDrillException extends Exception {

    private static final long serialVersionUID = 1L;

    /** A reason, one line. */
    public NoDrillException(String message) {
        super(message);
    }
}
