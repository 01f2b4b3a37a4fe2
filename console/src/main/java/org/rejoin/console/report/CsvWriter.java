package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;

/** Comma-separated values by RFC 4180: CRLF after each record, quotes where a field needs them, a quote doubled. */
final class CsvWriter {

    private final Writer out;
    private boolean first = true;

    CsvWriter(Writer out) {
        this.out = out;
    }

    CsvWriter field(String text) throws IOException {
        if (!first) {
            out.write(',');
        }
        first = false;
        String clean = CleanText.of(text);
        if (clean.chars().anyMatch(c -> c == ',' || c == '"' || c == '\r' || c == '\n')) {
            out.write('"');
            out.write(clean.replace("\"", "\"\""));
            out.write('"');
        } else {
            out.write(clean);
        }
        return this;
    }

    void end() throws IOException {
        out.write("\r\n");
        first = true;
    }
}
