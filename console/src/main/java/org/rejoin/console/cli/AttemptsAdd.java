package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;

import org.rejoin.console.book.AttemptFolder;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code attempts add}: recordings made elsewhere brought into the book. */
@Command(
        name = "add",
        description = {
            "Bring recordings made with --out into the record book: each is copied and graded.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true)
final class AttemptsAdd implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @ParentCommand
    AttemptsCommand attempts = new AttemptsCommand();

    @Parameters(arity = "1..*", paramLabel = "DIR", description = "Folders of recordings.")
    List<Path> recordings = new ArrayList<>();

    @Option(names = "--pilot", paramLabel = "P", required = true, description = "Who flew; a nickname will do.")
    String pilot = "";

    @Option(names = "--instructor", paramLabel = "NAME", description = "Who gave the lesson.")
    String instructor = "";

    @Option(
            names = "--device",
            paramLabel = "TEXT",
            description = "Type and identification of the training device, as you state it.")
    String device = "";

    @Mixin
    WhichAircraft which = new WhichAircraft();

    @Override
    public Integer call() throws Exception {
        return HomeOption.in(attempts.home.toFill(spec), book -> {
            BookEntry entry = new BookEntry(spec, book);
            for (Path recording : recordings) {
                AttemptFolder folder = entry.add(recording, new BookEntry.People(pilot, instructor, device), which);
                spec.commandLine().getOut().println(folder.attempt().id());
            }
            return Rejoin.DONE;
        });
    }
}
