package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.SecureRandom;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.book.Attempt;
import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.book.AttemptQuery;
import org.rejoin.console.book.AttemptRow;
import org.rejoin.console.book.HomeLock;
import org.rejoin.console.book.Pilot;
import org.rejoin.console.book.RecordBook;
import org.rejoin.console.book.Signature;
import org.rejoin.console.drill.FlownClearances;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.json.JsonNumbers;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.recording.Durable;
import org.rejoin.console.report.Report;
import org.rejoin.console.room.RoomRecords;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ObjectNode;
import picocli.CommandLine.Model.CommandSpec;

/** Brings recordings into the record book: graded, with aircraft, begin, end and duration as the recording has them. */
record BookEntry(CommandSpec spec, RecordBook book) implements RoomRecords.Grading {

    private static final String CAPTURE = "flight.pcap";

    /** Of the book, not of the recording. */
    private static final Set<String> NOT_COPIED = Set.of("attempt.json", "signatures.jsonl", "marks.jsonl");

    /** Who took and who gave the lesson, and on which device, as the user says; each empty if nobody said. */
    record People(String pilot, String instructor, String device) {}

    /** A new attempt that is about to be flown; its folder is empty but for who flies. */
    AttemptFolder begin(String lesson, People people, Instant now) throws BadInput, IOException {
        return book.begin(attempt(lesson, "", people, now, ""));
    }

    private Attempt attempt(String lesson, String aircraft, People people, Instant began, String seat) throws BadInput {
        Optional<Pilot> pilot = people.pilot().isBlank()
                ? Optional.empty()
                : Optional.of(BadInput.in(() -> book.roster().findOrAdd(people.pilot())));
        return new Attempt(
                Attempt.newId(began, new SecureRandom()),
                pilot.map(Pilot::name).orElse(""),
                pilot.map(Pilot::id).orElse(""),
                aircraft,
                lesson,
                began,
                OptionalDouble.empty(),
                spec.root().version()[0],
                people.instructor(),
                people.device(),
                seat);
    }

    /** A recording of one aircraft copied into the book, once however many programs bring it. */
    @SuppressWarnings("try") // a lock is held, not used
    AttemptFolder add(Path recording, People people, WhichAircraft which) throws Exception {
        try (HomeLock ignored = BadInput.in(() -> book.home().adding())) {
            return addAlone(recording, people, which);
        }
    }

    private AttemptFolder addAlone(Path recording, People people, WhichAircraft which) throws Exception {
        if (!Files.isRegularFile(recording.resolve(CAPTURE))
                || !Files.isRegularFile(recording.resolve("lesson.yaml"))) {
            throw new BadInput(recording + " is no folder with flight.pcap and lesson.yaml; record with --out DIR, or"
                    + " put the lesson beside the capture");
        }
        String hash = AttemptFolder.sha256(recording.resolve(CAPTURE));
        Optional<AttemptRow> same = sameRecording(recording, hash);
        if (same.isPresent()) {
            throw new BadInput(recording + " is in the record book already, as "
                    + same.get().attempt().id()
                    + "; if another pilot flew it, give it to him on its debrief page (rejoin room)");
        }
        Flown flown = flown(recording, which);
        sayWhoFlew(flown, recording.toString());
        flown.debrief().notes().stream()
                .filter(note -> note.startsWith(CAPTURE + ": "))
                .forEach(note -> HomeOption.note(spec, recording + ": " + note));
        Attempt attempt = attempt(
                flown.graded().lesson().title(),
                flown.debrief().aircraft().label(),
                people,
                flown.debrief().began(),
                flown.seat());
        return book.put(attempt, place -> {
            copy(recording, place);
            flown.graded().write(place, flown.debrief());
            Attempt ended = attempt.ended(flownS(flown.debrief().events()), flown.over(Instant.now()))
                    .with(flown.drill());
            Durable.write(place.resolve("attempt.json"), ended.json());
        });
    }

    private void sayWhoFlew(Flown flown, String what) {
        flown.graded()
                .practicePilot()
                .ifPresent(habit -> HomeOption.note(
                        spec,
                        what + ": " + Words.flownByPractice(habit)
                                + " It counts for nobody's progress, and is not sent to a record store."));
    }

    private Optional<AttemptRow> sameRecording(Path recording, String hash) throws IOException {
        long size = Files.size(recording.resolve(CAPTURE));
        for (AttemptRow row :
                book.list(AttemptQuery.ALL, HomeOption.progress(spec)).rows()) {
            Path capture = row.folder().resolve(CAPTURE);
            if (Files.isRegularFile(capture)
                    && Files.size(capture) == size
                    && AttemptFolder.sha256(capture).equals(hash)) {
                return Optional.of(row);
            }
        }
        return Optional.empty();
    }

