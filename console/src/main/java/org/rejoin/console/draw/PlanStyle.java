package org.rejoin.console.draw;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** How the lines and marks of a plan look: told apart by dashes and shapes, the colours only repeat it. */
public final class PlanStyle {

    private static final Pattern COLOUR = Pattern.compile("--([a-z]+): (#[0-9a-f]{6});");

    private PlanStyle() {}

    /** For a page: the colours of the reader's choice, and those of paper when it is printed. */
    public static String forPage() {
        return text(PlanStyle.class, "palette.css") + text(PlanStyle.class, "plan.css");
    }

    /**
     * For a drawing that stands alone, with the colours of paper written out: few programs that show a drawing know the
     * variables of a style sheet.
     */
    public static String onPaper() {
        String style = text(PlanStyle.class, "plan.css");
        String palette = text(PlanStyle.class, "palette.css");
        Matcher colour = COLOUR.matcher(palette.substring(palette.indexOf("@media print")));
        while (colour.find()) {
            style = style.replace("var(--" + colour.group(1) + ")", colour.group(2));
        }
        return style;
    }

    /** A text that is packed with the program beside a class. */
    public static String text(Class<?> beside, String name) {
        try (InputStream in = beside.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException(name + " is missing from the program");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
