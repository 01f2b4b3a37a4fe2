package org.rejoin.console.flight;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import java.util.stream.Collectors;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.json.Json;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonText;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.recording.CaptureWriter;
import org.rejoin.console.recording.FolderLock;
import org.rejoin.console.recording.Recorder;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.console.recording.RecordingFolder.Part;
import org.rejoin.protocol.Datagram;

/**
 * What a flight leaves behind: raw datagrams, lesson, chart, and a log and a grade for each aircraft. A disk in trouble
 * never stops the flight.
 */
public final class Recording implements AutoCloseable {

    /** A full disk has something to say of each of a thousand aircraft. */
    private static final int MOST_TROUBLES = 3;

    private record LogLine(RecordingFolder place, String line) {}

    private final RecordingFolder folder;
    private final FolderLock lock;
    private final boolean fresh;
    private final boolean several;
    private final Recorder recorder;
    private final OutputQueue<LogLine> log;
    private final Consumer<String> warnings;
    private final Set<Path> begun = new HashSet<>();
    private final AtomicBoolean logFailed = new AtomicBoolean();

    private Recording(
            RecordingFolder folder,
            FolderLock lock,
            boolean fresh,
            boolean several,
            Recorder recorder,
            Consumer<String> warnings) {
        this.folder = folder;
        this.lock = lock;
        this.fresh = fresh;
        this.several = several;
        this.recorder = recorder;
        this.warnings = warnings;
        this.log = new OutputQueue<>("log", this::writeLog);
    }

    /**
     * Starts a recording.
     *
     * @param setup kept too; of several aircraft each has its log and grade in a directory of its own
     * @param listening address and port of the feed
     * @param warnings takes one line for each kind of trouble
     * @throws IOException if the folder cannot be written to; one line
     */
    public static Recording start(
            RecordingFolder folder,
            Lesson lesson,
            FeedSetup setup,
            InetSocketAddress listening,
            Consumer<String> warnings)
            throws IOException {
        FolderLock lock = folder.lock(true);
        try {
            Map<String, String> members = new HashMap<>();
            members.put("chart", Part.CHART.fileName());
            if (!ToleranceSet.isBuiltIn(lesson.standard())) {
                folder.write(Part.STANDARD, Files.readAllBytes(Path.of(lesson.standard())));
                members.put("standard", Part.STANDARD.fileName());
            }
            folder.write(Part.LESSON, LessonText.with(lesson.files().lessonYaml(), members));
            keep(folder, lesson.files().chart());
            setup.keep(folder);
            Recorder recorder = new Recorder(CaptureWriter.create(folder.capture(), listening), warnings);
            return new Recording(folder, lock, true, setup.following().several(), recorder, warnings);
        } catch (IOException | RuntimeException e) {
            folder.forget();
            lock.close();
            throw e;
        }
    }

