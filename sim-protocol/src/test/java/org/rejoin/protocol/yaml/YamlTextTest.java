package org.rejoin.protocol.yaml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Files that people write by hand, read as a person reads them. */
class YamlTextTest {

    private static YamlNode.Scalar value(String yaml) throws YamlException {
        YamlNode root = YamlText.read(yaml).root().orElseThrow();
        return (YamlNode.Scalar)
                ((YamlNode.Mapping) root).members().values().iterator().next().value();
    }

    /** Decimal forms of YAML 1.2.2, section 10.3.2 (core schema): figures with leading zeros are decimal. */
    @ParameterizedTest
    @CsvSource({
        "060, 60",
        "080, 80",
        "090, 90",
        "007, 7",
        "-012.5, -12.5",
        "+3, 3",
        ".5, 0.5",
        "5., 5",
        "1e3, 1000",
        "-1.5E-1, -0.15",
        "0, 0",
        "-0, 0",
        "00, 0"
    })
    void figuresAreDecimal(String written, double number) throws YamlException {
        assertThat(value("a: " + written).number()).hasValue(number);
        assertThat(value("{a: " + written + "}").number()).hasValue(number);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "1_000 | ; write 1000",
                "1 000 | ; write 1000",
                "6,000 | ; write it without a comma: 6000, or the decimal 6.000",
                "38,5 | ; a decimal point is needed: write 38.5",
                "-49,90 | ; a decimal point is needed: write -49.90",
                "49.9W | ; north and east are plus: write -49.9",
                "N38.5 | ; north and east are plus: write 38.5",
                "38:30 | ; write degrees and decimals, as 38.5 for 38 degrees 30 minutes",
                "0o60 | ; write it in decimal figures",
                "0x3C | ; write it in decimal figures",
                ".nan | ''",
                ".inf | ''",
                "yes | ''",
                "high | ''"
            })
    void whatIsNoNumberIsSaidWithTheNumberThatWasMeant(String written, String hint) throws YamlException {
        YamlNode.Scalar value = value("a: " + written);
        assertThat(value.number()).isEmpty();
        assertThat(value.numberHint()).isEqualTo(hint == null ? "" : hint);
    }

    @Test
    void wordsStayWords() throws YamlException {
        for (String word : List.of("NO", "yes", "on", "true", "Y", "2026-06-01", "12:30")) {
            assertThat(value("a: " + word)).isEqualTo(new YamlNode.Scalar(1, 4, word, false));
        }
        for (String nothing : List.of("", "~", "null")) {
            assertThat(value("a: " + nothing).absent()).isTrue();
        }
        assertThat(value("a: 'null'").absent()).isFalse();
    }

    /** In braces YAML ends the value at the comma; nobody means a key 5. */
    @Test
    void aDecimalCommaBetweenBracesIsPutTogetherAgain() throws YamlException {
        YamlText read = YamlText.read("- {latitude_deg: 38,5, longitude_deg: -49,25}\n");
        YamlNode.Mapping entry = (YamlNode.Mapping)
                ((YamlNode.Sequence) read.root().orElseThrow()).items().get(0);
        assertThat(entry.members().keySet()).containsExactly("latitude_deg", "longitude_deg");
        assertThat(entry.members().values())
                .extracting(member -> member.value().described())
                .containsExactly("\"38,5\"", "\"-49,25\"");
    }

    @Test
    void whatCanBeReadPastIsSaidWithItsPlace() throws YamlException {
        YamlText read = YamlText.read("a: &x 1\nb: *x\na: 2\n? [k]\n: 1\n---\nc: 1\n");
        assertThat(read.slips())
                .extracting(slip -> slip.line() + ":" + slip.column() + " " + slip.said())
                .satisfiesExactly(
                        alias -> assertThat(alias).startsWith("2:4 an alias"),
                        twice -> assertThat(twice).startsWith("3:1 key \"a\" stands twice; the first, of line 1"),
                        key -> assertThat(key).startsWith("4:3 a key must be a word, found a list"),
                        second -> assertThat(second).startsWith("6:1 a second document"));
        assertThat(catchThrowableOfType(YamlException.class, () -> YamlText.strictly("a: 1\na: 2\n", "")))
                .hasMessageContaining("stands twice");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"[1", "a: b: c", "a:\n\t- b", "\"open", "a: \u0007", "[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]"
            })
    void whatIsNotYamlIsRefusedInOneLineWithItsPlace(String text) {
        YamlException refused = catchThrowableOfType(YamlException.class, () -> YamlText.read(text));
        assertThat(refused.said()).isNotBlank().doesNotContain("\n");
        assertThat(refused.line()).isPositive();
        assertThat(refused.column()).isPositive();
    }

    @Test
    void aFileThatDoublesItselfStaysSmall() throws YamlException {
        StringBuilder text = new StringBuilder("a0: &a0 [x, x]\n");
        for (int i = 1; i < 40; i++) {
            text.append("a" + i + ": &a" + i + " [*a" + (i - 1) + ", *a" + (i - 1) + "]\n");
        }
        assertThat(YamlText.read(text.toString()).slips()).hasSize(78);
    }

    @Test
    void rubbishIsAFileOrARefusalAndNothingElse() {
        SplittableRandom random = new SplittableRandom(19);
        String alphabet = "ab1:{}[],-&*!|>'\"%#@` \n\t?~\u00e9";
        for (int i = 0; i < 20_000; i++) {
            StringBuilder text = new StringBuilder();
            for (int length = random.nextInt(1, 30); length > 0; length--) {
                text.append(alphabet.charAt(random.nextInt(alphabet.length())));
            }
            try {
                assertThat(YamlText.read(text.toString()).slips()).isNotNull();
            } catch (YamlException e) {
                assertThat(e.said()).doesNotContain("\n");
            }
        }
    }
}
