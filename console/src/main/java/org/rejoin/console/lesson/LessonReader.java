package org.rejoin.console.lesson;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.UnaryOperator;

import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.chart.io.ChartSource;
import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlText;

/** Reads lesson files and the built-in lessons. Everything in a lesson is checked before the flight begins. */
public final class LessonReader {

    /** A lesson file is a page of text; anything larger is something else. */
    private static final long LARGEST_OCTETS = 1_000_000;

    private LessonReader() {}

    /** A chart, and what a recording is to keep of it. */
    private record ReadChart(ChartReader.Result result, String name, Lesson.KeptChart kept) {}

    /** Where a lesson's chart comes from. */
    private interface Charts {
        ReadChart read(String name) throws IOException;
    }

    /**
     * Reads a lesson by file name or by the name of a built-in one.
     *
     * @param nameOrFile for example "radial-outbound", or a path
     * @throws LessonException if there is no such lesson or something in it is wrong
     */
    public static Lesson read(String nameOrFile) throws LessonException {
        Optional<BuiltInLesson> builtIn = BuiltInLesson.named(nameOrFile);
        if (builtIn.isPresent()) {
            return builtIn(builtIn.get());
        }
        if (!isFile(nameOrFile)) {
            throw new LessonException(
                    "no lesson \"" + nameOrFile + "\": neither a file nor one of the built-in lessons "
                            + BuiltInLesson.names() + " (fly --list describes them)");
        }
        return readFile(Path.of(nameOrFile));
    }

    private static boolean isFile(String name) {
        try {
            return Files.isRegularFile(Path.of(name));
        } catch (InvalidPathException e) {
            return false;
        }
    }

    /**
     * Reads a lesson file.
     *
     * @param file the lesson; its chart is found relative to it
     * @throws LessonException if something in it is wrong; one line that begins with the file and, where there is one, the
     *     line
     */
    public static Lesson readFile(Path file) throws LessonException {
        String text;
        try {
            if (Files.size(file) > LARGEST_OCTETS) {
                throw new LessonException(file + " is too large for a lesson (" + Files.size(file) + " octets)");
            }
            text = YamlText.decoded(Files.readAllBytes(file));
        } catch (YamlException e) {
            throw new LessonException(file + ": " + e.getMessage(), e);
        } catch (AccessDeniedException e) {
            throw new LessonException(file + ": no permission; check the permissions of the file", e);
        } catch (IOException e) {
            throw new LessonException(file + ": cannot be read: " + e.getMessage(), e);
        }
        Path beside = file.toAbsolutePath();
        return parse(
                file.toString(),
                text,
                name -> {
                    Path chart = beside.resolveSibling(name);
                    ChartReader.Result result = ChartReader.read(chart);
                    boolean arinc = result.source().format() == ChartSource.Format.ARINC_424;
                    return new ReadChart(
                            result,
                            chart.toString(),
                            arinc
                                    ? new Lesson.KeptChart.Copy(chart)
                                    : new Lesson.KeptChart.Octets(Files.readAllBytes(chart)));
                },
                name -> file.resolveSibling(name).toString(),
                false);
    }

    private static Lesson builtIn(BuiltInLesson lesson) throws LessonException {
        try {
            String text = new String(resource(lesson.resource()), StandardCharsets.UTF_8);
            return parse(
                    lesson.resource(),
                    text,
                    name -> {
                        byte[] octets = resource(name);
                        ChartReader.Result result = ChartReader.read(new ByteArrayInputStream(octets), name);
                        return new ReadChart(result, name, new Lesson.KeptChart.Octets(octets));
                    },
                    UnaryOperator.identity(),
                    true);
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

    private static Lesson parse(String file, String text, Charts charts, UnaryOperator<String> beside, boolean builtIn)
            throws LessonException {
        LessonYaml yaml = LessonYaml.read(file, text);
        String name = yaml.text("chart").orElse("");
        String at = yaml.at("chart") + ": chart: ";
        if (name.isBlank()) {
            throw new LessonException(at + "missing; name a chart file, relative to the lesson");
        }
        try {
            ReadChart chart = charts.read(name);
            return new LessonCheck(yaml, new ChartUse(chart.name(), chart.result()), beside, builtIn)
                    .lesson(new Lesson.Files(text, String.valueOf(Path.of(name).getFileName()), chart.kept()));
        } catch (IOException e) {
            throw new LessonException(at + LessonYaml.firstLine(e.getMessage()), e);
        } catch (InvalidPathException e) {
            throw new LessonException(at + "\"" + name + "\" is not a file name", e);
        }
    }
}
