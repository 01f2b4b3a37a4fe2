package org.rejoin.console.lesson;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.FiledRouteReader;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Wind;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.exc.UnrecognizedPropertyException;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import org.jspecify.annotations.Nullable;

/** Reads lesson files and the built-in lessons. Everything in a lesson is checked before the flight begins. */
public final class LessonReader {

    private static final ObjectMapper YAML = YAMLMapper.builder()
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES)
            .build();

    /** A lesson file is a page of text; anything larger is something else. */
    private static final long LARGEST_OCTETS = 1_000_000;

    private LessonReader() {}

    private record LessonYaml(
            @Nullable String title,
            @Nullable String chart,
            @Nullable String filed,
            @Nullable String date,
            @Nullable StartYaml start,
            @Nullable WindYaml wind,
            @Nullable List<AmendmentYaml> amendments,
            @Nullable String standard) {}

    private record StartYaml(
            @Nullable String at,
            @Nullable Double altitude_ft,
            @Nullable Double heading_magnetic_deg,
            @Nullable Double speed_kt) {}

    private record WindYaml(
            @Nullable Double from_true_deg, @Nullable Double speed_kt) {}

    private record AmendmentYaml(
            @Nullable WhenYaml when,
            @Nullable String say,
            @Nullable Double altitude_ft) {}

    private record WhenYaml(
            @Nullable Double elapsed_s, @Nullable String abeam) {}

    /** Where a lesson's chart comes from. */
    private interface ChartSource {
        byte[] octets(String name) throws IOException;
    }

    /**
     * Reads a lesson by file name or by the name of a built-in one.
     *
     * @param nameOrFile for example "radial-outbound", or a path
     * @return the lesson
     * @throws LessonException if there is no such lesson or something in it is wrong
     */
    public static Lesson read(String nameOrFile) throws LessonException {
        Optional<BuiltInLesson> builtIn = BuiltInLesson.named(nameOrFile);
        if (builtIn.isPresent()) {
            return builtIn(builtIn.get());
        }
        Path file = Path.of(nameOrFile);
        if (!Files.isRegularFile(file)) {
            throw new LessonException(
                    "no lesson \"" + nameOrFile + "\": neither a file nor one of the built-in lessons "
                            + BuiltInLesson.names() + " (fly --list describes them)");
        }
        return readFile(file);
    }

    /**
     * Reads a lesson file.
     *
     * @param file the lesson; its chart is found relative to it
     * @return the lesson
     * @throws LessonException if something in it is wrong
     */
    public static Lesson readFile(Path file) throws LessonException {
        try {
            if (Files.size(file) > LARGEST_OCTETS) {
                throw new LessonException(file + " is too large for a lesson (" + Files.size(file) + " octets)");
            }
            String text = Files.readString(file);
            Path directory = file.toAbsolutePath().getParent();
            return parse(file.toString(), text, name -> {
                Path chart = directory == null ? Path.of(name) : directory.resolve(name);
                if (!Files.isRegularFile(chart)) {
                    throw new IOException("chart " + chart + " does not exist");
                }
                return Files.readAllBytes(chart);
            });
        } catch (IOException e) {
            throw new LessonException(file + ": cannot be read: " + e.getMessage(), e);
        }
    }

    private static Lesson builtIn(BuiltInLesson lesson) throws LessonException {
        try {
            String text = new String(resource(lesson.resource()), StandardCharsets.UTF_8);
            return parse(lesson.title(), text, LessonReader::resource);
        } catch (IOException e) {
            throw new LessonException(lesson.title() + ": " + e.getMessage(), e);
        }
    }

    private static byte[] resource(String name) throws IOException {
        try (InputStream in = LessonReader.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException(name + " is missing from the program");
            }
            return in.readAllBytes();
        }
    }

    private static Lesson parse(String where, String text, ChartSource charts) throws LessonException {
        LessonYaml yaml;
        try {
            yaml = YAML.readValue(text, LessonYaml.class);
        } catch (UnrecognizedPropertyException e) {
            throw new LessonException(
                    at(where, e) + ": \"" + e.getPropertyName() + "\" is not known here, expected one of "
                            + e.getKnownPropertyIds(),
                    e);
        } catch (JsonMappingException e) {
            throw new LessonException(at(where, e) + ": " + path(e) + firstLine(e.getOriginalMessage()), e);
        } catch (JsonProcessingException e) {
            throw new LessonException(at(where, e) + ": not YAML: " + firstLine(e.getOriginalMessage()), e);
        }
        if (yaml == null) {
            throw new LessonException(where + ": the lesson is empty");
        }
        String chartName = need(where, "chart", yaml.chart());
        Chart chart;
        byte[] octets;
        try {
            octets = charts.octets(chartName);
            chart = ChartReader.read(new java.io.ByteArrayInputStream(octets), chartName)
                    .chart();
        } catch (IOException e) {
            throw new LessonException(where + ": " + firstLine(e.getMessage()), e);
        }
        FiledRoute filed;
        try {
            filed = FiledRouteReader.read(need(where, "filed", yaml.filed()), chart);
        } catch (ClearanceException e) {
            throw new LessonException(where + ": filed: " + e.code() + ": " + e.getMessage(), e);
        }
        Path chartPath = Path.of(chartName);
        return new Lesson(
                yaml.title() == null ? "untitled" : yaml.title(),
                chart,
                filed,
                date(where, yaml.date()),
                start(where, yaml.start(), chart),
                wind(where, yaml.wind()),
                amendments(where, yaml.amendments(), chart, filed),
                yaml.standard() == null ? "instrument-rating" : yaml.standard(),
                new Lesson.Files(text, String.valueOf(chartPath.getFileName()), octets));
    }

    private static Optional<LocalDate> date(String where, @Nullable String date) throws LessonException {
        if (date == null) {
            return Optional.empty();
        }
        try {
            return Optional.of(LocalDate.parse(date));
        } catch (DateTimeException e) {
            throw new LessonException(where + ": date: \"" + date + "\" is not a day, expected YYYY-MM-DD", e);
        }
    }

    private static Optional<Lesson.Start> start(String where, @Nullable StartYaml start, Chart chart)
            throws LessonException {
        if (start == null) {
            return Optional.empty();
        }
        try {
            return Optional.of(new Lesson.Start(
                    Place.read(need(where, "start: at", start.at()), chart),
                    range(
                            where,
                            "start: altitude_ft",
                            need(where, "start: altitude_ft", start.altitude_ft()),
                            0,
                            60_000),
                    new MagneticDirection(range(
                            where,
                            "start: heading_magnetic_deg",
                            need(where, "start: heading_magnetic_deg", start.heading_magnetic_deg()),
                            0,
                            360)),
                    range(where, "start: speed_kt", need(where, "start: speed_kt", start.speed_kt()), 40, 600)));
        } catch (LessonException e) {
            throw e.getMessage() != null && e.getMessage().startsWith(where)
                    ? e
                    : new LessonException(where + ": start: at: " + e.getMessage(), e);
        }
    }

    private static Wind wind(String where, @Nullable WindYaml wind) throws LessonException {
        if (wind == null) {
            return Wind.CALM;
        }
        return new Wind(
                new TrueDirection(range(
                        where,
                        "wind: from_true_deg",
                        need(where, "wind: from_true_deg", wind.from_true_deg()),
                        0,
                        360)),
                range(where, "wind: speed_kt", need(where, "wind: speed_kt", wind.speed_kt()), 0, 300));
    }

    private static List<Amendment> amendments(
            String where, @Nullable List<AmendmentYaml> list, Chart chart, FiledRoute filed) throws LessonException {
        List<Amendment> amendments = new ArrayList<>();
        int number = 0;
        for (AmendmentYaml each : list == null ? List.<AmendmentYaml>of() : list) {
            number++;
            String here = where + ": amendment " + number;
            String say = need(here, "say", each.say());
            try {
                ClearanceReader.read(say, chart, filed);
            } catch (ClearanceException e) {
                throw new LessonException(here + ": say: " + e.code() + ": " + firstLine(e.getMessage()), e);
            }
            OptionalDouble altitude = each.altitude_ft() == null
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(range(here, "altitude_ft", each.altitude_ft(), 0, 60_000));
            amendments.add(new Amendment(when(here, each.when(), chart), say, altitude));
        }
        return amendments;
    }

    private static Amendment.When when(String here, @Nullable WhenYaml when, Chart chart) throws LessonException {
        if (when == null || (when.elapsed_s() == null) == (when.abeam() == null)) {
            throw new LessonException(here + ": when: expected either elapsed_s: SECONDS or abeam: IDENT");
        }
        if (when.elapsed_s() != null) {
            return new Amendment.When.ElapsedS(range(here, "when: elapsed_s", when.elapsed_s(), 0, 1e6));
        }
        String ident = need(here, "when: abeam", when.abeam());
        if (chart.waypoints(ident).isEmpty()) {
            throw new LessonException(here + ": when: abeam: " + ident + " is not on chart " + chart.name());
        }
        return new Amendment.When.Abeam(ident);
    }

    private static <T> T need(String where, String what, @Nullable T value) throws LessonException {
        if (value == null) {
            throw new LessonException(where + ": " + what + " is missing");
        }
        return value;
    }

    private static double range(String where, String what, double value, double low, double high)
            throws LessonException {
        if (!(value >= low && value <= high)) {
            throw new LessonException(where + ": " + what + " " + value + " is not in [" + low + ", " + high + "]");
        }
        return value;
    }

    private static String at(String where, JsonProcessingException e) {
        return e.getLocation() == null ? where : where + ":" + e.getLocation().getLineNr();
    }

    private static String path(JsonMappingException e) {
        StringBuilder path = new StringBuilder();
        e.getPath()
                .forEach(step -> path.append(
                        step.getFieldName() == null ? "[" + step.getIndex() + "] " : step.getFieldName() + ": "));
        return path.toString();
    }

    private static String firstLine(@Nullable String message) {
        return message == null ? "" : message.lines().findFirst().orElse("");
    }
}
