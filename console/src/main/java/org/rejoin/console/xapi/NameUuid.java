package org.rejoin.console.xapi;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.UUID;

/** Identifiers that are a function of a name: version 5 of RFC 9562, section 5.5. The JDK's own are version 3. */
final class NameUuid {

    /** RFC 9562, section 6.6. */
    static final UUID DNS = UUID.fromString("6ba7b810-9dad-11d1-80b4-00c04fd430c8");

    /** RFC 9562, section 6.6. */
    static final UUID URL = UUID.fromString("6ba7b811-9dad-11d1-80b4-00c04fd430c8");

    private NameUuid() {}

    static UUID of(UUID namespace, String name) {
        byte[] octets = name.getBytes(StandardCharsets.UTF_8);
        ByteBuffer hashed = ByteBuffer.allocate(16 + octets.length)
                .putLong(namespace.getMostSignificantBits())
                .putLong(namespace.getLeastSignificantBits())
                .put(octets);
        byte[] hash = Arrays.copyOf(sha1(hashed.array()), 16);
        hash[6] = (byte) ((hash[6] & 0x0F) | 0x50);
        hash[8] = (byte) ((hash[8] & 0x3F) | 0x80);
        ByteBuffer bits = ByteBuffer.wrap(hash);
        return new UUID(bits.getLong(), bits.getLong());
    }

    private static byte[] sha1(byte[] octets) {
        try {
            return MessageDigest.getInstance("SHA-1").digest(octets);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-1", e);
        }
    }
}
