package org.rejoin.bridge.tracker;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;

import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.bridge.flight.Rules;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;

import org.junit.jupiter.api.Test;

/** One home for each threshold: change it there, and verdict, words and page change. */
class RulesTest {

    private static final Rules STRICTER = Rules.STANDARD.with(new Rule.Heading(10, 7, 5));

    @Test
    void aChangedThresholdChangesTheVerdict() {
        Leg leg = new Leg(45, -1, 120, Ocean.CALM, 9);
        leg.flight.seconds(30).turn(8).seconds(12).turn(-8).seconds(60);
        assertThat(Flown.fly(leg.flight.sample(2), Rules.STANDARD).faults()).isEmpty();
        assertThat(Flown.fly(leg.flight.sample(2), STRICTER).faults()).containsExactly(FaultCode.HEADING_NOT_HELD);
    }

    @Test
    void itChangesTheWordsOfTheRuleAndThePage() {
        Rule rule = EventKind.HEADING_DEVIATION_BEGAN.rules(STRICTER).get(0);
        assertThat(rule.text()).contains("more than 7 degrees off for 5 s");
        assertThat(TrackerPageTest.table(STRICTER)).contains("more than 7 degrees off for 5 s");
        assertThat(TrackerPageTest.table(Rules.STANDARD))
                .contains("more than 10 degrees off for 10 s")
                .doesNotContain("more than 7 degrees off");
    }

    /** A tenth of the scale in place of a twentieth: a swing to 0.15 NM is no longer one of a needle chased. */
    @Test
    void soDoesOneOfTheScale() {
        Leg leg = Ocean.toRadial(30, -1, 120, Ocean.CALM).toLead().turnOn();
        leg.flight.seconds(10).turn(12).seconds(18);
        for (int i = 0; i < 4; i++) {
            leg.flight.turn(i % 2 == 0 ? -24 : 24).seconds(i == 3 ? 18 : 36);
        }
        leg.turnOn().asCleared();
        assertThat(Flown.fly(leg.flight.sample(2)).faults()).contains(FaultCode.WEAVING);
        Rules wider = Rules.STANDARD.with(new Rule.Weaving(3, 180, 10, 0.1, 60));
        assertThat(Flown.fly(leg.flight.sample(2), wider).faults()).doesNotContain(FaultCode.WEAVING);
    }

    @Test
    void everyRuleSaysWhatItDecidesAndWhereItComesFrom() {
        for (Rule rule : Rules.STANDARD.all()) {
            assertThat(rule.title()).isNotBlank();
            assertThat(rule.text()).isNotBlank().doesNotEndWith(".").doesNotContain("NaN", "Infinity");
            assertThat(rule.source()).isNotBlank().doesNotContain("contract");
        }
        assertThat(Rules.STANDARD.all()).hasSize(Rule.class.getPermittedSubclasses().length);
        assertThat(Rules.STANDARD.all()).extracting(Rule::title).doesNotHaveDuplicates();
    }

    @Test
    void everyFaultHasItsRule() {
        assertThat(Arrays.stream(EventKind.values()).filter(kind -> kind.fault().isPresent()))
                .allSatisfy(kind -> assertThat(kind.rules(Rules.STANDARD)).isNotEmpty());
        List<FaultCode> told = Arrays.stream(EventKind.values())
                // A direct that is not taken up is told at the time, what is not done by the end at the end.
                .filter(kind -> kind != EventKind.DIRECT_NOT_TAKEN_UP)
                // A turn goes the wrong way at a fix, or where ATC orders it.
                .filter(kind -> kind != EventKind.TURNED_OTHER_WAY)
                .flatMap(kind -> kind.fault().stream())
                .toList();
        assertThat(EventKind.DIRECT_NOT_TAKEN_UP.fault()).contains(FaultCode.NOT_ACHIEVED);
        assertThat(EventKind.TURNED_OTHER_WAY.fault()).contains(FaultCode.WRONG_TURN);
        assertThat(told).containsExactlyInAnyOrder(FaultCode.values());
    }

    @Test
    void aPauseNamesTheRuleThatFired() {
        assertThat(Rules.STANDARD.deciding(new FlightEvent.SimPaused(9, FlightEvent.SimPaused.Reason.FLAG)))
                .extracting(Rule::title)
                .containsExactly("pause, as the sender says");
        assertThat(Rules.STANDARD.deciding(new FlightEvent.SimPaused(9, FlightEvent.SimPaused.Reason.STANDING_STILL)))
                .extracting(Rule::title)
                .containsExactly("pause, standing still");
    }
}
