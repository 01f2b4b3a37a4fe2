package org.rejoin.bridge.clearance;

/** A clearance or a route that cannot be worked out, with a code for machines and a sentence for people. */
public final class ClearanceException extends Exception {

    private static final long serialVersionUID = 1L;

    /** Why not. */
    public enum Code {
        /** Words that the grammar does not know. */
        NOT_UNDERSTOOD,
        /** A station that the chart does not show. */
        UNKNOWN_STATION,
        /** A fix that the chart does not show. */
        UNKNOWN_FIX,
        /** An airway that the chart does not show. */
        UNKNOWN_AIRWAY,
        /** An airway that the filed route does not use, so that nobody can say which way along it. */
        AIRWAY_NOT_IN_ROUTE,
        /** A radial that does not meet the airway it is to lead to. */
        RADIAL_DOES_NOT_CROSS_AIRWAY,
        /** A filed route that does not hold together. */
        ROUTE_NOT_VALID,
        /** Understood, but not something that can be worked out from here; the sentence says what is missing. */
        CANNOT_BE_WORKED_OUT
    }

    private final Code code;

    /**
     * A reason.
     *
     * @param code for machines
     * @param message one line: what, where, and what would be right
     */
    public ClearanceException(Code code, String message) {
        super(message);
        this.code = code;
    }

    /**
     * The code.
     *
     * @return never null
     */
    public Code code() {
        return code;
    }
}
