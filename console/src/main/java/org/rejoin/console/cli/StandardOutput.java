package org.rejoin.console.cli;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetEncoder;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;

/**
 * Standard output or error. To a terminal in the characters it shows, else in UTF-8, so that files are the same
 * everywhere; remembers that something could not be written, which a {@link PrintWriter} keeps to itself.
 */
final class StandardOutput extends FilterOutputStream {

    private volatile String trouble = "";

    /** Around a stream of the program. */
    StandardOutput(OutputStream stream) {
        super(stream);
    }

    /** A writer that flushes each line. */
    PrintWriter writer() {
        return writer(Terminal.attached() ? Terminal.charset() : StandardCharsets.UTF_8);
    }

    PrintWriter writer(Charset charset) {
        return new PrintWriter(new PlainLetters(new OutputStreamWriter(this, charset), charset), true);
    }

    /** Why something was not written; empty where all was. */
    String trouble() {
        return trouble;
    }

    @Override
    public void write(int octet) throws IOException {
        write(new byte[] {(byte) octet}, 0, 1);
    }

    @Override
    public void write(byte[] octets, int from, int length) throws IOException {
        try {
            out.write(octets, from, length);
        } catch (IOException e) {
            throw remember(e);
        }
    }

    @Override
    public void flush() throws IOException {
        try {
            out.flush();
        } catch (IOException e) {
            throw remember(e);
        }
    }

    private IOException remember(IOException e) {
        if (trouble.isEmpty()) {
            trouble = e.getMessage() == null ? "the system refuses" : e.getMessage();
        }
        return e;
    }

    /** Writes what a terminal cannot show in letters that it can: degrees as a blank, as in N38 12.000', an accent left out. */
    private static final class PlainLetters extends Writer {

        private final Writer out;
        private final CharsetEncoder terminal;

        /**
         * Before an encoder.
         *
         * @param out takes only what the terminal shows
         */
        PlainLetters(Writer out, Charset charset) {
            this.out = out;
            this.terminal = charset.newEncoder();
        }

        private String plain(String text) {
            if (terminal.canEncode(text)) {
                return text;
            }
            StringBuilder plain = new StringBuilder();
            text.codePoints().forEach(point -> {
                String letter = Character.toString(point);
                plain.append(terminal.canEncode(letter) ? letter : instead(point, letter));
            });
            return plain.toString();
        }

        private String instead(int point, String letter) {
            return switch (point) {
                case '\u00b0', '\u00a0' -> " ";
                case '\u2026' -> "...";
                case '\u2013', '\u2014' -> "-";
                case '\u2018', '\u2019' -> "'";
                case '\u201c', '\u201d' -> "\"";
                case '\u00b1' -> "+/-";
                default -> {
                    String base =
                            Normalizer.normalize(letter, Normalizer.Form.NFKD).replaceAll("\\p{M}", "");
                    yield terminal.canEncode(base) ? base : "?";
                }
            };
        }

        @Override
        public void write(char[] letters, int from, int length) throws IOException {
            out.write(plain(new String(letters, from, length)));
        }

        @Override
        public void flush() throws IOException {
            out.flush();
        }

        @Override
        public void close() throws IOException {
            out.close();
        }
    }
}
