package org.rejoin.console.drill;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

import org.junit.jupiter.api.Test;

/** A drill that begins where the aircraft is, or the reason why not now. */
class DrillFromHereTest {

    private static final Wind WIND = new Wind(new TrueDirection(270), 15);

    private static DrillFromHere.Aircraft at(
            Position position, double speedKt, double bankDeg, double turnDegPerS, double fpm) {
        return new DrillFromHere.Aircraft(
                position, 6000, new MagneticDirection(140), speedKt, bankDeg, turnDegPerS, fpm, WIND);
    }

    private static DrillFromHere.Answer ask(DrillFromHere.Aircraft aircraft) throws Exception {
        return DrillFromHere.of(aircraft, new DrillChart(DrillCharts.ours(), ""), DrillRequest.usual(3));
    }

    @Test
    void levelAndStraightNearTheAirwaysADrillIsSpokenAtOnce() throws Exception {
        Position here = new Position(38.25, -49.75);
        DrillFromHere.Answer answer = ask(at(here, 120, 0, 0, 0));
        assertThat(answer).isInstanceOf(DrillFromHere.Answer.Now.class);
        Drill drill = ((DrillFromHere.Answer.Now) answer).drill();
        assertThat(drill.heard()).isEqualTo(here);
        assertThat(drill.heardS()).isZero();
        assertThat(drill.route().warnings()).isEmpty();
        assertThat(drill.features().angleDeg()).isBetween(25.0, 75.0);
        assertThat(drill.features().minutes()).isBetween(2.0, 4.5);
        DrillFromHere.Answer again = ask(at(here, 120, 0, 0, 0));
        assertThat(((DrillFromHere.Answer.Now) again).drill().say()).isEqualTo(drill.say());
    }

    @Test
    void onTheGroundInATurnInAClimbOrOutOfTheChartItWaitsAndSaysWhy() throws Exception {
        Position here = new Position(38.25, -49.75);
        assertThat(because(at(here, 12, 0, 0, 0))).contains("on the ground");
        assertThat(because(at(here, 120, 20, 0, 0))).contains("in a turn");
        assertThat(because(at(here, 120, 0, -3, 0))).contains("in a turn");
        assertThat(because(at(here, 120, 0, 0, 700))).contains("climbing or descending");
        assertThat(because(at(new Position(10, 10), 120, 0, 0, 0))).contains("no airway of chart");
    }

    private static String because(DrillFromHere.Aircraft aircraft) throws Exception {
        DrillFromHere.Answer answer = ask(aircraft);
        assertThat(answer).isInstanceOf(DrillFromHere.Answer.NotNow.class);
        return ((DrillFromHere.Answer.NotNow) answer).because();
    }
}
