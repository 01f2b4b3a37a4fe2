package org.rejoin.console.page;

import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.InvalidKeyException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
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

    private static final int USUAL_PORT = 80;

    private final Optional<String> token;
    private final Optional<String> studentToken;
    private final String instructorSession;
    private final String studentSession;

    PageAccess(Optional<String> token) {
        this.token = token;
        this.studentToken = token.map(PageAccess::derived);
        SecureRandom random = new SecureRandom();
        this.instructorSession = session(random);
        this.studentSession = session(random);
    }

    /** 128 bits, new at every start: a cookie is worth nothing to another server, nor to this one started again. */
    private static String session(SecureRandom random) {
        byte[] octets = new byte[16];
        random.nextBytes(octets);
        return HexFormat.of().formatHex(octets);
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
        return which(given, token.get(), studentToken.orElseThrow());
    }

    /** What a cookie of this server is for; what the token itself would be is not a session. */
    Optional<Audience> session(String given) {
        return which(given, instructorSession, studentSession);
    }

    /** What a cookie says for somebody who has shown the token. */
    String sessionOf(Audience audience) {
        return audience == Audience.INSTRUCTOR ? instructorSession : studentSession;
    }

    private static Optional<Audience> which(String given, String instructors, String students) {
        boolean instructor = same(given, instructors);
        boolean student = same(given, students);
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
        String wanted = withoutUsualPort(host, local);
        String port = local.getPort() == USUAL_PORT ? "" : ":" + local.getPort();
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

    /**
     * Whether a page of this very server asks.
     *
     * @param origin the Origin header
     * @param host the Host header, found right
     * @param local address and port the connection came in at
     */
    static boolean isOrigin(String origin, String host, InetSocketAddress local) {
        return withoutUsualPort(origin, local).equals("http://" + withoutUsualPort(host, local));
    }

    /** At the usual port of HTTP browsers leave it out, other programs may not (RFC 9110, section 4.2.3). */
    private static String withoutUsualPort(String name, InetSocketAddress local) {
        String small = name.toLowerCase(Locale.ROOT);
        String suffix = ":" + USUAL_PORT;
        return local.getPort() == USUAL_PORT && small.endsWith(suffix)
                ? small.substring(0, small.length() - suffix.length())
                : small;
    }
}
