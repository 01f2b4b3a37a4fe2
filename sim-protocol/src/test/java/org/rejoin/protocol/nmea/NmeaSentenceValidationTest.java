package org.rejoin.protocol.nmea;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.Decoded.Sample;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Validation: worked sentences, each parsed by an independent library (Marine API). */
class NmeaSentenceValidationTest {

    static final String RMC = "$GPRMC,211434.50,A,3030.00000,N,14515.00000,W,118.0,262.0,010626,13.2,E,S*08";
    static final String GGA = "$GPGGA,211434.50,3030.00000,N,14515.00000,W,8,10,0.9,1828.8,M,-22.4,M,,*6D";

    /** All that one datagram with these lines leads to, once its epoch is over. */
    static List<Decoded> decode(String... lines) {
        WireFormat.Decoder decoder = new NmeaFormat().newDecoder();
        List<Decoded> out = new ArrayList<>(decoder.decode(Wire.text(String.join("\r\n", lines) + "\r\n")));
        out.addAll(decoder.advanceTo(Wire.T0 + 80_000));
        return out;
    }

    private static void assertReferencePosition(AircraftState state) {
        assertThat(state.latitudeDeg()).isCloseTo(30.5, within(1e-12));
        assertThat(state.longitudeDeg()).isCloseTo(-145.25, within(1e-12));
    }

