package org.rejoin.protocol;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.TimeUnit;

import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.earth.Normal;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import edu.nps.moves.dis7.EntityStatePdu;
import edu.nps.moves.disutil.CoordinateConversions;
import net.sf.marineapi.nmea.parser.SentenceFactory;
import net.sf.marineapi.nmea.sentence.GGASentence;
import net.sf.marineapi.nmea.sentence.HDTSentence;
import net.sf.marineapi.nmea.sentence.RMCSentence;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/**
 * One datagram to one state that a tracker can use, each format against a general-purpose library of it, in one run: the
 * same position, altitude, speed and track read by both. How to run it and what it gave: bridge/docs/speed.md.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SampleTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 3, time = 2)
@Fork(2)
public class DecodeBenchmark {

    private static final int BATCH = 64;

    private final Datagram[] dis = new Datagram[BATCH];
    private final Datagram[] nmea = new Datagram[BATCH];
    private final Datagram[] json = new Datagram[BATCH];
    private final WireFormat.Decoder ourDis = new DisFormat().newDecoder();
    private final WireFormat.Decoder ourNmea = new NmeaFormat().newDecoder();
    private final WireFormat.Decoder ourJson = new JsonFormat().newDecoder();
    private final Tracked tracked = new Tracked();
    private final TrackedByNormal trackedByNormal = new TrackedByNormal();
    private final Placed placed = new Placed();
    private final ObjectMapper mapper = new ObjectMapper();

    /** Adds up what it reads, so that nothing is left out; each datagram is a sample. */
    private abstract static class Summed implements StateSink {
        double sum;

        @Override
        public void other(Decoded.Other found) {
            throw new AssertionError(found.toString());
        }
    }

    /** Reads of each sample position, in degrees, altitude, speed, vertical speed, track and time. */
    private static final class Tracked extends Summed {
        @Override
        public void sample(StateView sample) {
            sum += sample.value(StateRange.LATITUDE_DEG)
                    + sample.value(StateRange.LONGITUDE_DEG)
                    + sample.value(StateRange.ALTITUDE_MSL_FT);
            sum += sample.value(StateRange.GROUND_SPEED_KT)
                    + sample.value(StateRange.VERTICAL_SPEED_FPM)
                    + sample.value(StateRange.TRACK_TRUE_DEG)
                    + sample.sourceS();
        }
    }

    /** The same with the position as the tracker takes it from DIS: the normal there. */
    private static final class TrackedByNormal extends Summed {
        @Override
        public void sample(StateView sample) {
            Normal up = sample.place().normal();
            sum += up.x() + up.y() + up.z() + sample.value(StateRange.ALTITUDE_MSL_FT);
            sum += sample.value(StateRange.GROUND_SPEED_KT)
                    + sample.value(StateRange.VERTICAL_SPEED_FPM)
                    + sample.value(StateRange.TRACK_TRUE_DEG)
                    + sample.sourceS();
        }
    }

    /** Of it what the library works out, too: where it is, and how high. */
    private static final class Placed extends Summed {
        @Override
        public void sample(StateView sample) {
            Normal up = sample.place().normal();
            sum += up.x() + up.y() + up.z() + sample.value(StateRange.ALTITUDE_MSL_FT);
        }
    }

    /** Encodes some seconds of one flight, 10 samples a second. */
    @Setup
    public void encode() {
        List<AircraftState> flight = Wire.flight(BATCH, 10);
        WireFormat.Encoder disOut = new DisFormat().newEncoder();
        WireFormat.Encoder nmeaOut = new NmeaFormat().newEncoder();
        WireFormat.Encoder jsonOut = new JsonFormat().newEncoder();
        for (int i = 0; i < BATCH; i++) {
            long micros = Wire.T0 + i * 100_000L;
            dis[i] = Wire.datagram(micros, disOut.encode(flight.get(i)).get(0));
            nmea[i] = Wire.rmcGgaHdt(micros, nmeaOut.encode(flight.get(i)).get(0));
            json[i] = Wire.datagram(micros, jsonOut.encode(flight.get(i)).get(0));
        }
    }

    /**
     * DIS, ours: position, altitude, speed, vertical speed, track, time.
     *
     * @return so that nothing is left out
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public double disToState() {
        for (Datagram datagram : dis) {
            ourDis.decode(datagram, tracked);
        }
        return tracked.sum;
    }

    /**
     * DIS, ours, the same with the normal in place of latitude and longitude.
     *
     * @return so that nothing is left out
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public double disToNormal() {
        for (Datagram datagram : dis) {
            ourDis.decode(datagram, trackedByNormal);
        }
        return trackedByNormal.sum;
    }

    /**
     * DIS, ours: the normal and the altitude alone, as much as the library works out.
     *
     * @return so that nothing is left out
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public double disToPosition() {
        for (Datagram datagram : dis) {
            ourDis.decode(datagram, placed);
        }
        return placed.sum;
    }

    /**
     * DIS, ours, as a state that lasts, with attitude and dead reckoning.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void disToSnapshot(Blackhole hole) {
        for (Datagram datagram : dis) {
            hole.consume(ourDis.decode(datagram));
        }
    }

    /**
     * DIS, the library: fields as sent.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void disLibrary(Blackhole hole) {
        for (Datagram datagram : dis) {
            EntityStatePdu pdu = new EntityStatePdu();
            pdu.unmarshal(datagram.payload().duplicate());
            hole.consume(pdu);
        }
    }

    /**
     * DIS, the library with its own conversion of the position.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void disLibraryToPosition(Blackhole hole) {
        for (Datagram datagram : dis) {
            EntityStatePdu pdu = new EntityStatePdu();
            pdu.unmarshal(datagram.payload().duplicate());
            hole.consume(CoordinateConversions.xyzToLatLonDegrees(new double[] {
                pdu.getEntityLocation().getX(),
                pdu.getEntityLocation().getY(),
                pdu.getEntityLocation().getZ()
            }));
        }
    }

    /**
     * NMEA RMC, GGA and HDT, ours.
     *
     * @return so that nothing is left out
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public double nmeaToState() {
        for (Datagram datagram : nmea) {
            ourNmea.decode(datagram, tracked);
        }
        return tracked.sum;
    }

    /**
     * NMEA RMC, GGA and HDT, the library: position, speed, course, time, altitude and heading as sent.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void nmeaLibrary(Blackhole hole) {
        for (Datagram datagram : nmea) {
            String[] lines = text(datagram).split("\r\n", -1);
            RMCSentence rmc = (RMCSentence) SentenceFactory.getInstance().createParser(lines[0]);
            GGASentence gga = (GGASentence) SentenceFactory.getInstance().createParser(lines[1]);
            HDTSentence hdt = (HDTSentence) SentenceFactory.getInstance().createParser(lines[2]);
            hole.consume(rmc.getPosition());
            hole.consume(rmc.getSpeed());
            hole.consume(rmc.getCourse());
            hole.consume(rmc.getTime());
            hole.consume(gga.getAltitude());
            hole.consume(hdt.getHeading());
        }
    }

    /**
     * JSON, ours.
     *
     * @return so that nothing is left out
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public double jsonToState() {
        for (Datagram datagram : json) {
            ourJson.decode(datagram, tracked);
        }
        return tracked.sum;
    }

    /**
     * JSON, the library's tree, and of it what a tracker reads.
     *
     * @param hole of the harness
     * @throws Exception never: the text is ours
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void jsonLibrary(Blackhole hole) throws Exception {
        for (Datagram datagram : json) {
            JsonNode tree = mapper.readTree(octets(datagram));
            hole.consume(tree.get("latitude_deg").doubleValue()
                    + tree.get("longitude_deg").doubleValue());
            hole.consume(tree.get("altitude_ft").doubleValue()
                    + tree.get("ground_speed_kt").doubleValue());
            hole.consume(tree.get("true_track_deg").doubleValue()
                    + tree.get("time_s").doubleValue());
        }
    }

    private static String text(Datagram datagram) {
        return new String(octets(datagram), StandardCharsets.US_ASCII);
    }

    private static byte[] octets(Datagram datagram) {
        ByteBuffer payload = datagram.payload().duplicate();
        byte[] octets = new byte[payload.remaining()];
        payload.get(octets);
        return octets;
    }
}
