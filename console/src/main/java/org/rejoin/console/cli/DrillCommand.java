package org.rejoin.console.cli;

import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code drill}: clearances drawn on a chart, to fly, to work out on paper, to read back. */
@Command(
        name = "drill",
        description = {
            "Draw clearances on your own chart: to fly, to work out on paper, to hear and read back.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true,
        subcommands = {
            DrillMake.class,
            DrillPaper.class,
            DrillListen.class,
            DrillNext.class,
            DrillSitting.class,
            DrillCalibration.class
        })
final class DrillCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() {
        spec.commandLine().usage(spec.commandLine().getOut());
        return Rejoin.DONE;
    }
}
