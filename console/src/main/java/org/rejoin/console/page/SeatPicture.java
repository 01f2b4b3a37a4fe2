package org.rejoin.console.page;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

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

    /** What is told of the seat at once; {@code now} is its latest row, none where it is not another one. */
    record Told(
            List<Message> messages,
            List<Row> rows,
            boolean hasRows,
            @Nullable Row now) {}

    /** Takes what is new, for the pages that are open. */
    Told update() {
        SeatPage.Taken taken = seat.take();
        taken.messages().forEach(this::keep);
        List<Row> fresh =
                taken.rows().stream().flatMap(row -> track.add(row).stream()).toList();
        taken.latest().ifPresent(row -> now = row);
        return new Told(
                taken.messages(),
                fresh,
                !fresh.isEmpty() || taken.latest().isPresent(),
                taken.latest().orElse(null));
    }

    private void keep(Message message) {
        if (!message.replaces().isEmpty()) {
            latest.put(message.replaces(), message);
        } else {
            kept.add(message);
            characters += message.json().length();
            while (kept.size() > MOST_LINES || characters > MOST_CHARACTERS) {
                characters -= kept.removeFirst().json().length();
            }
        }
    }

    /** Everything again, for a page that has just been opened. */
    Told all() {
        return new Told(Stream.concat(kept.stream(), latest.values().stream()).toList(), track.rows(), true, now);
    }

    String label() {
        return seat.label();
    }

    long lost() {
        return seat.lost();
    }
}
