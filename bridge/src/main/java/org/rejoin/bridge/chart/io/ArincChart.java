package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BiPredicate;

import org.rejoin.bridge.chart.AiracCycle;
import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Position;

/**
 * A chart from ARINC 424 records (supplement 18), read line by line. Record types a chart does not show are counted and
 * skipped; those it shows are read strictly.
 */
final class ArincChart {

    /** Sections and subsections are letters; anything above ASCII counts as some other. */
    private static final int LETTERS = 128;

    private final String name;
    private final Problems problems;
    private final SourceLines lines;
    private final List<ArincAirwayRecord> airways = new ArrayList<>();
    private final List<ArincHoldRecord> holds = new ArrayList<>();
    private boolean wholeFile = true;
    private final Map<String, String> shared = new HashMap<>();
    private final int[] counts = new int[LETTERS * LETTERS];
    private ArincPoints points;
    private boolean airwaysWanted = true;
    private boolean pointsWanted = true;
    private String title = "";
    private Optional<AiracCycle> cycle = Optional.empty();
    private int announced = -1;
    private int headers;
    private int unknown;
    private int total;
    private boolean fullLines;
    private boolean longLineSaid;

    ArincChart(String name, Problems problems, SourceLines lines) {
        this.name = name;
        this.problems = problems;
        this.lines = lines;
        this.points = new ArincPoints(problems, (key, position) -> true);
    }

    /** Reads the airways alone; {@link #readPoints} must follow. */
    void readAirways(InputStream in) throws IOException {
        pointsWanted = false;
        read(in);
        pointsWanted = true;
        airwaysWanted = false;
    }

    /** Reads all but the airways from the same file again, keeping the points of airways and those wanted. */
    void readPoints(InputStream in, BiPredicate<String, Position> wanted) throws IOException {
        wholeFile = false;
        var ofAirways = ArincAirways.keys(airways);
        points = new ArincPoints(problems, (key, position) -> ofAirways.contains(key) || wanted.test(key, position));
        read(in);
    }

    /**
     * The chart of all that was read.
     *
     * @throws IOException if not one record was of a kind that a chart shows
     */
    Chart chart() throws IOException {
        if (total - skipped() == 0) {
            throw new IOException(name + ": no record of a station, waypoint, airway or airport; counted: "
                    + (total + unknown == 0 ? "none" : records()));
        }
        if (announced >= 0 && announced != total && announced != total + headers) {
            problems.noted(
                    0, "the header announces " + announced + " records, the file has " + total + "; is it cut off?");
        }
        points.tell(lines);
        return new Chart(
                title.isEmpty() ? name : title,
                points.all(Station.class),
                points.all(Fix.class),
                points.all(Airport.class),
                ArincAirways.of(airways, points::of, problems, lines),
                patterns());
    }

    /** The holding patterns whose fix the chart has; of a region only those in it. */
    private List<PublishedHold> patterns() {
        List<PublishedHold> patterns = new ArrayList<>();
        for (ArincHoldRecord hold : holds) {
            Optional<PublishedHold> found = hold.at(points::of);
            if (found.isEmpty() && wholeFile) {
                problems.dropped(hold.line(), "holding pattern at " + hold.ident() + ", which the file does not have");
            }
            found.ifPresent(patterns::add);
        }
        return patterns;
    }

    ChartSource source() {
        return new ChartSource(ChartSource.Format.ARINC_424, cycle, records());
    }

    /** Reads everything in one go. */
    void read(InputStream in) throws IOException {
        ArincLines source = new ArincLines(in);
        while (source.advance()) {
            ArincRecord record = source.record();
            char type = record.at(1);
            if (type == 'S' || type == 'T') {
                if (pointsWanted) {
                    check(record, source.tooLong());
                }
                record(record);
            } else if (pointsWanted) {
                if (type == 'H' && record.at(2) == 'D' && record.at(3) == 'R') {
                    header(record);
                } else {
                    unknown++;
                }
            }
        }
    }

