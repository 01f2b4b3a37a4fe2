package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code pilots export}: everything of one pilot. */
@Command(
        name = "export",
        description = {"Write everything that is kept of one pilot to one zip file.", Rejoin.CAUTION},
        mixinStandardHelpOptions = true)
final class PilotsExport implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

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
            spec.commandLine().getOut().println(count + " attempts written to " + archive);
            return Rejoin.DONE;
        });
    }
}
