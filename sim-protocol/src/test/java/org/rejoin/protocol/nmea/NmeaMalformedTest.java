package org.rejoin.protocol.nmea;

import static org.assertj.core.api.Assertions.assertThat;
import static org.rejoin.protocol.nmea.NmeaSentenceValidationTest.decode;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.Decoded.NotAPosition;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Non-regression: sentences that cannot be right, and what each leads to. */
class NmeaMalformedTest {

    private static final String BODY = "$GPRMC,211434.50,A,3030.00000,N,14515.00000,W,118.0,262.0,010626,13.2,E,S";

    private static String said(List<Decoded> decoded) {
        assertThat(Wire.samples(decoded)).isEmpty();
        assertThat(Wire.faults(decoded)).hasSize(1);
        return Wire.faults(decoded).get(0).found() + " / "
                + Wire.faults(decoded).get(0).expected();
    }

    @ParameterizedTest
    @ValueSource(strings = {"*00", "*", "*0", "*G8", "*0x"})
    void aWrongOrMissingChecksumAfterTheStarIsDropped(String checksum) {
        assertThat(said(decode(BODY + checksum))).contains("checksum");
    }

    @Test
    void aWholeTerminatedSentenceWithoutChecksumIsTakenAndCounted() {
        List<Decoded> decoded = decode(BODY);
        assertThat(Wire.samples(decoded)).hasSize(1);
        assertThat(decoded).contains(new NotAPosition("RMC unchecked"));
    }