    private void check(ArincRecord record, boolean tooLong) {
        total++;
        if (tooLong && !longLineSaid) {
            longLineSaid = true;
            problems.noted(record.line(), "longer than 132 columns; the rest is ignored, here and in further lines");
        }
        if (record.length() >= ArincRecord.COLUMNS - 1) {
            fullLines = true;
        }
    }

    private void record(ArincRecord record) {
        boolean byAirport = (record.at(5) == 'P' || record.at(5) == 'H') && record.at(6) == ' ';
        char section = record.at(5);
        char subsection = byAirport ? record.at(13) : record.at(6);
        boolean airway = section == 'E' && subsection == 'R';
        if (pointsWanted) {
            counts[section < LETTERS && subsection < LETTERS ? section * LETTERS + subsection : 0]++;
        }
        if (!isShown(section, subsection) || !(airway ? airwaysWanted : pointsWanted)) {
            return;
        }
        boolean hold = section == 'E' && subsection == 'P';
        int continuationColumn = airway || hold ? 39 : 22;
        char continuation = record.at(continuationColumn);
        if (continuation != '0' && continuation != '1') {
            if (record.length() < continuationColumn) {
                problems.dropped(record.line(), "too short for any record: " + record.length() + " of 132 columns");
            }
            return;
        }
        try {
            switch (subsection) {
                case ' ' -> points.vhfNavaid(record);
                case 'B' -> points.ndb(record, false);
                case 'N' -> points.ndb(record, true);
                case 'C' -> points.waypoint(record, true);
                case 'P' -> holds.add(ArincHoldRecord.read(record));
                case 'R' -> airways.add(ArincAirwayRecord.read(record, this::once, problems));
                default -> {
                    if (section == 'E') {
                        points.waypoint(record, false);
                    } else {
                        points.airport(record);
                    }
                }
            }
            if (fullLines && record.length() < 123) {
                problems.noted(
                        record.line(), "cut off after column " + record.length() + "; the rest is taken as blank");
            }
        } catch (BadField e) {
            String ident = airway || hold ? "" : record.text(section == 'P' && subsection == 'A' ? 7 : 14, 18);
            problems.dropped(record.line(), (ident.isEmpty() ? "" : ident + ": ") + e.what());
        }
    }

    private static boolean isShown(char section, char subsection) {
        return switch (section) {
            case 'D' -> subsection == ' ' || subsection == 'B';
            case 'E' -> subsection == 'A' || subsection == 'R' || subsection == 'P';
            case 'P' -> subsection == 'N' || subsection == 'C' || subsection == 'A';
            case 'H' -> subsection == 'C' || subsection == 'A';
            default -> false;
        };
    }

    private void header(ArincRecord record) {
        headers++;
        if (record.digits(4, 5) == 1) {
            announced = record.digits(29, 35);
            cycle = AiracCycle.parse(record.raw(36, 39));
            title = record.text(6, 20) + cycle.map(c -> ", cycle " + c).orElse("");
        }
    }

    private String once(String text) {
        String before = shared.putIfAbsent(text, text);
        return before == null ? text : before;
    }

    private int skipped() {
        int skipped = 0;
        for (int i = 0; i < counts.length; i++) {
            skipped += isShown((char) (i / LETTERS), (char) (i % LETTERS)) ? 0 : counts[i];
        }
        return skipped;
    }

    private SortedMap<String, Integer> records() {
        SortedMap<String, Integer> records = new TreeMap<>();
        for (int i = 0; i < counts.length; i++) {
            if (counts[i] > 0) {
                String key = "" + (char) (i / LETTERS) + (char) (i % LETTERS);
                records.merge(key.matches("[A-Z][A-Z0-9 ]") ? key : "?", counts[i], Integer::sum);
            }
        }
        if (unknown > 0) {
            records.merge("?", unknown, Integer::sum);
        }
        return records;
    }
}
