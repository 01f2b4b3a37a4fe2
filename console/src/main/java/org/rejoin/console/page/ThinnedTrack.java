package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * The rows of a flight, few enough for a page however long it is: when there are too many, every second one goes and from
 * then on half as many are taken. The ends of its pieces stay.
 */
final class ThinnedTrack {

    /** More would not show on a screen. */
    static final int MOST = 4_000;

    private double leastS = 0.25;
    private List<Row> rows = new ArrayList<>();

    /** Takes a row, if it is far enough from the last one taken. */
    boolean add(Row row) {
        if (!rows.isEmpty()) {
            Row last = rows.get(rows.size() - 1);
            if (row.timeS() - last.timeS() < leastS && row.follows(last)) {
                return false;
            }
        }
        rows.add(row);
        if (rows.size() > MOST) {
            thin();
        }
        return true;
    }

    private void thin() {
        List<Row> fewer = new ArrayList<>(rows.size() / 2 + 1);
        for (int i = 0; i < rows.size(); i++) {
            boolean end = i == 0 || !rows.get(i).follows(rows.get(i - 1));
            if (i % 2 == 0 || end) {
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
