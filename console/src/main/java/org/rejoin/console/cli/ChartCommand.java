package org.rejoin.console.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;

import org.rejoin.bridge.chart.ChartReport;
import org.rejoin.bridge.chart.Region;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.chart.ChartJson;
import org.rejoin.console.chart.ChartText;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code chart}: loads, checks and describes navigation data. */
@Command(
        name = "chart",
        description =
                "Check and describe navigation data: our own YAML, or ARINC 424. Each problem is listed with its line. The exit"
                        + " code is 2 only if nothing in the file can be used.",
        subcommands = {ChartCommand.New.class, ChartCommand.Check.class})
final class ChartCommand extends AnyCommand.Verbose {

    private static final Pattern NUMBER = Pattern.compile("[+-]?\\d{1,6}(\\.\\d{1,12})?");

    @Parameters(arity = "0..1", paramLabel = "FILE", description = "The chart.")
    @Nullable
    Path chart;

    private Path file = Path.of("");

    @Option(
            names = "--within",
            paramLabel = "REGION",
            description = "Only what lies in SOUTH,WEST,NORTH,EAST (degrees, north and east positive), or within"
                    + " LAT,LON,RADIUS_NM of a point; whole airway legs that touch it.")
    @Nullable
    String within;

    @Option(names = "--find", paramLabel = "IDENT", description = "Show every station, fix and airport of that ident.")
    @Nullable
    String find;

    @Option(names = "--airway", paramLabel = "IDENT", description = "Show an airway leg by leg, for example V31.")
    @Nullable
    String airway;

    @Option(
            names = "--date",
            paramLabel = "YYYY-MM-DD",
            description = "Day the chart is to be used, for its cycle and the variation (default: today, UTC).")
    @Nullable
    String date;

    @Option(names = "--json", description = "Print one JSON object.")
    boolean json;

    @Override
    public Integer call() throws BadInput {
        if (chart == null) {
            throw bad("name a chart FILE, or write one to start from with chart new FILE");
        }
        file = chart;
        LocalDate day = day();
        Optional<Region> region = region();
        ChartReader.Result read =
                Terminal.patiently("reading " + file, err(), () -> BadInput.in(() -> ChartReader.read(file, region)));
        requireUsable(read, region.isPresent());
        ChartReport report = ChartReport.of(read.chart(), read.lines());
        if (json) {
            out().println(json(read, report, day));
        } else {
            text(read, report, day).forEach(out()::println);
            out().println();
            out().println(Rejoin.CAUTION);
        }
        return Rejoin.DONE;
    }

    private String json(ChartReader.Result read, ChartReport report, LocalDate day) {
        ChartJson object = new ChartJson(file.toString(), read, day);
        if (find == null && airway == null) {
            object.describe(report);
        }
        if (find != null) {
            object.found(found(report, find));
        }
        if (airway != null) {
            object.airway(pieces(report, airway));
        }
        return object.text();
    }

    private List<String> text(ChartReader.Result read, ChartReport report, LocalDate day) {
        ChartText text = new ChartText(read, day);
        if (find == null && airway == null) {
            text.describe(report);
        }
        if (find != null) {
            text.found(found(report, find));
        }
        if (airway != null) {
            text.airway(pieces(report, airway));
        }
        if ((find != null || airway != null) && !read.problems().isEmpty()) {
            String problems = Words.count(read.problems().size(), "problem");
            err().println("rejoin: the file has " + problems + "; chart " + file + " lists them");
        }
        return text.lines();
    }

    private void requireUsable(ChartReader.Result read, boolean regionGiven) throws BadInput {
        if (!read.chart().waypoints().isEmpty()) {
            return;
        }
        List<ChartReader.Problem> problems = read.problems();
        if (regionGiven && problems.stream().noneMatch(ChartReader.Problem::fatal)) {
            throw bad(
                    "nothing of " + file + " lies within " + within
                            + "; expected degrees, north and east positive, in the order SOUTH,WEST,NORTH,EAST or LAT,LON,RADIUS_NM");
        }
        ChartReader.Problem first =
                problems.stream().filter(ChartReader.Problem::fatal).findFirst().orElse(null);
        throw new BadInput(file + ": nothing in it can be used"
                + (first == null
                        ? ": no station, fix or airport"
                        : "; the first of " + Words.count(problems.size(), "problem") + ": "
                                + (first.line() > 0 ? "line " + first.line() + ": " : "")
                                + ChartText.plain(first.what())));
    }

