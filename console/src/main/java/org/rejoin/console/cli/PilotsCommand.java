package org.rejoin.console.cli;

import java.io.PrintWriter;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.console.words.CleanText;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code pilots}: the roster. */
@Command(
        name = "pilots",
        description = "List the pilots of the record book.",
        subcommands = {PilotsAdd.class, PilotsExport.class, PilotsForget.class})
final class PilotsCommand extends VerboseCommand {

    @Mixin
    HomeOption home = new HomeOption();

    @Option(names = "--json", description = "Print one JSON object a line.")
    boolean json;

    @Option(names = "--csv", description = "Print a table for a spreadsheet.")
    boolean csv;

    private record Known(String id, String name, List<AttemptRow> attempts) {
        String last() {
            return attempts.isEmpty()
                    ? ""
                    : attempts.get(attempts.size() - 1).attempt().began().toString();
        }
    }

    private static final Table<Known> TABLE = new Table<>(List.of(
            new Table.Column<>("id", each -> new Cell.Text(each.id())),
            new Table.Column<>("name", each -> new Cell.Text(each.name())),
            new Table.Column<>(
                    "attempts",
                    each -> new Cell.Figure(BigDecimal.valueOf(each.attempts().size()))),
            new Table.Column<>("last_utc", each -> new Cell.Text(each.last()))));

    @Override
    public Integer call() throws Exception {
        AttemptLines.notBoth(json, csv);
        if (home.nothingYet()) {
            HomeOption.note(spec, "nothing has been kept yet in " + home.place());
            return Rejoin.DONE;
        }
        return HomeOption.in(home.toRead(spec), book -> {
            print(known(book));
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

    private void print(List<Known> pilots) throws Exception {
        PrintWriter print = out();
        if (csv) {
            print.println(TABLE.csvHead());
            pilots.forEach(each -> print.println(TABLE.csv(each)));
            return;
        }
        List<List<String>> cells = new ArrayList<>();
        cells.add(List.of("pilot", "attempts", "last (UTC)", "id"));
        for (Known each : pilots) {
            if (json) {
                print.println(JsonNodeFactory.instance
                        .objectNode()
                        .put("id", each.id())
                        .put("name", each.name())
                        .put("attempts", each.attempts().size())
                        .put("last_utc", each.last().isEmpty() ? null : each.last()));
            }
            cells.add(List.of(
                    CleanText.line(each.name()),
                    Integer.toString(each.attempts().size()),
                    each.last().isEmpty() ? "-" : each.last(),
                    each.id()));
        }
        if (!json) {
            AttemptLines.aligned(cells).forEach(print::println);
        }
    }
}
