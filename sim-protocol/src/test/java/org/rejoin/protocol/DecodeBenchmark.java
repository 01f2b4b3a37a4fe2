package org.rejoin.protocol;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.TimeUnit;

import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

import com.fasterxml.jackson.databind.ObjectMapper;
import edu.nps.moves.dis7.EntityStatePdu;
import edu.nps.moves.disutil.CoordinateConversions;
import net.sf.marineapi.nmea.parser.SentenceFactory;
import net.sf.marineapi.nmea.sentence.GGASentence;
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
 * One datagram to one state, each format against a general-purpose library of it, in one run. The libraries stop at the
 * fields as sent; ours goes on to latitude and longitude, heading, bank, track and speed, and checks every one. How to
 * run it and what it gave: docs/speed.md.
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
    private final ObjectMapper mapper = new ObjectMapper();

    /** Encodes a minute of one flight, 10 samples a second. */
    @Setup
    public void encode() {
        WireFormat.Encoder disOut = new DisFormat().newEncoder();
        WireFormat.Encoder nmeaOut = new NmeaFormat().newEncoder();
        WireFormat.Encoder jsonOut = new JsonFormat().newEncoder();
        for (int i = 0; i < BATCH; i++) {
            AircraftState state = Wire.referenceState(i * 0.1);
            dis[i] = Wire.datagram(disOut.encode(state).get(0));
            nmea[i] = rmcAndGga(nmeaOut.encode(state).get(0));
            json[i] = Wire.datagram(jsonOut.encode(state).get(0));
        }
    }

    private static Datagram rmcAndGga(byte[] sentences) {
        List<String> lines =
                new String(sentences, StandardCharsets.US_ASCII).lines().toList();
        return Wire.text(lines.get(0) + "\r\n" + lines.get(1) + "\r\n");
    }

    /**
     * DIS, ours.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void disToState(Blackhole hole) {
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
     * NMEA RMC and GGA, ours.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void nmeaToState(Blackhole hole) {
        for (Datagram datagram : nmea) {
            hole.consume(ourNmea.decode(datagram));
        }
    }

    /**
     * NMEA RMC and GGA, the library: position, speed, course and altitude as sent.
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
            hole.consume(rmc.getPosition());
            hole.consume(rmc.getSpeed());
            hole.consume(rmc.getCourse());
            hole.consume(rmc.getTime());
            hole.consume(gga.getAltitude());
        }
    }

    /**
     * JSON, ours.
     *
     * @param hole of the harness
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void jsonToState(Blackhole hole) {
        for (Datagram datagram : json) {
            hole.consume(ourJson.decode(datagram));
        }
    }

    /**
     * JSON, the library's tree.
     *
     * @param hole of the harness
     * @throws Exception never: the text is ours
     */
    @Benchmark
    @OperationsPerInvocation(BATCH)
    public void jsonLibrary(Blackhole hole) throws Exception {
        for (Datagram datagram : json) {
            hole.consume(mapper.readTree(octets(datagram)));
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
