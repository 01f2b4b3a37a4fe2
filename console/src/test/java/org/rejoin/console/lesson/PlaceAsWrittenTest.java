package org.rejoin.console.lesson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.words.Words;

import org.junit.jupiter.api.Test;

/** A place is read as this program says it, and as a flight plan has it. */
class PlaceAsWrittenTest {

    private static Position read(String text) throws Exception {
        return Place.read(text, chart());
    }

    private static Chart chart() throws Exception {
        return LessonReader.read("radial-outbound").chart();
    }

    @Test
    void degreesAndMinutesAsTheProgramSaysThem() throws Exception {
        Position place = read("N38°12.000' W049°55.200'");
        assertThat(place.latitudeDeg()).isEqualTo(38.2);
        assertThat(place.longitudeDeg()).isEqualTo(-49.92);
        for (Position each : new Position[] {new Position(-0.125, 179.5), new Position(38.51, -50.247)}) {
            assertThat(read(Words.place(each)).distanceNm(each)).isLessThan(0.002);
        }
        assertThatThrownBy(() -> read("N38°61.000' W049°55.200'")).hasMessageContaining("minutes below 60");
    }

    @Test
    void radialAndDistanceInThreeFiguresEach() throws Exception {
        assertThat(read("PTL035012")).isEqualTo(read("PTL/035/12"));
        assertThatThrownBy(() -> read("PTL365012")).hasMessageContaining("001 to 360");
        assertThatThrownBy(() -> read("ZZZ035012")).hasMessageContaining("station ZZZ is not on chart");
    }
}
