package org.rejoin.protocol.yaml;

/** Something in a file written by hand that cannot be used: where, what stands there, and what would be right. */
public final class YamlException extends Exception {

    private static final long serialVersionUID = 1L;

    private final int line;
    private final int column;
    private final String said;
    private final boolean foreign;

    private YamlException(int line, int column, String said, boolean foreign) {
        super("line " + line + ", column " + column + ": " + said);
        this.line = line;
        this.column = column;
        this.said = said;
        this.foreign = foreign;
    }

    /**
     * Describes one fault at a line and column, from 1: what stands there and what would be right; one line, without
     * the place, which the message has in front.
     */
    public YamlException(int line, int column, String said) {
        this(line, column, said, false);
    }

    static YamlException notYaml(int line, int column) {
        return new YamlException(
                line,
                column,
                "not YAML from here or a little before; a member is written \"name: value\", an item \"- value\", what"
                        + " belongs together at the same indent, and brackets and quotes are closed",
                true);
    }

    /** {@return where it is; line of the file, from 1} */
    public int line() {
        return line;
    }

    /** {@return where in the line it is; column, from 1} */
    public int column() {
        return column;
    }

    /**
     * {@return whether the text could not be parsed at all, and may be another kind of file; false where it is YAML that
     * says something wrong}
     */
    public boolean isNotYaml() {
        return foreign;
    }

    /** {@return what stands there and what would be right, one line without the place} */
    public String said() {
        return said;
    }
}
