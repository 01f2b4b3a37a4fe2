package org.rejoin.console.cli;

import picocli.CommandLine.Option;

/** A command with {@code --verbose}: diagnostics on standard error, for the logging configuration when it logs its first line. */
abstract class VerboseCommand extends AnyCommand {

    /** System property that the logging configuration reads. */
    static final String LEVEL = "rejoin.log.level";

    @Option(names = "--verbose", description = "Print diagnostics on standard error.")
    void verbose(boolean on) {
        if (on) {
            System.setProperty(LEVEL, "DEBUG");
        }
    }
}
