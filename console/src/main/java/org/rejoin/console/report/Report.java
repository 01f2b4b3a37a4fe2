package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.console.flight.Debrief;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.Sha256;

/** The debrief of a flight: a page for people, and the flight in open formats for other programs. */
public record Report(DebriefedFlight flight, Heading heading) {

    static final String NOT_LOGGED =
            "A home simulator counts for nothing in a logbook: no instrument time, no recency, no check, unless that very"
                    + " device is approved for it. This page is a training record.";

    /**
     * Whose report it is, and who vouches for it.
     *
     * @param pilot name as kept; empty text if nobody said
     * @param practicePilot habit of the practice aircraft, where that flew it and no person
     * @param attempt identifier in the record book; empty text outside of one
     * @param mark the instructor's own, beside the computed one
     * @param signed signatures under it, the last one counts
     */
    public record Heading(
            String pilot,
            Optional<String> practicePilot,
            String instructor,
            String attempt,
            Optional<Mark> mark,
            List<Signed> signed) {

        /** Of a recording that is in no record book. */
        public static Heading of(Optional<String> practicePilot) {
            return new Heading("", practicePilot, "", "", Optional.empty(), List.of());
        }

        public Heading {
            signed = List.copyOf(signed);
        }

        /** The instructor's own mark, 0 to 100, and why it is another. */
        public record Mark(double score, String by, String reason) {}

        /** A signature; empty texts where there is no certificate or remark. It matches where nothing has changed since. */
        public record Signed(String name, String certificate, Instant at, String remark, boolean matches) {}
    }

    /**
     * A report with a name on it.
     *
     * @param capture file the debrief was made from, to name it by its SHA-256
     * @param arguments that repeat the debrief, with RECORDING and DIR in place of paths
     * @param heading whose report it is, and who vouches for it
     */
    public static Report of(
            Lesson lesson, Debrief debrief, Path capture, String version, String arguments, Heading heading)
            throws IOException {
        DebriefedFlight.Origin origin = new DebriefedFlight.Origin(
                Sha256.hex(capture),
                Sha256.hex(lesson.files().lessonYaml().getBytes(StandardCharsets.UTF_8)),
                chartHash(lesson.files().chart()),
                version,
                arguments);
        return new Report(new DebriefedFlight(lesson, debrief, origin), heading);
    }

    private static String chartHash(Lesson.KeptChart chart) throws IOException {
        return chart instanceof Lesson.KeptChart.Octets kept
                ? Sha256.hex(kept.octets())
                : Sha256.hex(((Lesson.KeptChart.Copy) chart).file());
    }

    /** The page for people: HTML that needs nothing but itself. */
    public String page() {
        return new ReportPage(flight, heading).html();
    }

    /** What a file of the report holds. */
    public interface Content {

        /** Writes it. */
        void write(Writer out) throws IOException;
    }

    /**
     * The page and the exports by file name, in this order: {@code report.html}, {@code track.geojson}, {@code
     * track.gpx}, {@code track.kml}, {@code events.csv} and {@code samples.csv}, to be written in UTF-8.
     */
    public Map<String, Content> files() {
        Map<String, Content> files = new LinkedHashMap<>();
        files.put("report.html", out -> out.write(page()));
        files.put("track.geojson", out -> TrackGeoJson.write(flight, out));
        files.put("track.gpx", out -> TrackGpx.write(flight, out));
        files.put("track.kml", out -> TrackKml.write(flight, out));
        files.put("events.csv", out -> FlightTables.events(flight, out));
        files.put("samples.csv", out -> FlightTables.samples(flight, out));
        return files;
    }
}
