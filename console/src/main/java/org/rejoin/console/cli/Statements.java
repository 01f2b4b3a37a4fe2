package org.rejoin.console.cli;

import java.io.IOException;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.UnaryOperator;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.door.KeyedHash;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.xapi.Statement;

import picocli.CommandLine.Model.CommandSpec;

/** The statements of attempts, each once; which attempt is left out, and why, is noted. */
final class Statements {

    private final CommandSpec spec;
    private final UnaryOperator<String> names;
    private final Map<UUID, Statement> made = new LinkedHashMap<>();

    Statements(CommandSpec spec, RecordBook book) throws IOException {
        this.spec = spec;
        this.names = opaque(book.home());
    }

    /** Names that say nothing of their bearer to anybody without the data folder's secret, always the same. */
    private static UnaryOperator<String> opaque(HomeFolder home) throws IOException {
        KeyedHash key = KeyedHash.of(home.secret(), "opaque names");
        return name -> HexFormat.of().formatHex(key.of(name), 0, 4);
    }

    /** Of an attempt that the user named: why it has none is said. */
    void addNamed(AttemptFolder folder) throws IOException {
        if (add(folder).isEmpty()) {
            note(folder, whyNone(folder.attempt(), folder));
        }
    }

    private static String whyNone(Attempt attempt, AttemptFolder folder) {
        return folder.isAnswered()
                ? "a drill that was answered and not flown has no statement"
                : attempt.durationS().isEmpty()
                        ? "it is in flight"
                        : attempt.practicePilot().isPresent()
                                ? "the practice aircraft flew it"
                                : attempt.pilot().isEmpty() ? "nobody is named as its pilot" : "it has no grade";
    }

    /** Of one of many: what is not over, not graded or nobody's is passed over, what is damaged does not stop the others. */
    void addIfAny(AttemptFolder folder) {
        try {
            add(folder);
        } catch (IOException e) {
            note(folder, String.valueOf(e.getMessage()));
        }
    }

    private Optional<Statement> add(AttemptFolder folder) throws IOException {
        Optional<Statement> statement = Statement.of(folder, names);
        Optional<AttemptFolder.Checked> last =
                statement.isEmpty() ? Optional.empty() : AttemptFolder.last(folder.checked());
        if (last.isPresent() && !last.get().changed().isEmpty()) {
            note(
                    folder,
                    String.join(", ", last.get().changed()) + " changed since "
                            + CleanText.line(last.get().signature().words().name())
                            + " signed it; put back what was signed, or sign it as it is");
            return statement;
        }
        if (statement.isPresent()) {
            Statement same = made.putIfAbsent(statement.get().id(), statement.get());
            if (same != null && !same.attempt().equals(statement.get().attempt())) {
                note(folder, "it is the same flight as " + same.attempt() + ", in the record book twice");
            }
        }
        return statement;
    }

    private void note(AttemptFolder folder, String why) {
        HomeOption.note(spec, folder.place().getFileName() + " is left out: " + why);
    }

    List<Statement> all() {
        return List.copyOf(made.values());
    }
}
