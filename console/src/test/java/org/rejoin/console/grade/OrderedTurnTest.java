package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * "Turn left heading", "turn right heading": the turn is made to the side that is said (FAA Order JO 7110.65, 5-6-2, methods;
 * 14 CFR 91.123 (b), no deviation from a clearance). The flights are closed-form arcs: which way they turn and how far is
 * known without the tracker.
 */
class OrderedTurnTest {

    private static final double LARGEST_STEP = 12;

    /** The largest value seen at 2 Hz depends a little on when the samples fall, points. */
    private static final double SAMPLING = 0.3;

    private static ClosedFormFlight flight(double kt) {
        return new ClosedFormFlight(new Position(30.3, -44.9), 100, kt, Ocean.CALM).seconds(9);
    }

    /** Cleared at 2 s; a way round of so many degrees, right positive, is ordered. */
    private static Flown cleared(ClosedFormFlight flown, double orderedDeg) {
        List<AircraftState> states = flown.sample(2);
        int heading = Math.floorMod((int) Math.round(Ocean.magneticHeading(states.get(0)) + orderedDeg), 360);
        String say = String.format(
                Locale.ROOT, "turn %s heading %03d", orderedDeg > 0 ? "right" : "left", heading == 0 ? 360 : heading);
        return Flown.fly(states, List.of(Ocean.say(2, say)));
    }

    private static double score(Flown flown) {
        return flown.grade().score().orElseThrow();
    }

    /** A way round that is ordered, right positive, and an airspeed. */
    static Stream<Arguments> turns() {
        return Stream.of(
                arguments(30, 120),
                arguments(-45, 90),
                arguments(100, 120),
                arguments(-170, 120),
                arguments(190, 120),
                arguments(-190, 90),
                arguments(210, 200),
                arguments(260, 120),
                arguments(-300, 120),
                arguments(315, 250),
                arguments(-340, 120));
    }

    @ParameterizedTest
    @MethodSource("turns")
    void whoTurnsAsOrderedMeetsTheStandardHoweverFarItIs(double orderedDeg, double kt) {
        Flown flown = cleared(flight(kt).turn(orderedDeg).seconds(90), orderedDeg);
        assertThat(flown.grade().verdict())
                .as("%s %s", flown.grade(), flown.events())
                .isEqualTo(Verdict.MET);
    }

