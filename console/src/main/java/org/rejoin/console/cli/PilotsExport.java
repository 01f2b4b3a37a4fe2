package org.rejoin.console.cli;

import java.nio.file.Path;

import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code pilots export}: everything of one pilot. */
@Command(name = "export", description = "Write everything that is kept of one pilot to one zip file.")
final class PilotsExport extends AnyCommand {

    @ParentCommand
    PilotsCommand pilots = new PilotsCommand();

    @Parameters(paramLabel = "P", description = "The pilot, by name or id.")
    String pilot = "";

    @Option(names = "--archive", paramLabel = "FILE", required = true, description = "The file to write.")
    Path archive = Path.of("");

    @Override
    public Integer call() throws Exception {
        return HomeOption.in(pilots.home.toRead(spec), book -> {
            int count = BadInput.in(() -> book.export(pilot, archive));
            out().println(count + " attempts written to " + archive);
            return Rejoin.DONE;
        });
    }
}
