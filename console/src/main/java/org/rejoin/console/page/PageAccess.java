package org.rejoin.console.page;

import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.InvalidKeyException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

import io.netty.util.NetUtil;

/**
 * Who may do what. On loopback without a token everyone at this machine is the instructor; with a token, whoever knows it
 * is, and whoever knows the student's token made from it is a student.
 */
final class PageAccess {

    /** What a cookie and a link carry as it is. */
    static final String TOKEN_CHARACTERS = "[A-Za-z0-9._~-]*";

    /** Guessing one is hopeless at any rate a network gives. */
    static final int LEAST_TOKEN = 12;

    private final Optional<String> token;
    private final Optional<String> studentToken;

    PageAccess(Optional<String> token) {
        this.token = token;
        this.studentToken = token.map(PageAccess::derived);
    }

    /** One way only: a student cannot work the instructor's token out. */
    private static String derived(String token) {
        try {
            Mac mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(token.getBytes(StandardCharsets.UTF_8), "HmacSHA256"));
            return HexFormat.of().formatHex(mac.doFinal("student".getBytes(StandardCharsets.UTF_8)), 0, 16);
        } catch (NoSuchAlgorithmException | InvalidKeyException e) {
            throw new IllegalStateException("every Java has HmacSHA256", e);
        }
    }

    boolean open() {
        return token.isEmpty();
    }

    Optional<String> studentToken() {
        return studentToken;
    }

    /** What a token entitles to. Takes the same time for every wrong one. */
    Optional<Audience> holder(String given) {
        if (token.isEmpty()) {
            return Optional.of(Audience.INSTRUCTOR);
        }
        boolean instructor = same(given, token.get());
        boolean student = same(given, studentToken.orElseThrow());
        return instructor
                ? Optional.of(Audience.INSTRUCTOR)
                : student ? Optional.of(Audience.STUDENT) : Optional.empty();
    }

    private static boolean same(String given, String right) {
        return MessageDigest.isEqual(digest(given), digest(right));
    }

    private static byte[] digest(String text) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /**
     * Whether a request names this server as the address it was sent to. A name that a stranger's name server points here
     * is refused.
     *
     * @param host the Host header
     * @param local address and port the connection came in at
     */
    static boolean isHost(String host, InetSocketAddress local) {
        String wanted = host.toLowerCase(Locale.ROOT);
        String port = local.getPort() == 80 ? "" : ":" + local.getPort();
        if (!wanted.endsWith(port)) {
            return false;
        }
        String name = wanted.substring(0, wanted.length() - port.length());
        boolean loopback = local.getAddress().isLoopbackAddress();
        if (name.equals("localhost")) {
            return loopback;
        }
        byte[] octets = NetUtil.createByteArrayFromIpAddressString(name);
        return octets != null && Arrays.equals(octets, local.getAddress().getAddress());
    }

    /** Whether a page of this very server asks. */
    static boolean isOrigin(String origin, String host) {
        return origin.toLowerCase(Locale.ROOT).equals("http://" + host.toLowerCase(Locale.ROOT));
    }
}
