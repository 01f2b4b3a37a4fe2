package org.rejoin.console.page;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.console.recording.Sha256;

import io.netty.util.NetUtil;

/**
 * Who may do what. On loopback without a token everyone at this machine is the instructor; with a token, whoever knows it
 * is, and whoever knows the student's token, which has nothing to do with it, is a student.
 */
final class PageAccess {

    /** What a cookie and a link carry as it is. */
    static final String TOKEN_CHARACTERS = "[A-Za-z0-9._~-]*";

    /** Guessing one is hopeless at any rate a network gives. */
    static final int LEAST_TOKEN = 12;

    private static final int USUAL_PORT = 80;

    private final String scheme;
    private final Optional<String> token;
    private final Optional<String> studentToken;
    private final String instructorSession;
    private final String studentSession;

    PageAccess(Optional<String> token, boolean encrypted) {
        this.scheme = encrypted ? "https://" : "http://";
        this.token = token;
        this.studentToken = token.map(any -> PageServer.newToken());
        // A cookie is worth nothing to another server, nor to this one started again.
        this.instructorSession = PageServer.newToken();
        this.studentSession = PageServer.newToken();
    }

    /**
     * Whether a page may be served so.
     *
     * @throws IOException if the address is none, or needs a token, or the token will not do; one line
     */
    static void check(InetSocketAddress bind, Optional<String> token) throws IOException {
        if (bind.getAddress() == null) {
            throw new IOException("there is no address by the name of " + bind.getHostString());
        }
        if (token.isEmpty() && !bind.getAddress().isLoopbackAddress()) {
            throw new IOException("a page on " + bind.getAddress().getHostAddress()
                    + " can be opened by others on the network: give a token by --page-token-file FILE or in"
                    + " REJOIN_PAGE_TOKEN, or serve it on 127.0.0.1");
        }
        if (token.isPresent() && !token.get().matches(TOKEN_CHARACTERS)) {
            throw new IOException("the page's token may have letters, digits and . _ ~ - only");
        }
        if (token.isPresent() && token.get().length() < LEAST_TOKEN) {
            throw new IOException("the page's token has " + token.get().length() + " characters; it needs "
                    + LEAST_TOKEN + " or more");
        }
    }

    String scheme() {
        return scheme;
    }

    /** Whether what is said is encrypted. */
    boolean encrypted() {
        return scheme.equals("https://");
    }

    /** Whether somebody asks from this very machine: no packet from elsewhere can have this address. */
    static boolean isOwn(InetSocketAddress remote, InetSocketAddress local) {
        return remote.getAddress().isLoopbackAddress() || remote.getAddress().equals(local.getAddress());
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
        return Sha256.of(text.getBytes(StandardCharsets.UTF_8));
    }

    /**
     * Whether a request's Host header names this server as the address, with its port, that the connection came in at.
     * A name that a stranger's name server points here is refused.
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
     * Whether a page of this very server asks: its Origin header is of this scheme, {@code http://} or {@code
     * https://}, and of the host, found right.
     */
    static boolean isOrigin(String scheme, String origin, String host, InetSocketAddress local) {
        return withoutUsualPort(origin, local).equals(scheme + withoutUsualPort(host, local));
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
