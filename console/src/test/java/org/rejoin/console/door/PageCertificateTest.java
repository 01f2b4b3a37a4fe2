package org.rejoin.console.door;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.KeyStore;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.security.cert.Certificate;
import java.security.cert.X509Certificate;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLHandshakeException;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLServerSocket;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManager;
import javax.net.ssl.TrustManagerFactory;
import javax.net.ssl.X509TrustManager;

import org.rejoin.console.book.HomeFolder;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The page's certificate, shown to a client over real TLS on loopback. */
@Timeout(value = 120, unit = TimeUnit.SECONDS)
class PageCertificateTest {

    /** The key tool dates a certificate by the machine's clock. */
    private final Instant now = Instant.now();

    @TempDir
    private Path folder;

    private static SSLContext trusting(Certificate certificate) throws Exception {
        KeyStore store = KeyStore.getInstance("PKCS12");
        store.load(null, null);
        store.setCertificateEntry("page", certificate);
        TrustManagerFactory managers = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        managers.init(store);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, managers.getTrustManagers(), null);
        return context;
    }

    /** Takes any certificate, to look at it. */
    private static SSLContext curious() throws Exception {
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(
                null,
                new TrustManager[] {
                    new X509TrustManager() {
                        @Override
                        public void checkClientTrusted(X509Certificate[] chain, String kind) {}

                        @Override
                        public void checkServerTrusted(X509Certificate[] chain, String kind) {}

                        @Override
                        public X509Certificate[] getAcceptedIssuers() {
                            return new X509Certificate[0];
                        }
                    }
                },
                new SecureRandom());
        return context;
    }

    /** One connection; what the server showed, and the version spoken. */
    private static X509Certificate shown(PageCertificate certificate, SSLContext client, String name, boolean checked)
            throws Exception {
        SSLContext served = SSLContext.getInstance("TLS");
        served.init(certificate.keys().getKeyManagers(), null, null);
        try (SSLServerSocket server = (SSLServerSocket)
                served.getServerSocketFactory().createServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            server.setSoTimeout(30_000);
            CompletableFuture<Void> answered = CompletableFuture.runAsync(() -> {
                try (SSLSocket socket = (SSLSocket) server.accept()) {
                    socket.setSoTimeout(30_000);
                    socket.getOutputStream().write(socket.getInputStream().read());
                    socket.getOutputStream().flush();
                } catch (IOException e) {
                    // The client says what went wrong.
                }
            });
            try (SSLSocket socket = (SSLSocket)
                    client.getSocketFactory().createSocket(InetAddress.getByName(name), server.getLocalPort())) {
                socket.setSoTimeout(30_000);
                if (checked) {
                    SSLParameters parameters = socket.getSSLParameters();
                    parameters.setEndpointIdentificationAlgorithm("HTTPS");
                    socket.setSSLParameters(parameters);
                }
                socket.startHandshake();
                socket.getOutputStream().write('x');
                assertThat(socket.getInputStream().read()).isEqualTo('x');
                assertThat(socket.getSession().getProtocol()).isEqualTo("TLSv1.3");
                return (X509Certificate) socket.getSession().getPeerCertificates()[0];
            } finally {
                answered.get(60, TimeUnit.SECONDS);
            }
        }
    }

    @Test
    void aCertificateMadeHereServesAClientThatTrustsItAndChecksTheAddress() throws Exception {
        HomeFolder home = HomeFolder.open(folder);
        InetAddress other = InetAddress.getByName("192.0.2.7");
        PageCertificate made = PageCertificate.made(home, List.of(other), now);
        X509Certificate seen = shown(made, curious(), "127.0.0.1", false);
        String fingerprint = HexFormat.ofDelimiter(":")
                .withUpperCase()
                .formatHex(MessageDigest.getInstance("SHA-256").digest(seen.getEncoded()));
        assertThat(made.fingerprint()).isEqualTo(fingerprint).hasSize(95);
        assertThat(shown(made, trusting(seen), "127.0.0.1", true)).isEqualTo(seen);
        assertThat(seen.getSubjectAlternativeNames())
                .anySatisfy(name -> assertThat(name.get(1)).isEqualTo("192.0.2.7"));
        assertThat(Duration.between(
                        seen.getNotBefore().toInstant(), seen.getNotAfter().toInstant()))
                .isLessThanOrEqualTo(Duration.ofDays(398));
        assertThatThrownBy(() -> shown(made, SSLContext.getDefault(), "127.0.0.1", true))
                .as("nobody else vouches for it")
                .isInstanceOf(SSLHandshakeException.class);
    }

    @Test
    void itStaysTheSameUntilItIsOldOrTheAddressIsNew() throws Exception {
        HomeFolder home = HomeFolder.open(folder);
        String first = PageCertificate.made(home, List.of(), now).fingerprint();
        assertThat(PageCertificate.made(home, List.of(), now).fingerprint()).isEqualTo(first);
        String second = PageCertificate.made(home, List.of(InetAddress.getByName("192.0.2.9")), now)
                .fingerprint();
        assertThat(second).isNotEqualTo(first);
        String third = PageCertificate.made(home, List.of(), now.plus(Duration.ofDays(391)))
                .fingerprint();
        assertThat(third).isNotEqualTo(second);
        Files.write(folder.resolve("certificate/page.p12"), new byte[] {1, 2, 3});
        assertThat(PageCertificate.made(home, List.of(), now).fingerprint()).isNotEqualTo(third);
    }

    @Test
    void aCertificateThatTheUserGivesIsServedIfItsKeyIsItsOwn() throws Exception {
        HomeFolder home = HomeFolder.open(folder.resolve("home"));
        PageCertificate made = PageCertificate.made(home, List.of(), now);
        Path chain = folder.resolve("page.crt");
        Path key = folder.resolve("page.key");
        X509Certificate seen = shown(made, curious(), "127.0.0.1", false);
        Files.writeString(chain, pem("CERTIFICATE", seen.getEncoded()));
        char[] password = HexFormat.of()
                .formatHex(KeyedHash.of(home.secret(), "certificate").of("password"))
                .toCharArray();
        KeyStore store =
                KeyStore.getInstance(home.certificate().resolve("page.p12").toFile(), password);
        Files.writeString(key, pem("PRIVATE KEY", store.getKey("page", password).getEncoded()));
        PageCertificate given = PageCertificate.given(chain, key, now);
        assertThat(shown(given, trusting(seen), "127.0.0.1", true)).isEqualTo(seen);

        assertThatThrownBy(() -> PageCertificate.given(chain, key, now.plus(Duration.ofDays(500))))
                .hasMessageContaining("is out of date since");
        assertThatThrownBy(() -> PageCertificate.given(chain, folder.resolve("none"), now))
                .hasMessageContaining("there is no file");
        assertThatThrownBy(() -> PageCertificate.given(key, key, now)).hasMessageNotContaining("\n");
        HomeFolder second = HomeFolder.open(folder.resolve("second"));
        X509Certificate stranger = shown(PageCertificate.made(second, List.of(), now), curious(), "127.0.0.1", false);
        Files.writeString(chain, pem("CERTIFICATE", stranger.getEncoded()));
        assertThatThrownBy(() -> PageCertificate.given(chain, key, now))
                .hasMessageContaining("is not the key of the certificate");
        Files.writeString(key, pem("EC PRIVATE KEY", new byte[20]));
        assertThatThrownBy(() -> PageCertificate.given(chain, key, now))
                .hasMessageContaining("PKCS 8 without a password");
    }

    /** RFC 7468. */
    private static String pem(String kind, byte[] octets) {
        return "-----BEGIN " + kind + "-----\n"
                + Base64.getMimeEncoder(64, "\n".getBytes(StandardCharsets.US_ASCII))
                        .encodeToString(octets)
                + "\n-----END " + kind + "-----\n";
    }
}
