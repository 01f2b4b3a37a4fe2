package org.rejoin.console.book;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;

import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;
import org.sqlite.SQLiteErrorCode;

/**
 * The disposable index of the attempts, in SQLite. Survives the end of the program at any instant by the database's own
 * journal; one that is damaged or of another version is thrown away.
 */
final class AttemptIndex implements AutoCloseable {

    /** Other whenever the table below is; an index with another number is made anew. */
    private static final int VERSION = 4;

    private static final int BUSY_MS = 10_000;

    /** A column of the attempts that could be read, and what it holds of each. */
    private record Column(String definition, Function<AttemptRow, @Nullable Object> value) {
        static Column text(String name, Function<AttemptRow, @Nullable String> value) {
            return new Column(name + " TEXT", value::apply);
        }

        static Column real(String name, Function<AttemptRow, OptionalDouble> value) {
            return new Column(name + " REAL", row -> {
                OptionalDouble number = value.apply(row);
                return number.isPresent() ? number.getAsDouble() : null;
            });
        }
    }

    private static final List<Column> COLUMNS = List.of(
            Column.text("pilot", row -> row.attempt().pilot()),
            Column.text("pilot_key", row -> folded(row.attempt().pilot())),
            Column.text("pilot_id", row -> row.attempt().pilotId()),
            Column.text("aircraft", row -> row.attempt().aircraft()),
            Column.text("lesson", row -> row.attempt().lesson()),
            Column.text("lesson_key", row -> folded(row.attempt().lesson())),
            Column.text("began_utc", row -> sortable(row.attempt().began())),
            Column.real("duration_s", row -> row.attempt().durationS()),
            Column.text("program", row -> row.attempt().program()),
            Column.text("instructor", row -> row.attempt().instructor()),
            Column.text("device", row -> row.attempt().device()),
            Column.text("seat", row -> row.attempt().seat()),
            Column.real("score", row -> row.grade().score()),
            Column.text("standard", row -> row.grade().standard()),
            new Column(
                    "met INTEGER",
                    row -> row.grade().met().map(met -> met ? 1 : 0).orElse(null)),
            Column.text("faults", row -> faults(row)),
            Column.text("signed_by", row -> row.signedBy().orElse(null)),
            new Column("signature_matches INTEGER", AttemptRow::signatureMatches),
            Column.text("changed_for", row -> String.join("\n", row.changedFor())),
            new Column("own_mark REAL", row -> row.ownMark().orElse(null)),
            Column.text("words", row -> words(row)),
            Column.text("answered", row -> row.answered().orElse(null)),
            Column.text("practice_pilot", row -> row.attempt().practicePilot().orElse(null)));

    private static final String TABLE = "CREATE TABLE attempt("
            + "id TEXT PRIMARY KEY, stamp TEXT NOT NULL, folder TEXT NOT NULL, troubles TEXT NOT NULL, whole INTEGER NOT NULL, "
            + COLUMNS.stream().map(Column::definition).collect(Collectors.joining(", ")) + ") WITHOUT ROWID";

    private static final List<String> INDICES = List.of(
            "CREATE INDEX by_date ON attempt(began_utc)",
            "CREATE INDEX by_pilot ON attempt(pilot_key, began_utc)",
            "CREATE INDEX by_lesson ON attempt(lesson_key, began_utc)",
            "CREATE INDEX by_score ON attempt(score)");

    private final Connection connection;
    private final Path attempts;

    private AttemptIndex(Connection connection, Path attempts) {
        this.connection = connection;
        this.attempts = attempts;
    }

    /** How an attempt of the index is known to be as it lies in its folder. */
    record Entry(
            String id, String stamp, Path folder, @Nullable AttemptRow row, List<String> troubles) {}

