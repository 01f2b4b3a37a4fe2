package org.rejoin.console.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

import org.rejoin.console.book.Archive;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.xapi.Statement;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code attempts export}: statements or whole folders, in a file. */
@Command(
        name = "export",
        description =
                "Write attempts to a file: as statements of the open standard for learning records (IEEE 9274.1.1), or whole.")
final class AttemptsExport extends AnyCommand {

    @ParentCommand
    AttemptsCommand attempts = new AttemptsCommand();

    @Parameters(arity = "1..*", paramLabel = "ID", description = "Attempts, as the list names them.")
    List<String> ids = new ArrayList<>();

    @Option(names = "--xapi", paramLabel = "FILE", description = "Statements, as one JSON list.")
    @Nullable
    Path xapi;

    @Option(names = "--archive", paramLabel = "FILE", description = "The whole folders, as one zip file.")
    @Nullable
    Path archive;

    @Override
    public Integer call() throws Exception {
        if (xapi == null && archive == null) {
            throw new BadInput("name the file: --xapi FILE for statements, --archive FILE for whole folders");
        }
        return HomeOption.in(attempts.home.toRead(spec), book -> {
            List<AttemptFolder> folders = new ArrayList<>();
            for (String id : ids) {
                folders.add(BadInput.in(() -> book.attempt(id)));
            }
            Path statements = xapi;
            if (statements != null) {
                Statements made = new Statements(spec, book);
                for (AttemptFolder folder : folders) {
                    made.addNamed(folder);
                }
                OutputFile.write("--xapi", statements, Statement.text(made.all()));
            }
            Path whole = archive;
            if (whole != null) {
                BadInput.in(() -> {
                    Archive.write(
                            whole,
                            book.home().place(),
                            folders.stream().map(AttemptFolder::place).toList(),
                            Map.of());
                    return whole;
                });
            }
            return Rejoin.DONE;
        });
    }
}
