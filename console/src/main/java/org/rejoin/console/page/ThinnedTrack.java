package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

import org.jspecify.annotations.Nullable;

/**
 * The rows of a flight, few enough for a page however long it is: when there are too many, every second one goes and from
 * then on half as many are taken. The ends of its pieces stay.
 */
final class ThinnedTrack {

    /** More would not show on a screen. */
    static final int MOST = 4_000;

    private double leastS = 0.25;
    private List<Row> rows = new ArrayList<>();
    private @Nullable Row skipped;

    /**
     * Takes a row, if it is far enough from the last one taken. One that was not is taken later, if it turns out to be
     * the last of its piece. What was taken now: none, one or two.
     */
    List<Row> add(Row row) {
        Row last = rows.isEmpty() ? null : rows.get(rows.size() - 1);
        if (last != null && row.timeS() - last.timeS() < leastS && row.follows(last)) {
            skipped = row;
            return List.of();
        }
        Row end = skipped;
        skipped = null;
        List<Row> taken = end != null && !row.follows(end) ? List.of(end, row) : List.of(row);
        rows.addAll(taken);
        if (rows.size() > MOST) {
            thin();
        }
        return taken;
    }

    private void thin() {
        List<Row> fewer = new ArrayList<>(rows.size() / 2 + 1);
        for (int i = 0; i < rows.size(); i++) {
            boolean first = i == 0 || !rows.get(i).follows(rows.get(i - 1));
            boolean last = i == rows.size() - 1 || !rows.get(i + 1).follows(rows.get(i));
            if (i % 2 == 0 || first || last) {
                fewer.add(rows.get(i));
            }
        }
        // A flight of nothing but ends keeps its later half.
        rows = fewer.size() > MOST ? new ArrayList<>(fewer.subList(fewer.size() / 2, fewer.size())) : fewer;
        leastS *= 2;
    }

    List<Row> rows() {
        return Collections.unmodifiableList(rows);
    }
}
