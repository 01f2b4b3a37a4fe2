package org.rejoin.console;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import com.fasterxml.jackson.databind.JsonNode;

/** The published accessibility rules of axe-core, run on the page a browser shows. */
public final class Accessibility {

    /** WCAG 2.0 and 2.1, levels A and AA, by the rules' own tags. */
    private static final String RULES =
            "{runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'], resultTypes: ['violations']}";

    private final String script;

    public Accessibility() throws IOException {
        try (InputStream in = Accessibility.class.getResourceAsStream("/axe.min.js")) {
            if (in == null) {
                throw new IOException("the accessibility rules are not on the class path");
            }
            script = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    /** What breaks a rule, one line each with the element; empty where nothing does. */
    public List<String> violations(Browser browser) throws Exception {
        browser.value("typeof window.axe === 'undefined' ? (() => { " + script + "\n; return true; })() : true");
        JsonNode found = browser.value("axe.run(document, " + RULES + ")");
        if (found.path("passes").size() < 10) {
            throw new AssertionError("the rules did not run: " + found);
        }
        List<String> lines = new ArrayList<>();
        for (JsonNode rule : found.path("violations")) {
            for (JsonNode node : rule.path("nodes")) {
                lines.add(rule.path("id").asText() + " at " + node.path("target") + ": "
                        + node.path("failureSummary").asText().replace('\n', ' '));
            }
        }
        return lines;
    }
}
