package org.rejoin.console.cli;

import java.util.concurrent.Callable;

import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code completion}: what a shell needs to complete commands and options. */
@Command(
        name = "completion",
        description = {"Print the completion script for bash and zsh: source <(rejoin completion).", Rejoin.CAUTION},
        mixinStandardHelpOptions = true)
final class CompletionCommand implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() {
        CommandLine program = Rejoin.whole();
        spec.commandLine().getOut().print(AutoComplete.bash("rejoin", program));
        spec.commandLine().getOut().flush();
        return Rejoin.DONE;
    }
}
