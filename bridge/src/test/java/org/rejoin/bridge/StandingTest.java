package org.rejoin.bridge;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** "Disregard" annuls what was transmitted last (ICAO Annex 10, volume II, from memory). */
class StandingTest {

    private final Standing<String> standing = new Standing<>();

    @Test
    void theOneBeforeStandsAgainWithWhatWasSaidBesideIt() {
        standing.issued("heading 100", false, false);
        standing.issued("maintain 5000", true, false);
        standing.issued("direct BBB", false, false);
        assertThat(standing.takenBack(false, false)).containsExactly("heading 100", "maintain 5000");
    }

    @Test
    void anAltitudeAloneIsTakenBackAlone() {
        standing.issued("heading 100", false, false);
        standing.issued("maintain 5000", true, false);
        standing.issued("maintain 6000", true, true);
        assertThat(standing.besideTakenBack(false)).containsExactly("heading 100", "maintain 5000");
        assertThat(standing.besideTakenBack(false)).containsExactly("heading 100");
        assertThat(standing.besideTakenBack(false)).isEmpty();
        assertThat(standing.takenBack(false, false)).isEmpty();
    }

    @Test
    void asFiledTakesTheRouteBackWithTheAltitude() {
        standing.issued("heading 100", false, false);
        standing.issued("maintain 5000", true, false);
        assertThat(standing.besideTakenBack(true)).isEmpty();
        assertThat(standing.takenBack(true, false)).isEmpty();
    }

    @Test
    void anAltitudeThatStandsAloneLeavesNothingBesideIt() {
        standing.issued("maintain 5000", true, false);
        assertThat(standing.besideTakenBack(false)).isEmpty();
        assertThat(standing.takenBack(false, false)).isEmpty();
    }

    @Test
    void oneAfterTheOtherIsTakenBack() {
        standing.issued("first", false, false);
        standing.issued("second", false, false);
        standing.issued("third", false, false);
        assertThat(standing.takenBack(false, false)).containsExactly("second");
        standing.issued("second", false, false);
        assertThat(standing.takenBack(false, false)).containsExactly("first");
        standing.issued("first", false, false);
        assertThat(standing.takenBack(false, false)).isEmpty();
    }

    @Test
    void whatWasFlownToItsEndNeverComesBack() {
        standing.issued("flown", false, false);
        standing.issued("next", false, true);
        assertThat(standing.takenBack(false, false)).isEmpty();
    }

    @Test
    void ofOneThatWasFlownToItsEndNothingOlderComesBack() {
        standing.issued("heading 100", false, false);
        standing.issued("flown", false, false);
        assertThat(standing.takenBack(false, true)).isEmpty();
        assertThat(standing.takenBack(false, false)).isEmpty();
    }

    @Test
    void continueAsFiledSaysWhereTo() {
        standing.issued("heading 100", false, false);
        standing.issued("direct BBB", false, false);
        assertThat(standing.takenBack(true, false)).isEmpty();
        assertThat(standing.takenBack(false, false)).isEmpty();
    }
}
