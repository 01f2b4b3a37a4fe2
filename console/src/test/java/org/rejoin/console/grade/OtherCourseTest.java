package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Habit;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The AAA 102 radial was cleared and another course is tracked well: another radial of AAA, or BBB's 102. */
class OtherCourseTest {

    /** Zero radial 8 degrees west of true north, so that its 102 radial goes out 094 true. */
    private static final Station BBB = new Station(
            "BBB",
            "Bravo",
            Station.Kind.VORTAC,
            Optional.of(Station.ServiceClass.H),
            OptionalDouble.of(115.2),
            new Position(30.3, -45.4),
            Optional.of(new Declination(-8)),
            OptionalDouble.of(0));

    private static Chart chart() {
        List<Station> stations = new ArrayList<>(Ocean.CHART.stations());
        stations.add(BBB);
        return new Chart("invented", stations, Ocean.CHART.fixes(), Ocean.CHART.airports(), Ocean.CHART.airways());
    }

    /** Declination of AAA is -12. */
    private static GeodesicLine ofAaa(double radial) {
        return GeodesicLine.from(new Position(30, -45), new TrueDirection(radial - 12), 80);
    }

    private static final GeodesicLine OF_BBB = GeodesicLine.from(BBB.position(), new TrueDirection(102 - 8), 80);

    /** Onto a line 20 NM out with a sound lead, from the right (1) or left (-1); then along it. */
    private static ClosedFormFlight onto(GeodesicLine line, double angle, int side, double kt, double seconds) {
        return onto(line, angle, side, kt, seconds, 20);
    }

