package org.rejoin.console.brief;

import java.util.List;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.words.Words;

/** A brief in words, in the order in which it is needed: the picture, the numbers, the navigator, the working. */
public final class BriefText {

    private final Brief brief;
    private final AmendedRoute route;
    private final BriefLines out;

    private BriefText(Brief brief, int width) {
        this.out = new BriefLines(width);
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
        new CockpitSteps(brief, out).write();
        warnings();
        out.title("THE ROUTE NOW, LEG BY LEG");
        new LegLines(brief, out).write();
        out.title("INTO A GPS NAVIGATOR");
        NavigatorSteps.of(route).forEach(step -> out.paragraph("  - ", step));
        if (working) {
            out.title("THE WORKING");
            int step = 0;
            for (AmendedRoute.WorkingStep each : route.working()) {
                out.line(Words.say("  %d. %s", ++step, each.what()));
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
}
