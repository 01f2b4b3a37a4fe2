package org.rejoin.bridge.chart.io;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Position;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A large chart is quickly at hand the second time, and never a wrong one. */
class ChartCacheTest {

    private static final int FIXES = 8_000;

    @TempDir
    Path folder;

    private Path chart;

    @BeforeEach
    void aLargeChart() throws IOException {
        chart = folder.resolve("ocean.pc");
        Files.write(chart, large("MIDAT"));
    }

    private static byte[] large(String name) {
        ArincWriter writer = new ArincWriter();
        writer.vhf("AAA", "ZZ", "VTHW ", 113.4, new Position(30, -45), -12);
        writer.vhf("BBB", "ZZ", "VDUW ", 112.1, new Position(31, -45), 3);
        writer.ndb("C", "ZZ", 345, new Position(30.5, -44));
        writer.airport("ZZAB", "ZZ", new Position(29, -44), 12);
        for (int i = 0; i < FIXES; i++) {
            String ident = "A" + (char) ('A' + i / 676 % 26) + (char) ('A' + i / 26 % 26) + (char) ('A' + i % 26) + "X";
            writer.waypoint(ident, "ZZ", new Position(20 + Math.floorDiv(i, 200) * 0.2, -60 + i % 200 * 0.1));
        }
        writer.waypoint(name, "ZZ", new Position(30.2, -44.5));
        writer.add(writer.fix("Z1", 10, name, "ZZ", "EA", OptionalDouble.of(61.3)));
        writer.add(writer.fix("Z1", 20, "AAAAX", "ZZ", "EA", OptionalDouble.empty()));
        writer.add(writer.fix("Z2", 10, "AAAAX", "ZZ", "EA", OptionalDouble.of(5.6)));
        writer.add(writer.fix("Z2", 20, "AAABX", "ZZ", "EA", OptionalDouble.empty()));
        return writer.octets("\r\n");
    }

    @Test
    void theSecondReadingIsTheFirst() throws IOException {
        ChartReader.Result first = ChartReader.read(chart);
        assertThat(first.problems()).as("the chart has some, too").isNotEmpty();
        assertThat(ChartCache.kept(chart)).isPresent();
        same(ChartReader.read(chart), first);
    }

    @Test
    void aChangedChartIsReadAnew() throws IOException {
        ChartReader.read(chart);
        Files.write(chart, large("MIDAU"));
        assertThat(ChartReader.read(chart).chart().fixes())
                .extracting(Waypoint::ident)
                .contains("MIDAU");
        Files.write(chart, large("MIDAT"));
        assertThat(ChartReader.read(chart).chart().fixes())
                .extracting(Waypoint::ident)
                .contains("MIDAT");
    }

    @Test
    void whatIsKeptIsThrownAwayWhereItIsDamaged() throws IOException {
        ChartReader.Result first = ChartReader.read(chart);
        byte[] kept = Files.readAllBytes(ChartCache.beside(chart));
        for (int at : new int[] {0, 5, 9, 13, 20, 40, 47, 60, 2_000, kept.length - 1}) {
            byte[] damaged = kept.clone();
            damaged[at] ^= 4;
            Files.write(ChartCache.beside(chart), damaged);
            assertThat(ChartCache.kept(chart)).as("octet %s", at).isEmpty();
        }
        for (int length : new int[] {0, 1, 47, 48, 60, kept.length / 2, kept.length - 1}) {
            Files.write(ChartCache.beside(chart), java.util.Arrays.copyOf(kept, length));
            assertThat(ChartCache.kept(chart)).as("cut off at %s", length).isEmpty();
        }
        same(ChartReader.read(chart), first);
        assertThat(Files.readAllBytes(ChartCache.beside(chart)))
                .as("and kept again")
                .isEqualTo(kept);
    }

    @Test
    void whereNothingCanBeKeptTheChartIsReadAllTheSame() throws IOException {
        Files.createDirectories(ChartCache.beside(chart).resolve("taken"));
        assertThat(ChartReader.read(chart).chart().fixes()).hasSize(FIXES + 1);
        try (var left = Files.list(folder)) {
            assertThat(left).hasSize(2);
        }
    }

    @Test
    void aSmallChartIsNotKept() throws IOException {
        Files.write(
                chart,
                new ArincWriter().waypoint("MIDAT", "ZZ", new Position(30, -45)).octets("\n"));
        ChartReader.read(chart);
        assertThat(ChartCache.beside(chart)).doesNotExist();
    }

    private static void same(ChartReader.Result found, ChartReader.Result wanted) {
        Chart chart = wanted.chart();
        assertThat(found.chart().name()).isEqualTo(chart.name());
        assertThat(found.chart().stations()).isEqualTo(chart.stations());
        assertThat(found.chart().fixes()).isEqualTo(chart.fixes());
        assertThat(found.chart().airports()).isEqualTo(chart.airports());
        assertThat(found.chart().airways()).isEqualTo(chart.airways());
        assertThat(found.chart().holds()).isEqualTo(chart.holds());
        assertThat(found.problems()).isEqualTo(wanted.problems());
        assertThat(found.source()).isEqualTo(wanted.source());
        assertThat(lines(found.chart(), found.lines())).isEqualTo(lines(chart, wanted.lines()));
    }

    private static List<Integer> lines(Chart chart, SourceLines lines) {
        List<Integer> all = new java.util.ArrayList<>();
        chart.stations().forEach(station -> all.add(lines.of(station)));
        chart.fixes().forEach(fix -> all.add(lines.of(fix)));
        chart.airports().forEach(airport -> all.add(lines.of(airport)));
        for (Airway airway : chart.airways()) {
            all.add(lines.of(airway));
            airway.points().forEach(point -> all.add(lines.of(point)));
        }
        return all;
    }
}
