package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.console.drill.Band;
import org.rejoin.console.drill.Drill;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.drill.DrillRequest;
import org.rejoin.console.drill.DrillText;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.recording.Sha256;
import org.rejoin.console.skill.Shape;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The options that say what a drill is to be like, and on which chart it is drawn: the built-in open-ocean one where none is named. */
final class DrillWishes {

    private static final Pattern WIND = Pattern.compile("(\\d+(?:\\.\\d+)?)/(\\d+(?:\\.\\d+)?)");

    @Option(
            names = "--chart",
            paramLabel = "FILE",
            description = "Our own YAML, or ARINC 424 (default: the built-in open-ocean chart).")
    @Nullable
    Path chart;

    @Option(
            names = "--shape",
            paramLabel = "SHAPE",
            defaultValue = "any",
            description =
                    "A: heading to an airway; B: radial inbound; C: radial outbound; radials: one radial until another; arc;"
                            + " hold; any (default: any).")
    String shape = "any";

    @Option(
            names = "--seed",
            paramLabel = "N",
            defaultValue = "1",
            description = "Another number, another drill (default: 1).")
    long seed = 1;

    @Option(
            names = "--angle",
            paramLabel = "LO-HI",
            description = "Intercept angle, degrees, 20 to 90 (default: 25-75).")
    @Nullable
    String angle;

    @Option(
            names = "--minutes",
            paramLabel = "LO-HI",
            description = "From the clearance to the line, minutes, 0.5 to 10 (default: 2-4.5).")
    @Nullable
    String minutes;

    @Option(names = "--speed", paramLabel = "KT", description = "True airspeed, knots, 60 to 300 (default: 120).")
    @Nullable
    Double speed;

    @Option(
            names = "--wind",
            paramLabel = "DIR_TRUE/KT",
            description = "Where the wind blows from, degrees true, and knots (default: drawn).")
    @Nullable
    String wind;

    @Option(
            names = "--date",
            paramLabel = "YYYY-MM-DD",
            description = "Day of the flight, for the magnetic variation (default: 2026-06-01, so that a drill does not"
                    + " change from day to day).")
    @Nullable
    String date;

    @Option(
            names = "--extras",
            paramLabel = "any|none",
            defaultValue = "any",
            description = "Whether an altitude or a speed may be assigned beside the line (default: any).")
    String extras = "any";

    /** What was wished for. */
    DrillRequest request() throws BadInput {
        if (!extras.equals("any") && !extras.equals("none")) {
            throw new BadInput("--extras \"" + extras + "\" is neither any nor none");
        }
        double knots = speed == null ? DrillRequest.USUAL_SPEED_KT : speed;
        if (!(knots >= 60 && knots <= 300)) {
            throw new BadInput("--speed " + speed + " is not in 60 to 300 knots");
        }
        return new DrillRequest(
                seed,
                shape(),
                angle == null ? DrillRequest.USUAL_ANGLE : band("--angle", angle, 20, 90, "degrees"),
                minutes == null ? DrillRequest.USUAL_MINUTES : band("--minutes", minutes, 0.5, 10, "minutes"),
                knots,
                wind(),
                date(),
                !extras.equals("none"));
    }

    private Optional<Shape> shape() throws BadInput {
        if (shape.trim().toLowerCase(Locale.ROOT).equals("any")) {
            return Optional.empty();
        }
        return Optional.of(Shape.named(shape)
                .orElseThrow(() -> new BadInput("--shape \"" + shape + "\" is none of "
                        + Arrays.stream(Shape.values()).map(Shape::option).collect(Collectors.joining(", "))
                        + ", any")));
    }

    private static Band band(String option, String text, double least, double most, String unit) throws BadInput {
        try {
            return Band.of(text, least, most, unit);
        } catch (IllegalArgumentException e) {
            throw new BadInput(option + " " + e.getMessage());
        }
    }

