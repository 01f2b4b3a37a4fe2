package org.rejoin.console.brief;

import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.console.words.Words;

/** The amended route leg by leg, and what the types of its legs mean. */
final class LegLines {

    private static final Leg.Cases<String> LEG_TYPES = new Leg.Cases<>(
            headingToIntercept -> "heading until the course is met",
            headingOnly -> "heading until ATC says more",
            courseToFix -> "course to a fix",
            fixOutbound -> "course from a fix for a distance",
            trackToFix -> "track from fix to fix",
            directToFix -> "direct to a fix",
            dmeArc -> "arc to a fix",
            courseFrom -> "course from a fix until ATC says more",
            hold -> hold.holding().once() ? "hold, left at its fix" : "hold until ATC says more");

    private final Brief brief;
    private final AmendedRoute route;
    private final BriefLines out;

    LegLines(Brief brief, BriefLines out) {
        this.brief = brief;
        this.route = brief.route();
        this.out = out;
    }

    void write() {
        route.legs().forEach(this::leg);
        out.paragraph("  ", legTypes());
    }

    private void leg(Leg leg) {
        String from = leg.from().map(Waypoint::ident).orElse(leg.joinedAtNm() > 0 ? "join" : "");
        out.line(Words.say(
                        "  %s  %-5s %-10s %-10s %s",
                        leg.pathTerminator(),
                        leg.airway().orElse(""),
                        from,
                        leg.endsAt().map(Waypoint::ident).orElse(""),
                        described(leg))
                .stripTrailing());
        LegCourse course = LegCourse.of(leg, brief);
        boolean wind = route.situation().wind().speedKt() > 0;
        if (wind && course.headingToHold().isPresent()) {
            double drift = course.driftDeg().orElse(0.0);
            out.line(Words.say(
                    "        heading to hold %s, %s",
                    Angles.figures(course.headingToHold().get()),
                    Math.round(Math.abs(drift)) == 0
                            ? "no drift to correct"
                            : Words.say("drift correction %.0f %s", Math.abs(drift), Words.side(drift))));
        }
    }

    private String described(Leg leg) {
        if (leg instanceof Leg.DmeArc arc) {
            return Words.say(
                    "%.0f DME arc of %s, %s radials %s to %s, %.1f NM",
                    arc.distanceNm(),
                    arc.station().ident(),
                    arc.path().clockwise() ? "right," : "left,",
                    Angles.figures(arc.fromRadial().deg()),
                    Angles.figures(arc.toRadial().deg()),
                    arc.path().lengthNm());
        }
        boolean heading = leg.pathTerminator().startsWith("V");
        String course = LegCourse.of(leg, brief)
                .magnetic()
                .map(published -> (heading ? "heading " : "course ")
                        + Words.direction(published.magneticDeg())
                        + (heading || leg instanceof Leg.HoldAtFix
                                ? ""
                                : published
                                        .station()
                                        .map(station -> " by " + station.ident())
                                        .orElse(" by today's variation")))
                .orElse("");
        return course
                + leg.line()
                        .filter(line ->
                                Brief.lengthKnown(route, leg) && leg.endsAt().isPresent())
                        .map(line -> Words.say(", %.1f NM", Math.max(0, line.lengthNm() - leg.joinedAtNm())))
                        .orElse("");
    }

    /** The types as ARINC 424 names them. */
    private String legTypes() {
        return route.legs().stream()
                .map(leg -> leg.pathTerminator() + " " + leg.fold(LEG_TYPES))
                .distinct()
                .collect(Collectors.joining("; ", "", "."));
    }
}
