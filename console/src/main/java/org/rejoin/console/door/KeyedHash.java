package org.rejoin.console.door;

import java.nio.charset.StandardCharsets;
import java.security.InvalidKeyException;
import java.security.NoSuchAlgorithmException;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/** HMAC with SHA-256 (RFC 2104): a key for each purpose from one secret, and what such a key says of a text. */
public final class KeyedHash {

    private static final String ALGORITHM = "HmacSHA256";

    private final SecretKeySpec key;

    private KeyedHash(byte[] key) {
        this.key = new SecretKeySpec(key, ALGORITHM);
    }

    /**
     * The key for one purpose; from it neither the secret nor another purpose's key can be worked out.
     *
     * @param purpose any text, another for each use
     */
    public static KeyedHash of(byte[] secret, String purpose) {
        return plain(plain(secret).of(purpose));
    }

    static KeyedHash plain(byte[] key) {
        return new KeyedHash(key);
    }

    /** What the key says of a text, 32 octets. */
    public byte[] of(String text) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(key);
            return mac.doFinal(text.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException | InvalidKeyException e) {
            throw new IllegalStateException("every Java has " + ALGORITHM, e);
        }
    }
}
