package org.rejoin.console.cli;

import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code feed}: what a simulator sends, shown, checked and learnt. */
@Command(
        name = "feed",
        description = {
            "See what a simulator sends, test the profile that describes it, or have the profile worked out.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true,
        subcommands = {FeedWatch.class, FeedLearn.class, FeedCheck.class})
final class FeedCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() {
        spec.commandLine().usage(spec.commandLine().getOut());
        return Rejoin.DONE;
    }
}
