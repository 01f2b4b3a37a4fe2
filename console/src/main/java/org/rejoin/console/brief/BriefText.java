package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Leg;
import org.rejoin.bridge.route.RadialDistance;
import org.rejoin.console.words.Words;

/** A brief in words, in the order in which it is needed: the picture, the numbers, the navigator, the working. */
public final class BriefText {

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
    private final Lines out;

    private BriefText(Brief brief, int width) {
        this.out = new Lines(width);
        this.brief = brief;
        this.route = brief.route();
    }

    /**
     * The brief in lines.
     *
     * @param working whether each step is shown with its formula and values
     * @param width most characters of a line, where its words allow
     * @return lines without line ends
     */
    public static List<String> lines(Brief brief, boolean working, int width) {
        BriefText text = new BriefText(brief, width);
        text.write(working);
        return text.out.all();
    }

    private void write(boolean working) {
        out.paragraph("Filed:     ", route.filed().text());
        out.paragraph("Clearance: ", route.clearance().words());
        brief.notes().forEach(note -> out.paragraph("  note: ", note));
        out.title("THE PICTURE");
        BriefPicture.sentences(brief).forEach(sentence -> out.paragraph("  ", sentence));
        out.title("IN THE COCKPIT, IN THIS ORDER");
        new CockpitSteps(brief, route, out).write();
        warnings();
        out.title("THE ROUTE NOW, LEG BY LEG");
        route.legs().forEach(this::leg);
        out.paragraph("  ", legTypes());
        out.title("INTO A GPS NAVIGATOR");
        NavigatorSteps.of(route).forEach(step -> out.paragraph("  - ", step));
        if (working) {
            out.title("THE WORKING");
            int step = 0;
            for (AmendedRoute.WorkingStep each : route.working()) {
                out.line(Words.say("%3d. %s", ++step, each.what()));
                out.paragraph("       formula: ", each.formula());
                out.paragraph("       values:  ", each.values());
            }
        }
    }

    private void warnings() {
        out.title("BEFORE YOU ACCEPT IT");
        if (route.warnings().isEmpty()) {
            out.line("  Nothing found against it.");
        }
        route.warnings().forEach(warning -> out.paragraph("  ! ", warning.code() + ": " + warning.text()));
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
                    "%.0f DME arc of %s, %s %ss %s to %s, %.1f NM",
                    arc.distanceNm(),
                    arc.station().ident(),
                    arc.path().clockwise() ? "right," : "left,",
                    RadialDistance.word(arc.station()),
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

    /** The lines of a brief as they are written: titles, numbered steps with their details, paragraphs. */
    static final class Lines {

        private final List<String> lines = new ArrayList<>();
        private final int width;
        private int number;

        /** No line yet; most characters of one, where its words allow. */
        private Lines(int width) {
            this.width = width;
        }

        List<String> all() {
            return lines;
        }

        void title(String text) {
            lines.add("");
            lines.add(text);
        }

        void line(String text) {
            lines.add(text);
        }

        void numbered(String what, String text) {
            paragraph(Words.say("%3d. %-13s", ++number, what), text);
        }

        /** Below the step numbered last. */
        void detail(String text) {
            paragraph("       ", text);
        }

        void paragraph(String indent, String text) {
            lines.addAll(Words.wrapped(indent, text, width));
        }
    }
}
