package org.rejoin.console.flight;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.WireFormat;

/**
 * An aircraft of a recording, flown again through the same feed, tracker and grader, on the caller's thread.
 *
 * @param aircraft what it is called
 * @param record of the flight, whole
 * @param said by the instructor in flight
 * @param grade of the flight
 * @param set graded against
 * @param notes about the recording and the feed
 * @param began when its sender was first heard, by the clock of the machine that captured it
 * @param date of the magnetic model
 */
public record Debrief(
        AircraftName aircraft,
        FlightRecord record,
        Said said,
        Grade grade,
        ToleranceSet set,
        List<String> notes,
        Instant began,
        LocalDate date) {

    public Debrief {
        notes = List.copyOf(notes);
    }

    /** {@return what happened, in order of time} */
    public List<FlightEvent> events() {
        return record.events();
    }

    /**
     * Grades a capture.
     *
     * @param capture file of datagrams
     * @param lesson that was flown
     * @param formats to recognise, in this order
     * @param following which aircraft
     * @param said what the instructor said and wrote in flight
     * @return record and grade of each, at least one, in order of appearance
     * @throws IOException if the capture cannot be read or holds no datagram or no aircraft; one line
     */
    public static List<Debrief> of(
            Path capture, Lesson lesson, List<WireFormat> formats, Following following, Said said) throws IOException {
        return new Replay(lesson, formats, following, said).of(capture);
    }
}
