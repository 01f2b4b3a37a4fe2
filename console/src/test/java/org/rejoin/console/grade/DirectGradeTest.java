package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FaultCode;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.protocol.AircraftState;

import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Direct to a fix: the course is the geodesic to it from where the turn to it is, or should be, over. */
class DirectGradeTest {

    private static final String DIRECT = "direct NORTH, then as filed";

    private static final Position NORTH = Ocean.CHART.waypoints("NORTH").get(0).position();

    private static Flown fly(ClosedFormFlight flight, String say) {
        return Flown.fly(flight.sample(2), List.of(Ocean.say(2, say)));
    }

    private static double bearing(ClosedFormFlight flight) {
        return flight.end().position().to(NORTH).initial().deg();
    }

    /** So far from the fix, which bears so much to the right of the track. */
    private static ClosedFormFlight from(double nm, double rightDeg) {
        Position start = NORTH.destination(new TrueDirection(250), nm);
        return new ClosedFormFlight(
                start, Angles.circle(start.to(NORTH).initial().deg() - rightDeg), 120, Ocean.CALM);
    }

    private static Criterion intercept(Flown flown) {
        return flown.criterion("INTERCEPT");
    }

    /** As if nothing had been said, whatever the way and the last digit of the place: there is no line to fly through. */
    @ParameterizedTest
    @ValueSource(doubles = {40, 75, 110, -60, -95, -130})
    void whoIgnoresADirectHasNotFlownItAndHasFlownThroughNothing(double rightDeg) {
        for (double nm = 25; nm < 27; nm += 0.37) {
            Flown flown = fly(from(nm, rightDeg).seconds(420), DIRECT);
            assertThat(flown.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
            assertThat(flown.all(FlightEvent.InterceptAchieved.class)).isEmpty();
            assertThat(flown.all(FlightEvent.CourseCrossed.class)).isEmpty();
            assertThat(flown.grade().faults().get(0).text()).contains("direct to NORTH");
            assertThat(flown.grade().verdict()).isEqualTo(Verdict.NOT_MET);
        }
    }

    /**
     * The nose on the fix all the way, with a wind from the side: the track points downwind of it by the drift, and the way is a
     * curve that ends at the fix. He went there; what he did not do is to track.
     */
    @ParameterizedTest
    @ValueSource(ints = {-1, 1})
    void whoHomesHasGoneDirectAndNotTracked(int side) {
        double before = 100;
        for (double knots = 0; knots <= 40; knots += 2) {
            Position start = NORTH.destination(new TrueDirection(250), 19);
            Wind wind = new Wind(
                    new TrueDirection(Angles.circle(start.to(NORTH).initial().deg() + side * 90)), knots);
            ClosedFormFlight flight = new ClosedFormFlight(start, homing(start, side, knots), 120, wind);
            while (flight.end().position().distanceNm(NORTH) > 0.5) {
                flight.turnTo(homing(flight.end().position(), side, knots)).seconds(4);
            }
            flight.turnTo(180).seconds(60);
            Flown flown = fly(flight, DIRECT);
            String as = String.format(Locale.ROOT, "%.0f kt: %s %s", knots, flown.grade(), flown.events());
            assertThat(flown.all(FlightEvent.InterceptAchieved.class)).as(as).hasSize(1);
            assertThat(flown.faults()).as(as).doesNotContain(FaultCode.NOT_ACHIEVED);
            assertThat(flown.criterion("INTERCEPT").met()).as(as).isTrue();
            // The turn at the fix comes out a little differently.
            assertThat(before - flown.score()).as(as).isBetween(-1.0, 12.0);
            if (knots >= 16) {
                assertThat(flown.grade().notes()).as(as).anyMatch(note -> note.startsWith("homing: "));
            }
            flown.grade()
                    .faults()
                    .forEach(fault ->
                            assertThat(fault.text()).as(as).contains("homing").contains("track to the fix"));
            before = flown.score();
        }
        assertThat(before).isLessThan(85);
    }

    /** Wandered off the way by a mile and turned back to it: in the turn the nose passes the fix, and nobody homes. */
    @Test
    void whoTurnsThroughTheFixDoesNotHome() {
        Position start = NORTH.destination(new TrueDirection(250), 19);
        double course = start.to(NORTH).initial().deg();
        ClosedFormFlight flight =
                new ClosedFormFlight(start, course, 120, new Wind(new TrueDirection(course + 20), 25));
        flight.seconds(60).turn(30).seconds(60).turn(-60).seconds(60).turn(30).seconds(200);
        Flown flown = fly(flight, DIRECT);
        assertThat(flown.criterion("COURSE").measured()).isGreaterThan(0.5);
        assertThat(flown.grade().notes()).noneMatch(note -> note.startsWith("homing"));
    }

    /** A course eight degrees off, held with a few knots from the side: that is a wrong course, and not the wind. */
    @Test
    void aWrongCourseIsNotTheWind() {
        Wind wind = new Wind(new TrueDirection(340), 3.4);
        Position start = NORTH.destination(new TrueDirection(250), 19);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(NORTH).initial().deg() + 8, 120, wind);
        Flown flown = fly(flight.seconds(560), DIRECT);
        assertThat(flown.criterion("COURSE").met()).isFalse();
        assertThat(flown.grade().notes())
                .noneMatch(note -> note.contains("the wind carried") || note.startsWith("homing"));
    }