    /** Grades an attempt that was flown into its folder, whether its flight ended or the program did. */
    @Override
    public void end(AttemptFolder folder) throws Exception {
        if (!folder.signatures().isEmpty()) {
            throw new IOException(
                    folder.attempt().id() + " was signed before it was closed, and stays as it was signed");
        }
        Flown flown = flown(folder.place(), new WhichAircraft());
        Attempt kept = folder.attempt();
        sayWhoFlew(flown, kept.id());
        flown.graded().write(folder.place(), flown.debrief());
        folder.keep(new Attempt(
                        kept.id(),
                        kept.pilot(),
                        kept.pilotId(),
                        flown.debrief().aircraft().label(),
                        flown.graded().lesson().title(),
                        flown.debrief().began(),
                        OptionalDouble.of(flownS(flown.debrief().events())),
                        Optional.of(flown.over(Instant.now())),
                        spec.root().version()[0],
                        kept.instructor(),
                        kept.device(),
                        flown.seat(),
                        kept.more())
                .with(flown.drill()));
    }

    /** An attempt flown again, with the report that its pilot's name stands on. */
    @Override
    public Again again(AttemptFolder folder) throws Exception {
        Flown flown = flown(folder.place(), new WhichAircraft());
        Report report = Report.of(
                flown.graded().lesson(),
                flown.debrief(),
                flown.graded().folder().capture(),
                spec.root().version()[0],
                "debrief RECORDING --out DIR",
                heading(folder));
        return new Again(flown.graded().lesson(), flown.debrief(), report.page());
    }

    private static Report.Heading heading(AttemptFolder folder) throws IOException {
        Attempt attempt = folder.attempt();
        return new Report.Heading(
                attempt.pilot(),
                attempt.practicePilot(),
                attempt.instructor(),
                attempt.id(),
                folder.ownMark().map(mark -> new Report.Heading.Mark(mark.score(), mark.by(), mark.reason())),
                folder.checked().stream().map(BookEntry::signed).toList());
    }

    private static Report.Heading.Signed signed(AttemptFolder.Checked checked) {
        Signature.Words words = checked.signature().words();
        return new Report.Heading.Signed(
                words.name(),
                words.certificate(),
                checked.signature().at(),
                words.remark(),
                checked.changed().isEmpty());
    }

    private record Flown(RecordingToGrade graded, Debrief debrief) {

        String seat() {
            return graded.seat(debrief);
        }

        /**
         * When it was over, as the recording says. What was recorded as if it took its time, as the practice aircraft's
         * flight, and is to go on yet by the clock it began by, is over now.
         */
        Instant over(Instant now) {
            return debrief.began().isBefore(now) && debrief.ended().isAfter(now) ? now : debrief.ended();
        }

        /** What made it hard, as it was heard, and what it cost; and that no person flew it. */
        ObjectNode drill() {
            ObjectNode drill =
                    FlownClearances.json(debrief.record(), graded.lesson().chart());
            graded.practicePilot().ifPresent(habit -> drill.setAll(Attempt.flownByPractice(habit)));
            return drill;
        }
    }

    private Flown flown(Path recording, WhichAircraft which) throws BadInput, LessonException {
        RecordingToGrade graded = new RecordingToGrade.Options(spec, null, List.of(), which).open(recording);
        List<Debrief> debriefs = graded.debrief();
        if (debriefs.size() != 1) {
            String labels =
                    debriefs.stream().map(each -> each.aircraft().label()).collect(Collectors.joining(", "));
            throw new BadInput(
                    recording + " holds " + debriefs.size() + " aircraft (" + labels + "): name one with --aircraft");
        }
        return new Flown(graded, debriefs.get(0));
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> files = Files.walk(from)) {
            for (Path file : files.sorted().toList()) {
                Path name = from.relativize(file);
                boolean hidden =
                        !name.toString().isEmpty() && name.getName(0).toString().startsWith(".");
                if (Files.isRegularFile(file) && !hidden && !NOT_COPIED.contains(name.toString())) {
                    Path target = to.resolve(name.toString());
                    Files.createDirectories(target.resolveSibling(""));
                    Files.copy(file, target, StandardCopyOption.COPY_ATTRIBUTES);
                }
            }
        }
    }

    /** How long a flight was by its log, seconds from first to last sample, pauses left out. */
    private static double flownS(List<FlightEvent> events) {
        double last = 0;
        double paused = 0;
        double since = Double.NaN;
        for (FlightEvent event : events) {
            double timeS = JsonNumbers.rounded("time_s", event.timeS()).doubleValue();
            last = Math.max(last, timeS);
            if (event instanceof FlightEvent.SimPaused && Double.isNaN(since)) {
                since = timeS;
            } else if (event instanceof FlightEvent.SimResumed && !Double.isNaN(since)) {
                paused += timeS - since;
                since = Double.NaN;
            }
        }
        return Math.max(0, last - paused - (Double.isNaN(since) ? 0 : last - since));
    }
}
