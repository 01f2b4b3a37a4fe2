package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.junit.jupiter.api.Test;

/** However long a flight is, its track fits a page, and no piece of it is cut short. */
class ThinnedTrackTest {

    private static Row row(double timeS, boolean apart, int leg) {
        return new Row(
                timeS,
                timeS / 30,
                0,
                90,
                120,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                apart,
                new Row.Line(1, leg, OptionalDouble.of(0), OptionalDouble.of(1), 1, 1));
    }

    @Test
    void aShortFlightStaysWhole() {
        ThinnedTrack track = new ThinnedTrack();
        List<Row> given = new ArrayList<>();
        for (int i = 0; i < 3_999; i++) {
            Row row = row(i * 0.25, i == 0, 0);
            given.add(row);
            assertThat(track.add(row)).containsExactly(row);
        }
        assertThat(track.rows()).isEqualTo(given);
    }

    @Test
    void eightHoursFitAndAreEven() {
        ThinnedTrack track = new ThinnedTrack();
        int samples = 8 * 3_600 * 20;
        for (int i = 0; i < samples; i++) {
            track.add(row(i * 0.05, i == 0, 0));
            assertThat(track.rows().size()).isLessThanOrEqualTo(ThinnedTrack.MOST);
        }
        List<Row> rows = track.rows();
        assertThat(rows.size()).isGreaterThan(ThinnedTrack.MOST / 3);
        assertThat(rows.get(0).timeS()).isZero();
        double most = 0;
        for (int i = 1; i < rows.size(); i++) {
            double step = rows.get(i).timeS() - rows.get(i - 1).timeS();
            assertThat(step).isPositive();
            most = Math.max(most, step);
        }
        // 28,800 s in at most 4,000 rows are 7.2 s a row at the least; the step doubles from a quarter of a second.
        assertThat(most).isBetween(7.2, 17.0);
    }

    @Test
    void thePiecesKeepBothEnds() {
        ThinnedTrack track = new ThinnedTrack();
        List<Row> taken = new ArrayList<>();
        // 20 pieces of 700 s at 20 Hz; the last row of each comes between two steps.
        for (int piece = 0; piece < 20; piece++) {
            for (int i = 0; i < 14_003; i++) {
                taken.addAll(track.add(row(piece * 1_000 + i * 0.05, i == 0, 0)));
            }
        }
        List<Row> rows = track.rows();
        for (int piece = 0; piece < 20; piece++) {
            double from = piece * 1_000;
            List<Row> mine = rows.stream()
                    .filter(row -> row.timeS() >= from && row.timeS() < from + 1_000)
                    .toList();
            assertThat(mine.get(0).timeS()).isEqualTo(from);
            assertThat(mine.get(0).apart()).isTrue();
            if (piece < 19) {
                assertThat(mine.get(mine.size() - 1).timeS()).isEqualTo(from + 14_002 * 0.05);
            }
        }
        assertThat(taken).containsAll(rows);
    }

    @Test
    void aNewLegBeginsWhereItDoes() {
        ThinnedTrack track = new ThinnedTrack();
        track.add(row(0, true, 0));
        assertThat(track.add(row(0.1, false, 0))).isEmpty();
        Row before = row(0.2, false, 0);
        assertThat(track.add(before)).isEmpty();
        Row after = row(0.24, false, 1);
        assertThat(track.add(after)).containsExactly(before, after);
    }

    @Test
    void aFlightOfNothingButJumpsKeepsItsLaterPart() {
        ThinnedTrack track = new ThinnedTrack();
        for (int i = 0; i < 50_000; i++) {
            track.add(row(i, true, 0));
            assertThat(track.rows().size()).isLessThanOrEqualTo(ThinnedTrack.MOST);
        }
        assertThat(track.rows()).last().extracting(Row::timeS).isEqualTo(49_999.0);
        assertThat(track.rows().get(0).timeS()).isGreaterThan(40_000);
    }
}
