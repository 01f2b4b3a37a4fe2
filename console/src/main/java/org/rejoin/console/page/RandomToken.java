package org.rejoin.console.page;

import java.security.SecureRandom;
import java.util.HexFormat;

/**
 * Tokens and codes that let somebody in. Each comes from the system's random source and from nothing else, so that one
 * tells nothing of another.
 */
public final class RandomToken {

    private static final int OCTETS = 16;

    private RandomToken() {}

    /** {@return a new one: 128 bits as 32 hexadecimal digits} */
    public static String make() {
        byte[] octets = new byte[OCTETS];
        new SecureRandom().nextBytes(octets);
        return HexFormat.of().formatHex(octets);
    }
}
