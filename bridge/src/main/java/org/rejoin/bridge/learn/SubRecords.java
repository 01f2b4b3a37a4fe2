package org.rejoin.bridge.learn;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.profile.Layout;
import org.rejoin.protocol.profile.NumberType;

/** Finds sub-records of one size, each with an index in front that says what it holds. */
final class SubRecords {

    private static final int FARTHEST_START = 16;
    private static final int LARGEST = 44;
    private static final int SAMPLED = 200;
    private static final int MOST = 2;

    private SubRecords() {}

    /**
     * A layout that is likely.
     *
     * @param littleEndian byte order of the index; either for an index of one octet
     * @param score how likely
     */
    record Likely(Layout.Records records, boolean littleEndian, double score) {}

    /** The likeliest layouts, best first; none where no octet behaves like an index. */
    static List<Likely> likely(List<Datagram> datagrams) {
        List<Datagram> sample = new ArrayList<>();
        int step = Math.max(1, datagrams.size() / SAMPLED);
        for (int i = 0; i < datagrams.size(); i += step) {
            sample.add(datagrams.get(i));
        }
        List<Likely> guesses = new ArrayList<>();
        for (int start = 0; start <= FARTHEST_START; start++) {
            for (int size = 3; size <= LARGEST; size++) {
                for (NumberType type : List.of(NumberType.U8, NumberType.U16, NumberType.I32)) {
                    if (size > type.size() + 1) {
                        guess(sample, start, size, type, true, guesses);
                        if (type.size() > 1) {
                            guess(sample, start, size, type, false, guesses);
                        }
                    }
                }
            }
        }
        return guesses.stream()
                .sorted(Comparator.comparingDouble(Likely::score).reversed())
                .limit(MOST)
                .toList();
    }

    /**
     * An index differs from the others of its datagram, comes back in others, and takes few values. A wider one wins
     * over the octet of it that counts, which leaves a remainder at the end or puts zeros into the values.
     */
    private static void guess(
            List<Datagram> sample, int start, int size, NumberType type, boolean littleEndian, List<Likely> guesses) {
        Set<Integer> all = new HashSet<>();
        long seen = 0;
        int most = 0;
        int whole = 0;
        for (Datagram datagram : sample) {
            ByteBuffer octets = datagram.payload();
            int room = octets.capacity() - start;
            int count = room / size;
            if (count < 1) {
                return;
            }
            whole += room % size == 0 ? 1 : 0;
            Set<Integer> here = new HashSet<>();
            for (int k = 0; k < count; k++) {
                int index = (int) BinaryFraming.read(octets, start + k * size, type, littleEndian);
                if (index < 0 || index > 999 || !here.add(index)) {
                    return;
                }
            }
            all.addAll(here);
            seen += count;
            most = Math.max(most, count);
        }
        boolean few = most >= 2 && all.size() <= 3 * most && seen > 3L * all.size();
        if (few && whole > 0.9 * sample.size()) {
            Layout.Records records =
                    new Layout.Records(start, size, new Layout.IntegerField(0, type), new Layout.Count.ToEnd());
            double score = seen / (double) sample.size() - 0.5 * all.size() + 0.1 * type.size();
            guesses.add(new Likely(records, littleEndian, score));
        }
    }
}
