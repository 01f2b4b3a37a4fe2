package org.rejoin.console.cli;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code pilots}: the roster. */
@Command(
        name = "pilots",
        description = "List the pilots of the record book.",
        subcommands = {
            PilotsCommand.Add.class,
            PilotsCommand.Rename.class,
            PilotsCommand.Export.class,
            PilotsCommand.Forget.class
        })
final class PilotsCommand extends AnyCommand.Verbose {

    @Mixin
    HomeOption home = new HomeOption();

    @Mixin
    AttemptLines.Format format = new AttemptLines.Format();

    private record Known(String id, String name, List<AttemptRow> attempts) {
        String last() {
            return attempts.isEmpty()
                    ? ""
                    : attempts.get(attempts.size() - 1).attempt().began().toString();
        }
    }

    private static final Table<Known> TABLE = new Table<>(List.of(
            new Table.Column<>("id", each -> Cell.of(each.id())),
            new Table.Column<>("name", each -> Cell.of(each.name())),
            new Table.Column<>(
                    "attempts",
                    each -> Cell.of(BigDecimal.valueOf(each.attempts().size()))),
            new Table.Column<>("last_utc", each -> Cell.text(each.last()))));

    @Override
    public Integer call() throws Exception {
        format.check();
        if (home.nothingYet()) {
            note("nothing has been kept yet in " + home.place());
            return Rejoin.DONE;
        }
        return HomeOption.in(home.toRead(spec), book -> {
            List<Known> pilots = known(book);
            format.print(out(), TABLE, pilots, () -> lines(pilots));
            return Rejoin.DONE;
        });
    }

    /** Those of the roster, and those whom only attempts name. */
    private List<Known> known(RecordBook book) throws Exception {
        Map<String, Known> known = new TreeMap<>();
        for (Pilot each : book.roster().pilots()) {
            known.put(each.id(), new Known(each.id(), each.name(), new ArrayList<>()));
        }
        for (AttemptRow row :
                book.list(AttemptQuery.ALL, HomeOption.progress(spec)).rows()) {
            String name = row.attempt().pilot();
            String id = row.attempt().pilotId();
            if (!name.isEmpty()) {
                known.computeIfAbsent(id.isEmpty() ? "name " + name : id, key -> new Known(id, name, new ArrayList<>()))
                        .attempts()
                        .add(row);
            }
        }
        return known.values().stream()
                .sorted(Comparator.comparing(Known::name, String.CASE_INSENSITIVE_ORDER))
                .toList();
    }

    private static List<String> lines(List<Known> pilots) {
        List<List<String>> cells = new ArrayList<>();
        cells.add(List.of("pilot", "attempts", "last (UTC)", "id"));
        for (Known each : pilots) {
            cells.add(List.of(
                    CleanText.line(each.name()),
                    Integer.toString(each.attempts().size()),
                    each.last().isEmpty() ? "-" : AttemptLines.SHOWN.format(Instant.parse(each.last())),
                    each.id()));
        }
        return AttemptLines.aligned(cells);
    }

    @Command(name = "add", description = "Put pilots into the roster; a nickname will do.")
    static final class Add extends Part {

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

    @Command(
            name = "rename",
            description =
                    "Call a pilot by another name; all that is kept of this pilot is shown under it from then on.")
    static final class Rename extends Part {

        @Parameters(index = "0", paramLabel = "P", description = "The pilot, by name or id.")
        String pilot = "";

        @Parameters(index = "1", paramLabel = "NAME", description = "The new name.")
        String name = "";

        @Override
        public Integer call() throws Exception {
            return HomeOption.in(pilots.home.toChange(spec), book -> {
                RecordBook.Renamed renamed = BadInput.in(() -> book.rename(pilot, name));
                out().println(renamed.pilot().id() + "  "
                        + CleanText.line(renamed.pilot().name()));
                renamed.left().ifPresent(line -> note(CleanText.line(line)));
                return Rejoin.DONE;
            });
        }
    }

    @Command(name = "export", description = "Write everything that is kept of one pilot to one zip file.")
    static final class Export extends Part {

        @Parameters(paramLabel = "P", description = "The pilot, by name or id.")
        String pilot = "";

        @Option(names = "--archive", paramLabel = "FILE", required = true, description = "The file to write.")
        Path archive = Path.of("");

        @Override
        public Integer call() throws Exception {
            return HomeOption.in(pilots.home.toRead(spec), book -> {
                int count = BadInput.in(() -> book.export(pilot, archive));
                out().println(Words.count(count, "attempt") + " written to " + archive);
                return Rejoin.DONE;
            });
        }
    }

    @Command(
            name = "forget",
            description =
                    "Remove everything that is kept here of one pilot: attempts, recordings, grades, signatures, statements. There"
                            + " is no way back. Statements that a record store has stay there: its keeper can void them.")
    static final class Forget extends Part {

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
                stores.forEach(store -> note(
                        "statements that were sent to " + store + " are still there; ask its keeper to void them"));
                return Rejoin.DONE;
            });
        }

        private void ask(int count) throws BadInput, IOException {
            err().println("Remove "
                    + (count == 0 ? "" : Words.count(count, "attempt") + " of " + CleanText.line(pilot) + " and ")
                    + (count == 0
                            ? "all that is kept of " + CleanText.line(pilot)
                            : "all else that is kept of this pilot")
                    + "? There is no way back. Type yes:");
            if (new Terminal.Answers()
                    .next()
                    .filter(typed -> typed.text().equalsIgnoreCase("yes"))
                    .isEmpty()) {
                throw new BadInput("nothing was removed: the answer was not yes (--yes answers beforehand)");
            }
        }
    }

    /** A command of the record book that {@code pilots --home} names. */
    abstract static class Part extends AnyCommand {

        @ParentCommand
        PilotsCommand pilots = new PilotsCommand();
    }
}
