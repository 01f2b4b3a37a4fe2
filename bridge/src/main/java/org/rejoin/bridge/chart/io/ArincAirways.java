package org.rejoin.bridge.chart.io;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.NearestChain;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.bridge.chart.Waypoint;

/**
 * Chains airway records into airways. Geometry comes from the coordinates of the fixes alone; the distances of the file
 * only check that the right fixes were found, and that no record is missing.
 */
final class ArincAirways {

    /** A larger difference is said; all legs of the public files examined agree to 0.07 NM. */
    private static final double DOUBTFUL_NM = 0.3;

    /** A larger difference means that these two fixes are no leg. */
    private static final double WRONG_NM = 1;

    /** The field holds no more; what is longer cannot be checked. */
    private static final double LONGEST_WRITTEN_NM = 999.9;

    private static final double SAME_PLACE_NM = 0.001;

    private final Function<String, List<Waypoint>> points;
    private final Problems problems;
    private final SourceLines lines;
    private final List<Airway> airways = new ArrayList<>();

    private ArincAirways(Function<String, List<Waypoint>> points, Problems problems, SourceLines lines) {
        this.points = points;
        this.problems = problems;
        this.lines = lines;
    }

    /**
     * The airways of all records.
     *
     * @param records in the order of the file
     * @param points by key
     * @return those of one name may be several pieces
     */
    static List<Airway> of(
            List<ArincAirwayRecord> records,
            Function<String, List<Waypoint>> points,
            Problems problems,
            SourceLines lines) {
        ArincAirways result = new ArincAirways(points, problems, lines);
        grouped(records, ArincAirwayRecord::route).forEach(result::route);
        return result.airways;
    }

    private static Collection<List<ArincAirwayRecord>> grouped(
            List<ArincAirwayRecord> records, Function<ArincAirwayRecord, String> key) {
        Map<String, List<ArincAirwayRecord>> groups = new LinkedHashMap<>();
        for (ArincAirwayRecord record : records) {
            groups.computeIfAbsent(key.apply(record), k -> new ArrayList<>()).add(record);
        }
        return groups.values();
    }

    private void route(List<ArincAirwayRecord> records) {
        if (isTwoAirways(records)) {
            grouped(records, ArincAirwayRecord::area).forEach(this::walk);
        } else {
            walk(records);
        }
    }

    /** Unrelated airways of two areas may share a name and a numbering; then a number has two fixes. */
    private static boolean isTwoAirways(List<ArincAirwayRecord> records) {
        Map<Integer, String> keys = new LinkedHashMap<>();
        boolean conflict = false;
        for (ArincAirwayRecord record : records) {
            String before = keys.putIfAbsent(record.sequence(), record.key());
            conflict |= before != null && !before.equals(record.key());
        }
        return conflict;
    }

    private void walk(List<ArincAirwayRecord> records) {
        List<ArincAirwayRecord> piece = new ArrayList<>();
        for (ArincAirwayRecord record : ordered(records)) {
            piece.add(record);
            if (record.last()) {
                close(piece);
            } else if (points.apply(record.key()).isEmpty()) {
                piece.remove(piece.size() - 1);
                unresolved(record);
                close(piece);
            } else if (record.distanceNm().isEmpty()) {
                problems.noted(
                        record.line(),
                        "airway " + record.route() + ": no distance and no end of route at " + record.ident()
                                + "; the piece ends here");
                close(piece);
            }
        }
        close(piece);
    }

    /** By sequence number, file order where it is the same, a fix that is coded in two areas once. */
    private static List<ArincAirwayRecord> ordered(List<ArincAirwayRecord> records) {
        List<ArincAirwayRecord> sorted = new ArrayList<>(records);
        sorted.sort(Comparator.comparingInt(ArincAirwayRecord::sequence));
        List<ArincAirwayRecord> once = new ArrayList<>();
        for (ArincAirwayRecord record : sorted) {
            ArincAirwayRecord before = once.isEmpty() ? null : once.get(once.size() - 1);
            if (before != null
                    && before.sequence() == record.sequence()
                    && before.key().equals(record.key())) {
                once.set(once.size() - 1, before.mergedWith(record));
            } else {
                once.add(record);
            }
        }
        return once;
    }

    private void unresolved(ArincAirwayRecord record) {
        String section = record.key().substring(0, 2);
        String icao = record.key().substring(2, 4);
        problems.dropped(
                record.line(),
                "airway " + record.route() + ": fix " + record.ident() + " of region \"" + icao + "\" and section \""
                        + section + "\" is not in the file; the airway is cut there");
    }

    /** Makes airways of the piece, cut where its legs are not what the file says, and empties it. */
    private void close(List<ArincAirwayRecord> piece) {
        if (!piece.isEmpty() && points.apply(piece.get(piece.size() - 1).key()).isEmpty()) {
            unresolved(piece.remove(piece.size() - 1));
        }
        if (piece.size() > 1) {
            List<Waypoint> chain = NearestChain.of(
                    piece.stream().map(record -> points.apply(record.key())).toList());
            int start = 0;
            for (int i = 1; i <= chain.size(); i++) {
                if (i == chain.size() || !isLeg(piece.get(i - 1), chain.get(i - 1), chain.get(i))) {
                    add(piece, chain, start, i);
                    start = i;
                }
            }
        }
        if (piece.size() == 1) {
            ArincAirwayRecord alone = piece.get(0);
            problems.noted(
                    alone.line(),
                    "airway " + alone.route() + ": fix " + alone.ident() + " stands alone; a piece needs two points");
        }
        piece.clear();
    }

    private boolean isLeg(ArincAirwayRecord record, Waypoint from, Waypoint to) {
        double distanceNm = from.position().distanceNm(to.position());
        if (distanceNm < SAME_PLACE_NM) {
            problems.noted(record.line(), label(record, from, to) + " are at one place; the airway is cut there");
            return false;
        }
        double written = record.distanceNm().orElse(LONGEST_WRITTEN_NM);
        double difference = written >= LONGEST_WRITTEN_NM ? 0 : Math.abs(distanceNm - written);
        if (difference > DOUBTFUL_NM) {
            problems.noted(
                    record.line(),
                    String.format(
                            Locale.ROOT,
                            "%s are %.1f NM apart by their coordinates, %.1f NM by the file%s",
                            label(record, from, to),
                            distanceNm,
                            written,
                            difference > WRONG_NM ? "; the airway is cut there" : ""));
        }
        return difference <= WRONG_NM;
    }

    private static String label(ArincAirwayRecord record, Waypoint from, Waypoint to) {
        return "airway " + record.route() + ": " + from.ident() + " and " + to.ident();
    }

    private void add(List<ArincAirwayRecord> piece, List<Waypoint> chain, int start, int end) {
        if (end - start < 2) {
            return; // why it came to stand alone has been said
        }
        List<Airway.Segment> segments = piece.subList(start, end - 1).stream()
                .map(ArincAirwayRecord::leg)
                .toList();
        Airway airway = new Airway(piece.get(start).route(), chain.subList(start, end), segments);
        lines.add(airway, piece.get(start).line());
        airways.add(airway);
    }

    /** Keys of all fixes that the records name. */
    static Set<String> keys(List<ArincAirwayRecord> records) {
        Set<String> keys = new HashSet<>();
        records.forEach(record -> keys.add(record.key()));
        return keys;
    }
}
