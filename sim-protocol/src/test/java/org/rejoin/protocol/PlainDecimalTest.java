package org.rejoin.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against the reader of numbers that comes with Java: the same double, to the last bit. */
class PlainDecimalTest {

    private static double value(String text) {
        byte[] octets = text.getBytes(StandardCharsets.UTF_8);
        return PlainDecimal.value(octets, 0, octets.length);
    }

    private static double unsigned(String text) {
        byte[] octets = text.getBytes(StandardCharsets.UTF_8);
        return PlainDecimal.unsigned(octets, 0, octets.length);
    }

    @Test
    void theNearestDoubleForAnyDigits() {
        SplittableRandom random = new SplittableRandom(754);
        for (int i = 0; i < 500_000; i++) {
            int decimals = random.nextInt(19);
            long digits = random.nextLong((long) Math.pow(10, 1 + random.nextInt(18)));
            String text = (random.nextBoolean() ? "-" : "")
                    + BigDecimal.valueOf(digits, decimals).toPlainString();
            int whole = text.replace("-", "").split("\\.", -1)[0].length();
            double expected = whole > 15 ? Double.NaN : Double.parseDouble(text);
            assertThat(Double.valueOf(value(text))).as(text).isEqualTo(Double.valueOf(expected));
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "-", "+", ".", ".5", "-.5", "1.2.3", "1e5", "0x1p3", "NaN", "1 ", " 1", "١", "1,5", "--1"})
    void whatIsNoPlainNumberIsNone(String text) {
        assertThat(value(text)).isNaN();
        assertThat(unsigned(text)).isNaN();
    }

    @Test
    void aPointMayEndANumberAndASignMayBeginIt() {
        assertThat(value("12.")).isEqualTo(12);
        assertThat(value("+007")).isEqualTo(7);
        assertThat(unsigned("+007")).isNaN();
        assertThat(unsigned("007")).isEqualTo(7);
        assertThat(Double.doubleToRawLongBits(value("-0"))).isEqualTo(Double.doubleToRawLongBits(-0.0));
    }
}
