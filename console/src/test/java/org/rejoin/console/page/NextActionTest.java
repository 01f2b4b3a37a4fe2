package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.flight.Assigned;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.ocean.Points;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.protocol.AircraftState;

import net.sf.geographiclib.Geodesic;
import net.sf.geographiclib.GeodesicData;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What the page tells a pilot to do next, on "fly heading 110, intercept the PTL 066 radial, join V40". Places are laid out
 * with GeographicLib from the station and the radial; leads are R tan(angle/2) with R = GS/(60 pi) NM (standard rate).
 */
class NextActionTest {

    private static final double GS = 140;
    private static final double RADIUS_NM = GS / (60 * Math.PI);
    private static final double METRES_PER_NM = 1852;

    /** PTL of the built-in chart: the radial's true azimuth is 066 plus the declination of the station. */
    private static final double PTL_LAT = 38.0;

    private static final double PTL_LON = -50.0;
    private static final double RADIAL_TRUE = 66 - 17;

    private static AmendedRoute route;
    private static Chart chart;

    @BeforeAll
    static void clear() throws Exception {
        Lesson lesson = LessonReader.read("radial-outbound");
        Limits limits = ToleranceSet.read(lesson.standard()).limits();
        List<AircraftState> states = new ArrayList<>();
        LocalDate date = LocalDate.of(2026, 6, 1);
        new PracticeFlight(lesson, date, Habit.GOOD).fly(1, states::add);
        FlightSession seat = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(), lesson.filed(), lesson.amendments(), date, lesson.wind(), limits, 5),
                FlightRecord.whole());
        states.subList(0, 60).forEach(seat::accept);
        chart = lesson.chart();
        route = seat.record().inForce().route().orElseThrow();
    }

    /** On the radial so far out, and so far to the right of it. */
    private static Position at(double outNm, double rightNm) {
        GeodesicData out = Geodesic.WGS84.Direct(PTL_LAT, PTL_LON, RADIAL_TRUE, outNm * METRES_PER_NM);
        GeodesicData off = Geodesic.WGS84.Direct(out.lat2, out.lon2, out.azi2 + 90, rightNm * METRES_PER_NM);
        return new Position(off.lat2, off.lon2);
    }

    private static double courseAt(double outNm) {
        return Geodesic.WGS84.Direct(PTL_LAT, PTL_LON, RADIAL_TRUE, outNm * METRES_PER_NM).azi2;
    }

    private static Point closing(Position position, double trackDeg, double headingErrorDeg) {
        return closing(position, trackDeg, headingErrorDeg, Double.NaN, 0);
    }

    private static Point closing(
            Position position, double trackDeg, double headingErrorDeg, double headingDeg, double turnDegPerS) {
        FlightInstant here = Points.instant(
                AircraftState.at(60, position.latitudeDeg(), position.longitudeDeg()),
                (trackDeg + 360) % 360,
                GS,
                turnDegPerS,
                headingDeg);
        return Points.onLeg(
                here, Point.Phase.CLOSING, route.courseLeg(), Double.NaN, Double.NaN, Double.NaN, headingErrorDeg);
    }

    private static Point along(int leg, double crossNm, double toGoNm) {
        Position position = at(10, crossNm);
        FlightInstant here = Points.instant(
                AircraftState.at(200, position.latitudeDeg(), position.longitudeDeg()),
                courseAt(10),
                GS,
                0,
                Double.NaN);
        return Points.onLeg(here, Point.Phase.ON_COURSE, leg, crossNm, toGoNm, courseAt(10), Double.NaN);
    }

    private static NextAction next(Point point) {
        return NextAction.of(Optional.of(route), chart, point, false, Assigned.NOTHING);
    }

    @Test
    void beforeAnyClearanceTheRouteAsFiled() {
        NextAction next =
                NextAction.of(Optional.empty(), chart, closing(at(5, -5), 100, Double.NaN), false, Assigned.NOTHING);
        assertThat(next).isEqualTo(new NextAction("fly as filed; listen for the clearance", 0));
    }

    @Test
    void anAssignedHeadingFirst() {
        assertThat(next(closing(at(5, -5), 100, 12))).isEqualTo(new NextAction("turn left to heading 110", 0));
        assertThat(next(closing(at(5, -5), 100, -12))).isEqualTo(new NextAction("turn right to heading 110", 0));
        // Just after the clearance nobody judges; the compass tells.
        assertThat(NextAction.of(
                                Optional.of(route),
                                chart,
                                closing(at(5, -5), 100, Double.NaN, 150, 0),
                                true,
                                Assigned.NOTHING)
                        .text())
                .isEqualTo("turn left to heading 110");
        assertThat(NextAction.of(
                                Optional.of(route),
                                chart,
                                closing(at(5, -5), 100, Double.NaN, 350, 0),
                                true,
                                Assigned.NOTHING)
                        .text())
                .isEqualTo("turn right to heading 110");
    }

    @Test
    void thenTheTurnOntoTheCourseWithItsLead() {
        double angle = 40;
        NextAction next = next(closing(at(10, -5), courseAt(10) + angle, 2));
        double expected = 5 / Math.sin(Math.toRadians(angle)) - RADIUS_NM * Math.tan(Math.toRadians(angle / 2));
        assertThat(next.inNm()).isCloseTo(expected, within(0.05));
        assertThat(next.text()).isEqualTo("turn left to course 066 FROM PTL in 7.5 NM");
        // From the other side the other way.
        NextAction other = next(closing(at(10, 5), courseAt(10) - angle, 2));
        assertThat(other.text()).isEqualTo("turn right to course 066 FROM PTL in 7.5 NM");
    }

    @Test
    void withinTheLeadNow() {
        double lead = RADIUS_NM * Math.tan(Math.toRadians(20));
        double cross = lead * Math.sin(Math.toRadians(40)) * 0.9;
        assertThat(next(closing(at(10, -cross), courseAt(10) + 40, 0)))
                .isEqualTo(new NextAction("turn left to course 066 FROM PTL now", 0));
    }

    /** Low and fast, on the heading. */
    private static Point low() {
        Point here = closing(at(10, -5), courseAt(10) + 40, 0);
        AircraftState low = new AircraftState(
                60,
                here.state().latitudeDeg(),
                here.state().longitudeDeg(),
                OptionalDouble.of(4_710),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(GS),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.of(150),
                false);
        return Points.onLeg(
                Points.instant(low, here.trackTrueDeg(), GS, 0, Double.NaN),
                here.phase(),
                here.legIndex(),
                Double.NaN,
                Double.NaN,
                Double.NaN,
                0);
    }

    @Test
    void anAssignedAltitudeThatIsNotReachedIsSaid() {
        Assigned assigned = new Assigned(
                OptionalDouble.of(5_000),
                Optional.of(new Instruction.MaintainSpeed(120, Instruction.MaintainSpeed.Limit.EXACTLY)));
        assertThat(NextAction.of(Optional.of(route), chart, low(), false, assigned)
                        .text())
                .endsWith("; climb to 5000 ft; slow down to 120 kt");
    }

    @Test
    void anAltitudeThatTheWordsAssignIsSaidOnce() throws Exception {
        Lesson lesson = LessonReader.read("radial-outbound");
        Clearance climb = ClearanceReader.read("climb and maintain 9000", lesson.chart(), lesson.filed());
        AmendedRoute kept =
                route.keptUnder(RouteAmender.amend(lesson.chart(), lesson.filed(), climb, route.situation()));
        Assigned assigned = new Assigned(climb.altitudeFt(), Optional.empty());
        assertThat(NextAction.of(Optional.of(kept), chart, low(), false, assigned)
                        .text())
                .containsOnlyOnce("climb")
                .endsWith("; climb to 9000 ft");
    }

    @Test
    void aTurnThatWasDueAndIsNotBegunIsSaidBeforeTheOneAfterIt() {
        int after = route.courseLeg() + 1;
        // Abeam the fix and past it, still on the radial.
        FlightInstant abeam = Points.instant(
                AircraftState.at(900, at(41, 0).latitudeDeg(), at(41, 0).longitudeDeg()),
                courseAt(41),
                GS,
                0,
                Double.NaN);
        Point past = Points.onLeg(abeam, Point.Phase.JOINING, after, -1.5, 10, Double.NaN, Double.NaN);
        assertThat(next(past).text())
                .startsWith("turn right to course 139 by SKU, V40 to PRION")
                .contains("overdue");
    }

    @Test
    void aTrackThatNeverMeetsTheLineIsSaid() {
        // Flown the other way the same line lies on the pilot's other side.
        assertThat(next(closing(at(10, -5), courseAt(10) + 179, 0)))
                .isEqualTo(new NextAction("turn left toward course 066 FROM PTL: the line is 5.0 NM to your left", 0));
        for (double angle : new double[] {-40, 0, 2}) {
            assertThat(next(closing(at(10, -5), courseAt(10) + angle, 0)))
                    .as("angle %s", angle)
                    .isEqualTo(new NextAction(
                            "turn right toward course 066 FROM PTL: the line is 5.0 NM to your right", 0));
        }
    }

    @Test
    void offTheLineACorrection() {
        assertThat(next(along(route.courseLeg(), 0.5, 3)))
                .isEqualTo(new NextAction("correct to the left onto course 066 FROM PTL, 0.5 NM to your left", 0));
        assertThat(next(along(route.courseLeg(), -0.5, 3)).text())
                .startsWith("correct to the right")
                .endsWith("0.5 NM to your right");
        assertThat(next(along(route.courseLeg(), 0.29, 3)).text()).doesNotContain("correct");
    }

    @Test
    void onTheLineTheTurnAtItsEnd() {
        // V40 runs from SKU by PRION to FUL; where the radial meets it is the fix that nobody published.
        Position fix =
                route.legs().get(route.courseLeg()).endsAt().orElseThrow().position();
        GeodesicData toPrion = Geodesic.WGS84.Inverse(fix.latitudeDeg(), fix.longitudeDeg(), 38.38, -49.28);
        GeodesicData fromPtl = Geodesic.WGS84.Inverse(PTL_LAT, PTL_LON, fix.latitudeDeg(), fix.longitudeDeg());
        double turn = toPrion.azi1 - fromPtl.azi2;
        assertThat(turn).isBetween(20.0, 150.0); // to the right
        double lead = RADIUS_NM * Math.tan(Math.toRadians(turn / 2));
        NextAction next = next(along(route.courseLeg(), 0.1, 3));
        assertThat(next.inNm()).isCloseTo(3 - lead, within(0.05));
        assertThat(next.text())
                .matches("turn right to course 139 by SKU, V40 to PRION in \\d\\.\\d NM \\(at PTL066039\\)");
        assertThat(next(along(route.courseLeg(), 0.1, lead * 0.9)).inNm()).isZero();
        assertThat(next(along(route.courseLeg(), 0.1, lead * 0.9)).text()).contains(" now (at PTL066039)");
    }

    /** What the pilot sets is what chart and brief say: by the north of the station, not by today's variation. */
    @Test
    void anAirwayIsSaidByTheStationThatGivesIt() {
        int toFul = route.courseLeg() + 2;
        // FUL to PRION by GeographicLib, less its declination of 16.5 west: the radial; flown toward it, half a turn
        // on.
        double radial = Geodesic.WGS84.Inverse(38.05, -49.05, 38.38, -49.28).azi1 + 16.5;
        Position prion = new Position(38.38, -49.28);
        double track = Geodesic.WGS84.Inverse(38.38, -49.28, 38.05, -49.05).azi1;
        FlightInstant on = Points.instant(
                AircraftState.at(1200, prion.latitudeDeg(), prion.longitudeDeg()), track, GS, 0, Double.NaN);
        assertThat(next(Points.onLeg(on, Point.Phase.JOINING, toFul, 0.5, 20, track, Double.NaN))
                        .text())
                .startsWith(String.format(
                        Locale.ROOT,
                        "correct to the left onto course %.0f by FUL, V40 to FUL, 0.5 NM",
                        (radial + 540) % 360))
                .contains("168");
    }

    @Test
    void onTheLastLegNothingButItsEnd() {
        int last = route.legs().size() - 1;
        NextAction next = next(along(last, 0, 2));
        assertThat(next.inNm()).isEqualTo(2);
        assertThat(next.text()).matches("hold \\d{3} magnetic, direct to XFUL; XFUL in 2\\.0 NM");
        assertThat(next(along(last, 0, -1)).text()).endsWith("XFUL in 0.0 NM");
    }

    @ParameterizedTest
    @CsvSource({
        "725, further clearance is expected in 12 min",
        "59, further clearance is expected within the minute",
        "-1, the time of further clearance is past: ask for it"
    })
    void inAHoldItSaysHowLong(double aheadS, String said) {
        assertThat(new NextAction("hold", 1).holdingUntil(aheadS).text()).isEqualTo("hold; " + said);
        assertThat(new NextAction("hold", 1).holdingUntil(Double.NaN).text()).isEqualTo("hold");
    }

    @Test
    void anIndexThatNoLegHasIsNoAccident() {
        assertThat(next(along(-1, 0, 2)).text()).isEqualTo("fly heading 110");
        assertThat(next(along(99, 0, 2)).text()).isEqualTo("fly heading 110");
    }

    /** What is said in a practice flight whose pilot takes a sound lead, from the assigned heading to the course. */
    private static List<NextAction> said(String name, double hz) throws Exception {
        Lesson lesson = LessonReader.read(name);
        LocalDate date = LocalDate.of(2026, 6, 1);
        List<NextAction> said = new ArrayList<>();
        boolean[] judged = {false};
        FlightRecord record = FlightRecord.whole();
        record.tell(entry -> entry.readBy(new Entry.Reader() {
            @Override
            public void point(Point point) {
                NextAction next =
                        NextAction.of(record.inForce().route(), lesson.chart(), point, false, Assigned.NOTHING);
                judged[0] |= !Double.isNaN(point.headingErrorDeg());
                if (judged[0] && point.phase() == Point.Phase.CLOSING) {
                    said.add(next);
                }
            }
        }));
        FlightSession seat = new FlightSession(
                new FlightSession.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        lesson.amendments(),
                        date,
                        lesson.wind(),
                        ToleranceSet.read(lesson.standard()).limits(),
                        5),
                record);
        new PracticeFlight(lesson, date, Habit.GOOD).fly(hz, seat::accept);
        return said;
    }

    @ParameterizedTest
    @CsvSource({
        "heading-to-airway, 1",
        "heading-to-airway, 5",
        "radial-outbound, 1",
        "radial-outbound, 5",
        "radial-inbound, 5"
    })
    void inASoundTurnOntoTheCourseNothingRunsBackward(String lesson, double hz) throws Exception {
        List<NextAction> said = said(lesson, hz);
        double least = Double.POSITIVE_INFINITY;
        boolean due = false;
        for (NextAction each : said) {
            assertThat(each.text()).doesNotContain("toward");
            if (each.text().matches("turn (left|right) to (?!heading).* in .*")) {
                assertThat(each.inNm()).as(each.text()).isLessThan(least + 0.05);
                least = Math.min(least, each.inNm());
            }
            due |= each.text().startsWith("turning to ");
            if (due) {
                assertThat(each.text()).matches("(turning to|hold) .*");
            }
        }
        assertThat(due).isTrue();
    }

    /** Standard rate; on a turn with that radius the way still to the line is R (1 - cos(angle)). */
    @Test
    void inTheTurnOntoTheCourseThatIsSaid() {
        Position turning = at(10, -RADIUS_NM * (1 - Math.cos(Math.toRadians(40))));
        assertThat(next(closing(turning, courseAt(10) + 40, Double.NaN, Double.NaN, -3)))
                .isEqualTo(new NextAction("turning to course 066 FROM PTL", 0));
        // Straight on, or turning away, it is due; so it is in a turn so slow that it carries far past the line.
        for (double rate : new double[] {0, 3, -0.6}) {
            assertThat(next(closing(turning, courseAt(10) + 40, Double.NaN, Double.NaN, rate)))
                    .as("rate %s", rate)
                    .isEqualTo(new NextAction("turn left to course 066 FROM PTL now", 0));
        }
        // A turn that ends beside the line, far from it, is not the turn onto it.
        assertThat(next(closing(at(10, -5), courseAt(10) + 40, Double.NaN, Double.NaN, -3))
                        .text())
                .startsWith("turn left to course 066 FROM PTL in 7.");
    }

    @Test
    void rolledOutBesideTheLineNoTurnIsAskedForUntilItIsLeft() {
        for (double angle : new double[] {-4, 0, 4}) {
            assertThat(next(closing(at(10, -0.02), courseAt(10) + angle, Double.NaN)))
                    .as("angle %s", angle)
                    .isEqualTo(new NextAction("hold course 066 FROM PTL", 0));
        }
        assertThat(next(closing(at(10, -0.4), courseAt(10), Double.NaN)))
                .isEqualTo(
                        new NextAction("turn right toward course 066 FROM PTL: the line is 0.4 NM to your right", 0));
    }
}
