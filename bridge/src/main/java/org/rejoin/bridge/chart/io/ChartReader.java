package org.rejoin.bridge.chart.io;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.chart.Chart;

/** Reads a chart file, ours in YAML or ARINC 424, telling them apart by their content. */
public final class ChartReader {

    /** Our own charts are small; anything above this is some other file. */
    private static final int LARGEST_YAML_BYTES = 16_000_000;

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
     * @param problems in the order of the file
     */
    public record Result(Chart chart, List<Problem> problems) {}

    /**
     * Reads a file.
     *
     * @param file the chart
     * @return chart and problems
     * @throws IOException if the file cannot be read at all; the message says why
     */
    public static Result read(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            throw new IOException(file + (Files.exists(file) ? " is not a file" : " does not exist"));
        }
        try (InputStream in = Files.newInputStream(file)) {
            return read(in, file.toString());
        }
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
        byte[] bytes = in.readNBytes(LARGEST_YAML_BYTES + 1);
        if (bytes.length > LARGEST_YAML_BYTES) {
            throw new IOException(name + " is no ARINC 424 file, and larger than the " + LARGEST_YAML_BYTES / 1_000_000
                    + " MB that a chart in YAML may have");
        }
        Problems problems = new Problems();
        Chart chart = YamlChart.read(name, decoded(name, bytes), problems);
        return new Result(chart, problems.inOrder());
    }

    /** UTF-8, strictly: a chart in another encoding would show wrong names without a word. */
    private static String decoded(String name, byte[] bytes) throws IOException {
        CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
        ByteBuffer in = ByteBuffer.wrap(bytes);
        CharBuffer out = CharBuffer.allocate(bytes.length + 1);
        CoderResult result = decoder.decode(in, out, true);
        String text = out.flip().toString();
        if (result.isError()) {
            long line = 1 + text.chars().filter(c -> c == '\n').count();
            int column = text.length() - text.lastIndexOf('\n');
            throw new IOException(String.format(
                    Locale.ROOT,
                    "%s: line %d, column %d: byte 0x%02X is not UTF-8; save the file as UTF-8",
                    name,
                    line,
                    column,
                    bytes[in.position()] & 0xFF));
        }
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }
}
