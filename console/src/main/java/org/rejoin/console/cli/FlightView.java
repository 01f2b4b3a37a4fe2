package org.rejoin.console.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.tracker.Progress;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.flight.FlightDesk;
import org.rejoin.console.flight.Outlet;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.log.EventText;
import org.rejoin.protocol.AircraftState;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;

/**
 * A flight on the terminal: log lines as they happen, one status line where there is a terminal to draw it on, the grade
 * card at the end; or JSON Lines. Printing happens on a thread of its own.
 */
final class FlightView implements FlightDesk.Watcher, AutoCloseable {

    /** Status lines are drawn no more often, nanoseconds. */
    private static final long STATUS_EVERY_NS = 250_000_000;

    private static final String STATUS = "\u0001";
    private static final String TO_ERR = "\u0002";

    private final PrintWriter out;
    private final PrintWriter err;
    private final boolean json;
    private final boolean status;
    private final boolean colour;
    private final Outlet outlet;
    private long lastStatusNs;
    private int statusWidth;
    private Optional<AmendedRoute> inForce = Optional.empty();

    FlightView(PrintWriter out, PrintWriter err, boolean json) {
        this.out = out;
        this.err = err;
        this.json = json;
        boolean terminal = Terminal.attached();
        this.status = terminal && !json;
        this.colour = status && System.getenv("NO_COLOR") == null;
        this.outlet = new Outlet("view", this::print);
    }

    private void print(String line) {
        if (line.startsWith(STATUS)) {
            String text = line.substring(1);
            out.print("\r" + text + " ".repeat(Math.max(0, statusWidth - text.length())));
            out.flush();
            statusWidth = text.length();
            return;
        }
        if (statusWidth > 0) {
            out.print("\r" + " ".repeat(statusWidth) + "\r");
            statusWidth = 0;
        }
        if (line.startsWith(TO_ERR)) {
            err.println(line.substring(1));
        } else {
            out.println(line);
        }
        out.flush();
    }

    @Override
    public void event(TrackerEvent event) {
        if (json) {
            outlet.offer(EventJson.line(event));
            return;
        }
        String line = EventText.line(event, inForce);
        outlet.offer(colour && EventText.isFault(event) ? "\u001b[1m" + line + "\u001b[0m" : line);
    }

    @Override
    public void sample(AircraftState state, Progress now) {
        long nowNs = System.nanoTime();
        if (!status || nowNs - lastStatusNs < STATUS_EVERY_NS) {
            return;
        }
        lastStatusNs = nowNs;
        StringBuilder text = new StringBuilder(EventText.clock(now.timeS()))
                .append("  ")
                .append(now.phase().words());
        now.crossTrackNm()
                .ifPresent(cross -> text.append(String.format(
                        Locale.ROOT, "  line %.2f NM to the %s", Math.abs(cross), cross > 0 ? "left" : "right")));
        now.nextFix().ifPresent(fix -> text.append("  next ").append(fix));
        now.toGoNm().ifPresent(togo -> text.append(String.format(Locale.ROOT, " %.1f NM", togo)));
        outlet.offer(STATUS + text);
    }

    @Override
    public void amended(AmendedRoute route) {
        inForce = Optional.of(route);
        route.warnings().forEach(warning -> diagnostic(warning.code() + ": " + warning.text()));
        route.clearance().notes().forEach(note -> diagnostic("note: " + note));
        if (json) {
            return;
        }
        route.course()
                .ifPresent(course -> outlet.offer(String.format(
                        Locale.ROOT,
                        "           course to set %03.0f %s %s",
                        course.courseToSet().deg(),
                        course.direction(),
                        course.station().ident())));
        route.intercept()
                .ifPresent(met -> outlet.offer(String.format(
                        Locale.ROOT,
                        "           meets the line in %.1f NM, %.1f min, at %.0f degrees; turn %s, lead %.2f NM",
                        met.distanceNm(),
                        met.minutes(),
                        met.angleDeg(),
                        met.turnsRight() ? "right" : "left",
                        met.leadNm())));
        route.computedFix()
                .ifPresent(fix -> outlet.offer(String.format(
                        Locale.ROOT,
                        "           computed fix %s at %.5f, %.5f on %s, %s-%s; there turn %s %.0f degrees",
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
        diagnostic(EventText.clock(timeS) + "  a clearance could not be issued: " + why);
    }

    @Override
    public void note(String text) {
        if (!json) {
            outlet.offer("           " + text);
        }
    }

    void diagnostic(String text) {
        outlet.offer(TO_ERR + "rejoin: " + text);
    }

    void line(String text) {
        outlet.offer(text);
    }

    void grade(Grade grade, String standardTitle) {
        if (json) {
            outlet.offer(gradeLine(grade));
            return;
        }
        outlet.offer("");
        GradeCard.lines(grade, standardTitle).forEach(outlet::offer);
        outlet.offer("");
        cautions().forEach(outlet::offer);
    }

    static List<String> cautions() {
        return List.of(
                Rejoin.CAUTION,
                "A home simulator gives no logged instrument time, recency or check unless that very device is approved.");
    }

    private static String gradeLine(Grade grade) {
        StringWriter text = new StringWriter();
        try (JsonGenerator generator = new JsonFactory().createGenerator(text)) {
            generator.writeStartObject();
            generator.writeFieldName("grade");
            GradeJson.write(grade, generator);
            generator.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    @Override
    public void close() {
        outlet.close();
        if (outlet.dropped() > 0) {
            err.println("rejoin: " + outlet.dropped() + " lines could not be shown: the terminal was too slow");
        }
    }
}
