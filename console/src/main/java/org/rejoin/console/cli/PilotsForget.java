package org.rejoin.console.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Set;

import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code pilots forget}: everything of one pilot gone. */
@Command(
        name = "forget",
        description =
                "Remove everything that is kept here of one pilot: attempts, recordings, grades, signatures, statements. There is"
                        + " no way back. Statements that a record store has stay there: its keeper can void them.")
final class PilotsForget extends AnyCommand {

    @ParentCommand
    PilotsCommand pilots = new PilotsCommand();

    @Parameters(paramLabel = "P", description = "The pilot, by name or id.")
    String pilot = "";

    @Option(names = "--yes", description = "Do not ask.")
    boolean yes;

    @Override
    public Integer call() throws Exception {
        return HomeOption.in(pilots.home.toChange(spec), book -> {
            if (!yes) {
                int count = book.list(AttemptQuery.ALL.of(pilot), HomeOption.progress(spec))
                        .rows()
                        .size();
                if (count > 0 || book.roster().find(pilot).isPresent()) {
                    ask(count);
                }
            }
            Set<String> stores = BadInput.in(() -> book.storesWithStatementsOf(pilot));
            int removed = BadInput.in(() -> book.forget(pilot));
            out().println(Words.count(removed, "attempt") + " of " + CleanText.line(pilot) + " removed");
            stores.forEach(store -> HomeOption.note(
                    spec, "statements that were sent to " + store + " are still there; ask its keeper to void them"));
            return Rejoin.DONE;
        });
    }

    private void ask(int count) throws BadInput, IOException {
        err().println("Remove "
                + (count == 0 ? "" : Words.count(count, "attempt") + " of " + CleanText.line(pilot) + " and ")
                + (count == 0 ? "all that is kept of " + CleanText.line(pilot) : "all else that is kept of this pilot")
                + "? There is no way back. Type yes:");
        BufferedReader in = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
        String answer = Objects.requireNonNullElse(in.readLine(), "");
        if (!answer.strip().equalsIgnoreCase("yes")) {
            throw new BadInput("nothing was removed: the answer was not yes (--yes answers beforehand)");
        }
    }
}