    /**
     * Goes on with a recording; a torn tail of its capture is cut off. Its log is written afresh, by flying again what is
     * in the capture.
     *
     * @param listening address and port of the feed
     * @throws IOException if it cannot be gone on with; one line
     */
    public static Recording resume(
            RecordingFolder folder, FeedSetup setup, InetSocketAddress listening, Consumer<String> warnings)
            throws IOException {
        FolderLock lock = folder.lock(false);
        try {
            Recorder recorder = new Recorder(CaptureWriter.append(folder.capture(), listening), warnings);
            return new Recording(folder, lock, false, setup.following().several(), recorder, warnings);
        } catch (IOException | RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    private static void keep(RecordingFolder folder, Lesson.KeptChart chart) throws IOException {
        if (chart instanceof Lesson.KeptChart.Octets small) {
            folder.write(Part.CHART, small.octets());
        } else if (chart instanceof Lesson.KeptChart.Copy large) {
            folder.copyChart(large.file());
        }
    }

    /** Records a datagram; returns at once. */
    public void record(Datagram datagram) {
        recorder.record(datagram);
    }

    /** {@return why nothing is recorded just now; empty where all is; may be asked from any thread} */
    public String refusing() {
        return recorder.refusing();
    }

    /** Keeps the log of an aircraft; what is given is to be told of its events, and returns at once. */
    public LessonFlights.Watcher log(FlownAircraft aircraft) {
        RecordingFolder place = place(aircraft);
        return new LessonFlights.Watcher() {
            @Override
            public void happened(Entry.Happened happened) {
                log.offer(new LogLine(place, EventJson.line(happened.event())));
            }
        };
    }

    private RecordingFolder place(FlownAircraft aircraft) {
        return several ? folder.seat(aircraft.name().directory()) : folder;
    }

    /** Opened for each line: events are rare, and a thousand aircraft would need a thousand open files. */
    private void writeLog(LogLine entry) {
        if (logFailed.get()) {
            return;
        }
        try {
            if (begun.add(entry.place().file(Part.LOG))) {
                entry.place().make();
                Files.writeString(
                        entry.place().file(Part.LOG),
                        "",
                        StandardOpenOption.CREATE,
                        StandardOpenOption.TRUNCATE_EXISTING,
                        StandardOpenOption.WRITE,
                        LinkOption.NOFOLLOW_LINKS);
            }
            Files.writeString(
                    entry.place().file(Part.LOG),
                    entry.line() + "\n",
                    StandardOpenOption.APPEND,
                    LinkOption.NOFOLLOW_LINKS);
        } catch (IOException e) {
            if (logFailed.compareAndSet(false, true)) {
                warnings.accept("the log cannot be written any more: " + e.getMessage());
            }
        }
    }

    /**
     * Writes the grades, and a log again where some of it did not reach the disk.
     *
     * @return whether all of the flight is on the disk now
     */
    public boolean finish(List<FlownAircraft> flown) {
        closeStreams();
        Set<String> troubles = new LinkedHashSet<>();
        for (FlownAircraft aircraft : flown) {
            try {
                finish(aircraft);
            } catch (IOException e) {
                troubles.add(e.getMessage() == null ? e.toString() : e.getMessage());
            }
        }
        troubles.stream().limit(MOST_TROUBLES).forEach(warnings);
        if (troubles.size() > MOST_TROUBLES) {
            warnings.accept("the same for " + (troubles.size() - MOST_TROUBLES) + " more files");
        }
        if (recorder.missing() > 0) {
            warnings.accept(recorder.missing() + " datagrams are missing from the recording: " + recorder.whyMissing());
        }
        close();
        return troubles.isEmpty() && recorder.missing() == 0;
    }

    private void finish(FlownAircraft aircraft) throws IOException {
        RecordingFolder place = place(aircraft);
        place.make();
        if (log.dropped() > 0 || logFailed.get()) {
            place.write(Part.LOG, logText(aircraft.events()));
        }
        place.write(Part.GRADE, gradeJson(aircraft.grade()));
    }

    /** The flight did not begin: closes all, and leaves a place where it can be begun again. */
    public void abandon() {
        closeStreams();
        try {
            if (fresh) {
                folder.forget();
            }
        } catch (IOException e) {
            warnings.accept(folder.capture() + " could not be removed: " + e.getMessage());
        }
        close();
    }

    /**
     * Events as the text of {@code log.jsonl}.
     *
     * @param events in order of time
     * @return one JSON object a line
     */
    public static String logText(List<FlightEvent> events) {
        return events.stream().map(event -> EventJson.line(event) + "\n").collect(Collectors.joining());
    }

    /** A grade as the text of {@code grade.json}: one JSON object and a line end. */
    public static String gradeJson(Grade grade) {
        return Json.value(json -> {
                    json.useDefaultPrettyPrinter();
                    GradeJson.write(grade, json);
                })
                + "\n";
    }

    private void closeStreams() {
        recorder.close();
        log.close();
    }

    @Override
    public void close() {
        closeStreams();
        try {
            lock.close();
        } catch (IOException e) {
            warnings.accept("the lock of the recording could not be given back: " + e.getMessage());
        }
    }
}
