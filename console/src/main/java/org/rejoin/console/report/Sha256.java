package org.rejoin.console.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4), by which files and inline scripts are told apart. */
public final class Sha256 {

    private Sha256() {}

    static byte[] of(byte[] octets) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(octets);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** The hash of octets, 64 hexadecimal digits in lower case. */
    public static String hex(byte[] octets) {
        return HexFormat.of().formatHex(of(octets));
    }

    /**
     * The hash of a file, likewise.
     *
     * @throws IOException if it cannot be read
     */
    public static String hex(Path file) throws IOException {
        MessageDigest digest;
        try {
            digest = MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] some = new byte[65_536];
            for (int read = in.read(some); read >= 0; read = in.read(some)) {
                digest.update(some, 0, read);
            }
        }
        return HexFormat.of().formatHex(digest.digest());
    }
}