    /**
     * Opens the index of a folder, or a new one.
     *
     * @param notes takes a line if the old one was thrown away
     * @throws IOException if SQLite cannot be used here; one line
     */
    static AttemptIndex open(HomeFolder home, Consumer<String> notes) throws IOException {
        Path file = home.index();
        if (!home.isWritable()) {
            return inMemory(home);
        }
        if (Files.isDirectory(file)) {
            notes.accept(
                    file + " is a folder where the index of the record book belongs: move it away; until then the index"
                            + " is made anew each time, nothing is lost");
            return inMemory(home);
        }
        try {
            return usable(file, home);
        } catch (SQLException damaged) {
            notes.accept("the index of the record book is not usable (" + firstLine(damaged)
                    + "): it is made again from the attempts, nothing is lost");
            try {
                delete(file);
                return usable(file, home);
            } catch (SQLException e) {
                throw new IOException(
                        "the index " + file + " cannot be made: " + firstLine(e)
                                + "; is the disk full, or the folder not writable?",
                        e);
            }
        }
    }

    private static AttemptIndex inMemory(HomeFolder home) throws IOException {
        try {
            return fresh(connect("jdbc:sqlite::memory:"), home);
        } catch (SQLException e) {
            throw said(e);
        }
    }

    private static void delete(Path file) throws IOException {
        for (String ending : List.of("", "-journal", "-wal", "-shm")) {
            Files.deleteIfExists(file.resolveSibling(file.getFileName() + ending));
        }
    }

    private static Connection connect(String url) throws SQLException, IOException {
        SQLiteConfig config = new SQLiteConfig();
        config.setBusyTimeout(BUSY_MS);
        SQLiteDataSource source = new SQLiteDataSource(config);
        source.setUrl(url);
        try {
            return source.getConnection();
        } catch (LinkageError | RuntimeException e) {
            throw new IOException(
                    "the record book needs SQLite, which does not run on this machine: " + e.getMessage(), e);
        }
    }

    private static AttemptIndex usable(Path file, HomeFolder home) throws SQLException, IOException {
        Connection connection = connect("jdbc:sqlite:" + file);
        try {
            if (version(connection) == VERSION) {
                try (Statement check = connection.createStatement();
                        ResultSet result = check.executeQuery("PRAGMA quick_check(1)")) {
                    String found = result.next() ? result.getString(1) : "no answer";
                    if (!found.equals("ok")) {
                        throw new SQLException(found);
                    }
                }
                return new AttemptIndex(connection, home.attempts());
            }
            return fresh(connection, home);
        } catch (SQLException | RuntimeException e) {
            connection.close();
            throw e;
        }
    }

    private static int version(Connection connection) throws SQLException {
        try (Statement ask = connection.createStatement();
                ResultSet result = ask.executeQuery("PRAGMA user_version")) {
            return result.next() ? result.getInt(1) : 0;
        }
    }

    private static AttemptIndex fresh(Connection connection, HomeFolder home) throws SQLException {
        try (Statement make = connection.createStatement()) {
            connection.setAutoCommit(false);
            make.execute("DROP TABLE IF EXISTS attempt");
            make.execute(TABLE);
            for (String index : INDICES) {
                make.execute(index);
            }
            make.execute("PRAGMA user_version = " + VERSION);
            connection.commit();
            connection.setAutoCommit(true);
        }
        return new AttemptIndex(connection, home.attempts());
    }

    /** Of an attempt in it, by what it was read, and the pilot's identifier; an empty text where it has none. */
    record Known(String stamp, String pilotId) {}

    /** All that is in it, by identifier. */
    Map<String, Known> known() throws IOException {
        Map<String, Known> known = new HashMap<>();
        ask(
                "SELECT id, stamp, coalesce(pilot_id, '') AS pilot_id FROM attempt",
                List.of(),
                row -> known.put(row.getString("id"), new Known(row.getString("stamp"), row.getString("pilot_id"))));
        return known;
    }

    private interface Taking {
        void take(ResultSet row) throws SQLException;
    }

    private void ask(String query, List<Object> values, Taking each) throws IOException {
        try (PreparedStatement ask = connection.prepareStatement(query)) {
            for (int i = 0; i < values.size(); i++) {
                ask.setObject(i + 1, values.get(i));
            }
            try (ResultSet result = ask.executeQuery()) {
                while (result.next()) {
                    each.take(result);
                }
            }
        } catch (SQLException e) {
            throw said(e);
        }
    }

