package org.rejoin.bridge;

import static org.assertj.core.api.Assertions.assertThat;

import org.rejoin.bridge.clearance.Clearance;

import org.junit.jupiter.api.Test;

/** "Disregard" annuls what was transmitted last (ICAO Annex 10, volume II, from memory). */
class StandingTest {

    private final Standing<String> standing = new Standing<>();

    @Test
    void theOneBeforeStandsAgainWithWhatWasSaidBesideIt() {
        standing.issued("heading 100", false, false, Clearance.Reached.NOTHING);
        standing.issued("maintain 5000", true, false, Clearance.Reached.NOTHING);
        standing.issued("direct BBB", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, false).each()).containsExactly("heading 100", "maintain 5000");
    }

    @Test
    void anAltitudeAloneIsTakenBackAlone() {
        standing.issued("heading 100", false, false, Clearance.Reached.NOTHING);
        standing.issued("maintain 5000", true, false, Clearance.Reached.NOTHING);
        standing.issued("maintain 6000", true, true, Clearance.Reached.NOTHING);
        assertThat(standing.besideTakenBack(false)).containsExactly("heading 100", "maintain 5000");
        assertThat(standing.besideTakenBack(false)).containsExactly("heading 100");
        assertThat(standing.besideTakenBack(false)).isEmpty();
        assertThat(standing.takenBack(false, false).each()).isEmpty();
    }

    @Test
    void asFiledTakesTheRouteBackWithTheAltitude() {
        standing.issued("heading 100", false, false, Clearance.Reached.NOTHING);
        standing.issued("maintain 5000", true, false, Clearance.Reached.NOTHING);
        assertThat(standing.besideTakenBack(true)).isEmpty();
        assertThat(standing.takenBack(true, false).each()).isEmpty();
    }

    @Test
    void anAltitudeThatStandsAloneLeavesNothingBesideIt() {
        standing.issued("maintain 5000", true, false, Clearance.Reached.NOTHING);
        assertThat(standing.besideTakenBack(false)).isEmpty();
        assertThat(standing.takenBack(false, false).each()).isEmpty();
    }

    @Test
    void oneAfterTheOtherIsTakenBack() {
        standing.issued("first", false, false, Clearance.Reached.NOTHING);
        standing.issued("second", false, false, Clearance.Reached.NOTHING);
        standing.issued("third", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, false).each()).containsExactly("second");
        standing.issued("second", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, false).each()).containsExactly("first");
        standing.issued("first", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, false).each()).isEmpty();
    }

    @Test
    void whatWasFlownToItsEndNeverComesBack() {
        standing.issued("flown", false, false, Clearance.Reached.NOTHING);
        standing.issued("next", false, true, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, false).each()).isEmpty();
    }

    @Test
    void ofOneThatWasFlownToItsEndNothingOlderComesBack() {
        standing.issued("heading 100", false, false, Clearance.Reached.NOTHING);
        standing.issued("flown", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, true).each()).isEmpty();
        assertThat(standing.takenBack(false, false).each()).isEmpty();
    }

    @Test
    void itIsKnownHowFarItWasFlown() {
        standing.issued("first", false, false, Clearance.Reached.NOTHING);
        standing.issued("second", false, false, Clearance.Reached.LINE);
        standing.issued("third", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, false).reached()).isEqualTo(Clearance.Reached.NOTHING);
        standing.issued("second", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(false, false).reached()).isEqualTo(Clearance.Reached.LINE);
    }

    @Test
    void continueAsFiledSaysWhereTo() {
        standing.issued("heading 100", false, false, Clearance.Reached.NOTHING);
        standing.issued("direct BBB", false, false, Clearance.Reached.NOTHING);
        assertThat(standing.takenBack(true, false).each()).isEmpty();
        assertThat(standing.takenBack(false, false).each()).isEmpty();
    }
}
