package org.rejoin.protocol.nmea;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.SplittableRandom;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against the reader of numbers that comes with Java: the same double, to the last bit. */
class PlainDecimalTest {

    @Test
    void theNearestDoubleForAnyDigits() {
        SplittableRandom random = new SplittableRandom(754);
        for (int i = 0; i < 200_000; i++) {
            int decimals = random.nextInt(16);
            long digits = random.nextLong((long) Math.pow(10, 1 + random.nextInt(18)));
            String text = (random.nextBoolean() ? "-" : "")
                    + BigDecimal.valueOf(digits, decimals).toPlainString();
            int whole = text.replace("-", "").split("\\.", -1)[0].length();
            double expected = whole > 15 ? Double.NaN : Double.parseDouble(text);
            assertThat(Double.valueOf(PlainDecimal.value(text, 0))).as(text).isEqualTo(Double.valueOf(expected));
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "-", "+", ".", ".5", "-.5", "1.2.3", "1e5", "0x1p3", "NaN", "1 ", " 1", "١", "1,5", "--1"})
    void whatIsNoPlainNumberIsNone(String text) {
        assertThat(PlainDecimal.value(text, 0)).isNaN();
        assertThat(PlainDecimal.isUnsigned(text)).isFalse();
    }

    @Test
    void aPointMayEndANumberAndASignMayBeginIt() {
        assertThat(PlainDecimal.value("12.", 0)).isEqualTo(12);
        assertThat(PlainDecimal.value("+007", 0)).isEqualTo(7);
        assertThat(PlainDecimal.isUnsigned("+007")).isFalse();
        assertThat(Double.doubleToRawLongBits(PlainDecimal.value("-0", 0))).isEqualTo(Double.doubleToRawLongBits(-0.0));
    }
}
