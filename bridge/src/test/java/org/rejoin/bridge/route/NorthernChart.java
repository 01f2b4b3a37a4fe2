package org.rejoin.bridge.route;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;

/** An invented chart far north, where meridians close in and an airway bends without a station: V71 at WRACK and KELPY. */
final class NorthernChart {

    static final String FILED = "XHAL DCT HAL V71 KIT DCT XKIT";

    private static final String YAML = """
            name: Northern ocean
            stations:
              - {ident: HAL, name: Halyard, kind: VORTAC, class: VH, frequency_mhz: 113.2, latitude_deg: 61.5, longitude_deg: -34.0, declination_deg: -11.0, elevation_ft: 0}
              - {ident: KIT, name: Kittering, kind: VORDME, class: VH, frequency_mhz: 115.3, latitude_deg: 62.3, longitude_deg: -31.5, declination_deg: -19.0, elevation_ft: 0}
              - {ident: ORM, name: Ormer, kind: VORTAC, class: VH, frequency_mhz: 116.1, latitude_deg: 61.2, longitude_deg: -30.8, declination_deg: -13.0, elevation_ft: 0}
              - {ident: BIT, name: Bitt, kind: VOR, class: L, frequency_mhz: 110.2, latitude_deg: 61.2, longitude_deg: -33.2, declination_deg: -16.0, elevation_ft: 0}
              - {ident: DUL, name: Dulse, kind: NDB, frequency_mhz: 0.355, latitude_deg: 62.0, longitude_deg: -33.6, elevation_ft: 0}
            fixes:
              - {ident: WRACK, latitude_deg: 61.80, longitude_deg: -32.95}
              - {ident: KELPY, latitude_deg: 62.02, longitude_deg: -32.40}
              - {ident: SUDDY, latitude_deg: 61.15, longitude_deg: -32.1}
              - {ident: NORDY, latitude_deg: 62.6, longitude_deg: -33.0}
              - {ident: LIMPT, latitude_deg: 61.75, longitude_deg: -31.15}
              - {ident: COBLE, latitude_deg: 61.35, longitude_deg: -31.6}
            airports:
              - {ident: XHAL, name: Halyard Field, latitude_deg: 61.4, longitude_deg: -34.6, elevation_ft: 20}
              - {ident: XKIT, name: Kittering Field, latitude_deg: 62.55, longitude_deg: -31.0, elevation_ft: 20}
              - {ident: XORM, name: Ormer Field, latitude_deg: 61.0, longitude_deg: -30.3, elevation_ft: 20}
            airways:
              - {ident: V71, points: [HAL, WRACK, KELPY, KIT], minimum_altitude_ft: 5000}
              - {ident: V23, points: [NORDY, KELPY, SUDDY], minimum_altitude_ft: 4000}
              - {ident: V19, points: [SUDDY, COBLE, LIMPT, KIT], minimum_altitude_ft: 7000}
              - {ident: V55, points: [HAL, SUDDY, ORM], minimum_altitude_ft: 4000}
              - {ident: V9, points: [ORM, LIMPT, KELPY], minimum_altitude_ft: 4000}
            holds:
              - {fix: KELPY, inbound_course_magnetic_deg: 065, turns: left, leg_min: 1}
            """;

    static final Chart CHART = read();

    private NorthernChart() {}

    /** Heading 350 at 8,000 ft and 140 kt in a wind from the west, south of V71. */
    static OceanCase hears(String words) {
        return OceanCase.of(FILED, words, 61.45, -32.75)
                .chart(CHART)
                .altitude(8000)
                .speed(140)
                .heading(350)
                .wind(270, 20);
    }

    private static Chart read() {
        try {
            return ChartReader.read(new ByteArrayInputStream(YAML.getBytes(StandardCharsets.UTF_8)), "north.yaml")
                    .chart();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
