package org.rejoin.bridge.chart.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.Region;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The ARINC 424 reader: single fields, files of invented ocean written by columns, regions, very long lines. */
class ArincReaderTest {

    private static ArincRecord record(int column, String text) {
        byte[] octets =
                new ArincWriter.Line("PAC", "D ").put(column, text).toString().getBytes(StandardCharsets.ISO_8859_1);
        ArincRecord record = new ArincRecord();
        record.fill(1, octets, 0, octets.length);
        return record;
    }

    private static ChartReader.Result read(byte[] octets) throws IOException {
        return ChartReader.read(new ByteArrayInputStream(octets), "test.424");
    }

    /** First row: the examples of ARINC 424-18, 5.36 and 5.37. */
    @ParameterizedTest
    @CsvSource({
        "N39513881, W104450794, 39.8607805556, -104.7522055556",
        "S08300000, E180000000, -8.5, -180",
        "N00000000, W000000000, 0, 0",
        "S90000000, W179595999, -90, -179.9999972222",
    })
    void positionsAreDegreesMinutesSecondsAndHundredths(String latitude, String longitude, double north, double east)
            throws BadField {
        Position position = record(33, latitude + longitude).position(33, 42);
        assertThat(position.latitudeDeg()).isEqualTo(north, within(1e-9));
        assertThat(position.longitudeDeg()).isEqualTo(east, within(1e-9));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "N90000001W000000000", "N00600000W000000000", "N00006000W000000000", "X00000000W000000000",
                "N0000000 W000000000", "N00000000W180000001", "N00000000W00000000-", "                   "
            })
    void aWrongPositionIsRefused(String text) {
        assertThatThrownBy(() -> record(33, text).position(33, 42)).isInstanceOf(BadField.class);
    }

    @ParameterizedTest
    @CsvSource({"E0127, 12.7", "W0004, -0.4", "T0000, 0", "W1800, -180"})
    void declinationIsTenthsOfADegree(String text, double east) throws BadField {
        assertThat(record(75, text).declination(75).orElseThrow().eastDeg()).isEqualTo(east);
    }

    @ParameterizedTest
    @CsvSource({"04000, 4000", "FL290, 29000", "-0012, -12", "00000, 0"})
    void altitudesAreFeetOrFlightLevels(String text, double feet) throws BadField {
        assertThat(record(84, text).altitudeFt(84)).hasValue(feet);
    }

    @ParameterizedTest
    @ValueSource(strings = {"UNKNN", "NESTB", "UNLTD", "     "})
    void anAltitudeThatIsNotKnownIsAbsent(String text) throws BadField {
        assertThat(record(84, text).altitudeFt(84)).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"FL29", "4000 ", "04O00", "FLxxx", "-12  "})
    void aWrongAltitudeIsRefused(String text) {
        assertThatThrownBy(() -> record(84, text).altitudeFt(84)).isInstanceOf(BadField.class);
    }

    /** A random airway over open ocean with its points, some of them stations, written by columns. */
    private static byte[] random(Random random, List<Waypoint> points, String lineEnd) {
        ArincWriter writer = new ArincWriter();
        List<Position> places = new ArrayList<>();
        Position at = new Position(-30 + random.nextDouble() * 10, 175 + random.nextDouble() * 10);
        int count = 2 + random.nextInt(8);
        for (int i = 0; i < count; i++) {
            places.add(at);
            at = at.destination(new TrueDirection(random.nextDouble() * 90 + 45), 20 + random.nextDouble() * 100);
        }
        List<String> idents = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            boolean station = random.nextBoolean();
            idents.add(station ? "Q" + (char) ('A' + i) + "Q" : "QX" + (char) ('A' + i) + "XX");
        }
        for (int i = 0; i < count; i++) {
            String ident = idents.get(i);
            String section = ident.length() == 3 ? "D " : "EA";
            OptionalDouble distance = i == count - 1
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(places.get(i).distanceNm(places.get(i + 1)));
            writer.add(writer.fix("V77", 100 + 10 * i, ident, "X ", section, distance));
        }
        for (int i = 0; i < count; i++) {
            if (idents.get(i).length() == 3) {
                writer.vhf(idents.get(i), "X ", "VDLW ", 112.35, places.get(i), -7.3);
            } else {
                writer.waypoint(idents.get(i), "X ", places.get(i));
            }
        }
        byte[] octets = writer.octets(lineEnd);
        for (int i = 0; i < count; i++) {
            points.add(new org.rejoin.bridge.chart.Fix(idents.get(i), places.get(i)));
        }
        return octets;
    }

    @Test
    void whatIsWrittenByColumnsIsReadBack() throws IOException {
        Random random = new Random(424);
        for (int i = 0; i < 200; i++) {
            List<Waypoint> expected = new ArrayList<>();
            byte[] octets = random(random, expected, i % 3 == 0 ? "" : i % 3 == 1 ? "\n" : "\r\n");
            ChartReader.Result result = read(octets);
            assertThat(result.problems()).isEmpty();
            Airway airway = result.chart().airway("V77").orElseThrow();
            assertThat(airway.points()).hasSameSizeAs(expected);
            for (int k = 0; k < expected.size(); k++) {
                assertThat(airway.points().get(k).ident())
                        .isEqualTo(expected.get(k).ident());
                // Half a hundredth of a second in each coordinate is 0.22 m at most.
                assertThat(airway.points()
                                        .get(k)
                                        .position()
                                        .distanceNm(expected.get(k).position())
                                * 1852)
                        .isLessThan(0.25);
            }
            result.chart().stations().forEach(station -> {
                assertThat(station.frequencyMhz()).hasValue(112.35);
                assertThat(station.declination().orElseThrow().eastDeg()).isEqualTo(-7.3);
                assertThat(station.elevationFt()).isEqualTo(120);
            });
        }
    }

    @Test
    void beaconsAndAirportsAreReadBack() throws IOException {
        Position at = new Position(-33.123456, -179.999999);
        Chart chart = read(new ArincWriter()
                        .ndb("QN", "XA", 365, at)
                        .airport("XQAA", "XA", at, 31)
                        .octets("\n"))
                .chart();
        assertThat(chart.stations("QN").get(0).frequencyMhz()).hasValue(0.365);
        assertThat(chart.airports().get(0).publishedElevationFt()).hasValue(31);
        assertThat(chart.airports().get(0).position().distanceNm(at)).isLessThan(0.0002);
    }

    @Test
    void aRegionTakesItsPointsAndTheAirwayLegsThatTouchIt(@TempDir Path folder) throws IOException {
        ArincWriter writer = new ArincWriter();
        for (int i = 0; i < 10; i++) {
            writer.waypoint("QX" + (char) ('A' + i) + "XX", "XA", new Position(-30, -150 + i));
        }
        Position lonely = new Position(-31, -150);
        writer.waypoint("QLONE", "XA", lonely);
        for (int i = 0; i < 10; i++) {
            OptionalDouble leg = i == 9
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(new Position(-30, -150 + i).distanceNm(new Position(-30, -149 + i)));
            writer.add(writer.fix("V77", 100 + i, "QX" + (char) ('A' + i) + "XX", "XA", "EA", leg));
        }
        Path file = folder.resolve("ocean.424");
        Files.write(file, writer.octets("\n"));
        Region middle = new Region.Circle(new Position(-30, -145), 60);
        ChartReader.Result result = ChartReader.read(file, Optional.of(middle));
        assertThat(result.problems()).isEmpty();
        Airway piece = result.chart().airway("V77").orElseThrow();
        // A degree of longitude is 52 NM there: E, F and G lie within, D and H are the far ends of legs.
        assertThat(piece.points())
                .extracting(Waypoint::ident)
                .containsExactly("QXDXX", "QXEXX", "QXFXX", "QXGXX", "QXHXX");
        assertThat(result.chart().fixes()).hasSize(5);
        assertThat(result.lines().of(piece)).isEqualTo(12);
        assertThat(result.chart().fixes())
                .isEqualTo(ChartReader.read(file).chart().within(middle).fixes());
        assertThat(ChartReader.read(file, Optional.of(new Region.Bounds(-40, -151, -30.5, -149)))
                        .chart()
                        .waypoints())
                .extracting(Waypoint::ident)
                .containsExactly("QLONE");
    }

    /** A stream of one octet for ever, up to a length. */
    private static final class Repeated extends InputStream {

        private final byte octet;
        private long left;

        Repeated(char octet, long length) {
            this.octet = (byte) octet;
            this.left = length;
        }

        @Override
        public int read() {
            return left-- > 0 ? octet : -1;
        }

        @Override
        public int read(byte[] into, int offset, int length) {
            if (left <= 0) {
                return -1;
            }
            int count = (int) Math.min(length, left);
            Arrays.fill(into, offset, offset + count, octet);
            left -= count;
            return count;
        }
    }

    @Test
    void aLineOfTwoGigabytesIsSkippedWithoutHoldingIt() throws IOException {
        ArincWriter before = new ArincWriter().waypoint("QALOM", "XA", new Position(-30, -150));
        ArincWriter after = new ArincWriter().waypoint("QUERN", "XA", new Position(-31, -150));
        InputStream in = new SequenceInputStream(
                new SequenceInputStream(
                        new ByteArrayInputStream(before.octets("\n")), new Repeated('S', 2_200_000_000L)),
                new ByteArrayInputStream(("\n" + after.records().get(0)).getBytes(StandardCharsets.ISO_8859_1)));
        ChartReader.Result result = ChartReader.read(in, "long.424");
        assertThat(result.chart().fixes()).hasSize(2);
    }

    @ParameterizedTest
    @ValueSource(chars = {'a', '[', ' ', '\u0000', '-'})
    void aFileOfOneVeryLongLineIsRefused(char octet) {
        assertThatThrownBy(() -> ChartReader.read(new Repeated(octet, 2_200_000_000L), "long.yaml"))
                .isInstanceOf(IOException.class)
                .hasMessage("long.yaml is no ARINC 424 file, and larger than the 16 MB that a chart in YAML may have");
    }

    @ParameterizedTest
    @CsvSource({"'', empty", "' ', nothing but blanks"})
    void anEmptyFileIsSaidToBeEmpty(String text, String said) {
        assertThatThrownBy(() -> read(text.getBytes(StandardCharsets.ISO_8859_1)))
                .isInstanceOf(IOException.class)
                .hasMessageContaining(said);
    }

    @Test
    void aFileWithoutARecordOfAChartSaysWhatItCounted() {
        ArincWriter writer = new ArincWriter();
        writer.add(new ArincWriter.Line("PAC", "P XQAAXAD").put(22, "0"));
        writer.add(new ArincWriter.Line("PAC", "P XQAAXAG").put(22, "0"));
        writer.add(new ArincWriter.Line("PAC", "P XQAAXAG").put(22, "0"));
        assertThatThrownBy(() -> read(writer.octets("\n")))
                .hasMessage("test.424: no record of a station, waypoint, airway or airport; counted: {PD=1, PG=2}");
    }

    @Test
    void recordsOfTwoOctetsACharacterAreRefused() {
        byte[] wide = new String(
                        new ArincWriter()
                                .waypoint("QALOM", "XA", new Position(-30, -150))
                                .octets("\n"),
                        StandardCharsets.ISO_8859_1)
                .getBytes(StandardCharsets.UTF_16);
        assertThatThrownBy(() -> read(wide)).isInstanceOf(IOException.class).hasMessageContaining("UTF-16");
    }

    /** Columns of ARINC 424-18, 4.1.5, as the parsers named at {@link ArincHoldRecord} have them; an invented pattern. */
    @Test
    void holdingPatternsAreReadByTheirFix() throws IOException {
        Position at = new Position(-40, -120);
        ArincWriter.Line hold = new ArincWriter.Line("PAC", "EP")
                .put(7, "ENRT")
                .put(28, "00")
                .put(30, "QAA")
                .put(35, "XA")
                .put(37, "D ")
                .put(39, "0")
                .put(40, "0605")
                .put(44, "L")
                .put(48, "15")
                .put(50, "05000")
                .put(55, "FL180")
                .put(60, "230");
        ArincWriter.Line lost = new ArincWriter.Line("PAC", "EP")
                .put(30, "QZZ")
                .put(35, "XA")
                .put(37, "EA")
                .put(39, "0")
                .put(40, "343T")
                .put(44, "R");
        ChartReader.Result result = read(new ArincWriter()
                .vhf("QAA", "XA", "VTH  ", 113.4, at, 12)
                .add(hold)
                .add(lost)
                .octets("\n"));
        assertThat(result.chart().holds()).singleElement().satisfies(found -> {
            assertThat(found.fix().ident()).isEqualTo("QAA");
            assertThat(found.inboundMagnetic().deg()).isEqualTo(60.5);
            assertThat(found.right()).isFalse();
            assertThat(found.legMinutes()).hasValue(1.5);
            assertThat(found.minimumAltitudeFt()).hasValue(5000);
            assertThat(found.maximumAltitudeFt()).hasValue(18_000);
            assertThat(found.maximumSpeedKt()).hasValue(230);
        });
        assertThat(result.problems())
                .anySatisfy(problem -> assertThat(problem.what()).contains("QZZ"));
    }

    /**
     * Whole lines in the layout of the standard's sample records (jack-laverty/arinc424,
     * tests/example_data/424-18/enroute_holding.txt): a station with a flight level, a fix with a speed, two patterns of one
     * fix told apart by their number, and one that gives neither course nor turns (there with no continuation number either). Names and figures are invented.
     */
    @Test
    void holdingPatternsInTheLayoutOfTheStandardsSampleAreRead() throws IOException {
        String sample = """
                SPACEPENRT                 10QAA  XAD 01300R   1518000FL450                                       QALA BANK                300382606
                SPACEPENRT                 20QALOMXAEA01770L   100500017999160                                    QALOM                    300392606
                SPACEPENRT                 21QIRUSXAEA00570R   10     17999                                       QIRUS                    300402606
                SPACEPENRT                 22QIRUSXAEA02370R   10     17999                                       QIRUS                    300412606
                SPACEPENRT                 30QAA  XAD 0        10     17999                                       QALA BANK                300422606
                """;
        String points = new String(
                new ArincWriter()
                        .vhf("QAA", "XA", "VTH  ", 113.4, new Position(-40, -120), 12)
                        .waypoint("QALOM", "XA", new Position(-40.5, -120))
                        .waypoint("QIRUS", "XA", new Position(-40.2, -120.4))
                        .octets("\n"),
                StandardCharsets.ISO_8859_1);
        ChartReader.Result result = read((points + sample).getBytes(StandardCharsets.ISO_8859_1));
        assertThat(result.chart().holds())
                .extracting(
                        hold -> hold.fix().ident(),
                        hold -> hold.inboundMagnetic().deg(),
                        PublishedHold::right,
                        hold -> hold.legMinutes().orElse(0),
                        hold -> hold.legNm().orElse(0),
                        hold -> hold.minimumAltitudeFt().orElse(0),
                        hold -> hold.maximumAltitudeFt().orElse(0),
                        hold -> hold.maximumSpeedKt().orElse(0))
                .containsExactly(
                        tuple("QAA", 130.0, true, 1.5, 0.0, 18_000.0, 45_000.0, 0.0),
                        tuple("QALOM", 177.0, false, 1.0, 0.0, 5000.0, 17_999.0, 160.0),
                        tuple("QIRUS", 57.0, true, 1.0, 0.0, 0.0, 17_999.0, 0.0),
                        tuple("QIRUS", 237.0, true, 1.0, 0.0, 0.0, 17_999.0, 0.0));
        assertThat(result.problems())
                .extracting(ChartReader.Problem::what)
                .containsExactly("the holding pattern at QAA has no inbound course: it cannot be held as published");
    }
}
