package org.rejoin.console.report;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.log.EventText;

/** All that a report tells of. */
public record DebriefedFlight(Lesson lesson, Debrief debrief, Origin origin) {

    private static final DateTimeFormatter UTC = DateTimeFormatter.ofPattern(
                    "yyyy-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    /**
     * What a report can be recomputed from: SHA-256 of the capture file, the text of the lesson and the chart, 64
     * hexadecimal digits each, name and version of the program, and the arguments of the command with RECORDING and DIR
     * in place of paths.
     */
    public record Origin(
            String captureSha256, String lessonSha256, String chartSha256, String version, String arguments) {}

    FlightRecord record() {
        return debrief.record();
    }

    List<Point> samples() {
        return debrief.record().points().toList();
    }

    /** An event as a line of the log. */
    String line(FlightEvent event) {
        return EventText.line(event, record().inForce(event.timeS()).route());
    }

    /**
     * When a moment of the flight was, seconds since the first sample, by the clock of the machine that captured it: as
     * XML Schema's dateTime, to the millisecond.
     */
    String utc(double timeS) {
        return UTC.format(debrief.began().plusMillis(Math.round(timeS * 1000)));
    }
}
