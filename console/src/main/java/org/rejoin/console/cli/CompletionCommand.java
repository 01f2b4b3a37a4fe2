package org.rejoin.console.cli;

import picocli.AutoComplete;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/** {@code completion}: what a shell needs to complete commands and options. */
@Command(
        name = "completion",
        description = "Print the completion script for bash and zsh: source <(rejoin completion).")
final class CompletionCommand extends AnyCommand {

    @Override
    public Integer call() {
        CommandLine program = Rejoin.whole();
        out().print(AutoComplete.bash("rejoin", program));
        return Rejoin.DONE;
    }
}
