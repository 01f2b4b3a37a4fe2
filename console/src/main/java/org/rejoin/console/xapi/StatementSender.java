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
        /** Waits so long, unless the user ends the program meanwhile. */
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
        public Outcome {
            refused = List.copyOf(refused);
        }
    }

    /**
     * A sender.
     *
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
     * @throws InterruptedException if the user ends the program; the queue is as it should be
     */
    public Outcome send(StatementQueue queue) throws IOException, InterruptedException {
        List<Statement> waiting = queue.waiting();
        return new Sending(queue, batches(waiting)).all();
    }

    /** One queue on its way: what each answer of the store comes to. */
    private final class Sending {

        private final StatementQueue queue;
        private final Deque<List<Statement>> batches;
        private final List<String> refused = new ArrayList<>();
        private int sent;
        private int failures;
        private String version = "";
        private Optional<Outcome> stopped = Optional.empty();

        Sending(StatementQueue queue, Deque<List<Statement>> batches) {
            this.queue = queue;
            this.batches = batches;
        }

        Outcome all() throws IOException, InterruptedException {
            while (!batches.isEmpty() && stopped.isEmpty()) {
                if (!version.isEmpty()) {
                    meet(store.post(batches.getFirst(), version));
                    continue;
                }
                RecordStore.Version asked = store.version();
                if (asked.trouble().isPresent()) {
                    meet(asked.trouble().get());
                } else {
                    version = asked.number();
                }
            }
            return stopped.orElseGet(() -> new Outcome(sent, refused, 0, Optional.empty(), false));
        }

        private void meet(RecordStore.Answer answer) throws IOException, InterruptedException {
            switch (answer.outcome()) {
                case STORED -> stored();
                case STOP -> stopped = stopped(answer.words(), true);
                case LATER -> later(answer);
                case REFUSED -> refused(answer.words());
                case TOO_LARGE -> refused("the store answers 413: it takes no statement of this size");
                case CONFLICT -> conflict();
            }
        }

        private void stored() throws IOException {
            List<Statement> batch = batches.removeFirst();
            for (Statement each : batch) {
                queue.sent(each);
            }
            sent += batch.size();
            failures = 0;
        }

        private void later(RecordStore.Answer later) throws IOException, InterruptedException {
            failures++;
            if (failures >= tries) {
                stopped = stopped(later.words(), false);
                return;
            }
            long wishedS = later.afterS().orElse(0);
            if (wishedS > LONGEST_WAIT_S) {
                stopped = stopped(later.words() + "; it asks to be left alone for " + inWords(wishedS), false);
                return;
            }
            Duration wait = pause(failures, later);
            notes.accept(later.words() + "; again in " + Math.max(1, wait.toSeconds()) + " s");
            pause.of(wait);
        }

        private Optional<Outcome> stopped(String words, boolean lasting) throws IOException {
            return Optional.of(new Outcome(sent, refused, queue.waiting().size(), Optional.of(words), lasting));
        }

        private void refused(String words) throws IOException {
            if (!oneByOne()) {
                refuse(words);
            }
        }

        private void conflict() throws IOException, InterruptedException {
            if (oneByOne()) {
                return;
            }
            Statement one = batches.getFirst().get(0);
            RecordStore.Kept theirs = store.get(one.id(), version);
            if (theirs.later().isPresent()) {
                later(theirs.later().get());
            } else if (theirs.json().isPresent()
                    && same(one.json(), theirs.json().get())) {
                queue.sent(one);
                sent++;
                batches.removeFirst();
            } else {
                refuse("the store has another statement under the identifier " + one.id()
                        + ", which it never changes (409)");
            }
        }

        /** Whether the batch held several, which now go one by one. */
        private boolean oneByOne() {
            if (batches.getFirst().size() == 1) {
                return false;
            }
            List<Statement> batch = batches.removeFirst();
            for (int i = batch.size() - 1; i >= 0; i--) {
                batches.addFirst(List.of(batch.get(i)));
            }
            return true;
        }

        private void refuse(String words) throws IOException {
            Statement one = batches.removeFirst().get(0);
            queue.refused(one, words);
            refused.add(one.attempt() + ": " + words);
        }
    }

    private static Deque<List<Statement>> batches(List<Statement> waiting) {
        Deque<List<Statement>> batches = new ArrayDeque<>();
        for (int from = 0; from < waiting.size(); from += BATCH) {
            batches.add(List.copyOf(waiting.subList(from, Math.min(from + BATCH, waiting.size()))));
        }
        return batches;
    }

    private static String inWords(long seconds) {
        long minutes = (seconds + 59) / 60;
        return minutes < 120 ? minutes + " minutes" : (minutes + 59) / 60 + " hours";
    }

    /** 1, 2, 4 ... 600 s with up to a quarter more, or what the store asks for. */
    private Duration pause(int failures, RecordStore.Answer later) {
        long seconds = later.afterS().orElse(Math.min(LONGEST_WAIT_S, 1L << Math.min(failures - 1, 10)));
        return Duration.ofMillis(seconds * 1000 + random.nextLong(250 * seconds + 1));
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
