package org.rejoin.protocol.nmea;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.rejoin.protocol.nmea.NmeaSentenceValidationTest.GGA;
import static org.rejoin.protocol.nmea.NmeaSentenceValidationTest.RMC;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Sample;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;

/** Non-regression: how sentences come together into states, as docs/wire-formats.md says. */
class NmeaEpochTest {

    private final WireFormat.Decoder decoder = new NmeaFormat().newDecoder();

    private static String sentence(String body) {
        return "$" + body + "*" + Checksum.text(body) + "\r\n";
    }

    private static String rmc(String utc, String latitude) {
        return sentence("GPRMC," + utc + ",A," + latitude + ",N,14515.00000,W,118.0,262.0,010626,,,S");
    }

    @Test
    void theNextUtcClosesAnEpoch() {
        assertThat(decoder.decode(Wire.text(Wire.T0, rmc("211434.50", "3030.00000"))))
                .isEmpty();
        List<Decoded> second = decoder.decode(Wire.text(Wire.T0 + 50_000, rmc("211434.55", "3030.00100")));
        assertThat(Wire.state(second).timeS()).isEqualTo(Wire.T0 * 1e-6);
    }

    @Test
    void eightyMillisecondsOfSilenceCloseAnEpoch() {
        decoder.decode(Wire.text(Wire.T0, RMC + "\r\n"));
        decoder.decode(Wire.text(Wire.T0 + 60_000, GGA + "\r\n"));
        assertThat(decoder.advanceTo(Wire.T0 + 139_999)).isEmpty();
        assertThat(Wire.state(decoder.advanceTo(Wire.T0 + 140_000)).altitudeMslFt())
                .isPresent();
    }

    @Test
    void aSentenceGoesOnInTheNextDatagram() {
        decoder.decode(Wire.text(Wire.T0, RMC.substring(0, 40)));
        decoder.decode(Wire.text(Wire.T0 + 5_000, RMC.substring(40) + "\r\n"));
        assertThat(Wire.samples(decoder.advanceTo(Wire.T0 + 100_000))).hasSize(1);
    }

    @Test
    void aSentenceThatIsCutByAnotherDoesNotSpoilIt() {
        decoder.decode(Wire.text(Wire.T0, RMC.substring(0, 40)));
        List<Decoded> decoded = decoder.decode(Wire.text(Wire.T0 + 5_000, RMC + "\r\n"));
        assertThat(Wire.faults(decoded)).hasSize(1);
        assertThat(Wire.samples(decoder.advanceTo(Wire.T0 + 100_000))).hasSize(1);
    }