    private List<ChartReport.Found> found(ChartReport report, String ident) {
        List<ChartReport.Found> found = report.find(ident);
        if (found.isEmpty()) {
            String airwayOfThatName =
                    report.airway(ident).isEmpty() ? "" : "; it is an airway: --airway " + ident + " shows it";
            throw unknown(
                    "--find",
                    ident,
                    "no station, fix or airport of that ident",
                    airwayOfThatName,
                    report.identsNear(ident));
        }
        return found;
    }

    private List<ChartReport.Piece> pieces(ChartReport report, String ident) {
        List<ChartReport.Piece> pieces = report.airway(ident);
        if (pieces.isEmpty()) {
            throw unknown("--airway", ident, "no airway of that ident", "", report.airwaysNear(ident));
        }
        return pieces;
    }

    private ParameterException unknown(String option, String ident, String what, String hint, List<String> near) {
        return bad(option + " " + ChartText.plain(ident) + ": " + what + " on " + file
                + (within == null ? "" : " within " + within)
                + hint
                + (near.isEmpty() ? "" : "; did you mean " + String.join(" or ", near) + "?"));
    }

    private LocalDate day() {
        if (date == null) {
            return LocalDate.now(ZoneOffset.UTC);
        }
        try {
            LocalDate day = LocalDate.parse(date);
            if (day.getYear() >= 2001 && day.getYear() <= 2098) {
                return day;
            }
        } catch (DateTimeParseException e) {
            // Said below.
        }
        throw bad("--date \"" + date + "\" is not a day of 2001 to 2098 written YYYY-MM-DD, for example 2026-06-01");
    }

    private Optional<Region> region() {
        if (within == null) {
            return Optional.empty();
        }
        String[] parts = within.split(",", -1);
        boolean numbers =
                Stream.of(parts).allMatch(part -> NUMBER.matcher(part.trim()).matches());
        if (!numbers || (parts.length != 3 && parts.length != 4)) {
            throw bad("--within \"" + within
                    + "\" is neither SOUTH,WEST,NORTH,EAST in degrees, for example 37,-51,39,-48,"
                    + " nor LAT,LON,RADIUS_NM, for example 38,-50,100");
        }
        double[] values = Stream.of(parts)
                .mapToDouble(part -> Double.parseDouble(part.trim()))
                .toArray();
        try {
            if (parts.length == 4) {
                return Optional.of(new Region.Bounds(values[0], values[1], values[2], values[3]));
            }
            if (Math.abs(values[1]) > 180) {
                throw new IllegalArgumentException("longitude " + values[1] + " is not in -180 to 180 degrees");
            }
            return Optional.of(new Region.Circle(new Position(values[0], values[1]), values[2]));
        } catch (IllegalArgumentException e) {
            throw bad("--within " + within + ": " + e.getMessage());
        }
    }

    @Command(name = "new", description = "Write a commented chart to start from.")
    static final class New extends AnyCommand {

        @Parameters(paramLabel = "FILE", description = "The chart to write; a file that is there is never replaced.")
        Path file = Path.of("");

        @Override
        public Integer call() throws Exception {
            LessonCommand.Template.CHART.write(file, out());
            out().println("Next: change it, and see what it holds: rejoin chart check " + Hints.typed(file));
            return Rejoin.DONE;
        }
    }

    /** As lessons and profiles are checked: whoever knows the one expects the other. */
    @Command(name = "check", description = "Check a chart, and say what it holds: the same as chart FILE.")
    static final class Check extends AnyCommand {

        @ParentCommand
        ChartCommand whole = new ChartCommand();

        @Parameters(paramLabel = "FILE", description = "The chart.")
        Path file = Path.of("");

        @Override
        public Integer call() throws BadInput {
            if (whole.chart != null) {
                throw bad("a chart is named twice: " + whole.chart + " and " + file);
            }
            whole.chart = file;
            return whole.call();
        }
    }
}
