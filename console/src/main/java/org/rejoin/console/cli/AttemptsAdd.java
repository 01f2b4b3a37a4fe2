package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Stream;

import org.rejoin.console.book.Archive;
import org.rejoin.console.book.AttemptFolder;

import org.jspecify.annotations.Nullable;
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
            "Bring recordings made with --out into the record book: each is copied and graded. A folder or a .zip file may"
                    + " hold several, as homework that comes back.",
            Rejoin.CAUTION
        },
        mixinStandardHelpOptions = true)
final class AttemptsAdd implements Callable<Integer> {

    @Spec
    CommandSpec spec = CommandSpec.create();

    @ParentCommand
    AttemptsCommand attempts = new AttemptsCommand();

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
        return HomeOption.in(attempts.home.toFill(spec), book -> {
            BookEntry entry = new BookEntry(spec, book);
            BookEntry.People people = new BookEntry.People(pilot, instructor, device);
            for (Path named : recordings) {
                try (BroughtRecordings brought = BroughtRecordings.of(named)) {
                    for (Path recording : brought.folders()) {
                        add(entry, recording, people, brought.several());
                    }
                }
            }
            return Rejoin.DONE;
        });
    }

    /** Of several recordings one that cannot be taken, or is in the book already, does not keep out the others. */
    private void add(BookEntry entry, Path recording, BookEntry.People people, boolean several) throws Exception {
        try {
            AttemptFolder folder = entry.add(recording, people, which);
            spec.commandLine().getOut().println(folder.attempt().id());
        } catch (BadInput e) {
            if (!several) {
                throw e;
            }
            HomeOption.note(spec, String.valueOf(e.getMessage()));
        }
    }

    /** Recordings that somebody brings: one folder, a folder of several, or a .zip file; unpacked for as long as this is open. */
    static final class BroughtRecordings implements AutoCloseable {

        /** Year, month and attempt of a data folder, and two more. */
        private static final int DEEPEST = 6;

        private final List<Path> folders;
        private final @Nullable Path unpacked;

        private BroughtRecordings(List<Path> folders, @Nullable Path unpacked) {
            this.folders = List.copyOf(folders);
            this.unpacked = unpacked;
        }

        /**
         * Looks what there is.
         *
         * @throws BadInput if there is no recording in it
         */
        static BroughtRecordings of(Path named) throws BadInput, IOException {
            boolean zip = Files.isRegularFile(named)
                    && named.toString().toLowerCase(Locale.ROOT).endsWith(".zip");
            if (!zip) {
                List<Path> found = Files.isDirectory(named) ? recordings(named) : List.of();
                // What is no recording is refused in the words of whoever reads one.
                return new BroughtRecordings(found.isEmpty() ? List.of(named) : found, null);
            }
            Path into = Files.createTempDirectory("rejoin-brought").toRealPath();
            BroughtRecordings brought = null;
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
                brought = new BroughtRecordings(found, into);
                return brought;
            } finally {
                if (brought == null) {
                    remove(into);
                }
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

        List<Path> folders() {
            return folders;
        }

        boolean several() {
            return folders.size() > 1;
        }

        @Override
        public void close() throws IOException {
            if (unpacked != null) {
                remove(unpacked);
            }
        }

        private static void remove(Path root) throws IOException {
            try (Stream<Path> walk = Files.walk(root)) {
                for (Path file : walk.sorted(Comparator.reverseOrder()).toList()) {
                    Files.delete(file);
                }
            }
        }
    }
}
