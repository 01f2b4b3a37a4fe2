package org.rejoin.protocol.profile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.SplittableRandom;

import org.rejoin.protocol.yaml.YamlException;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Non-regression: what a profile can do wrong, and where it is said to be. */
class ProfileFaultsTest {

    private static final String HEAD = """
            text: {separator: ",", fields: 4}
            values:
              - {is: latitude, at: 0, unit: deg}
              - {is: longitude, at: 1, unit: deg}
            """;

    private static YamlException fault(String yaml) {
        YamlException fault = catchThrowableOfType(YamlException.class, () -> Profile.parse(yaml));
        assertThat(fault).as(yaml).isNotNull();
        return fault;
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{is: rol, at: 2, unit: deg} | 10 | unknown quantity \"rol\"",
                "{is: roll, at: 2, unit: degs} | 29 | unknown unit \"degs\"",
                "{is: roll, at: 2, unit: ft} | 29 | does not measure roll",
                "{is: roll, at: 2} | 5 | needs a unit; one of deg, rad",
                "{is: roll, at: 2, unit: deg, scale: 0} | 41 | scale 0",
                "{is: roll, at: 4, unit: deg} | 20 | past the end of the record, which has 4 fields",
                "{is: latitude, at: 2, unit: deg} | 5 | a second value is latitude; the first is in line 3",
                "{is: roll, at: x, unit: deg} | 20 | a whole number from 0",
                "{is: roll, at: 2, unit: rad, minutes: 3} | 43 | minutes belong to whole degrees",
                "{is: roll, at: 2, unit: deg, typ: u8} | 34 | unknown name \"typ\"",
                "{is: roll, at: 2, unit: deg, type: u8} | 40 | a type belongs to binary profiles",
                "{is: roll, at: 2, unit: deg, index: 1} | 41 | an index needs",
                "{is: roll, unit: deg} | 5 | a value needs \"at\"",
                "{is: roll, at: 2, unit: deg, at: 3} | 34 | stands twice",
                "{is: roll, at: 2, unit: deg, bit: 1} | 39 | a bit can be picked only",
                "{is: [roll], at: 2, unit: deg} | 10 | must be one value",
            })
    void aFaultyValueIsFoundWhereItStands(String value, int column, String words) {
        YamlException fault = fault(HEAD + "  - " + value + "\n");
        assertThat(fault).hasMessageContaining(words).hasMessageStartingWith("line 5, column " + column + ": ");
        assertThat(fault.line()).isEqualTo(5);
        assertThat(fault.column()).isEqualTo(column);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "'' | an empty file",
                "'[1' | not YAML",
                "'just words' | must be a mapping",
                "'profile: 2' | profile \"2\"",
                "'values: []' | either \"text\" or \"binary\"",
                "'{text: {}, values: []}' | no position",
                "'{text: {}, values: 3}' | must be a list",
                "'{text: {decimal: x}, values: []}' | decimal \"x\"",
                "'{text: {decimal: \",\"}, values: []}' | must differ",
                "'{kind: binary, text: {}, values: []}' | kind \"binary\"",
                "'{binary: {magic: 4G}, values: []}' | hexadecimal",
                "'{binary: {length: 0}, values: []}' | from 1 to",
                "'{binary: {byte_order: middle}, values: []}' | \"big\" or \"little\"",
                "'{max_hz: 0, text: {}, values: []}' | above 0",
                "'{text: &a {}, values: *a}' | an alias",
                "'{binary: {length: 8}, values: [{is: latitude, at: 4, type: f64, unit: deg}]}' | past the end",
                "'{binary: {}, values: [{is: latitude, at: 4, unit: deg}]}' | needs \"type\"",
                "'{binary: {}, values: [{is: latitude, at: 4, unit: deg, type: f16}]}' | unknown type",
                "'{a: {b: {c: {d: {e: {f: {g: {h: {i: 1}}}}}}}}}' | line 1",
            })
    void aFaultyFileIsRefusedWithWhatWouldBeRight(String yaml, String words) {
        assertThat(fault(yaml)).hasMessageContaining(words);
    }

    @Test
    void damagedProfilesNeverFailInAnyOtherWay() {
        SplittableRandom random = new SplittableRandom(77);
        String[] all = {
            ExampleProfiles.P1, ExampleProfiles.P2, ExampleProfiles.P4, ExampleProfiles.P5, ExampleProfiles.P6
        };
        for (int i = 0; i < 3000; i++) {
            StringBuilder yaml = new StringBuilder(all[random.nextInt(all.length)]);
            for (int change = random.nextInt(1, 5); change > 0; change--) {
                int at = random.nextInt(yaml.length());
                switch (random.nextInt(3)) {
                    case 0 -> yaml.deleteCharAt(at);
                    case 1 -> yaml.setCharAt(at, (char) random.nextInt(1, 130));
                    default -> yaml.insert(at, "{}[]:,-&*!|>'\"%#\n 0".charAt(random.nextInt(19)));
                }
            }
            try {
                assertThat(Profile.parse(yaml.toString()).values()).isNotEmpty();
            } catch (YamlException e) {
                assertThat(e).hasMessageStartingWith("line ");
            }
        }
    }
}
