package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.ComputedFix;
import org.rejoin.bridge.route.Course;
import org.rejoin.bridge.route.HeadingPlan;
import org.rejoin.bridge.route.Intercept;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.PublishedCourse;
import org.rejoin.bridge.route.WorkingStep;

/** A brief in words, in the order in which it is needed: the picture, the numbers, the navigator, the working. */
public final class BriefText {

    private final Brief brief;
    private final AmendedRoute route;
    private final List<String> lines = new ArrayList<>();
    private int number;

    private BriefText(Brief brief) {
        this.brief = brief;
        this.route = brief.route();
    }

    /**
     * The brief in lines.
     *
     * @param brief worked out
     * @param working whether each step is shown with its formula and values
     * @return lines without line ends
     */
    public static List<String> lines(Brief brief, boolean working) {
        BriefText text = new BriefText(brief);
        text.write(working);
        return text.lines;
    }

    private void write(boolean working) {
        lines.add("Filed:     " + route.filed().text());
        lines.add("Clearance: " + route.clearance().text());
        brief.notes().forEach(note -> paragraph("  note: ", note));
        title("THE PICTURE");
        BriefPicture.sentences(brief).forEach(sentence -> paragraph("  ", sentence));
        title("IN THE COCKPIT, IN THIS ORDER");
        route.heading().ifPresent(this::heading);
        route.course().ifPresent(this::course);
        if (route.legs().get(0) instanceof Leg.DirectToFix direct) {
            direct(direct);
        }
        route.intercept().ifPresent(this::intercept);
        route.computedFix().ifPresent(this::computedFix);
        onward();
        route.clearance().instructions().forEach(this::besidesTheRoute);
        warnings();
        title("THE ROUTE NOW, LEG BY LEG");
        route.legs().forEach(this::leg);
        paragraph("  ", legTypes());
        title("INTO A GPS NAVIGATOR");
        NavigatorSteps.of(route).forEach(step -> paragraph("  - ", step));
        if (working) {
            title("THE WORKING");
            int step = 0;
            for (WorkingStep each : route.working()) {
                lines.add(Words.format("  %d. %s", ++step, each.what()));
                paragraph("       formula: ", each.formula());
                paragraph("       values:  ", each.values());
            }
        }
    }

    private void heading(HeadingPlan plan) {
        String who = switch (plan.origin()) {
            case ASSIGNED -> "assigned";
            case PRESENT -> "the heading flown now; none was assigned";
            case PROPOSED -> "our proposal; none was assigned and none was given";
        };
        numbered(
                "Heading", Words.format("%s (%s)", Words.degrees(plan.magnetic().deg()), who));
        detail(Words.format(
                "%s true; variation here and today %s",
                Words.degreesTenths(plan.headingTrue().deg()),
                Words.eastWest(route.situation().variation().eastDeg())));
        if (route.situation().wind().speedKt() > 0) {
            detail(Words.format(
                    "in the wind from %s true at %.0f kt: track %s (%s true), ground speed %.0f kt",
                    Words.degrees(route.situation().wind().from().deg()),
                    route.situation().wind().speedKt(),
                    Words.degrees(Math.rint(plan.ground()
                            .track()
                            .toMagnetic(route.situation().variation())
                            .deg())),
                    Words.degreesTenths(plan.ground().track().deg()),
                    plan.ground().groundSpeedKt()));
        }
    }

    private void course(Course course) {
        numbered(
                "Course",
                Words.format(
                        "set %s, %s %s",
                        Words.degrees(course.courseToSet().deg()),
                        course.direction(),
                        course.station().ident()));
        if (course.direction() == Course.Direction.TO) {
            detail(Words.format(
                    "the %s runs out from %s; flown inbound its course is the reciprocal",
                    course.name(), course.station().ident()));
        }
        course.station()
                .frequencyMhz()
                .ifPresent(mhz -> detail(
                        course.station().kind() == Station.Kind.NDB
                                ? Words.format(
                                        "%s on %.0f kHz", course.station().name(), mhz * 1000)
                                : Words.format(
                                        "%s on %.2f MHz", course.station().name(), mhz)));
    }

