package org.rejoin.console.cli;

import picocli.CommandLine.Option;

/** {@code --verbose}: diagnostics on standard error. Read by the logging configuration when the first line is logged. */
final class Verbosity {

    /** System property that the logging configuration reads. */
    static final String LEVEL = "rejoin.log.level";

    @Option(names = "--verbose", description = "Print diagnostics on standard error.")
    void verbose(boolean on) {
        if (on) {
            System.setProperty(LEVEL, "DEBUG");
        }
    }
}
