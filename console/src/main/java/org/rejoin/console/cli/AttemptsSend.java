package org.rejoin.console.cli;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.door.KeyedHash;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;
import org.rejoin.console.xapi.Credentials;
import org.rejoin.console.xapi.RecordStore;
import org.rejoin.console.xapi.Statement;
import org.rejoin.console.xapi.StatementQueue;
import org.rejoin.console.xapi.StatementSender;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code attempts send}: statements to a record store. */
@Command(
        name = "send",
        description =
                "Send graded attempts to a learning record store, as statements of the open standard (IEEE 9274.1.1). What the"
                        + " store has is never sent again; what it cannot take now waits in the data folder.")
final class AttemptsSend extends AttemptsCommand.Part {

    @Parameters(arity = "0..*", paramLabel = "ID", description = "Attempts (default: all that are graded).")
    List<String> ids = new ArrayList<>();

    @Option(
            names = "--to",
            paramLabel = "URL",
            required = true,
            description = "Address of the store: https://HOST/PATH.")
    String to = "";

    @Option(
            names = "--credentials",
            paramLabel = "FILE",
            description = "File with one line KEY:SECRET, as the store gave them.")
    @Nullable
    Path credentials;

    @Option(names = "--pilot", paramLabel = "P", description = "Only this pilot's.")
    String pilot = "";

    @Option(names = "--tries", paramLabel = "N", description = "Tries while the store is away (default: 5).")
    int tries = 5;

    @Option(
            names = "--again",
            description =
                    "Send again what the store has refused before, of the attempts named or of all: it may have been set wrongly.")
    boolean again;

    @Option(names = "--dry-run", description = "Print the statements that would be sent; connect to nobody.")
    boolean dryRun;

    @Override
    public Integer call() throws Exception {
        URI endpoint = BadInput.in(() -> RecordStore.endpoint(to));
        Path file = credentials;
        if (file == null && !dryRun) {
            throw new BadInput("name the --credentials FILE that the store's key and secret are in");
        }
        if (tries < 1) {
            throw new BadInput("--tries " + tries + " is not 1 or more");
        }
        return HomeOption.in(attempts.home.toChange(spec), book -> {
            List<Statement> statements = statements(book);
            try (StatementQueue queue = BadInput.in(() -> StatementQueue.open(book.home(), endpoint.toString()))) {
                if (dryRun) {
                    List<Statement> fresh = new ArrayList<>(queue.waiting());
                    fresh.addAll(refused(queue, statements));
                    for (Statement each : statements) {
                        if (queue.isNew(each)) {
                            fresh.add(each);
                        }
                    }
                    out().print(Statement.text(fresh));
                    return Rejoin.DONE;
                }
                Credentials given = BadInput.in(() -> Credentials.read(Path.of(String.valueOf(file))));
                for (Statement each : refused(queue, statements)) {
                    queue.again(each);
                }
                for (Statement each : statements) {
                    queue.put(each);
                }
                return send(queue, new RecordStore(endpoint, given));
            }
        });
    }

    /** What of it is to be sent again. */
    private List<Statement> refused(StatementQueue queue, List<Statement> statements) throws IOException {
        if (!again) {
            return List.of();
        }
        Set<String> wanted = statements.stream().map(Statement::attempt).collect(Collectors.toSet());
        return queue.refused().stream()
                .filter(each -> (ids.isEmpty() && pilot.isEmpty()) || wanted.contains(each.attempt()))
                .toList();
    }

    private int send(StatementQueue queue, RecordStore store) throws Exception {
        StatementSender sender = new StatementSender(
                store, time -> Thread.sleep(time.toMillis()), new SplittableRandom(), tries, this::note);
        StatementSender.Outcome outcome = sender.send(queue);
        out().println(outcome.sent() + " statements sent, " + outcome.refused().size() + " refused, "
                + outcome.waiting() + " waiting");
        outcome.refused().forEach(this::note);
        int before = queue.refused().size() - outcome.refused().size();
        if (before > 0) {
            note(Words.count(before, "statement") + " refused earlier, the store's words are in " + queue.refusals()
                    + "; once the store takes them, --again sends them");
        }
        if (outcome.stopped().isPresent()) {
            err().println("rejoin: " + CleanText.line(outcome.stopped().get()) + "; " + outcome.waiting()
                    + " statements wait, run the command again");
            return outcome.lasting() ? Rejoin.BAD_INPUT : Rejoin.FAILED;
        }
        return outcome.refused().isEmpty() ? Rejoin.DONE : Rejoin.FAILED;
    }

    private List<Statement> statements(RecordBook book) throws Exception {
        Statements made = new Statements(spec, book);
        if (ids.isEmpty()) {
            RecordBook.Listing all = book.list(AttemptQuery.ALL.of(pilot), HomeOption.progress(spec));
            all.troubles().forEach(this::note);
            for (AttemptRow row : all.rows()) {
                made.addIfAny(book.attempt(row.attempt().id()));
            }
        }
        for (String id : ids) {
            made.addNamed(BadInput.in(() -> book.attempt(id)));
        }
        return made.all();
    }

    /** The statements of attempts, each once; which attempt is left out, and why, is noted. */
    static final class Statements {

        private final CommandSpec spec;
        private final UnaryOperator<String> names;
        private final Map<UUID, Statement> made = new LinkedHashMap<>();

        /** Names are opaque: without the data folder's secret they say nothing of their bearer; they stay the same. */
        Statements(CommandSpec spec, RecordBook book) throws IOException {
            this.spec = spec;
            KeyedHash key = KeyedHash.of(book.home().secret(), "opaque names");
            this.names = name -> HexFormat.of().formatHex(key.of(name), 0, 4);
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
}
