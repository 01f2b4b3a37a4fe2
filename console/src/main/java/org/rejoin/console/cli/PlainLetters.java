package org.rejoin.console.cli;

import java.io.FilterWriter;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.Charset;
import java.nio.charset.CharsetEncoder;
import java.text.Normalizer;

/** Writes what a terminal cannot show in letters that it can: degrees as a blank, as in N38 12.000', an accent left out. */
final class PlainLetters extends FilterWriter {

    private final CharsetEncoder terminal;

    /**
     * Before an encoder.
     *
     * @param out takes only what the terminal shows
     */
    PlainLetters(Writer out, Charset charset) {
        super(out);
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
                String base = Normalizer.normalize(letter, Normalizer.Form.NFKD).replaceAll("\\p{M}", "");
                yield terminal.canEncode(base) ? base : "?";
            }
        };
    }

    @Override
    public void write(int letter) throws IOException {
        out.write(plain(Character.toString(letter)));
    }

    @Override
    public void write(char[] letters, int from, int length) throws IOException {
        out.write(plain(new String(letters, from, length)));
    }

    @Override
    public void write(String text, int from, int length) throws IOException {
        out.write(plain(text.substring(from, from + length)));
    }
}
