package org.rejoin.console.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** Commented files to start one's own from. */
enum Template {
    /** A lesson that can be flown as it is, with the chart beside it. */
    LESSON("my-lesson.yaml"),
    /** A chart with one of each thing. */
    CHART("my-chart.yaml");

    private final String fileName;

    Template(String fileName) {
        this.fileName = fileName;
    }

    /** What it is called where nobody says otherwise. */
    String fileName() {
        return fileName;
    }

    String text() throws IOException {
        try (InputStream in = Template.class.getResourceAsStream("template/" + fileName)) {
            if (in == null) {
                throw new IOException(fileName + " is missing from the program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    /**
     * Writes it.
     *
     * @throws BadInput if a file of that name is there
     * @throws IOException if it cannot be written
     */
    void write(Path file, PrintWriter out) throws IOException, BadInput {
        if (Files.exists(file)) {
            throw new BadInput(file + " exists already and is left as it is; name another file");
        }
        Files.writeString(file, text(), StandardOpenOption.CREATE_NEW);
        out.println("Written: " + file);
    }
}