    /**
     * Takes out what is gone and puts in what is new, all or nothing. Only here a transaction is open: one that was left open
     * after reading would keep every other program from writing.
     */
    void change(Iterable<String> gone, List<Entry> entries) throws IOException {
        try {
            connection.setAutoCommit(false);
            replace(gone, entries);
            connection.commit();
        } catch (SQLException e) {
            undo();
            IOException said = said(e);
            try {
                end();
            } catch (IOException another) { // as where SQLite took it back by itself; what went wrong first is said
                said.addSuppressed(another);
            }
            throw said;
        }
        end();
    }

    private void end() throws IOException {
        try {
            connection.setAutoCommit(true);
        } catch (SQLException e) {
            throw said(e);
        }
    }

    private void replace(Iterable<String> gone, List<Entry> entries) throws SQLException {
        String marks = "?" + ", ?".repeat(4 + COLUMNS.size());
        try (PreparedStatement out = connection.prepareStatement("DELETE FROM attempt WHERE id = ?");
                PreparedStatement in =
                        connection.prepareStatement("INSERT OR REPLACE INTO attempt VALUES(" + marks + ")")) {
            for (String id : gone) {
                out.setString(1, id);
                out.addBatch();
            }
            out.executeBatch();
            for (Entry entry : entries) {
                fill(in, entry);
                in.addBatch();
            }
            in.executeBatch();
        }
    }

    /** Removes what deleted attempts left in the file itself. */
    void tidy() throws IOException {
        try (Statement vacuum = connection.createStatement()) {
            vacuum.execute("VACUUM");
        } catch (SQLException e) {
            throw said(e);
        }
    }

    private void undo() {
        try {
            connection.rollback();
        } catch (SQLException e) {
            // The next program to open it rolls back.
        }
    }

    private void fill(PreparedStatement in, Entry entry) throws SQLException {
        in.setString(1, entry.id());
        in.setString(2, entry.stamp());
        in.setString(3, attempts.relativize(entry.folder()).toString().replace('\\', '/'));
        in.setString(4, String.join("\n", entry.troubles()));
        AttemptRow row = entry.row();
        in.setBoolean(5, row != null);
        for (int i = 0; i < COLUMNS.size(); i++) {
            in.setObject(6 + i, row == null ? null : COLUMNS.get(i).value().apply(row));
        }
    }

    private static String faults(AttemptRow row) {
        return String.join(" ", row.grade().faults());
    }

    /** What is searched for words. */
    private static String words(AttemptRow row) {
        Attempt attempt = row.attempt();
        return folded(String.join(
                "\n",
                attempt.pilot(),
                attempt.lesson(),
                attempt.aircraft(),
                faults(row),
                attempt.began().toString().substring(0, 10),
                attempt.instructor(),
                row.signedBy().orElse("")));
    }

    /** The attempts asked for. */
    List<AttemptRow> rows(AttemptQuery query) throws IOException {
        StringBuilder where = new StringBuilder("SELECT * FROM attempt WHERE whole = 1");
        List<Object> values = new ArrayList<>();
        if (!query.pilot().isEmpty()) {
            where.append(" AND (pilot_key = ? OR pilot_id = ?)");
            values.add(folded(query.pilot()));
            values.add(query.pilot());
        }
        if (!query.lesson().isEmpty()) {
            where.append(" AND lesson_key = ?");
            values.add(folded(query.lesson()));
        }
        for (String word : query.words().isBlank()
                ? List.<String>of()
                : List.of(query.words().trim().split("\\s+"))) {
            where.append(" AND instr(words, ?) > 0");
            values.add(folded(word));
        }
        query.from().ifPresent(from -> {
            where.append(" AND began_utc >= ?");
            values.add(sortable(from));
        });
        query.until().ifPresent(until -> {
            where.append(" AND began_utc < ?");
            values.add(sortable(until));
        });
        if (query.leastScore().isPresent()) {
            where.append(" AND score >= ?");
            values.add(query.leastScore().getAsDouble());
        }
        String turn = query.newestFirst() ? " DESC" : "";
        where.append(" ORDER BY ").append(query.order().column()).append(turn);
        where.append(", began_utc").append(turn).append(", id").append(turn);
        List<AttemptRow> rows = new ArrayList<>();
        ask(where.toString(), values, each -> rows.add(row(each)));
        return rows;
    }

