package org.rejoin.console.cli;

import picocli.CommandLine.Command;

/** {@code feed}: what a simulator sends, shown, checked and learnt. */
@Command(
        name = "feed",
        description = "See what a simulator sends, test the profile that describes it, or have the profile worked out.",
        subcommands = {FeedWatch.class, FeedLearn.class, FeedCheck.class})
final class FeedCommand extends AnyCommand {}
