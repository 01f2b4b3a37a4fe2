package org.rejoin.console.flight;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;

import org.rejoin.bridge.tracker.TrackerEvent;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeJson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.log.EventJson;
import org.rejoin.console.recording.Recorder;
import org.rejoin.console.recording.RecordingFolder;
import org.rejoin.protocol.Datagram;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import org.jspecify.annotations.Nullable;

/** What a flight leaves behind: raw datagrams, lesson, chart, log and grade. A disk in trouble never stops the flight. */
public final class Recording implements AutoCloseable {

    private final RecordingFolder folder;
    private final Recorder recorder;
    private final Outlet log;
    private final @Nullable BufferedWriter logWriter;
    private final Consumer<String> warnings;
    private final AtomicBoolean logFailed = new AtomicBoolean();

    private Recording(
            RecordingFolder folder, Recorder recorder, @Nullable BufferedWriter logWriter, Consumer<String> warnings) {
        this.folder = folder;
        this.recorder = recorder;
        this.logWriter = logWriter;
        this.warnings = warnings;
        this.log = new Outlet("log", this::writeLog);
    }

    /**
     * Starts a recording.
     *
     * @param directory to write to; made if it does not exist
     * @param lesson flown, kept beside the datagrams
     * @param listening address and port of the feed
     * @param warnings takes one line for each kind of trouble
     * @return the recording; close it
     * @throws IOException if the directory cannot be used; one line
     */
    public static Recording start(Path directory, Lesson lesson, InetSocketAddress listening, Consumer<String> warnings)
            throws IOException {
        RecordingFolder folder = RecordingFolder.create(directory);
        folder.writeLesson(withOwnChart(lesson.files().lessonYaml()));
        keep(folder, lesson.files().chart());
        Recorder recorder = new Recorder(folder.newCapture(listening), warnings);
        BufferedWriter log = Files.newBufferedWriter(folder.logFile(), StandardCharsets.UTF_8);
        return new Recording(folder, recorder, log, warnings);
    }

    private static void keep(RecordingFolder folder, Lesson.KeptChart chart) throws IOException {
        if (chart instanceof Lesson.KeptChart.Octets small) {
            folder.writeChart(small.octets());
        } else if (chart instanceof Lesson.KeptChart.Copy large) {
            folder.copyChart(large.file());
        }
    }

    /** The lesson beside a recording names the chart that was kept with it. */
    private static String withOwnChart(String lessonYaml) {
        return lessonYaml.replaceAll("(?m)^chart:.*$", "chart: chart");
    }

    /**
     * Records a datagram; returns at once.
     *
     * @param datagram as received
     */
    public void record(Datagram datagram) {
        recorder.record(datagram);
    }

    /**
     * Logs an event; returns at once.
     *
     * @param event in order of time
     */
    public void log(TrackerEvent event) {
        log.offer(EventJson.line(event));
    }

    private void writeLog(String line) {
        BufferedWriter writer = logWriter;
        if (writer == null || logFailed.get()) {
            return;
        }
        try {
            writer.write(line);
            writer.write('\n');
            writer.flush();
        } catch (IOException e) {
            if (logFailed.compareAndSet(false, true)) {
                warnings.accept("log.jsonl cannot be written any more: " + e.getMessage());
            }
        }
    }

    /**
     * Writes the grade, and the log again if the disk was too slow for some of it.
     *
     * @param grade final
     * @param events all of them
     */
    public void finish(Grade grade, List<TrackerEvent> events) {
        close();
        try {
            if (log.dropped() > 0) {
                Files.write(
                        folder.logFile(), events.stream().map(EventJson::line).toList(), StandardCharsets.UTF_8);
            }
            folder.writeGrade(gradeJson(grade));
        } catch (IOException e) {
            warnings.accept(e.getMessage() == null ? e.toString() : e.getMessage());
        }
        if (recorder.missing() > 0) {
            warnings.accept(recorder.missing() + " datagrams are missing from the recording: the disk was too slow");
        }
    }

    /**
     * A grade as the text of {@code grade.json}.
     *
     * @param grade any
     * @return one JSON object and a line end
     */
    public static String gradeJson(Grade grade) {
        StringWriter text = new StringWriter();
        try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
            json.useDefaultPrettyPrinter();
            GradeJson.write(grade, json);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text + "\n";
    }

    @Override
    public void close() {
        recorder.close();
        log.close();
        try {
            if (logWriter != null) {
                logWriter.close();
            }
        } catch (IOException e) {
            warnings.accept("log.jsonl cannot be closed: " + e.getMessage());
        }
    }
}
