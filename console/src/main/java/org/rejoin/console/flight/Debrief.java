package org.rejoin.console.flight;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.feed.SeatChoice;
import org.rejoin.bridge.feed.Seats;
import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.Capture;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

/**
 * A recording flown again through the same feed, tracker and grader, on the caller's thread.
 *
 * @param events in order of time
 * @param grade of the flight
 * @param set graded against
 * @param notes about the recording and the feed
 * @param began when the aircraft was first heard, by the clock of the machine that captured it
 * @param date of the magnetic model
 */
public record Debrief(
        List<TrackerEvent> events, Grade grade, ToleranceSet set, List<String> notes, Instant began, LocalDate date) {

    /**
     * Grades a capture.
     *
     * @param capture file of datagrams
     * @param lesson that was flown
     * @param formats to recognise, in this order
     * @param choice which aircraft
     * @param watchers also told as the flight goes by
     * @return events and grade
     * @throws IOException if the capture cannot be read or holds no datagram; one line
     */
    public static Debrief of(
            Path capture, Lesson lesson, List<WireFormat> formats, SeatChoice choice, List<FlightDesk.Watcher> watchers)
            throws IOException {
        Capture.Contents contents = Capture.readAll(capture);
        List<String> notes = new ArrayList<>();
        contents.tear().ifPresent(tear -> notes.add(capture.getFileName() + ": " + tear.text()));
        contents.skipped().ifPresent(skipped -> notes.add(capture.getFileName() + ": " + skipped));
        if (contents.datagrams().isEmpty()) {
            throw new IOException(capture + " holds no UDP datagram: nothing to grade"
                    + (notes.isEmpty() ? "" : " (" + String.join("; ", notes) + ")"));
        }
        ToleranceSet set = ToleranceSet.read(lesson.standard());
        LocalDate date = lesson.date()
                .orElseGet(
                        () -> Instant.ofEpochMilli(contents.datagrams().get(0).receivedMicros() / 1000)
                                .atOffset(ZoneOffset.UTC)
                                .toLocalDate());
        List<FlightDesk.Watcher> all = new ArrayList<>(watchers);
        all.add(new FlightDesk.Watcher() {
            @Override
            public void event(TrackerEvent event) {}

            @Override
            public void note(String text) {
                notes.add(text);
            }

            @Override
            public void problem(double timeS, String why) {
                notes.add("a clearance could not be issued: " + why);
            }
        });
        Wiring wiring = new Wiring();
        FlightDesk desk = new FlightDesk(lesson, set, date, wiring::formatOf, all);
        Seats seats = new Seats(formats, choice, desk);
        wiring.seats = seats;
        for (Datagram datagram : contents.datagrams()) {
            seats.accept(datagram);
        }
        seats.finish();
        desk.finish();
        if (desk.events().isEmpty()) {
            throw new IOException(capture + " holds " + contents.datagrams().size()
                    + " datagrams but no sample of an aircraft in a known format: nothing to grade");
        }
        return new Debrief(
                desk.events(), desk.grade(), set, List.copyOf(notes), wiring.began(contents.datagrams()), date);
    }

    /** Desk and seats need each other; the seats are there before the first sample is. */
    private static final class Wiring {
        @org.jspecify.annotations.Nullable
        Seats seats;

        @org.jspecify.annotations.Nullable
        InetSocketAddress followed;

        /** The first datagram of the sender that is followed; others may have used the port before. */
        Instant began(List<Datagram> datagrams) {
            return datagrams.stream()
                    .filter(datagram -> datagram.sender().equals(followed))
                    .findFirst()
                    .or(() -> datagrams.stream().findFirst())
                    .map(datagram -> Instant.EPOCH.plus(datagram.receivedMicros(), ChronoUnit.MICROS))
                    .orElseThrow();
        }

        /** Asked once, for the aircraft that is followed. */
        Optional<String> formatOf(org.rejoin.bridge.feed.SeatKey key) {
            Seats all = seats;
            return all == null ? Optional.empty() : all.formatOf(key);
        }
    }
}
