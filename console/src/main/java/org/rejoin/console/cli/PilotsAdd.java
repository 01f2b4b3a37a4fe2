package org.rejoin.console.cli;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.book.Pilot;
import org.rejoin.console.words.CleanText;

import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code pilots add}: names put into the roster. */
@Command(name = "add", description = "Put pilots into the roster; a nickname will do.")
final class PilotsAdd extends AnyCommand {

    @ParentCommand
    PilotsCommand pilots = new PilotsCommand();

    @Parameters(arity = "1..*", paramLabel = "NAME", description = "Names.")
    List<String> names = new ArrayList<>();

    @Override
    public Integer call() throws Exception {
        return HomeOption.in(pilots.home.toFill(spec), book -> {
            for (String name : names) {
                Pilot pilot = BadInput.in(() -> book.roster().findOrAdd(name));
                out().println(pilot.id() + "  " + CleanText.line(pilot.name()));
            }
            return Rejoin.DONE;
        });
    }
}
