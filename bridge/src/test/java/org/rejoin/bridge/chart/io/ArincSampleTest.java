package org.rejoin.bridge.chart.io;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.AiracCycle;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Airway.Direction;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.ChartReport;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.chart.io.ChartReader.Problem;
import org.rejoin.bridge.geo.Declination;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * An invented sample of open ocean with every case the reader knows. Validation: its records were read back by an
 * independent parser, which returned every field; the values below are those its author placed in it.
 */
class ArincSampleTest {

    /** A hundredth of a second of arc, which the records are written to. */
    private static final Offset<Double> HUNDREDTH = within(0.5 / 360_000);

    private static final String SAMPLE = sample();

    private static String sample() {
        try (InputStream in =
                Objects.requireNonNull(ArincSampleTest.class.getResourceAsStream("ocean-sample.424"), "sample")) {
            return new String(in.readAllBytes(), StandardCharsets.ISO_8859_1);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static ChartReader.Result read(String text) throws IOException {
        return ChartReader.read(
                new ByteArrayInputStream(text.getBytes(StandardCharsets.ISO_8859_1)), "ocean-sample.424");
    }

    private static Station station(Chart chart, String ident) {
        assertThat(chart.stations(ident)).hasSize(1);
        return chart.stations(ident).get(0);
    }

    private static List<String> idents(Airway airway) {
        return airway.points().stream().map(Waypoint::ident).toList();
    }

    @Test
    void theSampleIsReadWithoutAProblem() throws IOException {
        ChartReader.Result result = read(SAMPLE);
        assertThat(result.problems()).isEmpty();
        assertThat(result.chart().name()).isEqualTo("OCEANTEST18, cycle 2606");
        assertThat(result.source().format()).isEqualTo(ChartSource.Format.ARINC_424);
        assertThat(result.source().cycle()).contains(new AiracCycle(2026, 6));
        assertThat(result.source().records())
                .containsEntry("D ", 5)
                .containsEntry("DB", 1)
                .containsEntry("PN", 1)
                .containsEntry("EA", 8)
                .containsEntry("PC", 1)
                .containsEntry("ER", 13)
                .containsEntry("PA", 1);
    }

    @Test
    void aVortacHasItsDeclinationAndItsContinuationIsNoStation() throws IOException {
        Station qaa = station(read(SAMPLE).chart(), "QAA");
        assertThat(qaa.kind()).isEqualTo(Station.Kind.VORTAC);
        assertThat(qaa.serviceClass()).contains(Station.ServiceClass.H);
        assertThat(qaa.frequencyMhz()).hasValue(113.40);
        assertThat(qaa.position().latitudeDeg()).isEqualTo(30.5, HUNDREDTH);
        assertThat(qaa.position().longitudeDeg()).isEqualTo(-146.25, HUNDREDTH);
        assertThat(qaa.declination()).contains(new Declination(12));
        assertThat(qaa.publishedElevationFt()).hasValue(20);
        assertThat(qaa.name()).isEqualTo("QUILL ALPHA");
    }

    @Test
    void aStationAlignedToTrueNorthHasADeclinationOfZero() throws IOException {
        Station qbb = station(read(SAMPLE).chart(), "QBB");
        assertThat(qbb.kind()).isEqualTo(Station.Kind.VORDME);
        assertThat(qbb.serviceClass()).contains(Station.ServiceClass.L);
        assertThat(qbb.frequencyMhz()).hasValue(110.05);
        assertThat(qbb.declination()).contains(Declination.TRUE_NORTH);
        assertThat(qbb.elevationFt()).isEqualTo(-3);
        // The DME stands 38 m north and 119 m west of the VOR.
        assertThat(qbb.position().distanceNm(qbb.distancePosition()) * 1852)
                .isEqualTo(Math.hypot(38, 119), within(1.0));
        assertThat(qbb.distancePosition().latitudeDeg())
                .isGreaterThan(qbb.position().latitudeDeg());
        assertThat(qbb.distancePosition().longitudeDeg())
                .isLessThan(qbb.position().longitudeDeg());
    }

    @Test
    void aTacanGivesDistanceOnlyFromItsOwnColumns() throws IOException {
        Station qcc = station(read(SAMPLE).chart(), "QCC");
        assertThat(qcc.kind()).isEqualTo(Station.Kind.DME);
        assertThat(qcc.frequencyMhz()).hasValue(109.20);
        assertThat(qcc.position().latitudeDeg()).isEqualTo(32.0, HUNDREDTH);
        assertThat(qcc.position().longitudeDeg()).isEqualTo(-145.6, HUNDREDTH);
        assertThat(qcc.declination()).isEmpty();
    }

    @Test
    void theDmeOfAnInstrumentLandingSystemIsNoStation() throws IOException {
        assertThat(read(SAMPLE).chart().waypoints("IQXA")).isEmpty();
    }

    @Test
    void beaconsHaveNoDeclination() throws IOException {
        Chart chart = read(SAMPLE).chart();
        Station qn = station(chart, "QN");
        assertThat(qn.kind()).isEqualTo(Station.Kind.NDB);
        assertThat(qn.frequencyMhz()).hasValue(0.365);
        assertThat(qn.position().latitudeDeg()).isEqualTo(31.35, HUNDREDTH);
        assertThat(qn.position().longitudeDeg()).isEqualTo(-145.10, HUNDREDTH);
        assertThat(qn.declination()).isEmpty();
        assertThat(station(chart, "QT").frequencyMhz()).hasValue(1.704);
    }

    /** A blank field is absent, never 0; a station at the height of the sea has five noughts. */
    @Test
    void whatTheRecordDoesNotSayIsAbsent() throws IOException {
        Chart chart = read(SAMPLE).chart();
        assertThat(station(chart, "QN").publishedElevationFt()).isEmpty();
        assertThat(station(chart, "QT").publishedElevationFt()).isEmpty();
        String blank = SAMPLE.replace("E0120000202", "E0120     2")
                .replace("E013100025250", "E0131     250")
                .replace("XA111340VTHW", "XA1     VTHW");
        Chart without = read(blank).chart();
        assertThat(station(without, "QAA").publishedElevationFt()).isEmpty();
        assertThat(station(without, "QAA").frequencyMhz()).isEmpty();
        assertThat(without.airports().get(0).publishedElevationFt()).isEmpty();
        Chart atSea = read(SAMPLE.replace("E0120000202", "E0120000002")).chart();
        assertThat(station(atSea, "QAA").publishedElevationFt()).hasValue(0);
    }

    /** The variation there is 11 degrees east (WMM2025): the station's 0 is meant, and the courses by it are true. */
    @Test
    void aStationAlignedToTrueNorthIsNotOddAndGivesNoMagneticCourse() throws IOException {
        ChartReader.Result result = read(SAMPLE);
        ChartReport report = ChartReport.of(result.chart(), result.lines());
        assertThat(report.oddities(LocalDate.of(2026, 6, 10)))
                .extracting(ChartReport.Finding::ident)
                .doesNotContain("QBB");
        ChartReport.Leg last = report.airway("V931").get(0).legs().get(2);
        assertThat(last.to().ident()).isEqualTo("QBB");
        assertThat(last.guide()).isEmpty();
        assertThat(last.publishedCourse()).isEmpty();
    }

    @Test
    void waypointsOfOneIdentAreAllThere() throws IOException {
        Chart chart = read(SAMPLE).chart();
        assertThat(chart.waypoints("QUERN")).hasSize(2);
        assertThat(chart.waypoints("QUERN").get(0).position().latitudeDeg()).isEqualTo(30.988478, within(1e-6));
        assertThat(chart.waypoints("QUERN").get(0).position().longitudeDeg()).isEqualTo(-144.644731, within(1e-6));
        assertThat(chart.waypoints("QUERN").get(1).position().latitudeDeg()).isEqualTo(-8.5);
        assertThat(chart.waypoints("QEDGE").get(0).position().latitudeDeg()).isEqualTo(0.0);
        assertThat(chart.waypoints("QIFAF")).hasSize(1);
    }

    @Test
    void anAirportHasItsElevation() throws IOException {
        assertThat(read(SAMPLE).chart().airports()).singleElement().satisfies(airport -> {
            assertThat(airport.ident()).isEqualTo("XQAA");
            assertThat(airport.position().latitudeDeg()).isEqualTo(30.7, HUNDREDTH);
            assertThat(airport.publishedElevationFt()).hasValue(25);
            assertThat(airport.name()).isEqualTo("QUILL ISLAND");
        });
    }

    @Test
    void anEndOfRouteDividesAnAirwayIntoPieces() throws IOException {
        List<Airway> v931 = read(SAMPLE).chart().airways("V931");
        assertThat(v931).hasSize(2);
        assertThat(idents(v931.get(0))).containsExactly("QAA", "QALOM", "QUERN", "QBB");
        assertThat(idents(v931.get(1))).containsExactly("QODRA", "QESTO");
        List<Airway.Segment> legs = v931.get(0).segments();
        OptionalDouble none = OptionalDouble.empty();
        OptionalDouble highest = OptionalDouble.of(17_500);
        OptionalDouble low = OptionalDouble.of(4000);
        assertThat(legs.get(0)).isEqualTo(new Airway.Segment(low, Direction.BOTH, low, highest));
        assertThat(legs.get(1)).isEqualTo(new Airway.Segment(OptionalDouble.of(6000), Direction.BOTH, low, highest));
        assertThat(legs.get(1).minimumAltitudeFt(Direction.FORWARD)).hasValue(6000);
        assertThat(legs.get(1).minimumAltitudeFt(Direction.BACKWARD)).hasValue(4000);
        assertThat(legs.get(1).minimumAltitudeFt(Direction.BOTH)).hasValue(6000);
        assertThat(legs.get(2))
                .as("UNKNN: there is one, and the file does not know it")
                .isEqualTo(new Airway.Segment(none, Direction.BOTH, none, highest, none, Optional.of(Direction.BOTH)));
        assertThat(v931.get(1).segments().get(0).minimumAltitudeFt()).hasValue(5000);
        assertThat(read(SAMPLE).chart().airway("V931")).contains(v931.get(0));
    }

    @Test
    void aRestrictedDirectionBelongsToTheLegThatLeavesTheFix() throws IOException {
        Airway t931 = read(SAMPLE).chart().airway("T931").orElseThrow();
        assertThat(idents(t931)).containsExactly("QINTA", "QAA", "QUERN");
        assertThat(t931.segments())
                .extracting(Airway.Segment::direction)
                .containsExactly(Direction.BOTH, Direction.BACKWARD);
        assertThat(t931.segments().get(1).minimumAltitudeFt()).hasValue(5000);
        assertThat(t931.segments().get(1).maximumAltitudeFt()).isEmpty();
        assertThat(t931.points().get(2).position().latitudeDeg()).isGreaterThan(30);
    }

    @Test
    void aFixOnTheBoundaryOfTwoAreasIsTakenOnce() throws IOException {
        List<Airway> a932 = read(SAMPLE).chart().airways("A932");
        assertThat(a932).hasSize(1);
        assertThat(idents(a932.get(0))).containsExactly("QUERN", "QEDGE", "QUOIN");
        assertThat(a932.get(0).points().get(0).position().latitudeDeg()).isEqualTo(-8.5);
        assertThat(a932.get(0).segments())
                .containsOnly(new Airway.Segment(
                        OptionalDouble.of(29_000),
                        Direction.FORWARD,
                        OptionalDouble.of(29_000),
                        OptionalDouble.of(45_000)));
    }

    @Test
    void linesOfPointsAndAirwaysAreKnown() throws IOException {
        ChartReader.Result result = read(SAMPLE);
        assertThat(result.lines().of(station(result.chart(), "QAA"))).isEqualTo(2);
        assertThat(result.lines().of(result.chart().airways("V931").get(1))).isEqualTo(22);
    }

    @ParameterizedTest
    @ValueSource(strings = {"\r\n", "\r", "", "\n\n", "   \n", "EXTRA COLUMNS\n"})
    void otherLineEndsGiveTheSameChart(String lineEnd) throws IOException {
        ChartReader.Result expected = read(SAMPLE);
        ChartReader.Result result = read(SAMPLE.replace("\n", lineEnd));
        assertThat(result.chart().waypoints()).isEqualTo(expected.chart().waypoints());
        assertThat(result.chart().airways()).isEqualTo(expected.chart().airways());
        if (lineEnd.startsWith("EXTRA")) {
            assertThat(result.problems()).extracting(Problem::line).containsExactly(2);
        } else {
            assertThat(result.problems()).isEmpty();
        }
    }

    @Test
    void aLineWithItsLastBlankTrimmedIsRead() throws IOException {
        String trimmed = SAMPLE.lines()
                .map(line -> line.startsWith("SPACD        QN") ? line : line.substring(0, 131))
                .collect(Collectors.joining("\n"));
        assertThat(read(trimmed).problems()).isEmpty();
    }

    /** Each a sample line changed in one place: the text to replace, by what (_ for a blank), then line and what is said. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', quoteCharacter = '~', textBlock = """
            N30435422W145295509 | N30755422W145295509 | 9 | true | QALOM: latitude "N30755422" is not N or S, ddmmss
            N30435422W145295509 | N91435422W145295509 | 9 | true | QALOM: latitude "N91435422"
            N30435422W145295509 | N30435422W181295509 | 9 | true | QALOM: longitude "W181295509" is not E or W
            N30435422W145295509 | ___________________ | 9 | true | QALOM: latitude "         "
            E0120000202 | E012O000202 | 2 | false | QAA: declination "E012O" is not E or W and tenths
            E0120000202 | G0000000202 | 2 | false | QAA is aligned to grid north; no radial
            E0120000202 | _____000202 | 2 | false | QAA has no declination; no radial
            E0120000202 | E01200O0202 | 2 | false | QAA: elevation "0O020" is not feet
            XA111340VTH | XA11134OVTH | 2 | false | QAA: frequency "1134O" is not 5 digits
            XA111340VTH | XA111340XTH | 2 | true | class "XTHW " of a VHF navaid
            V931        0110QALOM | V931        01A0QALOM | 19 | true | sequence number "01A0" of airway V931 is not four digits
            0110QALOMXAEA | 0110QALOMXBEA | 19 | true | airway V931: fix QALOM of region "XB" and section "EA" is not in the file
            OL                        04710531 | OL                        04710551 | 22 | false | airway V931: QODRA and QESTO are 53.1 NM apart by their coordinates, 55.1 NM by the file; the airway is cut there
            OL                        04710531 | OL                        04710536 | 22 | false | 53.1 NM apart by their coordinates, 53.6 NM by the file
            OL                        04710531 | OL                        0471____ | 22 | false | airway V931: no distance and no end of route at QODRA
            05000     17500 | 0500O     17500 | 22 | false | airway V931 at QODRA: altitude "0500O" is not feet
            00000302606 | 00000402606 | 0 | false | the header announces 40 records, the file has 30""")
    void whatIsWrongWithARecordIsSaidWithItsLine(String sound, String wrong, int line, boolean fatal, String said)
            throws IOException {
        String changed = SAMPLE.replace(sound, wrong.replace('_', ' '));
        assertThat(changed).isNotEqualTo(SAMPLE);
        assertThat(read(changed).problems()).anySatisfy(problem -> {
            assertThat(problem.line()).isEqualTo(line);
            assertThat(problem.what()).contains(said);
            assertThat(problem.fatal()).isEqualTo(fatal);
        });
    }

    @Test
    void anAirwayIsCutWhereAFixIsMissing() throws IOException {
        Chart chart = read(SAMPLE.replace("0110QALOMXAEA", "0110QALOMXBEA")).chart();
        assertThat(chart.airways("V931")).hasSize(2);
        assertThat(idents(chart.airways("V931").get(0))).containsExactly("QUERN", "QBB");
    }

    @Test
    void aLineThatWasCutOffIsSkippedAndSaid() throws IOException {
        List<String> lines = SAMPLE.lines().collect(Collectors.toList());
        lines.set(18, lines.get(18).substring(0, 60));
        assertThat(read(String.join("\n", lines)).problems())
                .contains(new Problem(19, "too short for an airway record: 60 of 132 columns", true));
        lines.set(18, lines.get(18).substring(0, 20));
        assertThat(read(String.join("\n", lines)).problems())
                .contains(new Problem(19, "too short for any record: 20 of 132 columns", true));
    }

    @Test
    void aBlankFrequencyIsAbsent() throws IOException {
        ChartReader.Result result = read(SAMPLE.replace("XA111340VTH", "XA1     VTH"));
        assertThat(station(result.chart(), "QAA").frequencyMhz()).isEmpty();
        assertThat(result.problems()).isEmpty();
    }

    @Test
    void ofTwoRecordsOfOneStationTheLaterCounts() throws IOException {
        String again = SAMPLE.lines()
                .filter(line -> line.startsWith("SPACD        QBB"))
                .findFirst()
                .orElseThrow()
                .replace("QUARTZ BANK", "QUARTZ REEF");
        ChartReader.Result result = read(SAMPLE + again + "\n");
        assertThat(station(result.chart(), "QBB").name()).isEqualTo("QUARTZ REEF");
        assertThat(result.problems()).anySatisfy(problem -> {
            assertThat(problem.line()).isEqualTo(32);
            assertThat(problem.what()).startsWith("QBB stands in line 4 already");
        });
    }

    @Test
    void twoAirwaysOfOneNameAndNumberingAreTakenByArea() throws IOException {
        ArincWriter writer = new ArincWriter();
        String other = writer.fix("V931", 100, "QODRA", "XA", "EA", OptionalDouble.of(53.1))
                        .put(2, "SPA")
                + "\n"
                + writer.fix("V931", 110, "QESTO", "XA", "EA", OptionalDouble.empty())
                        .put(2, "SPA")
                + "\n";
        ChartReader.Result result = read(SAMPLE + other);
        assertThat(result.chart().airways("V931")).hasSize(3);
        assertThat(idents(result.chart().airways("V931").get(2))).containsExactly("QODRA", "QESTO");
    }

    @Test
    void anAirwayBeforeItsPointsIsResolvedToo() throws IOException {
        List<String> lines = SAMPLE.lines().collect(Collectors.toList());
        String turned = String.join("\n", lines.subList(17, 31)) + "\n" + String.join("\n", lines.subList(0, 17));
        assertThat(read(turned).problems()).isEmpty();
        assertThat(read(turned).chart().airways()).hasSize(4);
    }

    /** Figure of merit 9 (ARINC 424-18, 5.149, from memory). */
    @Test
    void aStationOutOfServiceIsSaid() throws IOException {
        String[] lines = SAMPLE.split("\n", -1);
        for (int i = 0; i < lines.length; i++) {
            if (lines[i].startsWith("SPACD        QBB ")) {
                lines[i] = lines[i].substring(0, 84) + '9' + lines[i].substring(85);
            }
        }
        assertThat(read(SAMPLE).problems())
                .extracting(Problem::what)
                .noneMatch(what -> what.contains("out of service"));
        assertThat(read(String.join("\n", lines)).problems())
                .extracting(Problem::what)
                .anyMatch(what -> what.startsWith("QBB is out of service"));
    }
}
