package org.rejoin.protocol.nmea;

/** A field that spoils its whole sentence. Never leaves this package. */
final class FieldFault extends Exception {

    private final String found;
    private final String expected;

    FieldFault(String found, String expected) {
        super(found, null, false, false);
        this.found = found;
        this.expected = expected;
    }

    String found() {
        return found;
    }

    String expected() {
        return expected;
    }
}
