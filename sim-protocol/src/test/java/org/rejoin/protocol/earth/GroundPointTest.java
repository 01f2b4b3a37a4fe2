package org.rejoin.protocol.earth;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.Stream;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

import org.junit.jupiter.api.Test;

class GroundPointTest {

    /** A place of the invented scenario, in open ocean. */
    private static final double LATITUDE_DEG = 38.2;

    private static final double LONGITUDE_DEG = -49.92;

    private static GroundPoint heard(WireFormat format) {
        AircraftState sent = AircraftState.at(0, LATITUDE_DEG, LONGITUDE_DEG);
        byte[] octets = format.newEncoder().encode(sent).get(0);
        WireFormat.Decoder decoder = format.newDecoder();
        return Stream.concat(
                        decoder.decode(Wire.datagram(Wire.T0, octets)).stream(),
                        decoder.advanceTo(Wire.T0 + 10_000_000L).stream())
                .filter(Decoded.Sample.class::isInstance)
                .map(found -> ((Decoded.Sample) found).state().place())
                .findFirst()
                .orElseThrow();
    }

    @Test
    void eachSenderIsTakenAsItSpeaks() {
        assertThat(heard(new DisFormat()).inDegrees())
                .as("DIS sends metres from the Earth's centre")
                .isFalse();
        assertThat(heard(new NmeaFormat()).inDegrees()).isTrue();
        assertThat(heard(new JsonFormat()).inDegrees()).isTrue();
    }

    @Test
    void whatWasNotSentIsWorkedOut() {
        GroundPoint byNormal = heard(new DisFormat());
        GroundPoint inDegrees = heard(new JsonFormat());
        assertThat(byNormal.latitudeDeg()).isCloseTo(LATITUDE_DEG, within(1e-12));
        assertThat(byNormal.longitudeDeg()).isCloseTo(LONGITUDE_DEG, within(1e-12));
        assertThat(inDegrees.latitudeDeg()).isEqualTo(LATITUDE_DEG);
        assertThat(inDegrees.longitudeDeg()).isEqualTo(LONGITUDE_DEG);
        assertThat(inDegrees.normal().angleTo(byNormal.normal())).isLessThan(1e-14);
        assertThat(inDegrees.normal()).isSameAs(inDegrees.normal());
    }

    @Test
    void pointsAreOneWhereTheirDegreesAre() {
        GroundPoint inDegrees = GroundPoint.at(0, 90);
        GroundPoint byNormal = GroundPoint.under(new Normal(0, 1, 0));
        assertThat(byNormal).isEqualTo(inDegrees).hasSameHashCodeAs(inDegrees);
        assertThat(byNormal).isNotEqualTo(GroundPoint.at(0, -90)).hasToString(inDegrees.toString());
    }
}