    /** The track of who keeps the nose on the fix, 120 kt over the ground and the wind from the side of where it began. */
    private static double homing(Position here, int side, double knots) {
        double bearing = here.to(NORTH).initial().deg();
        double first = NORTH.destination(new TrueDirection(250), 19)
                .to(NORTH)
                .initial()
                .deg();
        double towardDeg = first + side * 90 + 180;
        double across = knots / 120 * Math.sin(Math.toRadians(towardDeg - bearing));
        return Angles.circle(bearing + Math.toDegrees(Math.asin(across)));
    }

    /**
     * A course so many degrees off the way direct: half a degree more, a tenth of a mile, is no other verdict. At 10 degrees, where
     * nobody is established on it any more (common practice, no source), what is off the course begins to be a direct not gone to.
     * Its course is measured to where its corner is passed, which there is a little sooner.
     */
    @ParameterizedTest
    @ValueSource(doubles = {12, 18, 25})
    void aCourseHalfADegreeWorseCostsLittle(double nm) {
        double before = 100;
        for (double off = 0; off <= 24; off += 0.5) {
            ClosedFormFlight flight = from(nm, 35).seconds(10);
            flight.turnTo(bearing(flight) + off);
            Position turned = flight.end().position();
            double missedByNm = turned.distanceNm(NORTH)
                    * Math.sin(Math.toRadians(Math.abs(Angles.turn(
                            flight.end().trackDeg() - turned.to(NORTH).initial().deg()))));
            // A right angle and more to the airway: led.
            flight.miles(flight.end().position().distanceNm(NORTH) * Math.cos(Math.toRadians(off)) - 0.9);
            flight.turnTo(180).seconds(120);
            Flown flown = fly(flight, DIRECT);
            double score = flown.score();
            assertThat(before - score)
                    .as("%.1f degrees: %s", off, flown.grade())
                    .isBetween(-3.0, 6.5);
            before = score;
            // Off the course by more than three quarters of the scale (FAA-S-ACS-8C, IR.V.A.S6), it is not held.
            if (flown.criterion("COURSE").measured() > 1.5) {
                assertThat(flown.faults()).as("%.1f degrees", off).isNotEmpty();
            }
            // Abeam the fix by more than full scale, 2 NM en route (AC 20-138), nobody came to it, and that has a name.
            if (missedByNm > 2.05) {
                assertThat(flown.faults())
                        .as("%.1f degrees: %.2f NM", off, missedByNm)
                        .hasSize(1);
            } else if (missedByNm < 1.3) {
                assertThat(flown.faults())
                        .as("%.1f degrees: %.2f NM", off, missedByNm)
                        .isEmpty();
            }
        }
        assertThat(before).isLessThan(40);
    }

