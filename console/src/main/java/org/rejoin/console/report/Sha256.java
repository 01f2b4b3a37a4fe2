package org.rejoin.console.report;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4), by which files and inline scripts are told apart. */
final class Sha256 {

    private Sha256() {}

    static byte[] of(byte[] octets) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(octets);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    static String hex(byte[] octets) {
        return HexFormat.of().formatHex(of(octets));
    }
}