    @Test
    void aHeadingBeforeItsPositionBelongsToIt() {
        List<AircraftState> states = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            String text = sentence("HEHDT," + (100 + i) + ".0,T") + rmc("21143" + i + ".00", "303" + i + ".00000");
            Wire.samples(decoder.decode(Wire.text(Wire.T0 + i * 50_000L, text))).forEach(s -> states.add(s.state()));
        }
        assertThat(states).hasSize(4);
        for (int i = 0; i < 4; i++) {
            assertThat(states.get(i).headingTrueDeg()).hasValue(100 + i);
            assertThat(states.get(i).latitudeDeg()).isCloseTo(30 + (30 + i) / 60.0, within(1e-9));
        }
    }

    @Test
    void aClockThatStandsStillWhileTheAircraftMovesIsNoClock() {
        List<Sample> samples = new ArrayList<>();
        for (int i = 0; i < 6; i++) {
            String text = rmc("211434.00", "3030.0" + i + "000");
            samples.addAll(Wire.samples(decoder.decode(Wire.text(Wire.T0 + i * 200_000L, text))));
        }
        assertThat(samples).hasSize(5);
        assertThat(samples.get(0).source()).isPresent();
        assertThat(samples.subList(1, 5)).allSatisfy(s -> assertThat(s.source()).isEmpty());
    }

    @Test
    void oneSentenceInManyDatagramsAndManyInOneGiveTheSameState() {
        List<String> lines = List.of(RMC, GGA, "$HEHDT,270.0,T*2A", "$YXXDR,A,3.0,D,PTCH,A,-20.0,D,ROLL*41");
        for (String line : lines) {
            decoder.decode(Wire.text(Wire.T0, line + "\n"));
        }
        AircraftState apart = Wire.state(decoder.advanceTo(Wire.T0 + 80_000));
        assertThat(apart).isEqualTo(Wire.state(NmeaSentenceValidationTest.decode(lines.toArray(String[]::new))));
    }

    private static String gga(String utc, int metres) {
        return sentence("GPGGA," + utc + ",3030.00000,N,14515.00000,W,8,10,0.9," + metres + ".0,M,,M,,");
    }

    private static String hdt(int degrees) {
        return sentence("HEHDT," + degrees + ".0,T");
    }

    /** Position, altitude and heading of second i, as one burst. */
    private static String burst(int i) {
        return rmc("21143" + i + ".00", "303" + i + ".00000") + gga("21143" + i + ".00", 1000 + i) + hdt(100 + i);
    }

    private void assertWhole(List<AircraftState> states, int count) {
        assertThat(states).hasSize(count);
        for (int i = 0; i < count; i++) {
            assertThat(states.get(i).latitudeDeg()).isCloseTo(30 + (30 + i) / 60.0, within(1e-9));
            assertThat(states.get(i).altitudeMslFt().orElseThrow()).isCloseTo((1000 + i) / 0.3048, within(1e-6));
            assertThat(states.get(i).headingTrueDeg()).hasValue(100 + i);
        }
    }

    private List<AircraftState> heard(String... datagrams) {
        List<AircraftState> states = new ArrayList<>();
        for (int i = 0; i < datagrams.length; i++) {
            Wire.samples(decoder.decode(Wire.text(Wire.T0 + i * 10_000L, datagrams[i])))
                    .forEach(s -> states.add(s.state()));
        }
        Wire.samples(decoder.advanceTo(Wire.T0 + datagrams.length * 10_000L + 80_000))
                .forEach(s -> states.add(s.state()));
        return states;
    }

    @Test
    void aSentenceThatComesTwiceWithOneUtcIsNoNewState() {
        String again = rmc("211430.00", "3030.00000");
        assertWhole(heard(burst(0), again, burst(1)), 2);
    }

    @Test
    void aSentenceThatComesTwiceAtOnceCostsNeitherAltitudeNorHeading() {
        String first = rmc("211430.00", "3030.00000");
        assertWhole(heard(first, first, gga("211430.00", 1000), hdt(100), burst(1)), 2);
    }

    @Test
    void aNetworkThatDoublesEachDatagramChangesNothing() {
        assertWhole(heard(burst(0), burst(0), burst(1), burst(1), burst(2), burst(2)), 3);
    }

    @Test
    void aHeadingAheadOfItsPositionStaysWithItWhenDatagramsAreDoubled() {
        String[] headingFirst = new String[6];
        for (int i = 0; i < 6; i++) {
            int second = i / 2;
            headingFirst[i] = hdt(100 + second)
                    + rmc("21143" + second + ".00", "303" + second + ".00000")
                    + gga("21143" + second + ".00", 1000 + second);
        }
        assertWhole(heard(headingFirst), 3);
    }

    @Test
    void aDoubleThatComesAfterTheNextUtcHasBegunIsNoNewState() {
        String late = rmc("211430.00", "3030.00000");
        String next = rmc("211431.00", "3031.00000");
        assertWhole(heard(burst(0), next, late, gga("211431.00", 1001), hdt(101)), 2);
    }

    @Test
    void aDoubleThatComesAfterASilenceIsNoNewState() {
        List<Decoded> all = new ArrayList<>(decoder.decode(Wire.text(Wire.T0, burst(0))));
        String late = rmc("211430.00", "3030.00000");
        all.addAll(decoder.decode(Wire.text(Wire.T0 + 90_000, late)));
        all.addAll(decoder.decode(Wire.text(Wire.T0 + 200_000, burst(1))));
        all.addAll(decoder.advanceTo(Wire.T0 + 300_000));
        assertWhole(Wire.samples(all).stream().map(Sample::state).toList(), 2);
    }

    @Test
    void aSimulatorThatIsPausedAndSaysSoWithAllItsSentencesIsStillHeard() {
        List<Decoded> all = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            all.addAll(decoder.decode(Wire.text(Wire.T0 + i * 200_000L, burst(0))));
        }
        assertThat(Wire.samples(all)).hasSize(4);
    }
}