    private Optional<Wind> wind() throws BadInput {
        if (wind == null) {
            return Optional.empty();
        }
        Matcher matcher = WIND.matcher(wind.trim());
        boolean plain = matcher.matches();
        if (!plain || Double.parseDouble(matcher.group(1)) > 360 || Double.parseDouble(matcher.group(2)) > 300) {
            throw new BadInput("--wind \"" + wind + "\" is not DIRECTION_TRUE/KNOTS, for example 270/20");
        }
        return Optional.of(new Wind(
                new TrueDirection(Double.parseDouble(matcher.group(1))), Double.parseDouble(matcher.group(2))));
    }

    private LocalDate date() throws BadInput {
        if (date == null) {
            return DrillRequest.USUAL_DATE;
        }
        try {
            LocalDate day = LocalDate.parse(date);
            Optional<String> otherDay = MagneticModel.notPublishedFor(day);
            if (otherDay.isPresent()) {
                throw new BadInput("--date " + date + ": " + otherDay.get());
            }
            return day;
        } catch (DateTimeParseException e) {
            throw new BadInput(
                    "--date \"" + date + "\" is not a day written YYYY-MM-DD, for example " + DrillRequest.USUAL_DATE);
        }
    }

    /** The built-in chart. */
    static DrillChart builtInChart() throws LessonException {
        Lesson lesson = builtIn();
        return new DrillChart(lesson.chart(), Sha256.hex(octets(lesson)));
    }

    /** The chart that was named, or the built-in one. */
    DrillChart chart() throws BadInput, LessonException {
        Path file = chart;
        if (file == null) {
            return builtInChart();
        }
        ChartReader.Result result = BadInput.in(() -> ChartReader.read(file));
        return new DrillChart(result.chart(), BadInput.in(() -> Sha256.hex(file)));
    }

    /** The chart file, to be written beside lessons; the built-in one's octets where none was named. */
    byte[] chartOctets() throws IOException, LessonException {
        Path file = chart;
        return file == null ? octets(builtIn()) : Files.readAllBytes(file);
    }

    /** The lesson on the built-in chart. */
    private static Lesson builtIn() throws LessonException {
        return LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
    }

    private static byte[] octets(Lesson lesson) {
        return lesson.files().chart() instanceof Lesson.KeptChart.Octets kept ? kept.octets() : new byte[0];
    }

    /** The name of the chart file, without directories. */
    String chartFileName() {
        return chart == null ? "open-ocean.yaml" : String.valueOf(chart.getFileName());
    }

    /** The chart as a lesson file names it: relative to it where that can be. */
    private String chartPathFrom(@Nullable Path out) {
        Path named = chart;
        if (named == null) {
            return chartFileName();
        }
        Path absolute = named.toAbsolutePath().normalize();
        Path lesson =
                (out == null ? Path.of("lesson.yaml") : out).toAbsolutePath().normalize();
        Path folder = lesson.getParent();
        if (folder == null || !Objects.equals(folder.getRoot(), absolute.getRoot())) {
            return absolute.toString();
        }
        return folder.relativize(absolute).toString().replace('\\', '/');
    }

    /**
     * A drill as a lesson file: its text, written where a file is named, with the built-in chart beside it where that is
     * meant.
     *
     * @throws BadInput if a file of the user's would be overwritten; nothing is written then
     */
    String lesson(Drill drill, DrillChart on, @Nullable Path out) throws IOException, LessonException, BadInput {
        String lesson = DrillText.lesson(drill, chartPathFrom(out), on.sha256());
        if (out != null) {
            Path beside = out.toAbsolutePath().resolveSibling(chartFileName());
            OutputFile.requireFree("--out", out, lesson.getBytes(StandardCharsets.UTF_8));
            if (chart == null) {
                OutputFile.requireFree("--out", beside, chartOctets());
            }
            OutputFile.write("--out", out, lesson);
            if (chart == null) {
                OutputFile.write("--out", beside, chartOctets());
            }
        }
        return lesson;
    }
}
