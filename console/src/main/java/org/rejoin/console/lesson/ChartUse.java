package org.rejoin.console.lesson;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.ChartReport;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.ClearanceException;

/** The chart of a lesson, and which of its problems touch what the lesson names. */
final class ChartUse {

    /** A world-wide file may have very many. */
    private static final int SHOWN = 5;

    /** How a problem of a point begins: its ident, after what it is. An airway that is cut shows in the route. */
    private static final Pattern POINT =
            Pattern.compile("(?:(?:station|fix|airport) )?([A-Z0-9]{1,10}): .*", Pattern.DOTALL);

    private final String file;
    private final ChartReader.Result read;
    private final Set<String> used = new HashSet<>();

    ChartUse(String file, ChartReader.Result read) {
        this.file = file;
        this.read = read;
    }

    Chart chart() {
        return read.chart();
    }

    /** Takes every word that may be an ident. */
    void uses(String text) {
        used.addAll(List.of(text.toUpperCase(Locale.ROOT).split("[^A-Z0-9]+", -1)));
    }

    /**
     * Refuses a chart from which a point that the lesson names was left out: another of its name, far away, could be taken
     * for it.
     *
     * @throws LessonException with file and line of the chart
     */
    void requireSound() throws LessonException {
        Optional<ChartReader.Problem> found = firstUsed();
        if (found.isPresent()) {
            throw new LessonException(said(found.get()) + " (left out, and the lesson names it)");
        }
    }

    /** Why a name may be missing from the chart, to end a message with. */
    String hint(ClearanceException e) {
        boolean missing = switch (e.code()) {
            case UNKNOWN_STATION, UNKNOWN_FIX, UNKNOWN_AIRWAY, ROUTE_NOT_VALID -> true;
            default -> false;
        };
        return missing
                ? firstUsed()
                        .or(() -> read.problems().stream()
                                .filter(ChartReader.Problem::fatal)
                                .findFirst())
                        .map(problem -> " (left out of the chart: " + said(problem) + ")")
                        .orElse("")
                : "";
    }

    /** The problems that the lesson can live with. */
    List<String> notes() {
        List<String> notes = new ArrayList<>();
        int count = read.problems().size();
        read.problems().stream().limit(SHOWN).forEach(problem -> notes.add("chart " + said(problem)));
        if (count > SHOWN) {
            notes.add("chart " + file + " has " + (count - SHOWN)
                    + (count == SHOWN + 1 ? " more problem" : " more problems") + "; the chart command lists them");
        }
        return notes;
    }

    /** Points and declinations that the lesson uses and that cannot be right. */
    List<String> misfits(LocalDate day) {
        return ChartReport.of(read.chart(), read.lines()).misfits(day).stream()
                .filter(finding -> used.contains(finding.ident()))
                // Of several of one name the one near the route is flown.
                .filter(finding -> read.chart().waypoints(finding.ident()).size() == 1)
                .limit(SHOWN)
                .map(finding ->
                        "chart " + file + (finding.line() > 0 ? ":" + finding.line() : "") + ": " + finding.text())
                .toList();
    }

    private Optional<ChartReader.Problem> firstUsed() {
        return read.problems().stream()
                .filter(ChartReader.Problem::fatal)
                .filter(problem -> {
                    Matcher matcher = POINT.matcher(problem.what());
                    return matcher.matches() && used.contains(matcher.group(1));
                })
                .findFirst();
    }

    private String said(ChartReader.Problem problem) {
        return file + (problem.line() > 0 ? ":" + problem.line() : "") + ": " + LessonYaml.firstLine(problem.what());
    }
}
