package org.rejoin.protocol.nmea;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.StateSink;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/** Joins sentences into states, one per UTC. */
final class NmeaDecoder implements WireFormat.Decoder {

    private static final long EPOCH_MICROS = 80_000;
    private static final double DAY_S = 86_400;
    private static final String WGS_84 = "W84";

    private final Framing framing = new Framing();
    private final Sentence sentence = new Sentence();
    private final SentenceReader reader = new SentenceReader();
    private final UtcClock clock = new UtcClock();
    private final Waiting waiting = new Waiting();
    private final Epoch trial = new Epoch();
    private Epoch epoch = new Epoch();
    private Epoch before = new Epoch();
    private boolean open;
    /** The epoch of which the last sentence with a time came once more. */
    private @Nullable Epoch repeated;

    private boolean datumReported;

    @Override
    public void decode(Datagram datagram, StateSink sink) {
        long micros = datagram.receivedMicros();
        closeIfQuiet(micros, sink);
        if (Framing.isImageTransfer(datagram.payload())) {
            sink.other(new NotAPosition("IEC 61162-450 binary image transfer"));
            return;
        }
        framing.begin(datagram, sink);
        while (framing.next(sentence, sink)) {
            try {
                sentence(micros, sink);
            } catch (Sentence.Fault fault) {
                sink.other(new Malformed(sentence.offset(), fault.found(), fault.expected()));
            }
        }
    }

    @Override
    public void advanceTo(long nowMicros, StateSink sink) {
        closeIfQuiet(nowMicros, sink);
        framing.advanceTo(nowMicros, sink);
    }

    private void sentence(long micros, StateSink sink) throws Sentence.Fault {
        if (sentence.isEncapsulation()) {
            sink.other(new NotAPosition("encapsulation sentence"));
            return;
        }
        sentence.check();
        int formatter = sentence.formatter();
        if (formatter == Sentence.DTM) {
            datum(sink);
            return;
        }
        if (!SentenceReader.knows(formatter)) {
            sink.other(new NotAPosition(sentence.proprietary() ? "proprietary sentence" : sentence.formatterText()));
            return;
        }
        if (!sentence.checked()) {
            if (!SentenceReader.isWhole(sentence)) {
                throw new Sentence.Fault(
                        sentence.formatterText() + " of " + sentence.fields() + " fields without a checksum",
                        "all its fields, or a checksum");
            }
            sink.other(new NotAPosition(sentence.formatterText() + " unchecked"));
        }
        reader.coordinates(sentence);
        int utcField = SentenceReader.utcField(formatter);
        boolean told = utcField > 0 ? timed(Fields.utcMillis(sentence, utcField), micros, sink) : untimed(micros);
        if (!told) {
            sink.other(new NotAPosition(sentence.formatterText() + " without data"));
        }
        Malformed slip = reader.slip();
        if (slip != null) {
            sink.other(slip);
        }
    }

    // Positions of another datum are off by up to a few hundred metres; what they are good for is the pilot's choice.
    private void datum(StateSink sink) {
        if (sentence.isEmpty(1) || sentence.is(1, WGS_84) || datumReported) {
            sink.other(new NotAPosition("DTM"));
            return;
        }
        datumReported = true;
        sink.other(new Malformed(
                sentence.offset(),
                "datum " + PlainText.of(sentence.field(1), 8),
                "datum W84; set the sender to WGS 84"));
    }

    private boolean timed(long utcMillis, long micros, StateSink sink) {
        long key = sentence.key();
        repeated = !open || utcMillis < 0 ? null : repeated(utcMillis, key);
        if (repeated != null) {
            return true;
        }
        if (!open || epoch.utcMillis() != utcMillis || epoch.has(key)) {
            close(sink);
            open = true;
            epoch.open(utcMillis, micros);
            waiting.giveTo(epoch, reader, micros);
        }
        epoch.heard(key, sentence, micros);
        return reader.read(sentence, epoch);
    }

    /** The open epoch or the one before, if it has this very sentence: the network doubled it, or it comes late. */
    private @Nullable Epoch repeated(long utcMillis, long key) {
        if (epoch.utcMillis() == utcMillis) {
            return epoch.has(key, sentence) ? epoch : null;
        }
        return before.utcMillis() == utcMillis && before.has(key, sentence) ? before : null;
    }

