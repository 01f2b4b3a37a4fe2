package org.rejoin.console.xapi;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.rejoin.console.book.HomeFolder;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.recording.Durable;
import org.rejoin.console.recording.Sha256;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;

/**
 * What one record store is to get, has got and has refused: a file a statement, on the disk before it is first sent, in
 * {@code waiting/}, {@code sent/} or {@code refused/}. A statement is in one of them at most, whatever happens when.
 */
public final class StatementQueue implements AutoCloseable {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Pattern NAME = Pattern.compile("(.+?)_(void-)?([0-9a-f-]{36})\\.json");

    private final Path place;
    private final HomeLock lock;

    private StatementQueue(Path place, HomeLock lock) {
        this.place = place;
        this.lock = lock;
    }

    /** Where a statement is. */
    private enum State {
        WAITING,
        SENT,
        REFUSED,
        TAKEN_BACK;

        String folder() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /**
     * Opens the queue of the record book for the store at an address; close it.
     *
     * @throws IOException if it cannot be made, or another program is sending to this store; one line
     */
    public static StatementQueue open(HomeFolder home, String endpoint) throws IOException {
        Path place = home.statements()
                .resolve(Sha256.hex(endpoint.getBytes(StandardCharsets.UTF_8)).substring(0, 16));
        try {
            for (State state : State.values()) {
                Files.createDirectories(place.resolve(state.folder()));
            }
            Path name = place.resolve("endpoint");
            if (!Files.exists(name)) {
                Durable.write(name, endpoint + "\n");
            }
        } catch (IOException e) {
            throw new IOException(place + " cannot be made: " + Durable.why(e), e);
        }
        return new StatementQueue(
                place, HomeLock.hold(place.resolve("lock"), "sending statements", Duration.ofSeconds(1)));
    }

    /**
     * Puts a statement into the queue, unless the store has it or has refused it. One of the same attempt that was sent
     * before, with another grade, is taken back.
     *
     * @return whether it is new here
     */
    public boolean put(Statement statement) throws IOException {
        String name = name(statement, "");
        if (!isNew(statement)) {
            return false;
        }
        for (Statement other : read(State.WAITING, Optional.of(statement.attempt()))) {
            Files.deleteIfExists(file(State.WAITING, name(other, ""))); // never sent: nothing to take back
        }
        for (Statement sent : read(State.SENT, Optional.of(statement.attempt()))) {
            Statement voiding = Statement.voiding(sent);
            Durable.write(file(State.WAITING, name(voiding, "void-")), octets(voiding));
            move(name(sent, ""), State.SENT, State.TAKEN_BACK);
        }
        Durable.write(file(State.WAITING, name), octets(statement));
        return true;
    }

    /** Whether a statement is neither waiting nor sent nor refused. */
    public boolean isNew(Statement statement) {
        String name = name(statement, "");
        return Stream.of(State.values()).noneMatch(state -> Files.exists(file(state, name)));
    }

    private static byte[] octets(Statement statement) {
        return (statement.json() + "\n").getBytes(StandardCharsets.UTF_8);
    }

    private static String name(Statement statement, String kind) {
        return statement.attempt() + "_" + kind + statement.id() + ".json";
    }

    private Path file(State state, String name) {
        return place.resolve(state.folder()).resolve(name);
    }

    /** What waits, the oldest attempt first. */
    public List<Statement> waiting() throws IOException {
        return read(State.WAITING, Optional.empty());
    }

    /** What the store has refused, and what stays so until somebody wants it sent again; the oldest attempt first. */
    public List<Statement> refused() throws IOException {
        return read(State.REFUSED, Optional.empty());
    }

    /** {@return the folder with what the store has refused, and its words beside each} */
    public Path refusals() {
        return place.resolve(State.REFUSED.folder());
    }

    /** A statement of {@link #refused} waits again: its store was mended since. */
    public void again(Statement statement) throws IOException {
        String name = present(statement, State.REFUSED);
        move(name, State.REFUSED, State.WAITING);
        try {
            Files.deleteIfExists(file(State.REFUSED, words(name)));
        } catch (IOException e) {
            throw new IOException(file(State.REFUSED, words(name)) + " cannot be removed: " + Durable.why(e), e);
        }
    }

    private static String words(String name) {
        return name.replaceFirst("\\.json$", ".txt");
    }

    private List<Statement> read(State state, Optional<String> attempt) throws IOException {
        List<Statement> found = new ArrayList<>();
        Path folder = place.resolve(state.folder());
        try (Stream<Path> files = Files.list(folder)) {
            for (Path file : files.sorted().toList()) {
                Matcher name = NAME.matcher(file.getFileName().toString());
                boolean asked = name.matches()
                        && (attempt.isEmpty() || (attempt.get().equals(name.group(1)) && name.group(2) == null));
                if (asked) {
                    found.add(new Statement(UUID.fromString(name.group(3)), name.group(1), json(file)));
                }
            }
        } catch (IOException e) {
            throw new IOException(folder + " cannot be read: " + Durable.why(e), e);
        }
        return found;
    }

    private static ObjectNode json(Path file) throws IOException {
        try {
            if (JSON.readTree(Files.readAllBytes(file)) instanceof ObjectNode object) {
                return object;
            }
        } catch (JsonProcessingException e) {
            // said below
        }
        throw new IOException(file + " is damaged; remove it, and send the attempt again");
    }

    /** The store has it. */
    void sent(Statement statement) throws IOException {
        move(present(statement, State.WAITING), State.WAITING, State.SENT);
    }

    /** The store does not take it as it is; its words are kept beside it. */
    void refused(Statement statement, String words) throws IOException {
        String name = present(statement, State.WAITING);
        Durable.write(file(State.REFUSED, words(name)), words + "\n");
        move(name, State.WAITING, State.REFUSED);
    }

    private String present(Statement statement, State state) {
        String name = name(statement, "");
        return Files.exists(file(state, name)) ? name : name(statement, "void-");
    }

    private void move(String name, State from, State to) throws IOException {
        try {
            Files.move(file(from, name), file(to, name), StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw new IOException(file(from, name) + " cannot be moved to " + to.folder() + ": " + Durable.why(e), e);
        }
    }

    @Override
    public void close() throws IOException {
        lock.close();
    }
}
