package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A tolerance set of a school's own: what is wrong in it is said with its line. */
class ToleranceFileTest {

    private static final String SET = """
            name: ours
            title: Our school
            full_scale_nm: 2
            course_scale: 0.75
            heading_deg: 010
            altitude_ft: 100
            overshoot_nm: 0.5
            fix_lateral_nm: 1
            sources:
              heading_deg: the school's own
            """;

    @TempDir
    Path folder = Path.of("");

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("ours.yaml"), text);
    }

    @Test
    void aSetIsReadWithDecimalFigures() throws IOException {
        ToleranceSet set = ToleranceSet.read(file(SET).toString());
        assertThat(set.limits().headingDeg()).isEqualTo(10);
        assertThat(set.speedKt()).isEqualTo(10);
        assertThat(set.source("heading_deg")).isEqualTo("the school's own");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "name: ours | # none | :2: a tolerance set needs \"name\"",
                "full_scale_nm: 2 | '' | :1: a tolerance set needs full_scale_nm, full_scale_deg or both",
                "heading_deg: 010 | heading_deg: 7,5 | :5: heading_deg \"7,5\"; a number is needed; a decimal point",
                "heading_deg: 010 | heading_deg: 91 | :5: heading_deg 91 is not in 0 to 90",
                "heading_deg: 010 | heading_deg: 0 | :5: heading_deg is 0, must be above 0",
                "altitude_ft: 100 | altitude: 100 | :6: unknown name \"altitude\" in a tolerance set; did you mean altitude_ft?",
                "altitude_ft: 100 | heading_deg: 5 | :6: key \"heading_deg\" stands twice",
                "sources: | sources: [ | :"
            })
    void whatIsWrongIsSaidWithItsLine(String part, String instead, String said) throws IOException {
        Path file = file(SET.replaceFirst(part, instead));
        assertThat(catchThrowableOfType(IOException.class, () -> ToleranceSet.read(file.toString())))
                .hasMessageContaining("ours.yaml" + said);
    }
}
