package org.rejoin.console.cli;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

import org.rejoin.console.book.Archive;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.recording.Durable;

import org.jspecify.annotations.Nullable;
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
                try (Brought brought = Brought.of(named)) {
                    for (Path recording : brought.folders()) {
                        add(entry, recording, people, brought);
                    }
                }
            }
            return Rejoin.DONE;
        });
    }

    /** Of several recordings one that cannot be taken, or is in the book already, does not keep out the others. */
    private void add(BookEntry entry, Path recording, BookEntry.People people, Brought brought) throws Exception {
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
            throw new IOException(brought.asBrought(OutputFile.said(e)), e);
        }
    }

    /** Recordings that somebody brings: one folder, a folder of several, or a .zip file; unpacked for as long as this is open. */
    record Brought(List<Path> folders, Path named, @Nullable Path unpacked) implements AutoCloseable {

        /** Year, month and attempt of a data folder, and two more. */
        private static final int DEEPEST = 6;

        /** Looks what there is; refuses an archive in which there is no recording. */
        static Brought of(Path named) throws BadInput, IOException {
            boolean zip = Files.isRegularFile(named)
                    && named.toString().toLowerCase(Locale.ROOT).endsWith(".zip");
            if (!zip) {
                List<Path> found = Files.isDirectory(named) ? recordings(named) : List.of();
                // What is no recording is refused in the words of whoever reads one.
                return new Brought(found.isEmpty() ? List.of(named) : found, named, null);
            }
            Path into = Files.createTempDirectory("rejoin-brought").toRealPath();
            try {
                BadInput.in(() -> {
                    Archive.unpack(named, into);
                    return into;
                });
                List<Path> found = recordings(into);
                if (found.isEmpty()) {
                    throw new BadInput(
                            named + " holds no folder with flight.pcap and lesson.yaml; fly each drill with --out"
                                    + " FOLDER and pack the folders");
                }
                return new Brought(found, named, into);
            } catch (BadInput | IOException | RuntimeException e) {
                Durable.removeTree(into);
                throw e;
            }
        }

        private static List<Path> recordings(Path root) throws IOException {
            try (Stream<Path> walk = Files.walk(root, DEEPEST)) {
                return walk.filter(file -> String.valueOf(file.getFileName()).equals("flight.pcap"))
                        .map(file -> file.resolveSibling(""))
                        .sorted()
                        .toList();
            }
        }

        /** A message with the archive and its member in place of where it lies unpacked, which is gone when it is read. */
        String asBrought(String message) {
            return unpacked == null
                    ? message
                    : message.replace(unpacked + File.separator, named + ": ")
                            .replace(unpacked.toString(), named.toString());
        }

        boolean several() {
            return folders.size() > 1;
        }

        @Override
        public void close() throws IOException {
            if (unpacked != null) {
                Durable.removeTree(unpacked);
            }
        }
    }
}
