package org.rejoin.console.cli;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.log.EventText;
import org.rejoin.protocol.AircraftState;

/** One aircraft of a flight on the terminal. */
final class SeatView implements FlightDesk.Watcher {

    private final FlightView view;
    private final String label;
    private final String prefix;
    private final String indent;
    private Optional<AmendedRoute> inForce = Optional.empty();

    SeatView(FlightView view, String label) {
        this.view = view;
        this.label = label;
        this.prefix = view.prefix(label);
        this.indent = prefix + "           ";
    }

    @Override
    public void event(TrackerEvent event) {
        if (view.json()) {
            view.line(view.several() ? EventJson.line(label, event) : EventJson.line(event));
        } else if (EventText.isFault(event)) {
            view.strongLine(prefix + EventText.line(event, inForce));
        } else {
            view.line(prefix + EventText.line(event, inForce));
        }
    }

    @Override
    public void sample(AircraftState state, Progress now) {
        view.progress(label, now);
    }

    static String status(Progress now) {
        StringBuilder text = new StringBuilder(EventText.clock(now.timeS()))
                .append("  ")
                .append(now.phase().words());
        now.crossTrackNm()
                .ifPresent(cross -> text.append(String.format(
                        Locale.ROOT, "  line %.2f NM to the %s", Math.abs(cross), cross > 0 ? "left" : "right")));
        now.nextFix().ifPresent(fix -> text.append("  next ").append(fix));
        now.toGoNm().ifPresent(togo -> text.append(String.format(Locale.ROOT, " %.1f NM", togo)));
        return text.toString();
    }

    @Override
    public void amended(AmendedRoute route) {
        inForce = Optional.of(route);
        route.warnings().forEach(warning -> view.diagnostic(prefix + warning.code() + ": " + warning.text()));
        route.clearance().notes().forEach(note -> view.diagnostic(prefix + "note: " + note));
        if (view.json()) {
            return;
        }
        route.course()
                .ifPresent(course -> view.line(String.format(
                        Locale.ROOT,
                        "%scourse to set %03.0f %s %s",
                        indent,
                        course.courseToSet().deg(),
                        course.direction(),
                        course.station().ident())));
        route.intercept()
                .ifPresent(met -> view.line(String.format(
                        Locale.ROOT,
                        "%smeets the line in %.1f NM, %.1f min, at %.0f degrees; turn %s, lead %.2f NM",
                        indent,
                        met.distanceNm(),
                        met.minutes(),
                        met.angleDeg(),
                        met.turnsRight() ? "right" : "left",
                        met.leadNm())));
        route.computedFix()
                .ifPresent(fix -> view.line(String.format(
                        Locale.ROOT,
                        "%scomputed fix %s at %.5f, %.5f on %s, %s-%s; there turn %s %.0f degrees",
                        indent,
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
    public void problem(double timeS, String why) {
        view.diagnostic(prefix + EventText.clock(timeS) + "  a clearance could not be issued: " + why);
    }

    @Override
    public void note(String text) {
        if (!view.json()) {
            view.line(indent + text);
        }
    }
}
