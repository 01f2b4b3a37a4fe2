package org.rejoin.console.xapi;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.ConnectException;
import java.net.NoRouteToHostException;
import java.net.URI;
import java.net.UnknownHostException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpTimeoutException;
import java.nio.channels.UnresolvedAddressException;
import java.nio.charset.StandardCharsets;
import java.security.cert.CertPathBuilderException;
import java.security.cert.CertPathValidatorException;
import java.security.cert.CertificateException;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Function;
import javax.net.ssl.SSLException;

import org.jspecify.annotations.Nullable;

/**
 * The one connection outward: HTTP to the store whose address the user typed. Follows no redirection; each exchange is
 * over within a limit, from the connection to the last octet of the answer.
 */
final class StoreConnection {

    static final Duration PATIENCE = Duration.ofSeconds(30);
    private static final int MOST_READ = 1 << 20;

    private final HttpClient http;
    private final URI endpoint;
    private final Credentials credentials;
    private final Duration patience;

    StoreConnection(URI endpoint, Credentials credentials, Duration patience) {
        this.endpoint = endpoint;
        this.credentials = credentials;
        this.patience = patience;
        this.http = HttpClient.newBuilder()
                .connectTimeout(patience)
                .followRedirects(HttpClient.Redirect.NEVER)
                .version(HttpClient.Version.HTTP_1_1)
                .build();
    }

    /**
     * What came.
     *
     * @param status of HTTP
     * @param text of the body, a megabyte of it at most
     * @param headers the first value of one, by its name in any letters
     */
    record Heard(int status, String text, Function<String, Optional<String>> headers) {

        Optional<String> header(String name) {
            return headers.apply(name);
        }
    }

    /** No whole answer came; the message says why, for the end of a line. */
    static final class NoAnswerException extends IOException {

        private static final long serialVersionUID = 1L;

        private final boolean encryption;

        NoAnswerException(IOException cause, Duration patience) {
            super(why(cause, patience), cause);
            this.encryption = cause instanceof SSLException;
        }

        /** Whether certificate or encryption will not do, which does not pass by waiting. */
        boolean isOfEncryption() {
            return encryption;
        }
    }

    Heard get(String path, Map<String, String> headers) throws NoAnswerException, InterruptedException {
        return exchange(request(path, headers).GET().build());
    }

    Heard post(String path, Map<String, String> headers, String body) throws NoAnswerException, InterruptedException {
        return exchange(request(path, headers)
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build());
    }

    private HttpRequest.Builder request(String path, Map<String, String> headers) {
        HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(endpoint + path))
                .header("Accept", "application/json")
                .header("Authorization", credentials.basic());
        headers.forEach(request::header);
        return request;
    }

    private Heard exchange(HttpRequest request) throws NoAnswerException, InterruptedException {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        CompletableFuture<HttpResponse<Void>> going = http.sendAsync(
                request,
                HttpResponse.BodyHandlers.ofByteArrayConsumer(part -> part.ifPresent(
                        octets -> body.write(octets, 0, Math.min(octets.length, MOST_READ - body.size())))));
        try {
            HttpResponse<Void> response = going.get(patience.toMillis(), TimeUnit.MILLISECONDS);
            return new Heard(
                    response.statusCode(), body.toString(StandardCharsets.UTF_8), response.headers()::firstValue);
        } catch (TimeoutException e) {
            throw new NoAnswerException(new HttpTimeoutException("no whole answer"), patience);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof IOException broken) {
                throw new NoAnswerException(broken, patience);
            }
            throw new IllegalStateException(e.getCause());
        } finally {
            going.cancel(true); // what still goes on ends with whoever waits for it
        }
    }

    /** In words: Java's own speak of its classes. */
    private static String why(IOException e, Duration patience) {
        for (Throwable each = e; each != null; each = each.getCause()) {
            String known = known(each, patience);
            if (known != null) {
                return known;
            }
        }
        return e instanceof SSLException
                ? "no encryption is known to both sides"
                : e instanceof ConnectException ? "nobody listens there" : "the connection broke off";
    }

    private static @Nullable String known(Throwable e, Duration patience) {
        String said = String.valueOf(e.getMessage());
        if (e instanceof HttpTimeoutException) {
            return "none, or not the whole of it, in " + patience.toSeconds() + " s";
        }
        if (e instanceof UnknownHostException || e instanceof UnresolvedAddressException) {
            return "there is no host of that name";
        }
        if (e instanceof NoRouteToHostException || said.contains("unreachable")) {
            return "the network does not lead there";
        }
        if (e instanceof CertificateExpiredException) {
            return "the certificate has run out";
        }
        if (e instanceof CertificateNotYetValidException) {
            return "the certificate is not valid yet; is the clock of this computer right?";
        }
        if (e instanceof CertificateException && (said.startsWith("No name") || said.startsWith("No subject"))) {
            return "the certificate is made out to another name";
        }
        boolean path = e instanceof CertPathBuilderException || e instanceof CertPathValidatorException;
        if (path && !(e.getCause() instanceof CertificateException)) {
            return "the certificate is of nobody whom this Java trusts";
        }
        return e instanceof SSLException && (said.contains("unrecognized SSL message") || said.contains("plaintext"))
                ? "what answers there is not encrypted"
                : null;
    }
}