    private void direct(Leg.DirectToFix direct) {
        TrueDirection track = direct.path().initialCourse();
        String course = PublishedCourse.magneticDeg(direct, brief.chart(), route.situation())
                .map(deg -> Words.degrees(Math.rint(deg)))
                .orElse("");
        numbered(
                "Direct",
                Words.format(
                        "%s: course %s from here, %.1f NM",
                        direct.to().ident(), course, direct.path().lengthNm()));
        GroundVector.forCourse(
                        track,
                        route.situation().trueAirspeedKt(),
                        route.situation().wind())
                .ifPresent(wind -> detail(Words.format(
                        "heading for it %s, %s at %.0f kt over the ground",
                        Words.degrees(Math.rint(wind.heading()
                                .toMagnetic(route.situation().variation())
                                .deg())),
                        Words.minutes(direct.path().lengthNm() / wind.groundSpeedKt() * 60),
                        wind.groundSpeedKt())));
    }

    private void intercept(Intercept met) {
        String what = met.airwayLeg()
                .map(segment -> segment.airway().orElse("the direct") + " between "
                        + segment.from().ident() + " and " + segment.to().ident())
                .orElse("the course");
        if (met.distanceNm() < 0.05) {
            numbered("Established", "you are on " + what + " already; turn onto it now");
            return;
        }
        numbered(
                "Intercept",
                Words.format("%s after %.1f NM, %s", what, met.distanceNm(), Words.minutes(met.minutes())));
        detail(Words.format(
                "angle %.0f degrees: turn %s onto course %s(%s true)",
                met.angleDeg(),
                met.turnsRight() ? "right" : "left",
                PublishedCourse.magneticDeg(route.legs().get(route.courseLeg()), brief.chart(), route.situation())
                        .map(deg -> Words.degrees(Math.rint(deg)) + " ")
                        .orElse(""),
                Words.degreesTenths(met.course().deg())));
        detail(Words.format(
                "begin the turn %.2f NM before it, standard rate at %.0f kt over the ground",
                met.leadNm(),
                route.heading().map(plan -> plan.ground().groundSpeedKt()).orElse(0.0)));
        detail("at " + Words.place(met.position()));
    }

    private void computedFix(ComputedFix fix) {
        Position at = fix.fix().position();
        numbered("Computed fix", Words.format("%s: %s", fix.fix().ident(), Words.place(at)));
        detail(Words.decimal(at));
        detail(Words.format(
                "on %s between %s and %s; the lines cross at %.0f degrees",
                fix.segment().airway().orElse("the direct"),
                fix.segment().from().ident(),
                fix.segment().to().ident(),
                fix.crossingAngleDeg()));
        for (ComputedFix.Definition definition : fix.definitions()) {
            String line = definition.station().kind().hasRadials() ? "radial" : "bearing";
            String form =
                    definition.station().kind().hasDistance() || definition.use() == ComputedFix.Use.CLEARED_RADIAL
                            ? Words.format(
                                    "%s %s %s / %.1f NM",
                                    definition.station().ident(),
                                    line,
                                    Words.degreesTenths(definition.radial().deg()),
                                    definition.distanceNm())
                            : Words.format(
                                    "%s %s %s (%.1f NM away)",
                                    definition.station().ident(),
                                    line,
                                    Words.degreesTenths(definition.radial().deg()),
                                    definition.distanceNm());
            paragraph("       ", form + ": " + definition.reason());
        }
        numbered(
                "Turn there",
                Words.format(
                        "%s %.0f degrees onto %s toward %s",
                        fix.turnDeg() > 0 ? "right" : "left",
                        Math.abs(fix.turnDeg()),
                        fix.segment().airway().orElse("the direct"),
                        fix.segment().to().ident()));
        detail(Words.format(
                "begin %.2f NM before the fix, standard rate at %.0f kt over the ground",
                fix.leadNm(route.situation()), fix.groundSpeedKt(route.situation())));
    }

    private void onward() {
        if (Brief.routeStays(route)) {
            numbered("Route", "as it was; the legs are below");
            return;
        }
        List<Leg> legs = route.legs();
        String onward = legs.stream()
                .skip(Math.max(0, route.courseLeg()))
                .filter(leg -> leg.endsAt()
                        .filter(end -> route.computedFix()
                                .filter(fix -> fix.fix().equals(end))
                                .isPresent())
                        .isEmpty())
                .flatMap(leg -> leg.endsAt().stream()
                        .map(end -> leg.airway().map(airway -> airway + " ").orElse("") + end.ident()))
                .collect(Collectors.joining(", "));
        if (!onward.isEmpty()) {
            numbered("Then", onward + (route.resumesAt() >= 0 ? ", as filed from there" : ""));
        }
        if (!route.skipped().isEmpty()) {
            numbered(
                    "Skipped",
                    route.skipped().stream().map(Waypoint::ident).collect(Collectors.joining(", "))
                            + ": no longer flown");
        }
    }

