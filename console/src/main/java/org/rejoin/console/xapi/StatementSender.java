package org.rejoin.console.xapi;

import java.io.IOException;
import java.time.Duration;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.random.RandomGenerator;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.DecimalNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** Brings a queue to its store: in batches, one by one where a batch is not taken, again where trouble may pass. */
public final class StatementSender {

    private static final int BATCH = 50;
    private static final long LONGEST_WAIT_S = 600;

    /** Members that a store sets or may word its own way. */
    private static final Set<String> STORES_OWN = Set.of("stored", "authority", "version", "display", "objectType");

    private final RecordStore store;
    private final Pause pause;
    private final RandomGenerator random;
    private final int tries;
    private final Consumer<String> notes;

    /** Waits. */
    public interface Pause {
        /**
         * Waits.
         *
         * @param time so long
         * @throws InterruptedException if the user ends the program meanwhile
         */
        void of(Duration time) throws InterruptedException;
    }

    /**
     * What came of it.
     *
     * @param sent statements that the store has now
     * @param refused one line each
     * @param waiting statements that are still to be sent
     * @param stopped why it ended before all were sent; empty if none waits
     * @param lasting whether the user has to mend something before it can go on
     */
    public record Outcome(int sent, List<String> refused, int waiting, Optional<String> stopped, boolean lasting) {
        /** Copies the list. */
        public Outcome {
            refused = List.copyOf(refused);
        }
    }

    /**
     * A sender.
     *
     * @param store to send to
     * @param pause waits between tries
     * @param random spreads the waits
     * @param tries at most so many before trouble counts as lasting for today, 1 or more
     * @param notes takes a line before each wait
     */
    public StatementSender(RecordStore store, Pause pause, RandomGenerator random, int tries, Consumer<String> notes) {
        this.store = store;
        this.pause = pause;
        this.random = random;
        this.tries = tries;
        this.notes = notes;
    }

    /**
     * Sends what waits.
     *
     * @param queue of this store
     * @return what came of it
     * @throws IOException if the queue cannot be read or written; one line
     * @throws InterruptedException if the user ends the program; the queue is as it should be
     */
    public Outcome send(StatementQueue queue) throws IOException, InterruptedException {
        List<Statement> waiting = queue.waiting();
        List<String> refused = new ArrayList<>();
        if (waiting.isEmpty()) {
            return new Outcome(0, refused, 0, Optional.empty(), false);
        }
        int sent = 0;
        String version = "";
        int failures = 0;
        Deque<List<Statement>> batches = batches(waiting);
        while (!batches.isEmpty()) {
            RecordStore.Answer answer;
            if (version.isEmpty()) {
                RecordStore.Version asked = store.version();
                if (asked instanceof RecordStore.Version.Known known) {
                    version = known.number();
                    continue;
                }
                answer = ((RecordStore.Version.Unknown) asked).why();
            } else {
                answer = store.post(batches.getFirst(), version);
            }
            List<Statement> batch = batches.getFirst();
            boolean single = batch.size() == 1;
            if (answer instanceof RecordStore.Answer.Stored) {
                for (Statement each : batch) {
                    queue.sent(each);
                }
                sent += batch.size();
                failures = 0;
                batches.removeFirst();
            } else if (answer instanceof RecordStore.Answer.Stop stop) {
                return outcome(sent, refused, queue, stop.words(), true);
            } else if (answer instanceof RecordStore.Answer.Later later) {
                failures++;
                if (failures >= tries) {
                    return outcome(sent, refused, queue, later.words(), false);
                }
                Duration wait = wait(failures, later);
                notes.accept(later.words() + "; again in " + Math.max(1, wait.toSeconds()) + " s");
                pause.of(wait);
            } else if (!single) {
                batches.removeFirst();
                for (int i = batch.size() - 1; i >= 0; i--) {
                    batches.addFirst(List.of(batch.get(i)));
                }
            } else {
                Statement one = batch.get(0);
                Optional<String> words = single(one, answer, version);
                if (words.isEmpty()) {
                    queue.sent(one);
                    sent++;
                } else {
                    queue.refused(one, words.get());
                    refused.add(one.attempt() + ": " + words.get());
                }
                batches.removeFirst();
            }
        }
        return new Outcome(sent, refused, 0, Optional.empty(), false);
    }

    private static Deque<List<Statement>> batches(List<Statement> waiting) {
        Deque<List<Statement>> batches = new ArrayDeque<>();
        for (int from = 0; from < waiting.size(); from += BATCH) {
            batches.add(List.copyOf(waiting.subList(from, Math.min(from + BATCH, waiting.size()))));
        }
        return batches;
    }

    private static Outcome outcome(int sent, List<String> refused, StatementQueue queue, String words, boolean lasting)
            throws IOException {
        return new Outcome(sent, refused, queue.waiting().size(), Optional.of(words), lasting);
    }

    /** 1, 2, 4 ... 600 s with up to a quarter more, or what the store asks for. */
    private Duration wait(int failures, RecordStore.Answer.Later later) {
        long seconds = Math.min(LONGEST_WAIT_S, later.afterS().orElse(1L << Math.min(failures - 1, 10)));
        return Duration.ofMillis(seconds * 1000 + random.nextLong(250 * seconds + 1));
    }

    /** Why one statement was not taken; empty if the store has it after all. */
    private Optional<String> single(Statement one, RecordStore.Answer answer, String version)
            throws InterruptedException {
        if (answer instanceof RecordStore.Answer.Refused refused) {
            return Optional.of(refused.words());
        }
        if (answer instanceof RecordStore.Answer.TooLarge) {
            return Optional.of("the store answers 413: it takes no statement of this size");
        }
        Optional<JsonNode> theirs = store.get(one.id(), version);
        return theirs.isPresent() && same(one.json(), theirs.get())
                ? Optional.empty()
                : Optional.of("the store has another statement under the identifier " + one.id()
                        + ", which it never changes (409)");
    }

    /** Whether two statements say the same: but for what a store adds, the order of lists, and how a number is written. */
    static boolean same(JsonNode ours, JsonNode theirs) {
        return plain(ours).equals(plain(theirs));
    }

    private static JsonNode plain(JsonNode node) {
        if (node instanceof ObjectNode object) {
            ObjectNode plain = JsonNodeFactory.instance.objectNode();
            List<String> names = new ArrayList<>();
            object.fieldNames().forEachRemaining(names::add);
            names.sort(Comparator.naturalOrder());
            for (String name : names) {
                if (!STORES_OWN.contains(name)) {
                    plain.set(name, name.equals("timestamp") ? instant(object.path(name)) : plain(object.path(name)));
                }
            }
            return plain;
        }
        if (node instanceof ArrayNode list) {
            List<JsonNode> each = new ArrayList<>();
            list.forEach(member -> each.add(plain(member)));
            each.sort(Comparator.comparing(JsonNode::toString));
            return JsonNodeFactory.instance.arrayNode().addAll(each);
        }
        return node.isNumber() ? DecimalNode.valueOf(node.decimalValue().stripTrailingZeros()) : node;
    }

    private static JsonNode instant(JsonNode timestamp) {
        try {
            return JsonNodeFactory.instance.textNode(
                    OffsetDateTime.parse(timestamp.asText()).toInstant().toString());
        } catch (DateTimeParseException e) {
            return timestamp;
        }
    }
}
