package org.rejoin.console.cli;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

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
        try {
            out.write(octet);
        } catch (IOException e) {
            throw remember(e);
        }
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
}