    /** What could not be read of the attempts, a line each. */
    List<String> troubles() throws IOException {
        List<String> troubles = new ArrayList<>();
        ask(
                "SELECT troubles FROM attempt WHERE troubles <> '' ORDER BY id",
                List.of(),
                row -> troubles.addAll(row.getString("troubles").lines().toList()));
        return troubles;
    }

    private AttemptRow row(ResultSet at) throws SQLException {
        String faults = at.getString("faults");
        Attempt person = new Attempt(
                at.getString("id"),
                at.getString("pilot"),
                at.getString("pilot_id"),
                at.getString("aircraft"),
                at.getString("lesson"),
                Instant.parse(at.getString("began_utc")),
                number(at, "duration_s"),
                at.getString("program"),
                at.getString("instructor"),
                at.getString("device"),
                at.getString("seat"));
        String habit = at.getString("practice_pilot");
        Attempt attempt = habit == null ? person : person.with(Attempt.flownByPractice(habit));
        int met = at.getInt("met");
        Optional<Boolean> judged = at.wasNull() ? Optional.empty() : Optional.of(met == 1);
        OptionalDouble own = number(at, "own_mark");
        return new AttemptRow(
                attempt,
                new GradeSummary(
                        number(at, "score"),
                        at.getString("standard"),
                        judged,
                        faults.isEmpty() ? List.of() : List.of(faults.split(" "))),
                Optional.ofNullable(at.getString("signed_by")),
                at.getBoolean("signature_matches"),
                at.getString("changed_for").lines().toList(),
                own.isPresent() ? Optional.of(own.getAsDouble()) : Optional.empty(),
                Optional.ofNullable(at.getString("answered")),
                attempts.resolve(at.getString("folder")));
    }

    private static OptionalDouble number(ResultSet at, String column) throws SQLException {
        double value = at.getDouble(column);
        return at.wasNull() ? OptionalDouble.empty() : OptionalDouble.of(value);
    }

    /** Always with milliseconds, so that texts sort as times do. */
    private static String sortable(Instant instant) {
        String text = instant.toString();
        return text.length() == 20 ? text.substring(0, 19) + ".000Z" : text;
    }

    static String folded(String text) {
        return text.toLowerCase(Locale.ROOT);
    }

    /** SQLite's message is "[CODE]  What it means (in its own words)"; the code says nothing to people. */
    private static String firstLine(SQLException e) {
        return String.valueOf(e.getMessage())
                .lines()
                .findFirst()
                .orElse("")
                .replaceFirst("^\\[SQLITE_[A-Z_]+]\\s*", "");
    }

    /** The primary result code within an extended one (sqlite.org, "Result and Error Codes"). */
    private static final int PRIMARY = 0xff;

    private static IOException said(SQLException e) {
        if (e.getErrorCode() == SQLiteErrorCode.SQLITE_BUSY.code) {
            return new RecordBook.BusyException(e);
        }
        if ((e.getErrorCode() & PRIMARY) == SQLiteErrorCode.SQLITE_FULL.code) {
            return new IOException(
                    "the disk of the data folder is full: make room, then the record book is listed again; nothing of it"
                            + " is lost",
                    e);
        }
        return new IOException(
                "the index of the record book fails: " + firstLine(e) + "; attempts rebuild makes it again", e);
    }

    @Override
    public void close() throws IOException {
        try {
            connection.close();
        } catch (SQLException e) {
            throw said(e);
        }
    }
}