    @ParameterizedTest
    @MethodSource("turns")
    void whoComesToItTheOtherWayHasMadeAWrongTurn(double orderedDeg, double kt) {
        double otherWayDeg = orderedDeg - Math.copySign(360, orderedDeg);
        Flown flown = cleared(flight(kt).turn(otherWayDeg).seconds(90), orderedDeg);
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.WRONG_TURN);
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(flown.grade().faults().get(0).text())
                .contains(orderedDeg > 0 ? "turned left" : "turned right")
                .contains(orderedDeg > 0 ? "cleared right" : "cleared left");
        assertThat(flown.all(FlightEvent.TurnedOtherWay.class))
                .singleElement()
                .satisfies(turned -> assertThat(turned.wholeDeg()).isCloseTo(Math.abs(otherWayDeg), within(1.5)));
        assertThat(flown.grade().criteria()).noneMatch(each -> each.kind() == Criterion.Kind.HEADING && each.met());
        // The heading itself was held: a line that is within its limit says what was not met.
        assertThat(flown.criterion("HEADING").title())
                .contains("within its limit, but not met because of WRONG_TURN: turned "
                        + (orderedDeg > 0 ? "left" : "right"));
    }

    /** South to NORTH, cleared on the way to it, and from over it a turn of so many degrees; the order is another. */
    private static Flown fromTheFix(double orderedDeg, double flownDeg, double kt) {
        return shortOfTheFix(orderedDeg, flownDeg, kt, 0);
    }

    /** The same, begun so far before it; for two minutes after it. */
    private static Flown shortOfTheFix(double orderedDeg, double flownDeg, double kt, double shortNm) {
        return shortOfTheFix(orderedDeg, flownDeg, kt, shortNm, 2, "instrument-rating");
    }

    private static Flown shortOfTheFix(
            double orderedDeg, double flownDeg, double kt, double shortNm, double hz, String standard) {
        Position start = new Position(31.05, -44.2);
        ClosedFormFlight flown =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg(), kt, Ocean.CALM);
        flown.miles(start.distanceNm(NORTH) - shortNm)
                .seconds(shortNm > 0 ? 0 : 3)
                .turn(flownDeg)
                .seconds(shortNm > 0 ? 200 : 90);
        List<AircraftState> states = flown.sample(hz);
        int heading = Math.floorMod((int) Math.round(Ocean.magneticHeading(states.get(0)) + orderedDeg), 360);
        String say = String.format(
                Locale.ROOT,
                "after NORTH, turn %s heading %03d",
                orderedDeg > 0 ? "right" : "left",
                heading == 0 ? 360 : heading);
        return Flown.fly(states, standard, List.of(Ocean.say(2, say)), Ocean.FILED, Ocean.CHART);
    }

    @ParameterizedTest
    @MethodSource("turns")
    void aTurnOrderedAtAFixHasItsTimeTheWayThatIsSaid(double orderedDeg, double kt) {
        Flown flown = fromTheFix(orderedDeg, orderedDeg, kt);
        assertThat(flown.faults()).as("%s", flown.events()).isEmpty();
        assertThat(flown.criterion("HEADING").met()).as("%s", flown.grade()).isTrue();
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        assertThat(flown.routes().get(0).notes()).noneMatch(note -> note.contains("not followed"));
    }

    @ParameterizedTest
    @MethodSource("turns")
    void whoTurnsTheOtherWayAtTheFixHasMadeAWrongTurn(double orderedDeg, double kt) {
        Flown flown = fromTheFix(orderedDeg, orderedDeg - Math.copySign(360, orderedDeg), kt);
        assertThat(flown.faults()).as("%s", flown.events()).containsExactly(FaultCode.WRONG_TURN);
        assertThat(flown.grade().faults().get(0).text()).contains(orderedDeg > 0 ? "cleared right" : "cleared left");
        assertThat(flown.criterion("HEADING").met()).isFalse();
    }

    /**
     * "At NORTH, turn": the turn is made at the fix. A lead of it is sound flying (AIM 5-3-5); what is turned miles before is a
     * route left (14 CFR 91.123 (b)). The farther before it, the dearer, and nowhere all at once.
     */
    @ParameterizedTest
    @CsvSource({"60, 8", "100, 6", "-260, 6"})
    void theEarlierTheTurnAtAFixTheDearer(double orderedDeg, double largestStep) {
        double before = score(shortOfTheFix(orderedDeg, orderedDeg, 120, 0));
        for (double shortNm = 0.1; shortNm <= 5; shortNm += 0.1) {
            Flown flown = shortOfTheFix(orderedDeg, orderedDeg, 120, shortNm);
            String what = String.format(Locale.ROOT, "%.1f NM: %s %s", shortNm, flown.grade(), flown.events());
            assertThat(score(flown)).as(what).isBetween(before - largestStep, before + SAMPLING);
            if (shortNm < 0.75) {
                assertThat(flown.grade().verdict()).as(what).isEqualTo(Verdict.MET);
            } else if (shortNm > 2.3) {
                assertThat(flown.faults()).as(what).containsExactly(FaultCode.ROUTE_LEFT);
                assertThat(flown.grade().faults().get(0).text()).as(what).contains("NM before NORTH");
                assertThat(score(flown)).as(what).isLessThan(60);
            }
            before = score(flown);
        }
    }

    /** Found between two samples, as the fix is: a slow feed tells it no later than a fast one. */
    @Test
    void aTurnShortOfAFixIsTheSameRouteLeftAtAnyRate() {
        List<FlightEvent.RouteLeft> left = Stream.of(0.5, 20.0)
                .map(hz -> shortOfTheFix(100, 100, 120, 2, hz, "instrument-rating"))
                .flatMap(flown -> flown.events().stream())
                .filter(FlightEvent.RouteLeft.class::isInstance)
                .map(FlightEvent.RouteLeft.class::cast)
                .toList();
        assertThat(left).hasSize(2);
        assertThat(left.get(0).timeS()).isCloseTo(left.get(1).timeS(), within(0.2));
        assertThat(left.get(0).toGoNm()).isCloseTo(left.get(1).toGoNm(), within(0.01));
    }

    /** How far off the course he was, and how far short, ends where the fix is sequenced, between two samples. */
    @ParameterizedTest
    @CsvSource({
        "-70, 300, 3",
        "100, 300, 3",
        "40, 300, 3",
        "40, 200, 3",
        "-70, 120, 1.5",
        "-70, 90, 1",
        "100, 120, 1.37"
    })
    void aTurnShortOfAFixHasTheSameGradeAtAnyRate(double orderedDeg, double kt, double shortNm) {
        double reference = score(shortOfTheFix(orderedDeg, orderedDeg, kt, shortNm, 20, "instrument-rating"));
        for (double hz : new double[] {1, 4, 5}) {
            Flown flown = shortOfTheFix(orderedDeg, orderedDeg, kt, shortNm, hz, "instrument-rating");
            assertThat(score(flown)).as("%s Hz: %s", hz, flown.grade()).isCloseTo(reference, within(0.1));
        }
    }

    /** Of a scale wider than the 4 NM within which a fix is passed nobody is off it who passed. */
    @Test
    void aSoundTurnAtAFixIsOneByAWideScaleToo(@TempDir Path folder) throws Exception {
        Path wide = folder.resolve("wide.yaml");
        try (InputStream gps = Objects.requireNonNull(ToleranceSet.class.getResourceAsStream("gps.yaml"))) {
            Files.writeString(
                    wide,
                    new String(gps.readAllBytes(), StandardCharsets.UTF_8)
                            .replace("full_scale_nm: 1.0", "full_scale_nm: 5.0"));
        }
        Flown flown = shortOfTheFix(100, 100, 120, 0.3, 2, wide.toString());
        assertThat(flown.grade().verdict()).as("%s", flown.grade()).isEqualTo(Verdict.MET);
        assertThat(score(flown)).isGreaterThan(95);
    }

    /** No side was said: either way is as good, and the short way has its time. */
    @ParameterizedTest
    @ValueSource(doubles = {-120, 60, 150})
    void withNoSideSaidTheShortWayIsTurned(double deg) {
        ClosedFormFlight flown = flight(120).turn(deg).seconds(90);
        int heading = Math.floorMod(
                (int) Math.round(Ocean.magneticHeading(flown.sample(1).get(0)) + deg), 360);
        Flown graded = Flown.fly(
                flown.sample(2), List.of(Ocean.say(2, String.format(Locale.ROOT, "fly heading %03d", heading))));
        assertThat(graded.grade().verdict()).isEqualTo(Verdict.MET);
    }

    /** So far the other way, found, and round the way that was ordered: dearer the farther, with no step. */
    @ParameterizedTest
    @ValueSource(doubles = {45, -100, 170, -220, 300})
    void theFartherTheOtherWayTheDearer(double orderedDeg) {
        double side = Math.signum(orderedDeg);
        double before = Double.NaN;
        for (double other = 0; other <= Math.min(120, 355 - Math.abs(orderedDeg)); other += 5) {
            Flown flown = cleared(
                    flight(120)
                            .turn(-side * other)
                            .seconds(4)
                            .turn(orderedDeg + side * other)
                            .seconds(90),
                    orderedDeg);
            double score = score(flown);
            if (!Double.isNaN(before)) {
                assertThat(score)
                        .as("%.0f: %s", other, flown.grade())
                        .isBetween(before - LARGEST_STEP, before + SAMPLING);
            }
            boolean fault = flown.faults().contains(FaultCode.WRONG_TURN);
            if (other <= 5) {
                // A few degrees are nothing.
                assertThat(flown.grade().verdict())
                        .as("%.0f: %s", other, flown.grade())
                        .isEqualTo(Verdict.MET);
            } else if (other >= 25) {
                assertThat(fault).as("%.0f: %s", other, flown.events()).isTrue();
                assertThat(flown.faults()).hasSize(1);
            }
            before = score;
        }
    }

    /** Turning right when "turn left" is said, he goes on so while he reacts. */
    @Test
    void whoIsTurningTheOtherWayWhenItIsSaidHasTheTimeToReact() {
        ClosedFormFlight flown = new ClosedFormFlight(new Position(30.3, -44.9), 100, 120, Ocean.CALM);
        flown.seconds(4).turn(42).turn(-70).seconds(90);
        List<AircraftState> states = flown.sample(2);
        int heading = Math.floorMod(Ocean.magneticHeading(states.get(0)) - 28, 360);
        Flown graded = Flown.fly(
                states, List.of(Ocean.say(10, String.format(Locale.ROOT, "turn left heading %03d", heading))));
        assertThat(graded.faults()).as("%s", graded.events()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void aTurnDirectToAFixGoesToTheSideThatIsSaid(boolean asSaid) {
        // NORTH lies to the left of the nose and behind; the order is the turn to the right, the long way.
        ClosedFormFlight toFix = flight(120);
        double right = 360
                + toFix.end().position().to(NORTH).initial().deg()
                - toFix.end().trackDeg();
        double radius = toFix.radiusNm();
        assertThat(radius).isBetween(0.5, 0.8);
        ClosedFormFlight flown = onto(flight(120), right % 360, asSaid);
        Flown graded = Flown.fly(flown.sample(2), List.of(Ocean.say(2, "turn right direct NORTH, then as filed")));
        assertThat(graded.faults())
                .as("%s", graded.events())
                .isEqualTo(asSaid ? List.of() : List.of(FaultCode.WRONG_TURN));
        assertThat(graded.criterion("INTERCEPT").met()).isEqualTo(asSaid);
    }

    private static final Position NORTH = new Position(30.9, -44.2);

    /** A turn of about that, until the nose points at the fix. */
    private static ClosedFormFlight onto(ClosedFormFlight start, double rightDeg, boolean right) {
        double turn = right ? rightDeg : rightDeg - 360;
        for (int i = 0; i < 20; i++) {
            ClosedFormFlight tried = flight(120).turn(turn);
            double left = Math.IEEEremainder(
                    tried.end().position().to(NORTH).initial().deg()
                            - tried.end().trackDeg(),
                    360);
            turn += left;
        }
        return start.turn(turn).seconds(400);
    }

    /** Long after the turn should have been over he turns the other way, as the route goes: that is no answer to the order. */
    @Test
    void whatIsTurnedLongAfterIsNotTheOrderedTurn() {
        Flown flown = cleared(flight(120).seconds(200).turn(-60).seconds(120), 80);
        assertThat(flown.all(FlightEvent.TurnedOtherWay.class)).isEmpty();
        assertThat(flown.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(flown.grade().faults().get(0).text()).contains("was never begun");
    }

    @Test
    void whoNeverBeginsTheTurnHasMadeOneMistake() {
        Flown flown = cleared(flight(120).seconds(300), 80);
        assertThat(flown.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(flown.grade().faults().get(0).text())
                .contains("the turn to heading")
                .contains("was never begun");
        assertThat(flown.grade().notes()).anySatisfy(note -> assertThat(note).contains("is the same mistake"));
    }
}
