package org.rejoin.protocol.profile;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateSink;
import org.rejoin.protocol.WireFormat;

/** Makes samples of records; of records that come in parts, it keeps the parts for a while. */
final class ProfileDecoder implements WireFormat.Decoder {

    private static final long KEPT_MICROS = 2_000_000;

    /** Room for jitter, so that a sender exactly at the limit is not thinned. */
    private static final double THINNING_SLACK = 0.9;

    private final RecordReader first;
    private final List<RecordReader> others;
    private final Optional<Value> time;
    private final boolean inParts;
    private final long leastMicros;
    private final Map<Quantity, Kept> kept = new EnumMap<>(Quantity.class);
    private final StateDraft draft = new StateDraft();
    private Optional<Long> lastMicros = Optional.empty();

    private record Kept(double value, long micros) {}

    ProfileDecoder(Profile profile) {
        List<RecordReader> readers = profile.messages().stream()
                .map(message -> RecordReader.of(profile.name(), message))
                .toList();
        this.first = readers.get(0);
        this.others = readers.subList(1, readers.size());
        this.time = profile.value(Quantity.TIME);
        this.inParts = !others.isEmpty()
                || profile.values().stream().anyMatch(v -> v.index().isPresent());
        this.leastMicros =
                profile.maxHz().isEmpty() ? 0 : (long) (1e6 / profile.maxHz().getAsDouble() * THINNING_SLACK);
    }

    @Override
    public void decode(Datagram datagram, StateSink sink) {
        for (Datagram record : others.isEmpty() ? List.of(datagram) : first.records(datagram)) {
            take(record, sink);
        }
    }

    private void take(Datagram datagram, StateSink sink) {
        for (Reading reading : reader(datagram).read(datagram, sink)) {
            if (inParts) {
                merge(reading, datagram.receivedMicros());
            }
            if (!reading.into(draft.clear())) {
                sink.other(
                        inParts
                                ? new NotAPosition("part of a record")
                                : new Malformed(0, "no position", "a position in every record"));
            } else if (tooSoon(datagram.receivedMicros())) {
                sink.other(new NotAPosition("sample beyond max_hz"));
            } else {
                lastMicros = Optional.of(datagram.receivedMicros());
                draft.receivedS(datagram.receivedS());
                reading.time(time).ifPresent(t -> draft.source(t.seconds(), t.wrapS()));
                sink.sample(draft);
            }
        }
    }

    /** The first message also says what is wrong with a datagram that is none of them. */
    private RecordReader reader(Datagram datagram) {
        if (!others.isEmpty() && !first.recognises(datagram)) {
            for (RecordReader other : others) {
                if (other.recognises(datagram)) {
                    return other;
                }
            }
        }
        return first;
    }

    private boolean tooSoon(long micros) {
        return lastMicros.isPresent() && micros >= lastMicros.get() && micros - lastMicros.get() < leastMicros;
    }

    // A position must come from one datagram; anything else may be up to two seconds old.
    private void merge(Reading reading, long micros) {
        reading.values().forEach((quantity, value) -> kept.put(quantity, new Kept(value, micros)));
        kept.values().removeIf(k -> micros - k.micros > KEPT_MICROS);
        kept.forEach((quantity, k) -> {
            if (!quantity.isPosition() && quantity != Quantity.TIME) {
                reading.values().putIfAbsent(quantity, k.value);
            }
        });
    }

    /** Takes the values of a profile out of a datagram. */
    interface RecordReader {

        /** Whether frame, length and number of fields are those of the profile. */
        boolean recognises(Datagram datagram);

        /** One reading per record of the profile in the datagram; what is wrong goes to the sink. */
        List<Reading> read(Datagram datagram, StateSink sink);

        /** What in a datagram may be of one message or another. */
        default List<Datagram> records(Datagram datagram) {
            return List.of(datagram);
        }

        static RecordReader of(String name, Message message) {
            return message.layout()
                    .fold(
                            text -> new TextReader(name, message.values(), text),
                            binary -> new BinaryReader(name, message.values(), binary));
        }
    }
}
