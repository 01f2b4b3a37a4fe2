package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.brief.Brief;
import org.rejoin.console.brief.BriefDrawing;
import org.rejoin.console.brief.BriefJson;
import org.rejoin.console.brief.BriefText;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.Place;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** {@code brief}: works a clearance out on paper. */
@Command(
        name = "brief",
        description =
                "Work an amended clearance out on paper: heading, course, intercept, computed fix, what is skipped, what to"
                        + " watch for.")
final class BriefCommand extends AnyCommand.Verbose {

    private static final double DEFAULT_SPEED_KT = 120;
    private static final double LOWEST_FT = -2000;
    private static final double HIGHEST_FT = 100_000;
    private static final Pattern FEET = Pattern.compile(
            "(?i)FL ?(\\d{2,3})|(-?(?:\\d{1,3}[, ]\\d{3}|\\d{1,6})(?:\\.\\d+)?)(?: ?(?:ft|feet|['\u2019]))?");
    private static final Pattern WIND = Pattern.compile("(\\d+(?:\\.\\d+)?)/(\\d+(?:\\.\\d+)?)");

    private static final String NOT_ON_CHART =
            "^(.*?)((?:airway )?\"?([A-Z0-9]+)\"?) is not on the chart(?:; did you mean [^?]*\\?|; the chart has .*)?(.*)$";

    private static final Pattern TIME = Pattern.compile("([01]\\d|2[0-3]):?[0-5]\\d");

    @Option(names = "--chart", required = true, paramLabel = "FILE", description = "Our own YAML, or ARINC 424.")
    Path chart = Path.of("");

    @Option(
            names = "--filed",
            required = true,
            paramLabel = "ROUTE",
            description = "The filed route, for example \"XAAA DCT AAA V31 BBB DCT XBBB\".")
    String filed = "";

    @Option(
            names = "--clearance",
            required = true,
            paramLabel = "TEXT",
            description = "In ATC's words, for example \"fly heading 100, intercept V31, resume own navigation\".")
    String clearance = "";

    @Option(
            names = "--at",
            required = true,
            paramLabel = "PLACE",
            description = "Where the aircraft is: LAT,LON in degrees, a fix, or STATION/RADIAL/DISTANCE.")
    String at = "";

    @Option(
            names = "--altitude",
            paramLabel = "FT",
            description = "Present altitude: feet above mean sea level, or FL100 (default: unknown).")
    @Nullable
    String altitude;

    @Option(
            names = "--assign-altitude",
            paramLabel = "FT",
            description = "Altitude assigned beside the words, as if \"maintain FT\" had been said with them; feet, or"
                    + " FL100.")
    @Nullable
    String assignAltitude;

    @Option(
            names = "--climb",
            paramLabel = "FPM",
            description = "Most that the aircraft climbs, feet a minute (default: 1000, a light aircraft).")
    @Nullable
    Double climb;

    @Option(
            names = "--descent",
            paramLabel = "FPM",
            description = "Most that the aircraft descends, feet a minute (default: 1000, a light aircraft).")
    @Nullable
    Double descent;

    @Option(names = "--speed", paramLabel = "KT", description = "True airspeed, knots (default: 120).")
    @Nullable
    Double speed;

    @Option(names = "--heading", paramLabel = "MAG", description = "Present heading by the compass, degrees.")
    @Nullable
    Double heading;

    @Option(
            names = "--wind",
            paramLabel = "DIR_TRUE/KT",
            description = "Where the wind blows from, degrees true, and knots (default: calm).")
    @Nullable
    String wind;

    @Option(
            names = "--date",
            paramLabel = "YYYY-MM-DD",
            description = "Day of the flight, for the magnetic variation (default: today, UTC).")
    @Nullable
    String date;

    @Option(
            names = "--time",
            paramLabel = "HHMM",
            description = "Time of day, UTC, against which the times of the clearance are held (default: now, where no"
                    + " --date is given).")
    @Nullable
    String time;

    @Option(names = "--json", description = "Print one JSON object.")
    boolean json;

    @Option(names = "--working", description = "Show each step, its formula and its values.")
    boolean working;

    @Option(names = "--svg", paramLabel = "FILE", description = "Draw it as an SVG file.")
    @Nullable
    Path svg;

