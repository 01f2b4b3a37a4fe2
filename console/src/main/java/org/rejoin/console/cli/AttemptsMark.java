package org.rejoin.console.cli;

import java.time.Instant;

import org.rejoin.console.book.OwnMark;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code attempts mark}: the instructor's own mark. */
@Command(
        name = "mark",
        description = "Put your own mark beside the computed one, with the reason. The computed one stays as it is.")
final class AttemptsMark extends AnyCommand {

    @ParentCommand
    AttemptsCommand attempts = new AttemptsCommand();

    @Parameters(paramLabel = "ID", description = "The attempt, as the list names it.")
    String id = "";

    @Option(names = "--score", paramLabel = "N", required = true, description = "0 to 100.")
    double score;

    @Option(names = "--reason", paramLabel = "TEXT", required = true, description = "Why it is not the computed one.")
    String reason = "";

    @Option(names = "--by", paramLabel = "NAME", description = "Whose mark it is.")
    String by = "";

    @Override
    public Integer call() throws Exception {
        OwnMark mark;
        try {
            mark = new OwnMark(score, by, reason, Instant.now());
        } catch (IllegalArgumentException e) {
            throw new BadInput(String.valueOf(e.getMessage()));
        }
        return HomeOption.in(attempts.home.toChange(spec), book -> {
            BadInput.in(() -> book.attempt(id)).mark(mark);
            return Rejoin.DONE;
        });
    }
}
