package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.Seat;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Limits;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.tracker.TrackerEvent;
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

    @BeforeAll
    static void clear() throws Exception {
        Lesson lesson = LessonReader.read("radial-outbound");
        Limits limits = ToleranceSet.read(lesson.standard()).limits();
        List<AircraftState> states = new ArrayList<>();
        LocalDate date = LocalDate.of(2026, 6, 1);
        new PracticeFlight(lesson, date, Habit.GOOD).fly(1, states::add);
        Seat seat = new Seat(
                new Seat.Setting(lesson.chart(), lesson.filed(), lesson.amendments(), date, lesson.wind(), limits, 5),
                new Seat.Listener() {
                    @Override
                    public void sample(AircraftState state, Progress progress) {}

                    @Override
                    public void event(TrackerEvent event) {}

                    @Override
                    public void amended(AmendedRoute amended) {}
                });
        states.subList(0, 60).forEach(seat::accept);
        route = seat.route().orElseThrow();
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

    private static Progress closing(Position position, double trackDeg, OptionalDouble headingErrorDeg) {
        return new Progress(
                60,
                position,
                (trackDeg + 360) % 360,
                GS,
                Progress.Phase.CLOSING,
                route.courseLeg(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                headingErrorDeg,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                false,
                Optional.empty());
    }

    private static Progress along(int leg, double crossNm, double toGoNm, String fix) {
        return new Progress(
                200,
                at(10, crossNm),
                courseAt(10),
                GS,
                Progress.Phase.ON_COURSE,
                leg,
                OptionalDouble.of(crossNm),
                OptionalDouble.of(toGoNm),
                OptionalDouble.of(0),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                true,
                Optional.of(fix));
    }

    private static NextAction next(Progress progress) {
        return NextAction.of(Optional.of(route), progress, OptionalDouble.empty());
    }

    @Test
    void beforeAnyClearanceTheRouteAsFiled() {
        NextAction next = NextAction.of(
                Optional.empty(), closing(at(5, -5), 100, OptionalDouble.empty()), OptionalDouble.empty());
        assertThat(next).isEqualTo(new NextAction("fly as filed; listen for the clearance", 0));
    }

    @Test
    void anAssignedHeadingFirst() {
        assertThat(next(closing(at(5, -5), 100, OptionalDouble.of(12))))
                .isEqualTo(new NextAction("turn left to heading 110", 0));
        assertThat(next(closing(at(5, -5), 100, OptionalDouble.of(-12))))
                .isEqualTo(new NextAction("turn right to heading 110", 0));
        // Just after the clearance nobody judges; the compass tells.
        assertThat(NextAction.of(
                                Optional.of(route),
                                closing(at(5, -5), 100, OptionalDouble.empty()),
                                OptionalDouble.of(150))
                        .text())
                .isEqualTo("turn left to heading 110");
        assertThat(NextAction.of(
                                Optional.of(route),
                                closing(at(5, -5), 100, OptionalDouble.empty()),
                                OptionalDouble.of(350))
                        .text())
                .isEqualTo("turn right to heading 110");
    }

    @Test
    void thenTheTurnOntoTheCourseWithItsLead() {
        double angle = 40;
        NextAction next = next(closing(at(10, -5), courseAt(10) + angle, OptionalDouble.of(2)));
        double expected = 5 / Math.sin(Math.toRadians(angle)) - RADIUS_NM * Math.tan(Math.toRadians(angle / 2));
        assertThat(next.inNm()).isCloseTo(expected, within(0.05));
        assertThat(next.text()).isEqualTo("turn left to course 066 FROM PTL in 7.5 NM");
        // From the other side the other way.
        NextAction other = next(closing(at(10, 5), courseAt(10) - angle, OptionalDouble.of(2)));
        assertThat(other.text()).isEqualTo("turn right to course 066 FROM PTL in 7.5 NM");
    }

    @Test
    void withinTheLeadNow() {
        double lead = RADIUS_NM * Math.tan(Math.toRadians(20));
        double cross = lead * Math.sin(Math.toRadians(40)) * 0.9;
        assertThat(next(closing(at(10, -cross), courseAt(10) + 40, OptionalDouble.of(0))))
                .isEqualTo(new NextAction("turn left to course 066 FROM PTL now", 0));
    }

    @Test
    void aTrackThatNeverMeetsTheLineIsSaid() {
        for (double angle : new double[] {-40, 0, 2, 179}) {
            assertThat(next(closing(at(10, -5), courseAt(10) + angle, OptionalDouble.of(0))))
                    .as("angle %s", angle)
                    .isEqualTo(new NextAction(
                            "turn right toward course 066 FROM PTL: the line is 5.0 NM to the right", 0));
        }
    }

    @Test
    void offTheLineACorrection() {
        assertThat(next(along(route.courseLeg(), 0.5, 3, "the fix")))
                .isEqualTo(new NextAction("correct to the left onto course 066 FROM PTL, 0.5 NM to the left", 0));
        assertThat(next(along(route.courseLeg(), -0.5, 3, "the fix")).text())
                .startsWith("correct to the right")
                .endsWith("0.5 NM to the right");
        assertThat(next(along(route.courseLeg(), 0.29, 3, "the fix")).text()).doesNotContain("correct");
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
        NextAction next = next(along(route.courseLeg(), 0.1, 3, "the fix"));
        assertThat(next.inNm()).isCloseTo(3 - lead, within(0.05));
        assertThat(next.text()).matches("turn right to \\d{3} magnetic, V40 to PRION in \\d\\.\\d NM \\(at the fix\\)");
        assertThat(next(along(route.courseLeg(), 0.1, lead * 0.9, "the fix")).inNm())
                .isZero();
        assertThat(next(along(route.courseLeg(), 0.1, lead * 0.9, "the fix")).text())
                .contains(" now (at the fix)");
    }

    @Test
    void onTheLastLegNothingButItsEnd() {
        int last = route.legs().size() - 1;
        NextAction next = next(along(last, 0, 2, "XFUL"));
        assertThat(next.inNm()).isEqualTo(2);
        assertThat(next.text()).matches("hold \\d{3} magnetic, direct to XFUL; XFUL in 2\\.0 NM");
        assertThat(next(along(last, 0, -1, "XFUL")).text()).endsWith("XFUL in 0.0 NM");
    }

    @Test
    void anIndexThatNoLegHasIsNoAccident() {
        assertThat(next(along(-1, 0, 2, "x")).text()).isEqualTo("fly heading 110");
        assertThat(next(along(99, 0, 2, "x")).text()).isEqualTo("fly heading 110");
    }
}
