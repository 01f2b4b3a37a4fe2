package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.log.ClearanceText;

/** What a clearance came to, in a few short lines. */
final class AmendmentText {

    private AmendmentText() {}

    static List<String> lines(AmendedRoute route) {
        List<String> lines = new ArrayList<>();
        route.heading()
                .ifPresent(plan -> lines.add(say(
                        "heading %s (%s), track %s true, %.0f kt over the ground",
                        Angles.figures(plan.magnetic().deg()),
                        plan.origin().name().toLowerCase(Locale.ROOT),
                        Angles.figures(plan.ground().track().deg()),
                        plan.ground().groundSpeedKt())));
        route.course()
                .ifPresent(course -> lines.add(say(
                        "course to set %s %s %s",
                        Angles.figures(course.courseToSet().deg()),
                        course.direction(),
                        course.station().ident())));
        route.intercept().map(ClearanceText::intercept).ifPresent(lines::add);
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

    private static String say(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
