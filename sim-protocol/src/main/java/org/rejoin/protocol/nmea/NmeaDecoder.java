package org.rejoin.protocol.nmea;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.WireFormat;

import org.jspecify.annotations.Nullable;

/** Joins sentences into states, one per UTC. */
final class NmeaDecoder implements WireFormat.Decoder {

    private static final long EPOCH_MICROS = 80_000;

    /** How long a heading may wait for the position that follows it. */
    private static final long WAITING_MICROS = 1_000_000;

    private static final int MOST_WAITING = 16;
    private static final String WGS_84 = "W84";

    private final Framing framing = new Framing();
    private final UtcClock clock = new UtcClock();
    private final Map<String, Waiting> waiting = new LinkedHashMap<>();
    private @Nullable Epoch epoch;
    private boolean datumReported;

    /** A sentence without a time of its own that came before its epoch. */
    private record Waiting(Sentence sentence, long micros) {}

    @Override
    public List<Decoded> decode(Datagram datagram) {
        List<Decoded> out = new ArrayList<>();
        closeIfQuiet(datagram.receivedMicros(), out);
        if (Framing.isImageTransfer(datagram.payload())) {
            out.add(new NotAPosition("IEC 61162-450 binary image transfer"));
            return out;
        }
        for (Framing.Raw raw : framing.split(datagram, out)) {
            try {
                sentence(raw, datagram.receivedMicros(), out);
            } catch (FieldFault fault) {
                out.add(new Malformed(raw.offset(), fault.found(), fault.expected()));
            }
        }
        return out;
    }

    @Override
    public List<Decoded> advanceTo(long nowMicros) {
        List<Decoded> out = new ArrayList<>();
        closeIfQuiet(nowMicros, out);
        framing.advanceTo(nowMicros, out);
        return out;
    }

    private void sentence(Framing.Raw raw, long micros, List<Decoded> out) throws FieldFault {
        if (raw.text().charAt(0) == '!') {
            out.add(new NotAPosition("encapsulation sentence"));
            return;
        }
        Sentence sentence = Sentence.of(raw);
        if (sentence.formatter().equals("DTM")) {
            datum(sentence.field(1), raw.offset(), out);
            return;
        }
        if (!SentenceReader.knows(sentence.formatter())) {
            out.add(new NotAPosition(sentence.proprietary() ? "proprietary sentence" : sentence.formatter()));
            return;
        }
        if (!sentence.checked()) {
            if (!SentenceReader.isWhole(sentence)) {
                throw new FieldFault(
                        sentence.formatter() + " of " + sentence.fields().size() + " fields without a checksum",
                        "all its fields, or a checksum");
            }
            out.add(new NotAPosition(sentence.formatter() + " unchecked"));
        }
        SentenceReader.check(sentence);
        if (!(SentenceReader.utcField(sentence.formatter()) > 0
                ? timed(sentence, micros, out)
                : untimed(sentence, micros))) {
            out.add(new NotAPosition(sentence.formatter() + " without data"));
        }
    }

    // Positions of another datum are off by up to a few hundred metres; what they are good for is the pilot's choice.
    private void datum(String datum, int offset, List<Decoded> out) {
        if (datum.isEmpty() || datum.equals(WGS_84) || datumReported) {
            out.add(new NotAPosition("DTM"));
            return;
        }
        datumReported = true;
        out.add(new Malformed(offset, "datum " + PlainText.of(datum, 8), "datum W84; set the sender to WGS 84"));
    }

    private boolean timed(Sentence sentence, long micros, List<Decoded> out) throws FieldFault {
        long utcMillis = Fields.utcMillis(sentence.field(SentenceReader.utcField(sentence.formatter())));
        String key = SentenceReader.key(sentence);
        Epoch current = epoch;
        if (current == null || current.utcMillis() != utcMillis || current.has(key)) {
            close(out);
            current = new Epoch(utcMillis, micros);
            epoch = current;
            for (Map.Entry<String, Waiting> earlier : waiting.entrySet()) {
                if (micros - earlier.getValue().micros <= WAITING_MICROS) {
                    current.heard(earlier.getKey(), micros);
                    SentenceReader.read(earlier.getValue().sentence, current);
                }
            }
            waiting.clear();
        }
        current.heard(key, micros);
        return SentenceReader.read(sentence, current);
    }

    // Joins the open epoch; if that has one of its kind already, this one leads the next epoch.
    private boolean untimed(Sentence sentence, long micros) throws FieldFault {
        String key = SentenceReader.key(sentence);
        Epoch current = epoch;
        if (current != null && !current.has(key)) {
            current.heard(key, micros);
            return SentenceReader.read(sentence, current);
        }
        if (!SentenceReader.read(sentence, new Epoch(-1, micros))) {
            return false;
        }
        if (waiting.size() < MOST_WAITING || waiting.containsKey(key)) {
            waiting.put(key, new Waiting(sentence, micros));
        }
        return true;
    }

    private void closeIfQuiet(long nowMicros, List<Decoded> out) {
        Epoch current = epoch;
        if (current != null && nowMicros - current.lastMicros() >= EPOCH_MICROS) {
            close(out);
        }
    }

    private void close(List<Decoded> out) {
        Epoch closed = epoch;
        epoch = null;
        if (closed == null) {
            return;
        }
        Optional<AircraftState> state = closed.close().state(closed.openedMicros() * 1e-6);
        if (state.isPresent()) {
            Optional<SourceTime> time = clock.read(closed.utcMillis(), state.get());
            out.add(new Decoded.Sample(state.get(), time, "", ""));
        }
    }
}
