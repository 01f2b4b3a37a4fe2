package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetAddress;
import java.util.concurrent.atomic.AtomicLong;

import org.junit.jupiter.api.Test;

class GuessesTest {

    private static final long SECOND = 1_000_000_000L;

    private final AtomicLong now = new AtomicLong();
    private final Guesses guesses = new Guesses(now::get);

    private static InetAddress address(String text) throws Exception {
        return InetAddress.getByName(text); // of digits: nobody is asked
    }

    @Test
    void tenAMinuteAndAnAddress() throws Exception {
        InetAddress guesser = address("192.0.2.7");
        for (int i = 1; i <= Guesses.MOST; i++) {
            assertThat(guesses.waitS(guesser)).isZero();
            assertThat(guesses.wrong(guesser)).isEqualTo(i == Guesses.MOST);
        }
        assertThat(guesses.waitS(guesser)).isBetween(1L, 61L);
        assertThat(guesses.waitS(address("192.0.2.8"))).isZero();
        now.addAndGet(60 * SECOND);
        assertThat(guesses.waitS(guesser)).isZero();
    }

    /** A machine has 2^64 IPv6 addresses to guess from (RFC 4291, section 2.5.4); addresses of RFC 3849. */
    @Test
    void theAddressesOfOneNetworkCountAsOne() throws Exception {
        for (int i = 0; i < Guesses.MOST; i++) {
            guesses.wrong(address("2001:db8:0:1::" + i));
        }
        assertThat(guesses.waitS(address("2001:db8:0:1::ffff"))).isPositive();
        assertThat(guesses.waitS(address("2001:db8:0:2::1"))).isZero();
    }

    @Test
    void aThousandGuessersFillNoMemoryAndGetNoFurther() throws Exception {
        for (int i = 0; i < 2_000; i++) {
            InetAddress from = InetAddress.getByAddress(new byte[] {10, 0, (byte) (i >> 8), (byte) i});
            if (guesses.waitS(from) == 0) {
                guesses.wrong(from);
            }
        }
        assertThat(guesses.waitS(address("192.0.2.9"))).isPositive();
        now.addAndGet(60 * SECOND);
        assertThat(guesses.waitS(address("192.0.2.9"))).isZero();
    }
}
