package org.rejoin.bridge.chart.io;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.chart.Region;
import org.rejoin.bridge.chart.SourceLines;
import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlText;

/** Reads a chart file, ours in YAML or ARINC 424, telling them apart by their content. */
public final class ChartReader {

    /** Our own charts are small; anything above this is some other file. */
    private static final int LARGEST_YAML_BYTES = 16_000_000;

    /** Octets by which the formats of chart files are told apart. */
    private static final int HEAD = 1 << 16;

    /** A shorter line is no record, whatever it begins with. */
    private static final int SHORTEST_RECORD = 40;

    private ChartReader() {}

    /**
     * Something in the file that is not as it should be.
     *
     * @param line in the file, from 1; 0 where no line is to blame
     * @param what was found, and what would be right
     * @param fatal whether the record was dropped for it
     */
    public record Problem(int line, String what, boolean fatal) {}

    /**
     * What a file holds.
     *
     * @param chart of all that is good
     * @param problems in the order of the file, those of no line last; of very many only the first thousand
     * @param source what kind of file it was
     * @param lines where in the file the things of the chart stand
     */
    public record Result(Chart chart, List<Problem> problems, ChartSource source, SourceLines lines) {

        /** Copies. */
        public Result {
            problems = List.copyOf(problems);
        }
    }

    /**
     * Reads a file. A large ARINC 424 file is kept beside it as it was read, in a hidden file that may be deleted at any
     * time, and is quickly at hand again.
     *
     * @param file the chart
     * @return chart and problems
     * @throws IOException if the file cannot be read at all; one line that says why, naming line and column where there
     *     is one
     */
    public static Result read(Path file) throws IOException {
        return read(file, Optional.empty());
    }

    /**
     * Reads a file, or only a region of it. Of a large ARINC 424 file with a region, only what lies there or belongs to an
     * airway is held in memory.
     *
     * @param file the chart
     * @param region what is wanted, as {@link Chart#within}; all where empty
     * @return chart and problems; the problems are those of the whole file
     * @throws IOException if the file cannot be read at all; one line that says why, naming line and column where there
     *     is one
     */
    public static Result read(Path file, Optional<Region> region) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new IOException(file + (Files.exists(file) ? " is not a file" : " does not exist"));
        }
        if (!Files.isReadable(file)) {
            throw new IOException(file + " may not be read; check its permissions");
        }
        String name = file.toString();
        boolean arinc = isArinc(file);
        if (region.isEmpty() && arinc) {
            return ChartCache.read(file, in -> read(in, name));
        }
        if (!arinc) {
            try (InputStream in = Files.newInputStream(file)) {
                Result all = read(in, name);
                return new Result(
                        region.map(all.chart()::within).orElse(all.chart()), all.problems(), all.source(), all.lines());
            }
        }
        Problems problems = new Problems();
        SourceLines lines = new SourceLines();
        ArincChart chosen = new ArincChart(name, problems, lines);
        try (InputStream in = Files.newInputStream(file)) {
            chosen.readAirways(in);
        }
        try (InputStream in = Files.newInputStream(file)) {
            chosen.readPoints(in, (key, position) -> region.get().contains(position));
        }
        Chart chart = chosen.chart().within(region.get());
        return new Result(chart, problems.inOrder(), chosen.source(), lines);
    }

    /**
     * Reads a chart from a stream, as a built-in chart from the class path. Does not close it.
     *
     * @param in the content
     * @param name what to call it in messages, and the chart if it names none itself
     * @return chart and problems
     * @throws IOException if it cannot be read at all; one line that says why, naming line and column where there is one
     */
    public static Result read(InputStream in, String name) throws IOException {
        Problems problems = new Problems();
        SourceLines lines = new SourceLines();
        byte[] head = in.readNBytes(HEAD);
        InputStream all = new SequenceInputStream(new ByteArrayInputStream(head), in);
        if (isArinc(name, head)) {
            ArincChart arinc = new ArincChart(name, problems, lines);
            arinc.read(all);
            Chart chart = arinc.chart();
            return new Result(chart, problems.inOrder(), arinc.source(), lines);
        }
        byte[] bytes = all.readNBytes(LARGEST_YAML_BYTES + 1);
        if (bytes.length > LARGEST_YAML_BYTES) {
            throw new IOException(name + " is no ARINC 424 file, and larger than the " + LARGEST_YAML_BYTES / 1_000_000
                    + " MB that a chart in YAML may have");
        }
        Chart chart = YamlChart.read(name, decoded(name, bytes), problems, lines);
        return new Result(chart, problems.inOrder(), ChartSource.yaml(), lines);
    }

    private static boolean isArinc(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return isArinc(file.toString(), in.readNBytes(HEAD));
        }
    }

    private static String decoded(String name, byte[] bytes) throws IOException {
        try {
            return YamlText.decoded(bytes);
        } catch (YamlException e) {
            throw new IOException(name + ": " + e.getMessage(), e);
        }
    }

    /**
     * Whether a file that begins so is ARINC 424, as it is if any line begins as a record does; a file's name says nothing.
     *
     * @throws IOException if it is text of two octets a character, in which nothing can be told
     */
    private static boolean isArinc(String name, byte[] head) throws IOException {
        if (head.length == 0) {
            throw new IOException(name + " is empty; expected a chart in YAML, or ARINC 424 records");
        }
        if (head.length > 1 && isByteOrderMark(head[0] & 0xFF, head[1] & 0xFF)) {
            throw new IOException(
                    name + ": line 1, column 1: text of two bytes a character (UTF-16); save the file as UTF-8");
        }
        int start = 0;
        while (start < head.length) {
            int end = start;
            while (end < head.length && head[end] != '\n' && head[end] != '\r') {
                end++;
            }
            boolean colon = false; // common in YAML, no part of a record's first columns
            for (int i = start; i < Math.min(end, start + SHORTEST_RECORD); i++) {
                colon |= head[i] == ':';
            }
            if (end - start >= SHORTEST_RECORD && !colon && ArincLines.startsRecord(head, start, end)) {
                return true;
            }
            start = end + 1;
        }
        return false;
    }

    private static boolean isByteOrderMark(int first, int second) {
        return (first == 0xFE && second == 0xFF) || (first == 0xFF && second == 0xFE);
    }
}