    @Test
    void aSentenceCutBeforeItsChecksumIsNoSentence() {
        WireFormat.Decoder decoder = new NmeaFormat().newDecoder();
        assertThat(decoder.decode(Wire.text("$GPRMC,211434.50,A,3030.00000,N,14515.00")))
                .isEmpty();
        assertThat(decoder.advanceTo(Wire.T0 + 900_000)).isEmpty();
        assertThat(said(decoder.advanceTo(Wire.T0 + 1_100_000))).contains("rest of the sentence");
        assertThat(said(decode("$GPRMC,211434.50,A,3030.00000,N,14515.00"))).contains("without a checksum");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "9130.00000,N,14515.00000,W,118.0,262.0 | 03 | latitude out of range",
                "3060.00000,N,14515.00000,W,118.0,262.0 | 0D | minutes out of range",
                "3030.00000,N,18015.00000,W,118.0,262.0 | 01 | longitude out of range",
                "3030.00000,X,14515.00000,W,118.0,262.0 | 1E | hemisphere",
                "30.5,N,145.25,W,118.0,262.0 | 3D | looks like decimal degrees",
            })
    void coordinatesThatCannotBeAreDropped(String fields, String checksum, String hint) {
        assertThat(said(decode("$GPRMC,211434.50,A," + fields + ",010626,13.2,E,S*" + checksum)))
                .contains(hint);
    }

    @Test
    void decimalCommasAreHinted() {
        String body = "GPRMC,211434.50,A,3030,00000,N,14515,00000,W,118,0,262,0,010626,13,2,E,S";
        assertThat(said(decode("$" + body + "*" + Checksum.text(body)))).contains("decimal comma");
    }

    @Test
    void anImpossibleTimeLeavesThePosition() {
        String body = "GPRMC,256199,A,3030.00000,N,14515.00000,W,118.0,262.0,310299,13.2,E,S";
        List<Decoded> decoded = decode("$" + body + "*" + Checksum.text(body));
        assertThat(Wire.samples(decoded)).hasSize(1);
        assertThat(Wire.samples(decoded).get(0).source()).isEmpty();
    }

    @Test
    void numbersThatCannotBeAreAbsent() {
        AircraftState noNumber =
                Wire.state(decode("$GPRMC,211434.50,A,3030.00000,N,14515.00000,W,NaN,262.0,010626,13.2,E,S*4F"));
        assertThat(noNumber.groundSpeedKt()).isEmpty();
        assertThat(noNumber.trackTrueDeg()).hasValue(262);
        AircraftState negative =
                Wire.state(decode("$GPRMC,211434.50,A,3030.00000,N,14515.00000,W,-118.0,262.0,010626,13.2,E,S*25"));
        assertThat(negative.groundSpeedKt()).isEmpty();
        AircraftState beyond =
                Wire.state(decode("$GPRMC,211434.50,A,3030.00000,N,14515.00000,W,118.0,382.0,010626,13.2,E,S*07"));
        assertThat(beyond.trackTrueDeg()).isEmpty();
        assertThat(beyond.groundSpeedKt()).hasValue(118);
    }

    @ParameterizedTest
    @ValueSource(strings = {"$GPRMC*4B", "$*00", "hello world"})
    void whatIsNoSentenceIsSaidToBeNone(String text) {
        assertThat(said(decode(text))).contains("not a sentence");
    }

    @Test
    void anEmptyDatagramIsNoSentence() {
        assertThat(new NmeaFormat().newDecoder().decode(Wire.text(""))).hasSize(1);
    }

    @ParameterizedTest
    @ValueSource(strings = {"$GPABC,1,2,3*4B", "$PXYZA,1,2,3*56", "!AIVDM,1,1,,A,x,0*26"})
    void otherSentencesAreCountedAndIgnored(String sentence) {
        assertThat(decode(sentence)).hasSize(1).first().isInstanceOf(NotAPosition.class);
    }

    @Test
    void aLowerCaseChecksumIsRight() {
        assertThat(Wire.samples(decode("$GPGGA,211434.50,3030.00000,N,14515.00000,W,8,10,0.9,1828.8,M,-22.4,M,,*6d")))
                .hasSize(1);
    }

    @Test
    void statusVoidWithSimulatorModeIsAPosition() {
        for (String[] mode : new String[][] {{"V", "S", "1"}, {"V", "N", "0"}, {"A", "N", "0"}, {"V", "", "0"}}) {
            String body =
                    "GPRMC,211434.50," + mode[0] + ",3030.00000,N,14515.00000,W,118.0,262.0,010626,13.2,E," + mode[1];
            List<Decoded> decoded = decode("$" + body + "*" + Checksum.text(body));
            assertThat(Wire.samples(decoded)).hasSize(Integer.parseInt(mode[2]));
        }
    }

    @Test
    void garbageInFrontIsSkippedAndRunTogetherSentencesAreParted() {
        List<Decoded> decoded = decode("\u0001xyz" + NmeaSentenceValidationTest.RMC + NmeaSentenceValidationTest.GGA);
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertThat(Wire.state(decoded).altitudeMslFt()).isPresent();
    }

    @Test
    void anEndlessSentenceIsDropped() {
        assertThat(said(decode("$GPRMC," + "1".repeat(600)))).contains("at most 512");
    }

    @Test
    void anotherDatumIsWarnedOfOnce() {
        WireFormat.Decoder decoder = new NmeaFormat().newDecoder();
        // The first is WGS 84; the others are it with another datum and its checksum.
        List<Decoded> all = new ArrayList<>();
        for (String body : List.of(
                "GPDTM,W84,,0.0,N,0.0,E,0.0,W84", "GPDTM,W72,,0.0,N,0.0,E,0.0,W84", "GPDTM,W72,,0.0,N,0.0,E,0.0,W84")) {
            String sentence = "$" + body + "*" + Checksum.text(body) + "\r\n";
            all.addAll(decoder.decode(Wire.datagram(sentence.getBytes(StandardCharsets.US_ASCII))));
        }
        assertThat(all)
                .containsExactly(
                        new NotAPosition("DTM"),
                        new Malformed(0, "datum W72", "datum W84; set the sender to WGS 84"),
                        new NotAPosition("DTM"));
    }

    /** The rest of the sentence is good; a field that was left empty is none that was sent wrongly. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "118.0,382.0 | RMC track \"382.0\" / 0 to 360 degrees",
                "NaN,262.0 | RMC ground speed \"NaN\" / knots, 0 or more",
                "118.0,262.0 | ",
                ", | "
            })
    void aFieldOfNoUseIsSaidAndThePositionKept(String motion, String says) {
        List<Decoded> decoded = decode(BODY.replace("118.0,262.0", motion));
        assertThat(Wire.samples(decoded)).hasSize(1);
        assertThat(Wire.faults(decoded).stream().map(fault -> fault.found() + " / " + fault.expected()))
                .containsExactlyElementsOf(says == null ? List.of() : List.of(says));
    }
}
