package org.rejoin.console.cli;

/** The program. */
public final class Rejoin {

    private Rejoin() {}

    /**
     * Runs one command.
     *
     * @param args command and options
     */
    public static void main(String[] args) {
        System.exit(2);
    }
}