    @Override
    public Integer call() throws IOException, BadInput, LessonException {
        List<String> assumed = new ArrayList<>();
        ChartReader.Result read = BadInput.in(() -> ChartReader.read(chart));
        Situation situation = situation(place(read.chart()), assumed);
        OptionalDouble assigned = feet("--assign-altitude", assignAltitude);
        if (assigned.isPresent()
                && (assigned.getAsDouble() < Clearance.LOWEST_FT || assigned.getAsDouble() > Clearance.HIGHEST_FT)) {
            throw bad(String.format(
                    Locale.ROOT,
                    "--assign-altitude %s: %d to %d feet would be right",
                    assignAltitude,
                    Clearance.LOWEST_FT,
                    Clearance.HIGHEST_FT));
        }
        try {
            Brief brief = Brief.of(read.chart(), filed, clearance, asSaid(assigned), situation, assumed);
            if (svg != null) {
                OutputFile.write("--svg", svg, BriefDrawing.svg(brief, Rejoin.CAUTION));
            }
            print(brief);
        } catch (ClearanceException e) {
            return refuse(e, read.problems());
        }
        for (ChartReader.Problem problem : read.problems()) {
            String where = problem.line() > 0 ? " line " + problem.line() : "";
            err().println("warning: " + chart + where + ": " + problem.what());
        }
        return Rejoin.DONE;
    }

    /** As wide as the terminal, up to a hundred characters; that where there is none. */
    private int width() {
        return Terminal.attached() ? Math.min(Words.WIDTH, spec.usageMessage().width()) : Words.WIDTH;
    }

    private void print(Brief brief) {
        if (json) {
            out().println(BriefJson.of(brief, working).toPrettyString());
        } else {
            BriefText.lines(brief, working, width()).forEach(out()::println);
            out().println();
            out().println(Rejoin.CAUTION);
        }
    }

    /** The code stands first, for scripts; for a person the words that are meant are shown under it. */
    private int refuse(ClearanceException e, List<ChartReader.Problem> problems) {
        String plainly = String.valueOf(e.getMessage());
        String why = leftOut(plainly, problems);
        String onChart = problems.isEmpty() || !why.equals(plainly)
                ? ""
                : " (the chart has " + Words.count(problems.size(), "problem") + " of its own)";
        // The code says already that it was not understood.
        String once =
                e.code() == ClearanceException.Code.NOT_UNDERSTOOD ? why.replaceFirst("\\bnot understood: ", "") : why;
        err().println(e.code() + ": " + once.replaceAll("\\s+", " ") + onChart);
        if (json) {
            Rejoin.refusalInJson(spec.commandLine(), e.code().name(), why);
        }
        boolean plain = clearance.chars().allMatch(c -> c >= ' ' && c < 0x7F);
        if (!json && plain) {
            pointAt(e).ifPresent(caret -> {
                err().println("  " + clearance);
                err().println("  " + caret);
            });
        }
        return Rejoin.BAD_INPUT;
    }

    /** A refusal in one line; with the fault of the record that it misses, if it was left out, for a guess at names. */
    private static String leftOut(String refusal, List<ChartReader.Problem> problems) {
        Matcher missing = Pattern.compile(NOT_ON_CHART).matcher(refusal);
        if (!missing.matches()) {
            return refusal;
        }
        Pattern record = Pattern.compile("(?:station|fix|airport|airway) " + missing.group(3) + ": (.*)");
        for (ChartReader.Problem problem : problems) {
            Matcher fault = record.matcher(problem.what());
            if (problem.fatal() && fault.matches()) {
                return missing.group(1)
                        + missing.group(2)
                        + Words.say(
                                " is left out of the chart, for its record%s is not right: %s",
                                problem.line() > 0 ? " at line " + problem.line() : "", fault.group(1))
                        + missing.group(4);
            }
        }
        return refusal;
    }

    /** Only where the words pointed at are of the clearance: the filed route is read with the same exception. */
    private Optional<String> pointAt(ClearanceException e) {
        return e.caretLine()
                .filter(caret ->
                        !clearance.isBlank() && String.valueOf(e.getMessage()).startsWith(Brief.IN_THE_CLEARANCE));
    }

    private Position place(Chart chart) throws LessonException {
        try {
            return Place.read(at, chart);
        } catch (LessonException e) {
            throw new LessonException("--at " + e.getMessage(), e);
        }
    }

