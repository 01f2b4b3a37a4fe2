package org.rejoin.protocol.profile;

/** A profile that cannot be used: where in its file, what stands there, and what would be right. */
public final class ProfileException extends Exception {

    private static final long serialVersionUID = 1L;

    private final int line;
    private final int column;

    /** Describes one fault at a line and column, from 1: what stands there and what would be right. */
    public ProfileException(int line, int column, String message) {
        super("line " + line + ", column " + column + ": " + message);
        this.line = line;
        this.column = column;
    }

    /** {@return where it is; line of the file, from 1} */
    public int line() {
        return line;
    }

    /** {@return where in the line it is; column, from 1} */
    public int column() {
        return column;
    }
}
