package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.lesson.LessonException;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code attempts add}: recordings made elsewhere brought into the book. */
@Command(
        name = "add",
        description =
                "Bring recordings made with --out into the record book: each is copied and graded. A folder or a .zip file may"
                        + " hold several, as homework that comes back.")
final class AttemptsAdd extends AttemptsCommand.Part {

    @Parameters(arity = "1..*", paramLabel = "DIR", description = "Folders of recordings, or .zip files of them.")
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
        if (pilot.isBlank()) {
            throw new BadInput("--pilot is empty; name whoever flew, a nickname will do");
        }
        return HomeOption.in(attempts.home.toFill(spec), book -> {
            BookEntry entry = new BookEntry(spec, book);
            BookEntry.People people = new BookEntry.People(pilot, instructor, device);
            for (Path named : recordings) {
                try (BroughtRecordings brought = BroughtRecordings.of(named)) {
                    for (Path recording : brought.folders()) {
                        add(entry, recording, people, brought);
                    }
                }
            }
            return Rejoin.DONE;
        });
    }

    /** Of several recordings one that cannot be taken, or is in the book already, does not keep out the others. */
    private void add(BookEntry entry, Path recording, BookEntry.People people, BroughtRecordings brought)
            throws Exception {
        try {
            AttemptFolder folder = entry.add(recording, people, which);
            out().println(folder.attempt().id());
        } catch (BadInput | LessonException e) {
            String said = brought.asBrought(String.valueOf(e.getMessage()));
            if (!brought.several()) {
                throw new BadInput(said);
            }
            note(said);
        } catch (IOException e) {
            String said =
                    e instanceof FileSystemException file ? OutputFile.said(file) : String.valueOf(e.getMessage());
            throw new IOException(brought.asBrought(said), e);
        }
    }
}