    @Test
    void allSentencesOfOneUtcMakeTheReferenceState() {
        List<Decoded> decoded = decode(
                RMC, GGA, "$HEHDT,270.0,T*2A", "$HCHDG,256.8,0.0,E,13.2,E*7B", "$YXXDR,A,3.0,D,PTCH,A,-20.0,D,ROLL*41");
        assertThat(decoded).hasSize(1);
        Sample sample = (Sample) decoded.get(0);
        AircraftState state = sample.state();
        assertReferencePosition(state);
        assertThat(state.timeS()).isEqualTo(Wire.T0 * 1e-6);
        assertThat(state.altitudeMslFt().orElseThrow()).isCloseTo(6000, within(1e-9));
        assertThat(state.headingTrueDeg()).hasValue(270);
        assertThat(state.headingMagneticDeg()).hasValue(256.8);
        assertThat(state.trackTrueDeg()).hasValue(262);
        assertThat(state.groundSpeedKt()).hasValue(118);
        assertThat(state.pitchDeg()).hasValue(3);
        assertThat(state.rollDeg()).hasValue(-20);
        assertThat(state.verticalSpeedFpm()).isEmpty();
        assertThat(sample.source().orElseThrow().seconds()).isCloseTo(21 * 3600 + 14 * 60 + 34.5, within(1e-9));
        assertThat(sample.source().orElseThrow().wrapS()).isEqualTo(86_400);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                RMC,
                "$GPRMC,211434.50,A,3030.00000,N,14515.00000,W,118.0,262.0,010626,13.2,E*77",
                "$GPRMC,211434.50,A,3030.00000,N,14515.00000,W,118.0,262.0,010626,13.2,E,S,V*72",
                "$GPGLL,3030.00000,N,14515.00000,W,211434.50,A,S*69",
                "$GPGLL,3030.00000,N,14515.00000,W,211434.50,A*16",
                GGA
            })
    void anySentenceWithAPositionWillDo(String sentence) {
        AircraftState state = Wire.state(decode(sentence));
        assertReferencePosition(state);
        assertThat(state.headingTrueDeg()).isEmpty();
    }

    @Test
    void southAndWestAreNegativeAndAMissingCourseIsAbsent() {
        AircraftState state = Wire.state(decode("$GNRMC,000000,A,3315.1234,S,12045.6789,W,95.4,,311299,4.7,W,A*0E"));
        assertThat(state.latitudeDeg()).isCloseTo(-(33 + 15.1234 / 60), within(1e-12));
        assertThat(state.longitudeDeg()).isCloseTo(-(120 + 45.6789 / 60), within(1e-12));
        assertThat(state.trackTrueDeg()).isEmpty();
        assertThat(state.groundSpeedKt()).hasValue(95.4);
    }

    @Test
    void courseThreeSixtyIsNorthAndLongitudeOneEightyIsWest() {
        AircraftState state =
                Wire.state(decode("$GPRMC,211436.00,A,0000.00000,S,18000.00000,E,0.0,360.0,010626,,,S*5D"));
        assertThat(Double.doubleToLongBits(state.latitudeDeg())).isZero();
        assertThat(state.longitudeDeg()).isEqualTo(-180);
        assertThat(state.trackTrueDeg()).hasValue(0);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "$GPRMC,211435,V,,,,,,,010626,,,N*50", "$GPGGA,211435,,,,,0,00,,,M,,M,,*66",
                "$GPVTG,262.0,248.8,118.0,218.5*54", "$VWVHW,270.0,T,256.8,M,112.4,N,208.2,K*56",
                "$WIMWD,300.0,T,286.8,M,20.0,N,10.3,M*5D", "$TIROT,-35.6,A*26",
                "$GPDTM,W84,,0.0,N,0.0,E,0.0,W84*6F", "$GPZDA,211434.50,01,06,2026,00,00*63"
            })
    void aSentenceWithoutAPositionIsNone(String sentence) {
        assertThat(decode(sentence)).hasSize(1).first().isInstanceOf(NotAPosition.class);
    }

    @Test
    void altitudesBelowTheSeaAreNegative() {
        AircraftState state =
                Wire.state(decode("$GPGGA,211434.50,3030.00000,N,14515.00000,W,8,10,0.9,-12.3,M,,M,,*7C"));
        assertThat(state.altitudeMslFt().orElseThrow()).isCloseTo(-12.3 / 0.3048, within(1e-9));
    }

    @Test
    void speedAndTrackMayComeFromVtg() {
        AircraftState state = Wire.state(decode(GGA, "$GPVTG,262.0,T,248.8,M,118.0,N,218.5,K,S*37"));
        assertThat(state.groundSpeedKt()).hasValue(118);
        assertThat(state.trackTrueDeg()).hasValue(262);
        AircraftState rest = Wire.state(decode(GGA, "$GPVTG,,T,,M,0.0,N,0.0,K,S*31"));
        assertThat(rest.groundSpeedKt()).hasValue(0);
        assertThat(rest.trackTrueDeg()).isEmpty();
    }

    @Test
    void theCompassGivesMagneticAndByItsVariationTrueHeading() {
        AircraftState plain = Wire.state(decode(GGA, "$HCHDG,256.8,0.0,E,13.2,E*7B"));
        assertThat(plain.headingMagneticDeg().orElseThrow()).isCloseTo(256.8, within(1e-9));
        assertThat(plain.headingTrueDeg().orElseThrow()).isCloseTo(270.0, within(1e-9));
        AircraftState deviated = Wire.state(decode(GGA, "$HCHDG,256.8,1.5,W,13.2,E*6D"));
        assertThat(deviated.headingMagneticDeg().orElseThrow()).isCloseTo(255.3, within(1e-9));
        assertThat(deviated.headingTrueDeg().orElseThrow()).isCloseTo(268.5, within(1e-9));
        AircraftState bare = Wire.state(decode(GGA, "$HCHDG,256.8,,,,*4B"));
        assertThat(bare.headingMagneticDeg()).hasValue(256.8);
        assertThat(bare.headingTrueDeg()).isEmpty();
    }

    @Test
    void eastVariationIsTakenOffTrueHeading() {
        // RMC says 13.2 E: magnetic north lies east of true.
        assertThat(Wire.state(decode(RMC, "$HEHDT,270.0,T*2A"))
                        .headingMagneticDeg()
                        .orElseThrow())
                .isCloseTo(256.8, within(1e-9));
    }

    @Test
    void aDatagramOfIec61162450IsReadThroughItsTagBlocks() {
        String framed = "UdPbC\0\\s:GP0001,n:7*10\\" + RMC + "\r\n\\s:GP0001,n:8*1F\\" + GGA + "\r\n";
        assertThat(framed).hasSize(194);
        WireFormat.Decoder decoder = new NmeaFormat().newDecoder();
        assertThat(decoder.decode(Wire.text(framed))).isEmpty();
        AircraftState state = Wire.state(decoder.advanceTo(Wire.T0 + 100_000));
        assertReferencePosition(state);
        assertThat(state.altitudeMslFt().orElseThrow()).isCloseTo(6000, within(1e-9));
    }

    @Test
    void aWrongTagChecksumCostsOnlyTheTag() {
        List<Decoded> decoded = decode("\\s:GP0001,n:7*11\\" + RMC);
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertReferencePosition(Wire.state(decoded));
        assertThat(Wire.faults(decode("\\g:1-2-15,s:GP0001,c:1780348474*5A\\" + GGA)))
                .isEmpty();
    }

    @Test
    void absentAltitudeIsNotZero() {
        assertThat(Wire.state(decode(RMC)).altitudeMslFt()).isEqualTo(OptionalDouble.empty());
    }
}
