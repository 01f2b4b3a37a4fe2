package org.rejoin.console.cli;

import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code man}: the manual page, made of the commands themselves. */
@Command(
        name = "man",
        description = {"Print the manual page; to read it: rejoin man | man -l -.", Rejoin.CAUTION},
        mixinStandardHelpOptions = true)
final class ManCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() {
        ManPage.of(Rejoin.whole()).forEach(spec.commandLine().getOut()::println);
        return Rejoin.DONE;
    }
}