    private Situation situation(Position position, List<String> assumed) {
        if (speed == null) {
            assumed.add(Words.say("true airspeed taken as %.0f kt", DEFAULT_SPEED_KT));
        }
        if (wind == null) {
            assumed.add("wind taken as calm");
        }
        LocalDate day = date();
        if (date == null) {
            assumed.add("date taken as " + day + " (today, UTC)");
        }
        OptionalDouble altitudeFt = feet("--altitude", altitude);
        if (altitude == null) {
            assumed.add("altitude not known: minimum altitudes not checked, service volumes at their largest");
        }
        if (heading != null && !(heading >= 0 && heading <= 360)) {
            throw bad("--heading " + heading + " is not a heading, 001 to 360 degrees magnetic");
        }
        try {
            return new Situation(
                    position,
                    altitudeFt,
                    speed == null ? DEFAULT_SPEED_KT : speed,
                    heading == null ? Optional.empty() : Optional.of(new MagneticDirection(heading)),
                    wind(),
                    day,
                    new Situation.Performance(rate("--climb", climb), rate("--descent", descent)),
                    time());
        } catch (IllegalArgumentException e) {
            throw bad("--speed " + speed + ": " + e.getMessage());
        }
    }

    private OptionalDouble rate(String name, @Nullable Double fpm) {
        if (fpm == null) {
            return OptionalDouble.empty();
        }
        if (!(fpm >= 50 && fpm <= 20_000)) {
            throw outside(name, fpm, "50 to 20000 feet a minute");
        }
        return OptionalDouble.of(fpm);
    }

    /** What was typed as a flight level is one. */
    private Optional<Instruction.Maintain> asSaid(OptionalDouble assignedFt) {
        if (assignAltitude == null || assignedFt.isEmpty()) {
            return Optional.empty();
        }
        Matcher typed = FEET.matcher(assignAltitude.trim());
        boolean level = typed.matches() && typed.group(1) != null;
        return Optional.of(new Instruction.Maintain(assignedFt.getAsDouble(), false).asLevel(level));
    }

    /** Feet, or a flight level. */
    private OptionalDouble feet(String name, @Nullable String text) {
        if (text == null) {
            return OptionalDouble.empty();
        }
        Matcher matcher = FEET.matcher(text.trim());
        if (!matcher.matches()) {
            throw bad(name + " \"" + text + "\" is not an altitude: feet, -2000 to 100000, for example 6000, or FL100");
        }
        double feet = matcher.group(1) != null
                ? Double.parseDouble(matcher.group(1)) * 100
                : Double.parseDouble(matcher.group(2).replaceAll("[, ]", ""));
        if (!(feet >= LOWEST_FT && feet <= HIGHEST_FT)) {
            throw bad(name + " " + text + ": -2000 to 100000 feet would be right");
        }
        return OptionalDouble.of(feet);
    }

    private Wind wind() {
        if (wind == null) {
            return Wind.CALM;
        }
        Matcher matcher = WIND.matcher(wind.trim());
        if (!matcher.matches()) {
            throw bad("--wind \"" + wind + "\" is not DIRECTION_TRUE/KNOTS, for example 270/20");
        }
        double from = Double.parseDouble(matcher.group(1));
        double knots = Double.parseDouble(matcher.group(2));
        if (from > 360) {
            throw bad("--wind " + wind + ": direction 0 to 360 degrees true would be right");
        }
        if (knots > 300) {
            throw bad("--wind " + wind + ": speed 0 to 300 knots would be right");
        }
        return new Wind(new TrueDirection(from), knots);
    }

    private LocalDate date() {
        if (date == null) {
            return LocalDate.now(ZoneOffset.UTC);
        }
        try {
            LocalDate day = LocalDate.parse(date);
            if (day.getYear() < 1900 || day.getYear() > 2099) {
                throw bad("--date " + date + " is not in 1900 to 2099");
            }
            return day;
        } catch (DateTimeParseException e) {
            throw bad("--date \"" + date + "\" is not a day written YYYY-MM-DD, for example 2026-06-01");
        }
    }

    /** The clock of the wall belongs to today, not to a day that was named. */
    private Optional<LocalTime> time() {
        if (time == null) {
            return date == null ? Optional.of(LocalTime.now(ZoneOffset.UTC)) : Optional.empty();
        }
        if (!TIME.matcher(time).matches()) {
            throw bad("--time \"" + time + "\" is not a time of day, 0000 to 2359 UTC, for example 1510");
        }
        return Optional.of(LocalTime.of(
                Integer.parseInt(time.substring(0, 2)), Integer.parseInt(time.substring(time.length() - 2))));
    }
}