    /** What is assigned and has no line on the map. */
    private void besidesTheRoute(Instruction instruction) {
        String words = Phraseology.say(instruction);
        if (instruction instanceof Instruction.Maintain maintain) {
            numbered(
                    "Altitude",
                    Words.format("maintain %.0f ft", maintain.feet())
                            + (maintain.untilEstablished() ? " until established" : "")
                            + route.situation().altitudeFt().stream()
                                    .mapToObj(feet -> Words.format("; now at %.0f ft", feet))
                                    .collect(Collectors.joining()));
        } else if (instruction instanceof Instruction.MaintainSpeed speed) {
            String bound = speed.bound() == Instruction.MaintainSpeed.Limit.EXACTLY
                    ? ""
                    : " " + speed.bound().name().toLowerCase(Locale.ROOT).replace('_', ' ');
            numbered("Speed", Words.format("%.0f knots%s, by the airspeed indicator", speed.knots(), bound));
        } else if (instruction instanceof Instruction.MaintainPresentSpeed
                || instruction instanceof Instruction.ResumeNormalSpeed) {
            numbered("Speed", words);
        } else if (instruction instanceof Instruction.CrossAt cross) {
            String bound = cross.bound().name().toLowerCase(Locale.ROOT).replace('_', ' ');
            numbered("Crossing", Words.format("%s %s %.0f ft", cross.fix().ident(), bound, cross.feet()));
        } else if (instruction instanceof Instruction.Hold) {
            numbered("Hold", words);
        } else if (instruction instanceof Instruction.ClearedTo) {
            numbered("Limit", words);
        } else if (instruction instanceof Instruction.Expect) {
            numbered("Later", words);
        }
    }

    private void warnings() {
        title("BEFORE YOU ACCEPT IT");
        if (route.warnings().isEmpty()) {
            lines.add("  Nothing found against it.");
        }
        route.warnings().forEach(warning -> paragraph("  ! ", warning.code() + ": " + warning.text()));
    }

    private void leg(Leg leg) {
        Optional<Double> course = PublishedCourse.magneticDeg(leg, brief.chart(), route.situation());
        String from = leg.from().map(Waypoint::ident).orElse(leg.joinedAtNm() > 0 ? "join" : "");
        lines.add(Words.format(
                        "  %s  %-5s %-10s %-10s %s",
                        leg.pathTerminator(),
                        leg.airway().orElse(""),
                        from,
                        leg.endsAt().map(Waypoint::ident).orElse(""),
                        course.map(deg -> (leg.pathTerminator().startsWith("V") ? "heading " : "course ")
                                                + Words.degrees(deg))
                                        .orElse("")
                                + leg.line()
                                        .filter(line -> Brief.lengthKnown(route, leg))
                                        .map(line -> Words.format(
                                                ", %.1f NM", Math.max(0, line.lengthNm() - leg.joinedAtNm())))
                                        .orElse(""))
                .stripTrailing());
    }

    /** The types as ARINC 424 names them. */
    private String legTypes() {
        return route.legs().stream()
                .map(Leg::pathTerminator)
                .distinct()
                .map(type -> type
                        + switch (type) {
                            case "VI" -> " heading until the course is met";
                            case "VM" -> " heading until ATC says more";
                            case "CF" -> " course to a fix";
                            case "FC" -> " course from a fix for a distance";
                            case "DF" -> " direct to a fix";
                            case "TF" -> " track from fix to fix";
                            default -> " (ARINC 424)";
                        })
                .collect(Collectors.joining("; ", "", "."));
    }

    private void title(String text) {
        lines.add("");
        lines.add(text);
    }

    private void numbered(String what, String text) {
        paragraph(Words.format("  %d. %-13s", ++number, what), text);
    }

    private void detail(String text) {
        paragraph("       ", text);
    }

    private void paragraph(String indent, String text) {
        lines.addAll(Words.wrapped(indent, text));
    }
}