    /**
     * On past where the turn to the fix should be over (20 s and 60 degrees at 3 a second after the clearance: 42 s), then
     * parallel to the course from there: the distance is that from the geodesic. More of it never scores better, and no
     * tenth of a mile costs more than 12 points.
     */
    @Test
    void whoGoesBesideTheCourseHasNotTakenItUp() {
        double before = 90; // a third of a mile off already, for the turn
        for (double beside = 0.0; beside < 2; beside += 0.1) {
            ClosedFormFlight flight = from(40, 60).seconds(42);
            GeodesicLine course = GeodesicLine.between(flight.end().position(), NORTH);
            flight.miles(beside / Math.sin(Math.toRadians(60)));
            flight.turnTo(course.offset(flight.end().position()).course().deg());
            double offNm = Math.abs(course.offset(flight.end().position()).crossTrackNm());
            flight.miles(12);
            Flown flown = fly(flight, DIRECT);
            assertThat(intercept(flown).measured()).as("%.1f", beside).isCloseTo(offNm, Offset.offset(0.12));
            assertThat(flown.all(FlightEvent.InterceptAchieved.class)).hasSize(offNm < 0.5 ? 1 : 0);
            assertThat(flown.faults()).isEqualTo(offNm < 0.5 ? List.of() : List.of(FaultCode.NOT_ACHIEVED));
            double score = flown.score();
            assertThat(score).as("%.1f", beside).isBetween(before - 12, before + 0.1);
            before = score;
        }
        assertThat(before).isLessThan(15);
    }

    /**
     * A minute late, then straight to the fix: the distance beside the course is what it costs, and the direct is flown. The
     * course was due 20 s and 60 degrees at 3 a second after the clearance at 2 s: at 42 s.
     */
    @Test
    void aDirectBegunAMinuteLateIsTakenUpLate() {
        ClosedFormFlight flight = from(40, 60).seconds(62);
        for (int i = 0; i < 4; i++) {
            flight.turnTo(bearing(flight));
        }
        flight.miles(flight.end().position().distanceNm(NORTH) - 0.35);
        flight.turnTo(Ocean.V40.courseAt(1).deg()).seconds(120);
        Flown flown = fly(flight, DIRECT);
        assertThat(flown.faults()).isEmpty();
        // 20 s at 120 kt and 60 degrees, and the turn of radius 2/pi/3 NM: 0.58 and 0.32 NM.
        assertThat(intercept(flown).measured()).isCloseTo(0.9, Offset.offset(0.1));
        assertThat(flown.all(FlightEvent.InterceptAchieved.class))
                .singleElement()
                .satisfies(event -> assertThat(event.timeS()).isLessThan(130));
        assertThat(flown.all(FlightEvent.DirectNotTakenUp.class)).isEmpty();
        assertThat(flown.score()).isBetween(60.0, 85.0);
    }

