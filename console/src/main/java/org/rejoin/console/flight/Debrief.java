package org.rejoin.console.flight;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Function;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.protocol.WireFormat;

/**
 * An aircraft of a recording, flown again through the same feed, tracker and grader, on the caller's thread.
 *
 * @param seat what it is called
 * @param events in order of time
 * @param said by the instructor in flight
 * @param grade of the flight
 * @param set graded against
 * @param notes about the recording and the feed
 * @param began when its sender was first heard, by the clock of the machine that captured it
 * @param date of the magnetic model
 */
public record Debrief(
        SeatName seat,
        List<FlightEvent> events,
        InstructorFile.Said said,
        Grade grade,
        ToleranceSet set,
        List<String> notes,
        Instant began,
        LocalDate date) {

    /** Copies the lists. */
    public Debrief {
        events = List.copyOf(events);
        notes = List.copyOf(notes);
    }

    /**
     * Grades a capture.
     *
     * @param capture file of datagrams
     * @param lesson that was flown
     * @param formats to recognise, in this order
     * @param following which aircraft
     * @param watchers also told as an aircraft's flight goes by
     * @return events and grade of each, at least one, in order of appearance
     * @throws IOException if the capture cannot be read or holds no datagram or no aircraft; one line
     */
    public static List<Debrief> of(
            Path capture,
            Lesson lesson,
            List<WireFormat> formats,
            Following following,
            Function<FlownAircraft, List<FlightDesk.Watcher>> watchers)
            throws IOException {
        return of(capture, lesson, formats, following, InstructorFile.Said.NOTHING, watchers);
    }

    /**
     * Grades a capture.
     *
     * @param capture file of datagrams
     * @param lesson that was flown
     * @param formats to recognise, in this order
     * @param following which aircraft
     * @param said what the instructor said and wrote in flight
     * @param watchers also told as an aircraft's flight goes by
     * @return events and grade of each, at least one, in order of appearance
     * @throws IOException if the capture cannot be read or holds no datagram or no aircraft; one line
     */
    public static List<Debrief> of(
            Path capture,
            Lesson lesson,
            List<WireFormat> formats,
            Following following,
            InstructorFile.Said said,
            Function<FlownAircraft, List<FlightDesk.Watcher>> watchers)
            throws IOException {
        return new Replay(lesson, formats, following, said, watchers).of(capture);
    }
}
