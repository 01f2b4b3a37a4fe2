package org.rejoin.bridge.learn;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;

import org.rejoin.protocol.Datagram;

/** Works out where the fields of an unknown feed are. Stateless; takes a few seconds for a few minutes of flight. */
public final class Learner {

    /** Fewer datagrams are no flight. */
    private static final int FEWEST = 60;

    private static final int MOST = 20_000;
    /** Kinds of datagram beside the one with the position. */
    private static final int MOST_OTHERS = 2;

    /** Votes beyond which fixed offsets explain the feed. */
    private static final double ENOUGH = 3;

    private final Known known;

    /** A learner. */
    public Learner(Known known) {
        this.known = known;
    }

    /** A frame with the positions found in it, the best first. */
    private record Read(Frame frame, Grid grid, List<Motions.Scored> positions) {
        /** Whether another frame may do better. */
        boolean leaves(int datagrams) {
            return worth(datagrams) < ENOUGH || frame.timeS().length < 0.97 * datagrams;
        }

        /** A frame that explains few of the datagrams must be the better for it. */
        double worth(int datagrams) {
            return positions.get(0).score() - 3 * Math.max(0, 1 - frame.timeS().length / (double) datagrams);
        }
    }

    /** Learns from the datagrams of a flight. Of several senders the busiest is taken. */
    public Learned learn(List<Datagram> datagrams) {
        List<String> notes = new ArrayList<>();
        List<Datagram> flight = busiest(datagrams, notes);
        double seconds = flight.isEmpty()
                ? 0
                : flight.get(flight.size() - 1).receivedS() - flight.get(0).receivedS();
        notes.add(String.format(Locale.ROOT, "%d datagrams in %.0f s", flight.size(), seconds));
        if (flight.size() < FEWEST || seconds < ScriptFlown.SHORTEST_S) {
            return new Learned(
                    "too little to tell",
                    List.of(),
                    List.of(),
                    List.of("record at least three minutes at 2 a second or more: level, a full turn, level, a climb,"
                            + " level, a change of speed, a turn the other way, a descent, in a wind of 10 to 25 kt"),
                    notes,
                    ScriptFlown.nothingIn(seconds));
        }
        boolean text = TextFraming.isText(flight);
        List<Frame> frames = text ? TextFraming.frames(flight) : BinaryFraming.frames(flight);
        Optional<Read> found = best(frames, flight.size());
        if (!text && found.map(read -> read.leaves(flight.size())).orElse(true)) {
            List<Frame> parts = BinaryFraming.inParts(flight);
            Optional<Read> inParts = best(parts, flight.size());
            if (inParts.isPresent()
                    && (found.isEmpty()
                            || inParts.get().worth(flight.size()) > found.get().worth(flight.size()) + 0.5)) {
                found = inParts;
            }
        }
        if (found.isEmpty()) {
            return new Learned(
                    frames.isEmpty()
                            ? text ? "text of an unknown kind" : "binary of an unknown kind"
                            : frames.get(0).words(),
                    List.of(),
                    List.of(),
                    List.of("no two fields move like a latitude and a longitude: fly on for three minutes with the"
                            + " simulation running, or let the simulator send its position"),
                    notes,
                    ScriptFlown.nothingIn(seconds));
        }
        Read best = withOthers(found.get(), frames);
        return new Conclusion(best.frame, best.grid, best.positions, known, notes).learned(seconds);
    }

    private Optional<Read> best(List<Frame> frames, int datagrams) {
        Read best = null;
        for (Frame frame : frames) {
            Grid grid = new Grid(frame.timeS());
            if (grid.size() < FEWEST) {
                continue;
            }
            Read read = new Read(frame, grid, Motions.search(frame, grid, known));
            if (!read.positions.isEmpty() && (best == null || read.worth(datagrams) > best.worth(datagrams) + 0.5)) {
                best = read;
            }
        }
        return Optional.ofNullable(best);
    }

    /** The same with what stands in other kinds of datagram: a heading, say, that is sent apart from the position. */
    private Read withOthers(Read read, List<Frame> frames) {
        List<Frame> others = new ArrayList<>();
        for (Frame frame : frames) {
            if (frame.isAnotherKindThan(read.frame)
                    && others.stream().allMatch(frame::isAnotherKindThan)
                    && frame.timeS().length >= FEWEST
                    && others.size() < MOST_OTHERS) {
                others.add(frame);
            }
        }
        if (others.isEmpty()) {
            return read;
        }
        Frame all = read.frame.beside(others);
        List<Motions.Scored> positions = Motions.search(all, read.grid, known);
        return positions.isEmpty() ? read : new Read(all, read.grid, positions);
    }

    private static List<Datagram> busiest(List<Datagram> datagrams, List<String> notes) {
        Map<InetSocketAddress, List<Datagram>> senders = new LinkedHashMap<>();
        for (Datagram datagram : datagrams) {
            senders.computeIfAbsent(datagram.sender(), s -> new ArrayList<>()).add(datagram);
        }
        if (senders.size() > 1) {
            notes.add(senders.size() + " senders; the busiest was taken");
        }
        List<Datagram> most = senders.values().stream()
                .max(Comparator.comparingInt(List::size))
                .orElse(List.of());
        List<Datagram> ordered = new ArrayList<>(most);
        ordered.sort(Comparator.comparingLong(Datagram::receivedMicros));
        // By chance, the same each time: every second one would be all of a kind where kinds take turns.
        SplittableRandom chance = new SplittableRandom(ordered.size());
        double share = Math.min(1, MOST / (double) ordered.size());
        return ordered.stream().filter(each -> chance.nextDouble() < share).toList();
    }
}
