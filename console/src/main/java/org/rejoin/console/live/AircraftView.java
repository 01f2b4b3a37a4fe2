package org.rejoin.console.live;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.EventKind;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.log.EventText;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** One aircraft of a flight in words: what happens, and what each clearance comes to. */
public class AircraftView implements LessonFlights.Watcher {

    private static final String INDENT = "           ";

    private final Screen screen;
    private final String prefix;
    private Optional<AmendedRoute> inForce = Optional.empty();
    /** Said below the words of the clearance, which the record has after the route. */
    private List<String> workedOut = List.of();

    public interface Screen {
        void line(String text);

        /** A line that must not be overlooked. */
        default void strongLine(String text) {
            line(text);
        }

        /** What the pilot should know and did not do. */
        default void diagnostic(String text) {
            line(INDENT + text);
        }
    }

    /** A view. */
    public AircraftView(Screen screen, String prefix) {
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
        if (happened.event().kind() == EventKind.CLEARANCE_ISSUED
                || happened.event().kind() == EventKind.CLEARANCE_AS_BEFORE) {
            workedOut.forEach(each -> screen.line(prefix + INDENT + each));
            workedOut = List.of();
        }
    }

    final String status(Point now) {
        StringBuilder text = new StringBuilder(Words.clock(now.timeS()))
                .append("  ")
                .append(now.phase().words());
        if (now.hasLine()) {
            text.append(Words.say(
                    "  line %.2f NM to the %s", Math.abs(now.crossTrackNm()), Words.side(-now.crossTrackNm())));
        }
        inForce.filter(route ->
                        now.legIndex() >= 0 && now.legIndex() < route.legs().size())
                .flatMap(route -> route.legs().get(now.legIndex()).endsAt())
                .ifPresent(fix -> text.append("  next ").append(fix.ident()));
        if (!Double.isNaN(now.toGoNm())) {
            text.append(Words.say(" %.1f NM", now.toGoNm()));
        }
        return text.toString();
    }

    /** What is doubtful about a clearance from here. */
    final void warnings(AmendedRoute route) {
        route.warnings()
                .forEach(warning -> screen.diagnostic(prefix + warning.code() + ": " + warning.text()
                        + (warning.code() == Warning.Code.NOT_FOLLOWED ? "; " + Words.WATCH_IT : "")));
        route.clearance().notes().forEach(note -> screen.diagnostic(prefix + "note: " + note));
    }

    @Override
    public void withdrawn(Entry.Withdrawn withdrawn) {
        inForce = Optional.empty();
    }

    @Override
    public void restored(Entry.Restored restored) {
        inForce = Optional.of(restored.route());
    }

    @Override
    public void issued(Entry.Issued issued) {
        AmendedRoute route = issued.route();
        warnings(route);
        inForce = Optional.of(route);
        if (route.clearance().routeStays()) {
            return; // said when it was cleared
        }
        workedOut = RouteWords.lines(route);
    }

    @Override
    public void notIssued(Entry.NotIssued notIssued) {
        screen.diagnostic(
                prefix + Words.clock(notIssued.timeS()) + "  a clearance could not be issued: " + notIssued.why());
    }

    @Override
    public void note(String text) {
        screen.line(prefix + INDENT + text);
    }
}
