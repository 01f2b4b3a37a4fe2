package org.rejoin.console.report;

import java.nio.charset.StandardCharsets;
import java.util.Base64;

import org.rejoin.console.draw.PlanStyle;
import org.rejoin.console.recording.Sha256;
import org.rejoin.console.words.Words;

/** Style and script of the page, and a policy that allows these two and nothing else. */
record PageResources(String style, String script) {

    static PageResources read() {
        return new PageResources(
                PlanStyle.forPage() + PlanStyle.text(PageResources.class, "report.css"),
                PlanStyle.text(PageResources.class, "report.js"));
    }

    /** For the Content-Security-Policy (W3C, Content Security Policy Level 3, section 8.4: hashes). */
    String policy(String ownStyle) {
        return "default-src 'none'; style-src " + source(style) + " " + source(ownStyle) + "; script-src "
                + source(script) + "; base-uri 'none'; form-action 'none'";
    }

    /** Head and foot of each printed page (W3C, CSS Paged Media Module Level 3, section 5: page-margin boxes). */
    static String running(String head, String foot) {
        return "@page{@top-left{content:" + quoted(head) + ";font:8.5pt system-ui,sans-serif}"
                + "@bottom-left{content:" + quoted(foot) + ";font:8pt system-ui,sans-serif}"
                + "@bottom-right{content:\"page \" counter(page) \" of \" counter(pages);"
                + "font:8.5pt system-ui,sans-serif}}";
    }

    /**
     * Every character but plain letters and figures by its number; one space after a number belongs to it (CSS Syntax Module
     * Level 3, section 4.3.7).
     */
    private static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        text.codePoints().forEach(each -> {
            boolean plain = each < 128 && (Character.isLetterOrDigit(each) || each == ' ');
            quoted.append(plain ? String.valueOf((char) each) : Words.say("\\%06x ", each));
        });
        return quoted.append('"').toString();
    }

    private static String source(String content) {
        return "'sha256-" + Base64.getEncoder().encodeToString(Sha256.of(content.getBytes(StandardCharsets.UTF_8)))
                + "'";
    }
}
