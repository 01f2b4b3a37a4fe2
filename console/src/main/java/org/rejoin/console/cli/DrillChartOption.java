package org.rejoin.console.cli;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Objects;

import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.console.drill.DrillChart;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.lesson.LessonReader;

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
            Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
            byte[] octets =
                    lesson.files().chart() instanceof Lesson.KeptChart.Octets kept ? kept.octets() : new byte[0];
            return new DrillChart(lesson.chart(), BadInput.in(() -> sha256(new ByteArrayInputStream(octets))));
        }
        ChartReader.Result result = BadInput.in(() -> ChartReader.read(file));
        String hash = BadInput.in(() -> {
            try (InputStream in = Files.newInputStream(file)) {
                return sha256(in);
            }
        });
        return new DrillChart(result.chart(), hash);
    }

    /** The chart file, to be written beside lessons; the built-in one's octets where none was named. */
    byte[] octets() throws IOException, LessonException {
        Path file = chart;
        if (file != null) {
            return Files.readAllBytes(file);
        }
        Lesson lesson = LessonReader.read(BuiltInLesson.RADIAL_OUTBOUND.lessonName());
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

    /** Writes a lesson file, and the built-in chart beside it where that is meant. */
    void write(Path file, String lesson) throws IOException, LessonException {
        OutputFile.write("--out", file, lesson);
        if (chart == null) {
            Files.write(file.toAbsolutePath().resolveSibling(fileName()), octets());
        }
    }

    private static String sha256(InputStream in) throws IOException {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            byte[] buffer = new byte[1 << 16];
            for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                digest.update(buffer, 0, n);
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