    // Joins the open epoch; if that has one of its kind already, this one leads the next epoch.
    private boolean untimed(long micros) {
        long key = sentence.key();
        if (repeated != null && repeated.has(key, sentence)) {
            return true;
        }
        if (open && !epoch.has(key)) {
            epoch.heard(key, sentence, micros);
            return reader.read(sentence, epoch);
        }
        if (!reader.read(sentence, trial)) {
            return false;
        }
        waiting.add(sentence, key, micros);
        return true;
    }

    private void closeIfQuiet(long nowMicros, StateSink sink) {
        if (open && nowMicros - epoch.lastMicros() >= EPOCH_MICROS) {
            close(sink);
        }
    }

    private void close(StateSink sink) {
        repeated = null;
        if (!open || epoch.isPartOf(before)) {
            open = false;
            return;
        }
        Epoch closed = epoch;
        epoch = before;
        before = closed;
        open = false;
        StateDraft state = closed.state();
        if (state.hasPosition()) {
            boolean believed = clock.believes(
                    closed.utcMillis(), state.value(StateRange.LATITUDE_DEG), state.value(StateRange.LONGITUDE_DEG));
            sink.sample(state.receivedS(closed.openedMicros() * 1e-6)
                    .source(believed ? closed.utcMillis() / 1000.0 : Double.NaN, DAY_S));
        }
    }

    /**
     * Decides whether a sender's UTC can be believed. Some senders never change it, some send whole seconds many times a
     * second: a clock that stands still while the aircraft moves is no clock.
     */
    private static final class UtcClock {

        /** Epochs in a row with a new UTC after which a clock once caught standing still is believed again. */
        private static final int TRUSTED_AFTER = 20;

        private long lastMillis = -1;
        private double lastLatitudeDeg;
        private double lastLongitudeDeg;
        private int goodSinceFault = TRUSTED_AFTER;

        /** Whether this is a time to go by; -1 ms means that the sender gave none. */
        boolean believes(long utcMillis, double latitudeDeg, double longitudeDeg) {
            if (utcMillis < 0) {
                return false;
            }
            boolean moved = latitudeDeg != lastLatitudeDeg || longitudeDeg != lastLongitudeDeg;
            if (utcMillis != lastMillis) {
                goodSinceFault = Math.min(TRUSTED_AFTER, goodSinceFault + 1);
            } else if (moved) {
                goodSinceFault = 0;
            }
            lastMillis = utcMillis;
            lastLatitudeDeg = latitudeDeg;
            lastLongitudeDeg = longitudeDeg;
            return goodSinceFault >= TRUSTED_AFTER;
        }
    }

    /** Sentences without a time of their own that came before their epoch: a heading, say, that is sent ahead of its position. */
    private static final class Waiting {

        /** How long one may wait for the position that follows it. */
        private static final long LONGEST_MICROS = 1_000_000;

        private static final int MOST = 16;

        private final byte[][] sentences = new byte[MOST][];
        private final int[] lengths = new int[MOST];
        private final long[] keys = new long[MOST];
        private final long[] micros = new long[MOST];
        private final Sentence sentence = new Sentence();
        private int count;

        /** Keeps a sentence, in place of an earlier one of its key. */
        void add(Sentence early, long key, long atMicros) {
            int slot = 0;
            while (slot < count && keys[slot] != key) {
                slot++;
            }
            if (slot == MOST) {
                return;
            }
            if (sentences[slot] == null) {
                sentences[slot] = new byte[Sentence.LONGEST];
            }
            count = Math.max(count, slot + 1);
            lengths[slot] = early.copyTo(sentences[slot]);
            keys[slot] = key;
            micros[slot] = atMicros;
        }

        /** Adds all that is not too old to an epoch that just opened, and forgets it. */
        void giveTo(Epoch epoch, SentenceReader reader, long atMicros) {
            for (int slot = 0; slot < count; slot++) {
                if (atMicros - micros[slot] <= LONGEST_MICROS) {
                    sentence.scan(sentences[slot], 0, lengths[slot]);
                    epoch.heard(keys[slot], sentence, atMicros);
                    reader.read(sentence, epoch);
                }
            }
            count = 0;
        }
    }
}
