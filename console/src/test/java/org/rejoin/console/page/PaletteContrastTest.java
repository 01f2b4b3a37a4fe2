package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Colours of page, plan, strips and report on their grounds: canvas and SVG are not seen by rules that read the page.
 * Ratio and relative luminance as WCAG 2.1 defines them; 4.5 for text (1.4.3), 3 for lines and marks that carry meaning
 * (1.4.11).
 */
class PaletteContrastTest {

    private static final Pattern LOOK = Pattern.compile(":root(?:\\[[^]]*])? \\{([^}]*)}");
    private static final Pattern COLOUR = Pattern.compile("--([a-z]+): #([0-9a-f]{6});");

    @Test
    void theRatioIsTheOneThatIsPublished() {
        // WCAG 2.1, definition of contrast ratio: from 1 to 21.
        assertThat(ratio(0x000000, 0xffffff)).isCloseTo(21, within(1e-9));
        assertThat(ratio(0x777777, 0x777777)).isCloseTo(1, within(1e-9));
        // #767676 is the lightest grey on white with 4.5 (4.54): from memory.
        assertThat(ratio(0x767676, 0xffffff)).isCloseTo(4.54, within(0.01));
    }

    @ParameterizedTest
    @CsvSource({"/org/rejoin/console/page/page.css, 3", "/org/rejoin/console/draw/palette.css, 3"})
    void everyLookHasContrast(String file, int looks) throws Exception {
        String css;
        try (InputStream in = PaletteContrastTest.class.getResourceAsStream(file)) {
            assertThat(in).isNotNull();
            css = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
        Matcher look = LOOK.matcher(css);
        int found = 0;
        while (look.find()) {
            found++;
            check(file + ", look " + found, colours(look.group(1)));
        }
        assertThat(found).isEqualTo(looks);
    }

    private static Map<String, Integer> colours(String look) {
        Map<String, Integer> colours = new HashMap<>();
        Matcher colour = COLOUR.matcher(look);
        while (colour.find()) {
            colours.put(colour.group(1), Integer.parseInt(colour.group(2), 16));
        }
        return colours;
    }

    private static void check(String look, Map<String, Integer> colours) {
        List<String> grounds = List.of("paper", "field");
        for (String text : List.of("ink", "soft")) {
            for (String ground : grounds) {
                least(look, colours, text, ground, 4.5);
            }
        }
        // The row of the replay's moment, and labels over the corridor of a route.
        least(look, colours, "ink", "band", 4.5);
        for (String line : List.of("track", "heading", "radial", "grey", "fault", "best")) {
            for (String ground : grounds) {
                if (!line.equals("best") || colours.containsKey(line)) {
                    least(look, colours, line, ground, 3);
                }
            }
        }
        // Drawn over the limits of a strip or the corridor of a route.
        for (String line : List.of("track", "heading", "radial", "soft")) {
            least(look, colours, line, "band", 3);
        }
    }

    private static void least(String look, Map<String, Integer> colours, String one, String other, double least) {
        assertThat(colours).as(look).containsKeys(one, other);
        assertThat(ratio(colours.getOrDefault(one, 0), colours.getOrDefault(other, 0)))
                .as(look + ": " + one + " on " + other)
                .isGreaterThanOrEqualTo(least);
    }

    private static double ratio(int one, int other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(int rgb) {
        return 0.2126 * linear(rgb >> 16 & 0xff) + 0.7152 * linear(rgb >> 8 & 0xff) + 0.0722 * linear(rgb & 0xff);
    }

    private static double linear(int octet) {
        double share = octet / 255.0;
        return share <= 0.03928 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
    }
}
