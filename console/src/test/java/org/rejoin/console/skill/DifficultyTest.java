package org.rejoin.console.skill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Objects;

import org.junit.jupiter.api.Test;

/** The file of the difficulties, read by the reader of all that is written by hand: what is wrong is said with its line. */
class DifficultyTest {

    private static String builtIn() throws IOException {
        try (InputStream in = Objects.requireNonNull(Difficulty.class.getResourceAsStream("difficulty.yaml"))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @Test
    void theOneThatComesWithTheProgramIsWhole() throws Exception {
        Difficulty file = Difficulty.read("difficulty.yaml", builtIn());
        assertThat(file.version()).isEqualTo(Difficulty.BUILT_IN.version()).isEqualTo(3);
        assertThat(file.base()).containsOnlyKeys(Shape.values());
        assertThat(file.base().get(Shape.A)).doesNotContainKey(Skill.FIX);
        assertThat(file.flags()).containsOnlyKeys(Difficulty.Flag.values());
    }

    @Test
    void aRowHoldsFromItsValueUpToTheNext() throws Exception {
        Difficulty file = Difficulty.read("difficulty.yaml", builtIn());
        assertThat(file.at(Difficulty.Band.ANGLE_DEG, 49.9)).isEmpty();
        assertThat(file.at(Difficulty.Band.ANGLE_DEG, 50)).isEqualTo(Map.of(Skill.INTERCEPT, 0.4));
        assertThat(file.at(Difficulty.Band.ANGLE_DEG, 70)).isEqualTo(Map.of(Skill.INTERCEPT, 0.9));
        assertThat(file.at(Difficulty.Band.ANGLE_DEG, -1)).isEmpty();
    }

    @Test
    void whatIsWrongIsSaidWithItsLineAndWhatWouldBeRight() throws Exception {
        refused(
                builtIn().replace("  A: {HEAR: -1.0, COURSE: -1.5,", "  A: {HEAR: -1.0, CORSE: -1.5,"),
                "unknown name \"CORSE\" in a shape; did you mean COURSE?");
        refused(builtIn().replace("  hold: {", "  hold_pattern: {"), "unknown name \"hold_pattern\" in base");
        refused(builtIn().replace("  read_once: {HEAR: 0.3}", ""), "flags needs \"read_once\"");
        refused(
                builtIn().replace("{from: 50, INTERCEPT: 0.4}", "{from: 30, INTERCEPT: 0.4}"),
                "the rows of angle_deg are not in order");
        refused(
                builtIn().replace("{from: 70, INTERCEPT: 0.9}", "{from: 70, INTERCEPT: much}"),
                "INTERCEPT \"much\"; a number is needed");
        refused(builtIn().replace("version: 3", "version: new"), "version \"new\"; a whole number");
    }

    private static void refused(String text, String said) {
        assertThatThrownBy(() -> Difficulty.read("difficulty.yaml", text))
                .isInstanceOf(IOException.class)
                .hasMessageStartingWith("difficulty.yaml:")
                .hasMessageContaining(said);
    }
}
