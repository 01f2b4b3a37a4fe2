package org.rejoin.bridge.route;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;

/** An invented chart south and across the date line, where declinations are thirty degrees: a slip of north shows. */
final class SouthernChart {

    static final String FILED = "XWIL DCT WIL V7 TAR V9 OKA DCT XOKA";

    private static final String YAML = """
            name: Southern date line
            stations:
              - {ident: WIL, name: Willow, kind: VORTAC, class: H, frequency_mhz: 113.4, latitude_deg: -51.0, longitude_deg: 179.0, declination_deg: 29.0, elevation_ft: 100}
              - {ident: TAR, name: Tarn, kind: VORDME, class: H, frequency_mhz: 114.1, latitude_deg: -50.2, longitude_deg: -179.0, declination_deg: 30.0, elevation_ft: 10}
              - {ident: OKA, name: Oakum, kind: VORTAC, class: H, frequency_mhz: 112.0, latitude_deg: -51.6, longitude_deg: -178.6, declination_deg: 31.5, elevation_ft: 10}
              - {ident: MOR, name: Morrow, kind: VOR, class: L, frequency_mhz: 115.3, latitude_deg: -50.9, longitude_deg: -179.9, declination_deg: 27.0, elevation_ft: 30}
              - {ident: NB, name: Nimbus, kind: NDB, class: H, frequency_mhz: 0.35, latitude_deg: -51.3, longitude_deg: -179.7}
            fixes:
              - {ident: KELPY, latitude_deg: -50.45, longitude_deg: 179.9}
              - {ident: BRINE, latitude_deg: -50.9, longitude_deg: -178.7}
            airports:
              - {ident: XWIL, name: Willow Field, latitude_deg: -51.2, longitude_deg: 178.7, elevation_ft: 20}
              - {ident: XOKA, name: Oakum Field, latitude_deg: -51.8, longitude_deg: -178.2, elevation_ft: 20}
            airways:
              - {ident: V7, points: [WIL, KELPY, TAR], minimum_altitude_ft: 4000}
              - {ident: V9, points: [TAR, BRINE, OKA], minimum_altitude_ft: 5000}
              - {ident: V5, points: [WIL, MOR, BRINE], minimum_altitude_ft: 4000}
            """;

    static final Chart CHART = read();

    private SouthernChart() {}

    static OceanCase hears(String words, double latitudeDeg, double longitudeDeg) {
        return OceanCase.of(FILED, words, latitudeDeg, longitudeDeg)
                .chart(CHART)
                .altitude(6000)
                .heading(60);
    }

    private static Chart read() {
        try {
            return ChartReader.read(new ByteArrayInputStream(YAML.getBytes(StandardCharsets.UTF_8)), "south.yaml")
                    .chart();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
