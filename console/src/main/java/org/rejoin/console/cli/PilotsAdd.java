package org.rejoin.console.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;

import org.rejoin.console.book.Pilot;
import org.rejoin.console.words.CleanText;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code pilots add}: names put into the roster. */
@Command(
        name = "add",
        description = {"Put pilots into the roster; a nickname will do.", Rejoin.CAUTION},
        mixinStandardHelpOptions = true)
final class PilotsAdd implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @ParentCommand
    PilotsCommand pilots = new PilotsCommand();

    @Parameters(arity = "1..*", paramLabel = "NAME", description = "Names.")
    List<String> names = new ArrayList<>();

    @Override
    public Integer call() throws Exception {
        return HomeOption.in(pilots.home.toFill(spec), book -> {
            for (String name : names) {
                Pilot pilot = BadInput.in(() -> book.roster().findOrAdd(name));
                spec.commandLine().getOut().println(pilot.id() + "  " + CleanText.line(pilot.name()));
            }
            return Rejoin.DONE;
        });
    }
}