    private static ClosedFormFlight onto(
            GeodesicLine line, double angle, int side, double kt, double seconds, double outNm) {
        Position meets = line.pointAt(outNm);
        double track = line.courseAt(outNm).deg() - side * angle;
        Position start = meets.destination(new TrueDirection(track + 180), 5);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(meets).initial().deg(), kt, Ocean.CALM);
        flight.miles(5 - flight.radiusNm() * Math.tan(Math.toRadians(angle / 2)));
        return flight.turnTo(line.offset(flight.end().position()).course().deg())
                .seconds(seconds);
    }

    private static Flown fly(ClosedFormFlight flight, double hz) {
        List<AircraftState> states = flight.sample(hz);
        return Flown.fly(
                states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)), Ocean.FILED, chart());
    }

    private static List<FlightEvent.OtherCourseTracked> tracked(ClosedFormFlight flight, double hz) {
        return fly(flight, hz).all(FlightEvent.OtherCourseTracked.class);
    }

    /** Rolled out along another course, the turn onto the cleared one came early as well, by the definition of the fault. */
    private static String notAchieved(Flown flown) {
        return flown.grade().faults().stream()
                .filter(fault -> fault.code() == FaultCode.NOT_ACHIEVED)
                .findFirst()
                .orElseThrow()
                .text();
    }

    @ParameterizedTest
    @CsvSource({"112, 45, 1, 120", "112, 30, 1, 90", "92, 45, -1, 120", "108, 60, 1, 180", "122, 45, 1, 150"})
    void anotherRadialOfTheClearedStation(double radial, double angle, int side, double kt) {
        Flown flown = fly(onto(ofAaa(radial), angle, side, kt, 90), 2);
        assertThat(flown.all(FlightEvent.OtherCourseTracked.class)).hasSize(1);
        FlightEvent.OtherCourseTracked other =
                flown.all(FlightEvent.OtherCourseTracked.class).get(0);
        assertThat(other.station()).isEqualTo("AAA");
        assertThat(other.radialDeg()).isCloseTo(radial, Offset.offset(0.5));
        assertThat(notAchieved(flown))
                .contains(String.format(
                        Locale.ROOT, "tracked the AAA %03.0f radial; the clearance was the AAA 102 radial", radial));
        headingIsNoSecondMistake(flown);
    }

    /** It was flown well, and left for the wrong course: one mistake, and that is not the heading. */
    private static void headingIsNoSecondMistake(Flown flown) {
        assertThat(flown.grade().faults()).extracting(Fault::code).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(flown.grade().last().amendments().get(0).criteria())
                .filteredOn(criterion -> criterion.code().equals("HEADING"))
                .singleElement()
                .satisfies(criterion -> assertThat(criterion.points()).isGreaterThan(9));
    }

    /** The 102 radial is V60 here, from AAA to a fix: another one of AAA is as wrong as where the radial itself is cleared. */
    @ParameterizedTest
    @CsvSource({"112, 45, 1", "92, 45, -1", "122, 60, 1"})
    void anotherRadialThanThatOfTheAirway(double radial, double angle, int side) {
        Fix east = new Fix("EASTB", ofAaa(102).pointAt(45));
        List<Fix> fixes = new ArrayList<>(Ocean.CHART.fixes());
        fixes.add(east);
        List<Airway> airways = new ArrayList<>(Ocean.CHART.airways());
        airways.add(new Airway(
                "V60",
                List.of(Ocean.CHART.stations().get(0), east),
                List.of(Ocean.CHART.airways("V40").get(0).segments().get(0))));
        Chart chart = new Chart("invented", Ocean.CHART.stations(), fixes, Ocean.CHART.airports(), airways);
        List<AircraftState> states = onto(ofAaa(radial), angle, side, 120, 150).sample(2);
        String say = String.format(
                Locale.ROOT, "fly heading %03d, intercept V60, then as filed", Ocean.magneticHeading(states.get(0)));
        Flown flown = Flown.fly(states, List.of(Ocean.at(2, say, 6000)), "XNOR DCT AAA V60 EASTB DCT XSOU", chart);
        assertThat(flown.all(FlightEvent.OtherCourseTracked.class)).hasSize(1);
        assertThat(notAchieved(flown))
                .contains(String.format(
                        Locale.ROOT,
                        "tracked the AAA %03.0f radial; the clearance was V60, the AAA 102 radial",
                        radial));
        headingIsNoSecondMistake(flown);
    }

    @Test
    void theSameNumberOfAnotherStation() {
        Flown flown = fly(onto(OF_BBB, 45, -1, 120, 90), 2);
        assertThat(flown.all(FlightEvent.OtherCourseTracked.class))
                .extracting(FlightEvent.OtherCourseTracked::station, FlightEvent.OtherCourseTracked::radialDeg)
                .containsExactly(org.assertj.core.groups.Tuple.tuple("BBB", 102.0));
        assertThat(notAchieved(flown)).contains("tracked the BBB 102 radial; the clearance was the AAA 102 radial");
    }

    @Test
    void towardTheStationIsTrackingItToo() {
        List<FlightEvent.OtherCourseTracked> tracked = tracked(onto(ofAaa(112).reversed(), 45, -1, 120, 90), 2);
        assertThat(tracked).hasSize(1);
        assertThat(tracked.get(0).radialDeg()).isCloseTo(112, Offset.offset(0.5));
    }

    /** Not on it before the turn ends, and a minute from then: the track comes within 10 degrees near the end. */
    @ParameterizedTest
    @CsvSource({"40, false", "66, true"})
    void aMinuteItTakes(double seconds, boolean tracked) {
        assertThat(tracked(onto(ofAaa(114), 45, 1, 120, seconds), 5)).hasSize(tracked ? 1 : 0);
        assertThat(tracked(onto(OF_BBB, 45, -1, 120, seconds), 5)).hasSize(tracked ? 1 : 0);
    }

    @Test
    void foundInTimeItIsTheCauseOfWhatCameOfIt() {
        ClosedFormFlight flight = onto(ofAaa(112), 45, 1, 120, 90);
        // Over to the cleared radial and on as cleared.
        double off = Ocean.RADIAL.offset(flight.end().position()).crossTrackNm();
        double course = Ocean.RADIAL.offset(flight.end().position()).course().deg();
        flight.turnTo(course - 45);
        double left = Ocean.RADIAL.offset(flight.end().position()).crossTrackNm();
        flight.miles(left / Math.sin(Math.toRadians(45)) - flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
        flight.turnTo(course).miles(3);
        assertThat(off).isGreaterThan(2);
        Flown flown = fly(flight, 2);
        assertThat(flown.all(FlightEvent.OtherCourseTracked.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.InterceptAchieved.class)).hasSize(1);
        assertThat(flown.faults()).doesNotContain(FaultCode.NOT_ACHIEVED);
        assertThat(flown.grade().faults())
                .filteredOn(fault -> fault.code() == FaultCode.TURNED_EARLY)
                .singleElement()
                .satisfies(fault -> assertThat(fault.text())
                        .contains("tracked the AAA 112 radial")
                        .contains("the station's own north"));
    }

    /** One mistake, one fault, with the lesson in it; also where the turn at the fix was missed because of it. */
    @ParameterizedTest
    @CsvSource({"90", "600"})
    void aWrongStationIsOneFault(double seconds) {
        Flown flown = fly(onto(OF_BBB, 45, -1, 120, seconds), 2);
        assertThat(flown.grade().faults()).singleElement().satisfies(fault -> {
            assertThat(fault.code()).isEqualTo(FaultCode.NOT_ACHIEVED);
            assertThat(fault.text())
                    .contains("tracked the BBB 102 radial; the clearance was the AAA 102 radial")
                    .contains("tune and identify AAA");
        });
        assertThat(flown.grade().criteria())
                .filteredOn(criterion -> criterion.code().equals("INTERCEPT"))
                .noneMatch(Criterion::met);
    }

    @ParameterizedTest
    @CsvSource({"112, 45, 1", "92, 45, -1"})
    void aWrongRadialIsOneFault(double radial, double angle, int side) {
        Flown flown = fly(onto(ofAaa(radial), angle, side, 120, 90), 2);
        assertThat(flown.grade().faults())
                .filteredOn(fault -> fault.code() != FaultCode.HEADING_NOT_HELD)
                .singleElement()
                .satisfies(fault -> assertThat(fault.text())
                        .contains("the clearance was the AAA 102 radial")
                        .contains("the station's own north"));
    }

    /** Joined nine miles out, where the two are not far apart yet, and flown to V40. */
    private static Flown toTheAirwayAlong(double radial, int side) {
        GeodesicLine line = ofAaa(radial);
        double track = line.courseAt(9).deg() - side * 54;
        Position start = line.pointAt(9).destination(new TrueDirection(track + 180), 4);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(line.pointAt(9)).initial().deg(), 120, Ocean.CALM);
        flight.miles(4 - flight.radiusNm() * Math.tan(Math.toRadians(27)));
        flight.turnTo(line.offset(flight.end().position()).course().deg());
        flight.miles(line.crossing(Ocean.V40).orElseThrow().alongFirstNm()
                - flight.radiusNm()
                - line.offset(flight.end().position()).alongTrackNm());
        flight.turnTo(Ocean.V40.offset(flight.end().position()).course().deg());
        return fly(flight.seconds(300), 1);
    }

    /**
     * Near the station a wrong radial is within the scale of the right one, and is left behind only later. That is one
     * mistake with one name, and the more the two differ the less it earns: a quarter of a degree is 0.18 NM at the airway.
     */
    @ParameterizedTest
    @ValueSource(ints = {1, -1})
    void aQuarterOfADegreeMoreOfAWrongRadialCostsALittleMoreAndHasTheSameName(int side) {
        double before = 100;
        for (double off = 3; off <= 10; off += 0.25) {
            double radial = 102 + side * off;
            Flown flown = toTheAirwayAlong(radial, side);
            double score = flown.grade().score().orElseThrow();
            assertThat(before - score)
                    .as("%.1f degrees: %s", off, flown.grade())
                    .isBetween(-0.4, before == 100 ? 30.0 : 12.0);
            if (off >= 4.5) {
                String tracked = String.format(
                        Locale.ROOT,
                        "tracked the AAA %03.0f radial; the clearance was the AAA 102 radial",
                        flown.all(FlightEvent.OtherCourseTracked.class).get(0).radialDeg());
                assertThat(flown.all(FlightEvent.OtherCourseTracked.class))
                        .as("%.1f degrees", off)
                        .singleElement()
                        .satisfies(event -> assertThat(event.radialDeg()).isCloseTo(radial, Offset.offset(0.5)));
                assertThat(flown.grade().faults())
                        .as("%.1f degrees", off)
                        .singleElement()
                        .satisfies(fault -> assertThat(fault.text()).contains(tracked));
            }
            before = score;
        }
        assertThat(before).isLessThan(35);
    }

    /** In to AAA along another radial, met 18 NM out from the left (-1) or the right (1), and on as filed. */
    private static Flown inAlong(double radial, int side) {
        GeodesicLine line = ofAaa(radial);
        Position meets = line.pointAt(18);
        Position aaa = new Position(30, -45);
        double track = meets.to(aaa).initial().deg() - side * 45;
        Position start = meets.destination(new TrueDirection(track + 180), 12);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(meets).initial().deg(), 120, Ocean.CALM);
        flight.miles(12 - flight.radiusNm() * Math.tan(Math.toRadians(22.5)));
        flight.turnTo(flight.end().position().to(aaa).initial().deg());
        flight.miles(flight.end().position().distanceNm(aaa) - 0.5);
        flight.turnTo(aaa.to(new Position(28.9, -44.2)).initial().deg()).seconds(200);
        List<AircraftState> states = flight.sample(1);
        String say = String.format(
                Locale.ROOT,
                "fly heading %03d, intercept the AAA 102 radial inbound, then as filed",
                Ocean.magneticHeading(states.get(0)));
        return Flown.fly(states, List.of(Ocean.say(2, say)), "XNOR DCT AAA DCT XSOU", chart());
    }

    /** Met near the station where the two are close, and left for the other one: the card says what that cost. */
    @Test
    void anInterceptThatEarnsLessSaysWhy() {
        int told = 0;
        for (double radial = 104; radial <= 118; radial += 0.5) {
            Criterion met = toTheAirwayAlong(radial, 1).criterion("INTERCEPT");
            double own = met.maxPoints() * Math.max(0, 1 - met.measured() / met.limit() / 2);
            boolean less = met.points() < own - 0.1 && !met.title().contains("not met because");
            assertThat(less && !met.title().contains("; then left for another course"))
                    .isFalse();
            told += less ? 1 : 0;
        }
        assertThat(told).isPositive();
    }

    /** All radials come together at the station: who came in on another one has not come back to the cleared one there. */
    @ParameterizedTest
    @CsvSource({"1, 1", "1, -1", "-1, 1", "-1, -1"})
    void theFartherOffTheRadialToTheStationTheLess(int off, int from) {
        double before = 100;
        for (double degrees = 5; degrees <= 14; degrees += 0.5) {
            Flown flown = inAlong(102 + off * degrees, from);
            String as = String.format(Locale.ROOT, "%.1f degrees: %s %s", degrees, flown.grade(), flown.events());
            assertThat(flown.all(FlightEvent.OtherCourseTracked.class)).as(as).hasSize(1);
            assertThat(flown.grade().faults())
                    .as(as)
                    .singleElement()
                    .satisfies(fault -> assertThat(fault.text()).contains("the clearance was the AAA 102 radial"));
            assertThat(flown.criterion("INTERCEPT").met()).as(as).isFalse();
            // Three quarters of the scale, 1.5 NM, are 5 degrees 17 NM out.
            assertThat(flown.criterion("COURSE").met() && degrees >= 7).as(as).isFalse();
            assertThat(before - flown.score()).as(as).isBetween(-0.5, before == 100 ? 75.0 : 12.0);
            before = flown.score();
        }
        assertThat(before).isLessThan(50);
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 5, 20, 50})
    void theRateChangesNothing(double hz) {
        for (ClosedFormFlight flight : List.of(onto(ofAaa(112), 45, 1, 120, 90), onto(OF_BBB, 45, -1, 120, 90))) {
            double reference = tracked(flight, 10).get(0).timeS();
            assertThat(tracked(flight, hz))
                    .hasSize(1)
                    .allSatisfy(event -> assertThat(event.timeS()).isCloseTo(reference, Offset.offset(0.3)));
        }
    }

    /** The heading to the course may by chance lead straight away from a station, and as far as one likes. */
    @ParameterizedTest
    @CsvSource({"102, 30", "120, 5", "80, 10"})
    void theHeadingToTheCourseIsNoCourse(double azimuthTrue, double distanceNm) {
        GeodesicLine away = GeodesicLine.from(new Position(30, -45), new TrueDirection(azimuthTrue), 120);
        Position start = away.pointAt(distanceNm);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, away.courseAt(distanceNm).deg(), 120, Ocean.CALM).seconds(300);
        List<AircraftState> states = flight.sample(1);
        Flown flown = Flown.fly(
                states,
                List.of(Ocean.at(2, "fly heading 060, intercept the AAA 102 radial, join V40, then as filed", 6000)),
                Ocean.FILED,
                chart());
        // Nothing was taken up: what was flown before is no other course either.
        assertThat(flown.all(FlightEvent.OtherCourseTracked.class)).isEmpty();
        assertThat(tracked(flight, 1)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"2, 200", "5, 200", "1.3, 300"})
    void parallelToTheClearedCourseIsNotOnAnother(double shortNm, double seconds) {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        double a = Math.toRadians(45);
        double toTurn = 6 - leg.flight.radiusNm() * Math.tan(a / 2) - shortNm / Math.sin(a);
        leg.flight.miles(Math.max(0, toTurn));
        leg.turnOn().flight.seconds(seconds);
        assertThat(tracked(leg.flight, 2)).isEmpty();
    }

    /**
     * Led onto the radial, turned on through it, and out to so far beside, from where a shallower and shallower turn brings him
     * parallel. For a minute he has on the whole gone along each radial that he crosses, and at its end along none.
     */
    @ParameterizedTest
    @CsvSource({"1.4, 17", "1.7, 17", "2, 17", "2.5, 25", "3, 25", "1.7, 25", "1.7, 12"})
    void whoTurnsFromTheCourseToBesideItTracksNoOther(double besideNm, double fromStationNm) {
        ClosedFormFlight flight = onto(ofAaa(102), 45, -1, 140, 0, fromStationNm);
        flight.turn(45).miles((besideNm - 0.7) / Math.sin(Math.toRadians(45)));
        while (Ocean.RADIAL.offset(flight.end().position()).crossTrackNm() < besideNm - 0.01) {
            double leftNm =
                    besideNm - Ocean.RADIAL.offset(flight.end().position()).crossTrackNm();
            double course =
                    Ocean.RADIAL.offset(flight.end().position()).course().deg();
            flight.turnTo(course + 45 * Math.min(1, leftNm / 0.7)).seconds(2);
        }
        flight.turnTo(Ocean.RADIAL.offset(flight.end().position()).course().deg());
        flight.miles(Ocean.FIX_NM
                - flight.radiusNm()
                - Ocean.RADIAL.offset(flight.end().position()).alongTrackNm());
        flight.turnTo(Ocean.V40.offset(flight.end().position()).course().deg()).seconds(120);
        Flown flown = fly(flight, 2);
        assertThat(flown.all(FlightEvent.OtherCourseTracked.class)).isEmpty();
        assertThat(flown.grade().faults())
                .as("%s", flown.grade())
                .hasSizeLessThan(2)
                .noneMatch(fault -> fault.text().contains("tracked"))
                .noneMatch(fault -> fault.text().contains("cut the corner"));
        assertThat(flown.grade().notes()).noneMatch(note -> note.contains("tracked"));
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void noHabitIsTakenForIt(boolean noisy) {
        for (Habit habit : Habit.values()) {
            ClosedFormFlight flight = FeedFairnessTest.flight(habit);
            List<AircraftState> states = flight.sample(
                    flight.times(2), noisy ? ClosedFormFlight.Noise.usual(5) : ClosedFormFlight.Noise.NONE);
            Flown flown = Flown.fly(
                    states, List.of(Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000)), Ocean.FILED, chart());
            assertThat(flown.all(FlightEvent.OtherCourseTracked.class))
                    .as("%s", habit)
                    .isEmpty();
        }
    }

    /**
     * V50 runs due south at 44.4 west and V40 ten miles east of it. Cleared onto V50 by a heading from the east, from where V40
     * comes first, or from the west, where it lies beyond.
     */
    @ParameterizedTest
    @ValueSource(ints = {1, -1})
    void anotherAirwayThanTheOneThatWasClearedIsNamed(int fromEast) {
        Flown flown = ontoV40(fromEast, 300);
        assertThat(flown.all(FlightEvent.OtherAirwayJoined.class))
                .singleElement()
                .satisfies(event -> assertThat(event.ident()).isEqualTo("V40"));
        assertThat(flown.grade().faults())
                .as("%s", flown.grade())
                .singleElement()
                .satisfies(fault -> {
                    assertThat(fault.code()).isEqualTo(FaultCode.NOT_ACHIEVED);
                    assertThat(fault.text())
                            .contains("joined V40; the clearance was V50")
                            .contains("compare the course");
                });
        assertThat(flown.score()).isLessThan(35);
    }

    /** Along it for less than a minute it may be a turn that is not over. */
    @Test
    void aMinuteAlongAnotherAirwayItTakes() {
        assertThat(ontoV40(1, 40).all(FlightEvent.OtherAirwayJoined.class)).isEmpty();
    }

    private static Flown ontoV40(int fromEast, double seconds) {
        Position meets = Ocean.V40.pointAt(65);
        double nm = fromEast > 0 ? 6 : 18;
        Position start = meets.destination(new TrueDirection(180 - fromEast * 60), nm);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(meets).initial().deg(), 120, Ocean.CALM);
        flight.miles(nm - flight.radiusNm() * Math.tan(Math.toRadians(60)));
        flight.turnTo(Ocean.V40.offset(flight.end().position()).course().deg()).seconds(seconds);
        List<AircraftState> states = flight.sample(1);
        String say = String.format(
                Locale.ROOT, "fly heading %03d, intercept V50, then as filed", Ocean.magneticHeading(states.get(0)));
        return Flown.fly(states, List.of(Ocean.at(2, say, 6000)), "XNOR DCT BENDA V50 BENDC DCT XSOU");
    }
}
