package org.rejoin.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;

import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

import com.sun.management.ThreadMXBean;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a decoder takes of memory for one datagram of an aircraft in flight, counted by the machine and not by a clock.
 * The figures are those of docs/speed.md; a method that the compiler has not seen yet may add a little.
 */
class DecodeAllocationTest {

    private static final int SAMPLES = 2_000;
    private static final int ROUNDS = 10;
    private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

    /** Keeps nothing of a sample but a sum, and counts. */
    private static final class Reader implements StateSink {
        private int samples;
        private double sum;

        @Override
        public void sample(StateView sample) {
            samples++;
            sum += sample.value(StateRange.LATITUDE_DEG)
                    + sample.value(StateRange.LONGITUDE_DEG)
                    + sample.value(StateRange.ALTITUDE_MSL_FT)
                    + sample.value(StateRange.GROUND_SPEED_KT);
            sum += sample.value(StateRange.TRACK_TRUE_DEG) + sample.value(StateRange.PITCH_DEG) + sample.sourceS();
            sum += sample.aircraft().length() + sample.marking().length();
        }

        @Override
        public void other(Decoded.Other found) {
            throw new AssertionError(found.toString());
        }
    }

    /** Where the number of the entity has its last octet in an Entity State PDU (IEEE 1278.1-2012, 7.2.2). */
    private static final int ENTITY = 17;

    private static List<Datagram> datagrams(
            WireFormat format, int aircraft, double startS, Function<Integer, Long> micros) {
        WireFormat.Encoder encoder = format.newEncoder();
        List<Datagram> datagrams = new ArrayList<>();
        List<AircraftState> flight = Wire.flight(SAMPLES, 20);
        for (int i = 0; i < SAMPLES; i++) {
            AircraftState state = flight.get(i);
            byte[] octets = encoder.encode(state.withTimeS(startS + i / 20.0)).get(0);
            if (aircraft > 1) {
                octets[ENTITY] = (byte) (1 + i % aircraft);
            }
            datagrams.add(Wire.datagram(micros.apply(i), octets));
        }
        return datagrams;
    }

    /** Of twelve aircraft of one sender in turn 2 to 3 octets were counted; a key made for each look-up would be 14 and more. */
    @ParameterizedTest
    @CsvSource({"dis, 1, 0", "dis, 12, 8", "nmea, 1, 0", "json, 1, 200"})
    void aDatagramMakesNoGarbage(String name, int aircraft, long mostOctets) {
        WireFormat format = List.of(new DisFormat(), new NmeaFormat(), new JsonFormat()).stream()
                .filter(f -> f.name().equals(name))
                .findFirst()
                .orElseThrow();
        WireFormat.Decoder decoder = format.newDecoder();
        Reader reader = new Reader();
        long thread = Thread.currentThread().getId();
        long taken = Long.MAX_VALUE;
        for (int round = 0; round < ROUNDS; round++) {
            double startS = round * SAMPLES / 20.0;
            long firstMicros = Wire.T0 + Math.round(startS * 1e6);
            List<Datagram> datagrams = datagrams(format, aircraft, startS, i -> firstMicros + i * 50_000L);
            long before = THREADS.getThreadAllocatedBytes(thread);
            for (Datagram datagram : datagrams) {
                decoder.decode(datagram, reader);
            }
            taken = Math.min(taken, THREADS.getThreadAllocatedBytes(thread) - before);
        }
        assertThat(reader.samples).isGreaterThanOrEqualTo(ROUNDS * SAMPLES - 1);
        assertThat(Double.isFinite(reader.sum)).isTrue();
        assertThat(taken / SAMPLES).as("octets a datagram").isLessThanOrEqualTo(mostOctets);
    }
}
