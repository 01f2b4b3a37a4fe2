package org.rejoin.protocol.nmea;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import net.sf.marineapi.nmea.parser.SentenceFactory;
import net.sf.marineapi.nmea.sentence.GGASentence;
import net.sf.marineapi.nmea.sentence.HDTSentence;
import net.sf.marineapi.nmea.sentence.RMCSentence;
import net.sf.marineapi.nmea.sentence.TalkerId;
import net.sf.marineapi.nmea.util.DataStatus;
import net.sf.marineapi.nmea.util.FaaMode;
import net.sf.marineapi.nmea.util.Position;
import net.sf.marineapi.nmea.util.Time;
import org.junit.jupiter.api.Test;

/** Validation against an independent NMEA library, both ways; and our own encoder against our own decoder. */
class NmeaLibraryValidationTest {

    private static String encode(AircraftState state) {
        return new String(new NmeaFormat().newEncoder().encode(state).get(0), StandardCharsets.US_ASCII);
    }

    private static AircraftState decode(String text) {
        WireFormat.Decoder decoder = new NmeaFormat().newDecoder();
        List<Decoded> out = new ArrayList<>(decoder.decode(Wire.text(text)));
        out.addAll(decoder.advanceTo(Wire.T0 + 80_000));
        assertThat(Wire.faults(out)).isEmpty();
        return Wire.state(out);
    }

    @Test
    void theLibraryReadsWhatWeSend() {
        List<String> lines = encode(Wire.referenceState(76_474.5)).lines().toList();
        assertThat(lines).hasSize(5);
        RMCSentence rmc = (RMCSentence) SentenceFactory.getInstance().createParser(lines.get(0));
        assertThat(rmc.getPosition().getLatitude()).isCloseTo(30.5, within(1e-7));
        assertThat(rmc.getPosition().getLongitude()).isCloseTo(-145.25, within(1e-7));
        assertThat(rmc.getSpeed()).isCloseTo(118, within(0.005));
        assertThat(rmc.getCourse()).isCloseTo(262, within(0.005));
        assertThat(rmc.getMode()).isEqualTo(FaaMode.SIMULATED);
        assertThat(rmc.getTime()).isEqualTo(new Time("211434.500"));
        GGASentence gga = (GGASentence) SentenceFactory.getInstance().createParser(lines.get(1));
        assertThat(gga.getAltitude()).isCloseTo(1828.8, within(0.005));
        HDTSentence hdt = (HDTSentence) SentenceFactory.getInstance().createParser(lines.get(2));
        assertThat(hdt.getHeading()).isCloseTo(270, within(0.005));
        assertThat(lines.get(3)).startsWith("$HCHDG,256.80,,,13.20,E*");
        assertThat(lines.get(4)).startsWith("$YXXDR,A,3.00,D,PTCH,A,-20.00,D,ROLL*");
    }

    @Test
    void weReadWhatTheLibrarySends() {
        RMCSentence rmc = (RMCSentence) SentenceFactory.getInstance().createParser(TalkerId.GP, "RMC");
        rmc.setTime(new Time(21, 14, 34.5));
        rmc.setStatus(DataStatus.ACTIVE);
        rmc.setMode(FaaMode.SIMULATED);
        rmc.setPosition(new Position(30.5, -145.25));
        rmc.setSpeed(118);
        rmc.setCourse(262);
        AircraftState state = decode(rmc.toSentence() + "\r\n");
        assertThat(state.latitudeDeg()).isCloseTo(30.5, within(1e-6));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-6));
        assertThat(state.groundSpeedKt()).hasValue(118);
        assertThat(state.trackTrueDeg()).hasValue(262);
    }

    @Test
    void anyPlaceAndTimeSurvivesTheWire() {
        SplittableRandom random = new SplittableRandom(183);
        for (int i = 0; i < 2000; i++) {
            double lat = i == 0 ? 90 : i == 1 ? -90 : i == 2 ? 59.9999999999 : random.nextDouble(-90, 90);
            double lon = i == 0 ? -180 : i == 1 ? 179.9999999999 : random.nextDouble(-180, 180);
            AircraftState state = decode(encode(AircraftState.at(random.nextDouble(-10, 200_000), lat, lon)));
            // Five decimals of a minute: half of 1e-5 / 60.
            assertThat(state.latitudeDeg()).isCloseTo(lat, within(1e-7));
            assertThat(Math.IEEEremainder(state.longitudeDeg() - lon, 360)).isCloseTo(0, within(1e-7));
            assertThat(state.altitudeMslFt()).isEmpty();
        }
    }
}
