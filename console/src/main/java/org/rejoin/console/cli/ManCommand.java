package org.rejoin.console.cli;

import picocli.CommandLine.Command;

/** {@code man}: the manual page, made of the commands themselves. */
@Command(name = "man", description = "Print the manual page; to read it: rejoin man | man -l -.")
final class ManCommand extends AnyCommand {

    @Override
    public Integer call() {
        ManPage.of(Rejoin.whole()).forEach(out()::println);
        return Rejoin.DONE;
    }
}
