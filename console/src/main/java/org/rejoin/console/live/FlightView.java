package org.rejoin.console.live;

import java.io.PrintWriter;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.flight.OutputQueue;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.json.Json;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.words.Words;

/**
 * A flight on the terminal: log lines as they happen, one status line where there is a terminal to draw it on, the grade
 * cards at the end; or JSON Lines. Printing happens on a thread of its own.
 */
public final class FlightView implements AircraftView.Screen, AutoCloseable {

    /** Status lines are drawn no more often, nanoseconds. */
    private static final long STATUS_EVERY_NS = 250_000_000;

    /** A longer line would wrap and could not be drawn over. */
    private static final int STATUS_WIDTH = 79;

    /** A terminal of Windows may not know the marks. */
    private static final boolean SHORT_LINES =
            System.getProperty("os.name", "").toLowerCase(Locale.ROOT).contains("windows");

    private enum Where {
        OUT,
        ERR,
        STATUS
    }

    private record Line(Where where, String text) {}

    private final PrintWriter out;
    private final PrintWriter err;
    private final boolean json;
    private final boolean several;
    private final boolean status;
    private final boolean colour;
    private final OutputQueue<Line> output;
    private final Map<String, Point.Phase> phases = new HashMap<>();
    private long lastStatusNs;
    private int statusWidth;

    /**
     * A view.
     *
     * @param several whether there may be several aircraft, so that each line must say whose it is
     * @param terminal whether there is one to draw a status line on
     */
    public FlightView(PrintWriter out, PrintWriter err, boolean json, boolean several, boolean terminal) {
        this.out = out;
        this.err = err;
        this.json = json;
        this.several = several;
        this.status = terminal && !json;
        this.colour = status && System.getenv("NO_COLOR") == null;
        this.output = new OutputQueue<>("view", this::print);
    }

    private void print(Line line) {
        if (line.where() == Where.STATUS) {
            out.print(status(line.text(), statusWidth, SHORT_LINES));
            out.flush();
            statusWidth = SHORT_LINES
                    ? Math.min(STATUS_WIDTH, line.text().length())
                    : line.text().length();
            return;
        }
        if (statusWidth > 0) {
            out.print(SHORT_LINES ? "\r" + " ".repeat(statusWidth) + "\r" : "\r\u001b[K");
            out.flush(); // before anything on the other stream
            statusWidth = 0;
        }
        PrintWriter target = line.where() == Where.ERR ? err : out;
        target.println(line.text());
        target.flush();
    }

    /**
     * A status line that is drawn over the one before: without wrapping, so that it stays one at any width of the terminal
     * (ECMA-48 EL, and the private mode 7 that terminals share).
     *
     * @param before columns of the one before
     * @param cut whether the terminal may not know these: then it is kept shorter than the narrowest usual one
     */
    public static String status(String text, int before, boolean cut) {
        if (!cut) {
            return "\r\u001b[?7l" + text + "\u001b[K\u001b[?7h";
        }
        String shown = text.substring(0, Math.min(STATUS_WIDTH, text.length()));
        return "\r" + shown + " ".repeat(Math.max(0, before - shown.length()));
    }

    LessonFlights.Watcher watcher(FlownAircraft aircraft) {
        String label = aircraft.name().label();
        String prefix = several ? label + "  " : "";
        return json ? asJson(label, prefix) : inWords(label, prefix);
    }

    private AircraftView inWords(String label, String prefix) {
        return new AircraftView(this, prefix) {
            @Override
            public void point(Point point) {
                progress(label, point, this);
            }
        };
    }

    private AircraftView asJson(String label, String prefix) {
        return new AircraftView(this, prefix) {
            @Override
            public void happened(Entry.Happened happened) {
                line(several ? EventJson.line(label, happened.event()) : EventJson.line(happened.event()));
            }

            @Override
            public void issued(Entry.Issued issued) {
                warnings(issued.route());
            }

            @Override
            public void note(String text) {
                diagnostic(prefix + text);
            }
        };
    }

    /** Where an aircraft stands; drawn when it is time to. On the feed's thread only. */
    private void progress(String label, Point now, AircraftView words) {
        if (!status) {
            return;
        }
        if (several) {
            phases.put(label, now.phase());
        }
        long nowNs = System.nanoTime();
        if (nowNs - lastStatusNs >= STATUS_EVERY_NS) {
            lastStatusNs = nowNs;
            String text = several ? summary() : words.status(now);
            output.offer(new Line(Where.STATUS, text));
        }
    }

    private String summary() {
        Map<Point.Phase, Integer> counts = new EnumMap<>(Point.Phase.class);
        phases.values().forEach(phase -> counts.merge(phase, 1, Integer::sum));
        StringBuilder text = new StringBuilder(phases.size() + " aircraft");
        counts.forEach((phase, count) -> text.append(text.indexOf(":") < 0 ? ": " : ", ")
                .append(count)
                .append(' ')
                .append(phase.words()));
        return text.toString();
    }

    @Override
    public void diagnostic(String text) {
        output.offer(new Line(Where.ERR, "rejoin: " + text));
    }

    @Override
    public void line(String text) {
        output.offer(new Line(Where.OUT, text));
    }

    @Override
    public void strongLine(String text) {
        line(colour ? "\u001b[1m" + text + "\u001b[0m" : text);
    }

    void grades(List<FlownAircraft> flown, String standardTitle) {
        for (FlownAircraft aircraft : flown) {
            if (json) {
                line(gradeLine(aircraft));
                continue;
            }
            line("");
            if (several) {
                line(aircraft.name().label());
            }
            GradeCard.lines(aircraft.grade(), standardTitle).forEach(this::line);
        }
        if (!json) {
            line("");
            cautions().forEach(this::line);
        }
    }

    public static List<String> cautions() {
        return List.of(
                Words.CAUTION,
                "A home simulator gives no logged instrument time, recency or check unless that very device is approved.");
    }

    private String gradeLine(FlownAircraft aircraft) {
        return Json.object(generator -> {
            if (several) {
                generator.writeStringField("seat", aircraft.name().label());
            }
            generator.writeFieldName("grade");
            GradeJson.write(aircraft.grade(), generator);
        });
    }

    @Override
    public void close() {
        output.close();
        if (output.dropped() > 0) {
            err.println("rejoin: " + output.dropped() + " lines could not be shown: the terminal was too slow");
        }
    }
}