    /** As above, but as if nothing had been said, for four minutes: told 90 s after the course was due, and not done. */
    @Test
    void aDirectThatIsIgnoredIsNamedAtTheTime() {
        ClosedFormFlight flight = from(40, 60).seconds(240);
        for (int i = 0; i < 4; i++) {
            flight.turnTo(bearing(flight));
        }
        flight.miles(flight.end().position().distanceNm(NORTH) - 0.35);
        flight.turnTo(Ocean.V40.courseAt(1).deg()).seconds(120);
        Flown flown = fly(flight, DIRECT);
        assertThat(flown.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(flown.all(FlightEvent.DirectNotTakenUp.class))
                .singleElement()
                .satisfies(event -> assertThat(event.timeS()).isCloseTo(42 + 90, Offset.offset(1.0)));
        assertThat(flown.all(FlightEvent.AmendmentComplete.class)).hasSize(1);
        Criterion done = flown.grade().criteria().stream()
                .filter(each -> each.code().equals("COMPLETED"))
                .findFirst()
                .orElseThrow();
        assertThat(done.verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(done.points()).isZero();
        assertThat(flown.score()).isLessThan(30);
    }

    /** The old route runs beside the course to the fix, 1.3 NM off it, and on to the same fix. */
    @Test
    void anOldRouteThatRunsBesideTheDirectIsNotTheDirect() {
        ClosedFormFlight flight = from(40, 30).seconds(32);
        GeodesicLine course = GeodesicLine.between(flight.end().position(), NORTH);
        flight.miles(1.3 / Math.sin(Math.toRadians(30))).turn(30).miles(8);
        assertThat(Math.abs(course.offset(flight.end().position()).crossTrackNm()))
                .isBetween(1.2, 1.6);
        Flown flown = fly(flight, DIRECT);
        assertThat(flown.all(FlightEvent.InterceptAchieved.class)).isEmpty();
        assertThat(flown.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(intercept(flown).verdict()).isEqualTo(Verdict.NOT_MET);
        assertThat(intercept(flown).points()).isLessThan(1);
    }

    /** "When able" is when the pilot is: the heading is flown as long as he likes, and left for the fix. */
    @ParameterizedTest
    @CsvSource({"5, 90", "20, 90", "60, 90", "120, 90", "300, 90", "20, 0", "60, 0", "120, 2", "300, -3"})
    void aHeadingIsFlownUntilTheDirectIsBegun(int heldS, double rightDeg) {
        ClosedFormFlight flight = from(30, rightDeg).seconds(5).turn(-30).seconds(heldS);
        int heading = (Ocean.magneticHeading(flight.sample(1).get(0)) + 330) % 360;
        for (int i = 0; i < 6; i++) {
            flight.turnTo(bearing(flight));
        }
        flight.miles(flight.end().position().distanceNm(NORTH) - 0.35);
        flight.turnTo(Ocean.V40.courseAt(1).deg()).seconds(120);
        Flown flown = fly(flight, heading(heading));
        assertThat(flown.faults()).isEmpty();
        assertThat(flown.grade().verdict()).isEqualTo(Verdict.MET);
        assertThat(flown.all(FlightEvent.HeadingEstablished.class)).hasSize(1);
        assertThat(flown.all(FlightEvent.HeadingDeviationBegan.class)).isEmpty();
        assertThat(intercept(flown).measured()).isCloseTo(0, Offset.offset(0.02));
    }

    /** The fix is ahead when it is said, and so it stays: the heading was assigned and never flown. */
    @Test
    void whoGoesDirectAndNeverFliesTheHeadingHasNotHeldIt() {
        ClosedFormFlight flight = from(30, 0).miles(20);
        int heading = (Ocean.magneticHeading(flight.sample(1).get(0)) + 330) % 360;
        Flown flown = fly(flight, heading(heading));
        assertThat(flown.grade().criteria())
                .filteredOn(criterion -> criterion.code().equals("HEADING"))
                .singleElement()
                .satisfies(criterion -> assertThat(criterion.verdict()).isEqualTo(Verdict.NOT_MET));
    }

    /** Neither the heading nor the direct: he is never back on what he never was on. */
    @Test
    void whoIgnoresAHeadingIsNeverBackOnIt() {
        ClosedFormFlight flight = from(30, 90).seconds(420);
        int heading = (Ocean.magneticHeading(flight.sample(1).get(0)) + 250) % 360;
        Flown flown = fly(flight, heading(heading));
        assertThat(flown.faults()).containsExactly(FaultCode.NOT_ACHIEVED);
        assertThat(flown.all(FlightEvent.HeadingDeviationEnded.class))
                .singleElement()
                .satisfies(ended -> assertThat(ended.back()).isFalse());
        assertThat(flown.all(FlightEvent.HeadingEstablished.class)).isEmpty();
    }

    private static String heading(int magnetic) {
        return String.format(Locale.ROOT, "fly heading %03d, proceed direct NORTH when able, then as filed", magnetic);
    }

    /** What the log says of a line flown through, the fault does not say less of. */
    @ParameterizedTest
    @ValueSource(ints = {25, 40, 60, 90})
    void theFaultSaysWhatTheLogSaysOfALineFlownThrough(int beyondS) {
        Ocean.Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM).toCourse(beyondS);
        Flown flown = Flown.fly(leg.flight.sample(2));
        assertThat(flown.all(FlightEvent.FlownThrough.class)).hasSize(1);
        double logged =
                Math.abs(flown.all(FlightEvent.FlownThrough.class).get(0).crossTrackNm());
        String said = flown.grade().faults().stream()
                .filter(fault -> fault.code() == FaultCode.FLOWN_THROUGH)
                .findFirst()
                .orElseThrow()
                .text()
                .replaceFirst(".*; ([0-9.]+) NM past it.*", "$1");
        assertThat(Double.parseDouble(said))
                .isGreaterThanOrEqualTo(logged - 0.005)
                .isCloseTo(Math.abs(leg.crossNm()), Offset.offset(0.02));
    }

    /**
     * Cleared from the south on a heading, and direct NORTH when able: he goes direct from the north, and the airway leads on by a
     * turn of 30 degrees, where it would have been one of 170. Turned off the direct and back before that turn is due, he has
     * wandered, as he has who was cleared direct when he was on it.
     */
    @ParameterizedTest
    @CsvSource({"120, 60, 2", "120, 60, 3", "250, 60, 3", "250, 60, 4", "250, 35, 4", "250, 35, 5", "250, 35, 7"})
    void theTurnAtTheEndOfADirectIsThatFromTheCourseThatIsFlown(double kt, double offDeg, double beforeNm) {
        Position start = NORTH.destination(new TrueDirection(190), 14);
        ClosedFormFlight flight = new ClosedFormFlight(start, 340, kt, Ocean.CALM).miles(36);
        for (double turn = 90; turn < 270; turn += 0.01) {
            ClosedFormFlight there = new ClosedFormFlight(flight.end().position(), 340, kt, Ocean.CALM).turn(turn);
            if (Angles.turn(bearing(there) - there.end().trackDeg()) <= 0) {
                flight.turn(turn);
                break;
            }
        }
        double pointsS = Math.ceil(flight.endS()) + 5;
        flight.miles(flight.end().position().distanceNm(NORTH) - beforeNm);
        flight.turn(-offDeg).seconds(20).turn(offDeg).seconds(20).turnTo(180).seconds(240);
        List<AircraftState> states = flight.sample(1);
        String heading = String.format(
                Locale.ROOT,
                "fly heading %03d, direct NORTH when able, V40, then as filed",
                Ocean.magneticHeading(states.get(0)));
        Flown vectored = Flown.fly(states, List.of(Ocean.at(2, heading, 6000)));
        Flown direct = Flown.fly(states, List.of(Ocean.at(pointsS, "direct NORTH, V40, then as filed", 6000)));
        String as = vectored.grade() + " " + direct.grade();
        assertThat(vectored.faults()).as(as).isEqualTo(direct.faults());
        for (int i = 0; i < vectored.faults().size(); i++) {
            assertThat(vectored.grade().faults().get(i).severity())
                    .as(as)
                    .isCloseTo(direct.grade().faults().get(i).severity(), Offset.offset(0.02));
        }
        assertThat(vectored.criterion("COURSE").measured())
                .isCloseTo(direct.criterion("COURSE").measured(), Offset.offset(0.02));
    }
}
