package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Course;

/** What a clearance came to, in a few short lines. */
final class AmendmentText {

    private AmendmentText() {}

    static List<String> lines(AmendedRoute route) {
        List<String> lines = new ArrayList<>();
        route.heading()
                .ifPresent(plan -> lines.add(say(
                        "heading %s (%s), track %s true, %.0f kt over the ground",
                        degrees(plan.magnetic().deg()),
                        plan.origin().name().toLowerCase(Locale.ROOT),
                        degrees(plan.ground().track().deg()),
                        plan.ground().groundSpeedKt())));
        route.course()
                .ifPresent(course -> lines.add(say(
                        "course to set %s %s %s",
                        degrees(course.courseToSet().deg()),
                        course.direction(),
                        course.station().ident())));
        route.intercept()
                .ifPresent(met -> lines.add(say(
                        "meets the line in %.1f NM, %.1f min, at %.0f degrees; turn %s, lead %.2f NM",
                        met.distanceNm(),
                        met.minutes(),
                        met.angleDeg(),
                        met.turnsRight() ? "right" : "left",
                        met.leadNm())));
        route.computedFix()
                .ifPresent(fix -> lines.add(say(
                        "computed fix %s on %s, %s to %s; there turn %s %.0f degrees",
                        fix.fix().ident(),
                        fix.segment().airway().orElse("the direct"),
                        fix.segment().from().ident(),
                        fix.segment().to().ident(),
                        fix.turnDeg() > 0 ? "right" : "left",
                        Math.abs(fix.turnDeg()))));
        if (!route.skipped().isEmpty()) {
            lines.add("no longer flown: "
                    + String.join(
                            ", ", route.skipped().stream().map(Waypoint::ident).toList()));
        }
        return lines;
    }

    static String radial(Course course) {
        String deg = degrees(course.radial().deg());
        return course.station().kind() == Station.Kind.NDB
                ? "bearing " + deg + " from " + course.station().ident()
                : course.station().ident() + " " + deg + " radial";
    }

    static String degrees(double deg) {
        double whole = Math.rint(deg) % 360;
        return say("%03.0f", whole <= 0 ? whole + 360 : whole);
    }

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
