package org.rejoin.console.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Base64;

/**
 * Style and script of the page, and a policy that allows these two and nothing else.
 *
 * @param style sheet
 * @param script of the slider
 */
record PageResources(String style, String script) {

    static PageResources read() throws IOException {
        return new PageResources(text("report.css"), text("report.js"));
    }

    /** For the Content-Security-Policy (W3C, Content Security Policy Level 3, section 8.4: hashes). */
    String policy() {
        return "default-src 'none'; style-src " + source(style) + "; script-src " + source(script)
                + "; base-uri 'none'; form-action 'none'";
    }

    private static String source(String content) {
        return "'sha256-" + Base64.getEncoder().encodeToString(Sha256.of(content.getBytes(StandardCharsets.UTF_8)))
                + "'";
    }

    private static String text(String name) throws IOException {
        try (InputStream in = PageResources.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException(name + " is missing from the program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
