package org.rejoin.console.cli;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.console.log.ClearanceText;
import org.rejoin.console.log.EventText;

/** One aircraft of a flight in words: what happens, and what each clearance comes to. */
final class SeatView implements FlightDesk.Watcher {

    private static final String INDENT = "           ";

    private final Screen screen;
    private final String prefix;
    private Optional<AmendedRoute> inForce = Optional.empty();

    /** Takes the lines. */
    interface Screen {
        void line(String text);

        /** A line that must not be overlooked. */
        void strongLine(String text);

        /** What the pilot should know and did not do. */
        void diagnostic(String text);
    }

    /**
     * A view.
     *
     * @param prefix how each line begins
     */
    SeatView(Screen screen, String prefix) {
        this.screen = screen;
        this.prefix = prefix;
    }

    @Override
    public void happened(Entry.Happened happened) {
        String line = prefix + EventText.line(happened.event(), inForce);
        if (happened.event().kind().fault().isPresent()) {
            screen.strongLine(line);
        } else {
            screen.line(line);
        }
    }

    String status(Point now) {
        StringBuilder text = new StringBuilder(EventText.clock(now.timeS()))
                .append("  ")
                .append(now.phase().words());
        if (now.hasLine()) {
            text.append(String.format(
                    Locale.ROOT,
                    "  line %.2f NM to the %s",
                    Math.abs(now.crossTrackNm()),
                    now.crossTrackNm() > 0 ? "left" : "right"));
        }
        inForce.filter(route ->
                        now.legIndex() >= 0 && now.legIndex() < route.legs().size())
                .flatMap(route -> route.legs().get(now.legIndex()).endsAt())
                .ifPresent(fix -> text.append("  next ").append(fix.ident()));
        if (!Double.isNaN(now.toGoNm())) {
            text.append(String.format(Locale.ROOT, " %.1f NM", now.toGoNm()));
        }
        return text.toString();
    }

    String prefix() {
        return prefix;
    }

    /** What is doubtful about a clearance from here. */
    void warnings(AmendedRoute route) {
        route.warnings().forEach(warning -> screen.diagnostic(prefix + warning.code() + ": " + warning.text()));
        route.clearance().notes().forEach(note -> screen.diagnostic(prefix + "note: " + note));
    }

    @Override
    public void withdrawn(Entry.Withdrawn withdrawn) {
        inForce = Optional.empty();
    }

    @Override
    public void issued(Entry.Issued issued) {
        AmendedRoute route = issued.route();
        inForce = Optional.of(route);
        if (route.clearance().routeStays()) {
            return; // said when it was cleared
        }
        route.course()
                .ifPresent(course -> screen.line(String.format(
                        Locale.ROOT,
                        "%scourse to set %03.0f %s %s",
                        prefix + INDENT,
                        course.courseToSet().deg(),
                        course.direction(),
                        course.station().ident())));
        route.intercept().ifPresent(met -> screen.line(prefix + INDENT + ClearanceText.intercept(met)));
        route.computedFix()
                .ifPresent(fix -> screen.line(String.format(
                        Locale.ROOT,
                        "%scomputed fix %s at %.5f, %.5f on %s, %s-%s; there turn %s %.0f degrees",
                        prefix + INDENT,
                        fix.fix().ident(),
                        fix.fix().position().latitudeDeg(),
                        fix.fix().position().longitudeDeg(),
                        fix.segment().airway().orElse("the direct"),
                        fix.segment().from().ident(),
                        fix.segment().to().ident(),
                        fix.turnDeg() > 0 ? "right" : "left",
                        Math.abs(fix.turnDeg()))));
    }

    @Override
    public void notIssued(Entry.NotIssued notIssued) {
        screen.diagnostic(
                prefix + EventText.clock(notIssued.timeS()) + "  a clearance could not be issued: " + notIssued.why());
    }

    @Override
    public void note(String text) {
        screen.line(prefix + INDENT + text);
    }
}
