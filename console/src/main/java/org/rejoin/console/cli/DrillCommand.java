package org.rejoin.console.cli;

import picocli.CommandLine.Command;

/** {@code drill}: clearances drawn on a chart, to fly, to work out on paper, to read back. */
@Command(
        name = "drill",
        description = "Draw clearances on your own chart: to fly, to work out on paper, to hear and read back.",
        subcommands = {
            DrillMake.class,
            DrillPaper.class,
            DrillListen.class,
            DrillNext.class,
            DrillSitting.class,
            DrillCalibration.class
        })
final class DrillCommand extends AnyCommand {}
