package org.rejoin.console.page;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;

import org.jspecify.annotations.Nullable;

/** All that the page shows of one seat, kept for whoever opens it later. Confined to the page's thread. */
final class SeatPicture {

    /** Lines of the log; of more the oldest go. */
    static final int MOST_LINES = 20_000;

    /** Likewise, characters: nobody reads more, and a page that is opened later must get all of it. */
    private static final long MOST_CHARACTERS = 2_000_000;

    private final SeatPage seat;
    private long characters;
    private final Deque<Message> kept = new ArrayDeque<>();
    private final Map<String, Message> latest = new LinkedHashMap<>();
    private final ThinnedTrack track = new ThinnedTrack();
    private @Nullable Row now;

    SeatPicture(SeatPage seat) {
        this.seat = seat;
    }

    /** Takes what is new. The sink gets each piece as it goes out to open pages. */
    void update(Consumer<Message> said, RowsSink drawn) {
        SeatPage.Taken taken = seat.take();
        for (Message message : taken.messages()) {
            keep(message);
            said.accept(message);
        }
        List<Row> fresh =
                taken.rows().stream().flatMap(row -> track.add(row).stream()).toList();
        taken.latest().ifPresent(row -> now = row);
        if (!fresh.isEmpty() || taken.latest().isPresent()) {
            drawn.rows(seat.id(), fresh, taken.latest().orElse(null));
        }
    }

    /** Takes rows that are new. */
    interface RowsSink {
        void rows(String seat, List<Row> fresh, @Nullable Row now);
    }

    private void keep(Message message) {
        if (!message.replaces().isEmpty()) {
            latest.put(message.replaces(), message);
        } else if (message.kept()) {
            kept.add(message);
            characters += message.json().length();
            while (kept.size() > MOST_LINES || characters > MOST_CHARACTERS) {
                characters -= kept.removeFirst().json().length();
            }
        }
    }

    /** Everything again, for a page that has just been opened. */
    void all(Consumer<Message> said, RowsSink drawn) {
        kept.forEach(said);
        latest.values().forEach(said);
        drawn.rows(seat.id(), track.rows(), now);
    }

    String label() {
        return seat.label();
    }

    long lost() {
        return seat.lost();
    }
}
