package org.rejoin.console.recording;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4), by which files and inline scripts are told apart. */
public final class Sha256 {

    private Sha256() {}

    /** The hash of octets. */
    public static byte[] of(byte[] octets) {
        return digest().digest(octets);
    }

    private static MessageDigest digest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** The hash of octets, 64 hexadecimal digits in lower case. */
    public static String hex(byte[] octets) {
        return HexFormat.of().formatHex(of(octets));
    }

    /** The hash of a file, likewise. */
    public static String hex(Path file) throws IOException {
        MessageDigest digest = digest();
        try (InputStream in = new DigestInputStream(Files.newInputStream(file), digest)) {
            in.transferTo(OutputStream.nullOutputStream());
        }
        return HexFormat.of().formatHex(digest.digest());
    }
}
