package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;

import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.report.Sha256;

import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** {@code --chart}: where drills are drawn; the built-in open-ocean chart where none is named. */
final class DrillChartOption {

    @Option(
            names = "--chart",
            paramLabel = "FILE",
            description = "Our own YAML, or ARINC 424 (default: the built-in open-ocean chart).")
    @Nullable
    Path chart;

    /**
     * Reads the chart.
     *
     * @throws BadInput if it cannot be read
     */
    DrillChart read() throws BadInput, LessonException {
        Path file = chart;
        if (file == null) {
            Lesson lesson = builtIn();
            return new DrillChart(lesson.chart(), Sha256.hex(octets(lesson)));
        }
        ChartReader.Result result = BadInput.in(() -> ChartReader.read(file));
        return new DrillChart(result.chart(), BadInput.in(() -> Sha256.hex(file)));
    }

    /** The chart file, to be written beside lessons; the built-in one's octets where none was named. */
    byte[] octets() throws IOException, LessonException {
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
    String fileName() {
        return chart == null ? "open-ocean.yaml" : String.valueOf(chart.getFileName());
    }

    /** The chart as a lesson file names it: relative to it where that can be. */
    String pathFrom(@Nullable Path out) {
        Path named = chart;
        if (named == null) {
            return fileName();
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
     * Writes a lesson file, and the built-in chart beside it where that is meant.
     *
     * @throws BadInput if a file of the user's would be overwritten; nothing is written then
     */
    void write(Path file, String lesson) throws IOException, LessonException, BadInput {
        Path beside = file.toAbsolutePath().resolveSibling(fileName());
        OutputFile.requireFree("--out", file, lesson.getBytes(StandardCharsets.UTF_8));
        if (chart != null) {
            OutputFile.write("--out", file, lesson);
            return;
        }
        OutputFile.requireFree("--out", beside, octets());
        OutputFile.write("--out", file, lesson);
        OutputFile.write("--out", beside, octets());
    }
}
