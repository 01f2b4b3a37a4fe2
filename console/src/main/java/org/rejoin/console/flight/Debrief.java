package org.rejoin.console.flight;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.Capture;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

/**
 * An aircraft of a recording, flown again through the same feed, tracker and grader, on the caller's thread.
 *
 * @param notes about the recording and the feed
 * @param began when its sender was first heard, by the clock of the machine that captured it
 * @param ended when the last was heard of it, by the same clock: a flight faster than time lasts longer than it took
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
        Instant ended,
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
     * @param said what the instructor said and wrote in flight
     * @return record and grade of each, at least one, in order of appearance
     * @throws IOException if the capture cannot be read or holds no datagram or no aircraft; one line
     */
    public static List<Debrief> of(
            Path capture, Lesson lesson, List<WireFormat> formats, Following following, Said said) throws IOException {
        return new Replay(lesson, formats, following, said).of(capture);
    }

    /** Flies a recording again on the caller's thread; holds one datagram of it at a time. */
    private static final class Replay {

        private final Lesson lesson;
        private final List<WireFormat> formats;
        private final Following following;
        private final Said said;
        private final Map<FlownAircraft, List<String>> notes = new HashMap<>();
        private final Map<InetSocketAddress, Instant> began = new HashMap<>();
        private final Map<FlownAircraft, Instant> ended = new HashMap<>();
        private Instant now = Instant.EPOCH;

        Replay(Lesson lesson, List<WireFormat> formats, Following following, Said said) {
            this.lesson = lesson;
            this.formats = formats;
            this.following = following;
            this.said = said;
        }

        List<Debrief> of(Path file) throws IOException {
            ToleranceSet set = ToleranceSet.read(lesson.standard());
            try (Capture capture = Capture.open(file)) {
                Optional<Datagram> next = capture.next();
                if (next.isEmpty()) {
                    List<String> about = about(file, capture);
                    throw new IOException(file + " holds no UDP datagram: nothing to grade"
                            + (about.isEmpty() ? "" : " (" + String.join("; ", about) + ")"));
                }
                FlightDay day = new FlightDay(lesson);
                day.heard(next.get());
                LocalDate date = day.get();
                LessonFlights flights =
                        new LessonFlights(lesson, set, day, following, FlightRecord::whole, this::watched, said);
                AircraftSorter sorter = new AircraftSorter(formats, flights.choice(), flights);
                long count = 0;
                for (; next.isPresent(); next = capture.next()) {
                    Datagram datagram = next.get();
                    heard(datagram);
                    sorter.accept(datagram);
                    count++;
                }
                sorter.finish();
                flights.finish();
                if (flights.flown().isEmpty()) {
                    throw new IOException(file + " holds " + count
                            + " datagrams but "
                            + flights.missed()
                                    .orElseGet(() -> "no sample of an aircraft in a known format" + why(sorter))
                            + ": nothing to grade");
                }
                List<String> about = about(file, capture);
                about.addAll(NotTaken.of(sorter));
                flights.missed().ifPresent(about::add);
                return flights.flown().stream()
                        .map(aircraft -> debrief(aircraft, about, set, date))
                        .toList();
            }
        }

        /** Others may have used the port before; a sender flood must not fill the memory. */
        private void heard(Datagram datagram) {
            now = Instant.EPOCH.plus(datagram.receivedMicros(), ChronoUnit.MICROS);
            if (began.size() < AircraftSorter.MOST) {
                began.putIfAbsent(datagram.sender(), now);
            }
        }

        private Debrief debrief(FlownAircraft aircraft, List<String> about, ToleranceSet set, LocalDate date) {
            List<String> all = new ArrayList<>(about);
            all.addAll(notes.getOrDefault(aircraft, List.of()));
            all.addAll(FlightDoubts.of(aircraft.record(), lesson));
            Instant first = began.getOrDefault(aircraft.key().sender(), Instant.EPOCH);
            return new Debrief(
                    aircraft.name(),
                    aircraft.record(),
                    said.to(aircraft.key().label()),
                    aircraft.grade(),
                    set,
                    all,
                    first,
                    ended.getOrDefault(aircraft, first),
                    date);
        }

        private List<LessonFlights.Watcher> watched(FlownAircraft aircraft) {
            List<String> heard = new ArrayList<>();
            notes.put(aircraft, heard);
            return List.of(new Notes(heard), new LessonFlights.Watcher() {
                @Override
                public void heard(AircraftState unused) {
                    ended.merge(aircraft, now, (one, other) -> one.isAfter(other) ? one : other);
                }
            });
        }

        /** What was found where something else was expected. */
        private static String why(AircraftSorter sorter) {
            return NotTaken.firstFault(sorter).map(fault -> " (" + fault + ")").orElse("");
        }

        private static List<String> about(Path file, Capture capture) {
            List<String> about = new ArrayList<>();
            capture.tear().ifPresent(tear -> about.add(file.getFileName() + ": " + tear));
            capture.missing().ifPresent(missing -> about.add(file.getFileName() + ": " + missing));
            capture.skipped().ifPresent(skipped -> about.add(file.getFileName() + ": " + skipped));
            return about;
        }

        private record Notes(List<String> notes) implements LessonFlights.Watcher {
            @Override
            public void note(String text) {
                notes.add(text);
            }

            @Override
            public void notIssued(Entry.NotIssued notIssued) {
                notes.add("a clearance could not be issued: " + notIssued.why());
            }
        }
    }
}
