package org.rejoin.bridge.chart.io;

/** A field of a record that is not as the standard has it. Never leaves the reader: it becomes a problem with its line. */
final class BadField extends Exception {

    private static final long serialVersionUID = 1L;

    BadField(String what) {
        super(what, null, false, false); // a file may hold millions, and nobody looks at their stack traces
    }

    /** What was found, and what would be right. */
    String what() {
        return String.valueOf(getMessage());
    }
}
