package org.rejoin.console.xapi;

import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.URI;
import java.net.URLEncoder;
import java.net.UnknownHostException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.UUID;
import java.util.stream.Collectors;
import javax.net.ssl.SSLException;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.MissingNode;

/**
 * A learning record store, spoken to over HTTP by the Communication part of the standard. Follows no redirection: what
 * the user typed is where statements go.
 */
public final class RecordStore {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Duration PATIENCE = Duration.ofSeconds(30);
    private static final int MOST_READ = 1 << 20;
    private static final int MOST_SAID = 300;
    /** In the order wished for. */
    private static final List<String> VERSIONS = List.of("2.0.0", "1.0.3");

    private static final String OLDEST = "1.0.3";

    private final HttpClient http;
    private final URI endpoint;
    private final Credentials credentials;

    /**
     * A store.
     *
     * @param endpoint its address, without {@code /statements}
     * @param credentials that it gave
     */
    public RecordStore(URI endpoint, Credentials credentials) {
        this.endpoint = endpoint;
        this.credentials = credentials;
        this.http = HttpClient.newBuilder()
                .connectTimeout(PATIENCE)
                .followRedirects(HttpClient.Redirect.NEVER)
                .version(HttpClient.Version.HTTP_1_1)
                .build();
    }

    /** What a store answers, as far as it makes a difference. */
    sealed interface Answer {

        /** What is done about each. */
        interface Visitor {

            void stored() throws IOException;

            void conflict() throws IOException, InterruptedException;

            void refused(Refused answer) throws IOException;

            void tooLarge() throws IOException;

            void stop(Stop answer) throws IOException;

            void later(Later answer) throws IOException, InterruptedException;
        }

        /** Lets a sender do what is to be done about it. */
        void meet(Visitor visitor) throws IOException, InterruptedException;

        /** It has all of them. */
        record Stored() implements Answer {
            @Override
            public void meet(Visitor visitor) throws IOException {
                visitor.stored();
            }
        }

        /** It has one of that identifier which is other. */
        record Conflict() implements Answer {
            @Override
            public void meet(Visitor visitor) throws IOException, InterruptedException {
                visitor.conflict();
            }
        }

        /** Never again as it is. */
        record Refused(String words) implements Answer {
            @Override
            public void meet(Visitor visitor) throws IOException {
                visitor.refused(this);
            }
        }

        /** Too much at once. */
        record TooLarge() implements Answer {
            @Override
            public void meet(Visitor visitor) throws IOException {
                visitor.tooLarge();
            }
        }

        /** Nothing goes until the user mends it. */
        record Stop(String words) implements Answer {
            @Override
            public void meet(Visitor visitor) throws IOException {
                visitor.stop(this);
            }
        }

        /**
         * Passing.
         *
         * @param words why
         * @param afterS seconds the store wishes to be left alone; empty if it does not say
         */
        record Later(String words, OptionalLong afterS) implements Answer {
            @Override
            public void meet(Visitor visitor) throws IOException, InterruptedException {
                visitor.later(this);
            }
        }
    }

    /**
     * The address as statements need it.
     *
     * @param typed by the user
     * @return without a trailing slash and {@code /statements}
     * @throws IOException if it is none, or would show the credentials to the network; one line
     */
    public static URI endpoint(String typed) throws IOException {
        URI uri;
        try {
            uri = URI.create(typed.strip().replaceFirst("/+$", "").replaceFirst("/statements$", ""));
        } catch (IllegalArgumentException e) {
            throw new IOException("--to " + typed + " is not an address; https://HOST/PATH would be right", e);
        }
        String scheme = uri.getScheme() == null ? "" : uri.getScheme().toLowerCase(Locale.ROOT);
        if (uri.getHost() == null || !(scheme.equals("https") || scheme.equals("http"))) {
            throw new IOException("--to " + typed + " is not an address; https://HOST/PATH would be right");
        }
        if (uri.getUserInfo() != null) {
            throw new IOException("--to names a user: put user and password into the --credentials file");
        }
        if (uri.getQuery() != null || uri.getFragment() != null) {
            throw new IOException("--to " + typed + " has a ? or # in it; the address alone would be right");
        }
        if (scheme.equals("http") && !isThisMachine(uri.getHost())) {
            throw new IOException("--to " + typed + " would show the credentials to everyone on the way; https:// would"
                    + " be right");
        }
        return uri;
    }

    private static boolean isThisMachine(String host) {
        try {
            return InetAddress.getByName(host).isLoopbackAddress();
        } catch (UnknownHostException e) {
            return false;
        }
    }

    /** The best version both sides know; the oldest if the store does not say. */
    Version version() throws InterruptedException {
        try {
            HttpResponse<InputStream> response =
                    http.send(request("/about").GET().build(), HttpResponse.BodyHandlers.ofInputStream());
            String text = text(response);
            if (response.statusCode() == 200) {
                List<String> known = new ArrayList<>();
                tree(text).path("version").forEach(each -> known.add(each.asText()));
                Optional<String> best =
                        VERSIONS.stream().filter(known::contains).findFirst();
                boolean older = known.stream().anyMatch(each -> each.startsWith("1.0."));
                return best.isPresent() || older || known.isEmpty()
                        ? Version.known(best.orElse(OLDEST))
                        : Version.unknown(new Answer.Stop("the store speaks versions " + known
                                + " of the standard; 1.0.3 or 2.0.0 are spoken here"));
            }
            Answer answer = answer(response.statusCode(), text, response);
            return answer instanceof Answer.Later
                            || (answer instanceof Answer.Stop stop
                                    && stop.words().contains("401"))
                    ? Version.unknown(answer)
                    : Version.known(OLDEST);
        } catch (IOException e) {
            return Version.unknown(away(e));
        }
    }

    /**
     * Of the standard, as spoken to a store.
     *
     * @param number that both sides know; "" where it could not be found out
     * @param trouble why not
     */
    record Version(String number, Optional<Answer> trouble) {

        static Version known(String number) {
            return new Version(number, Optional.empty());
        }

        static Version unknown(Answer why) {
            return new Version("", Optional.of(why));
        }
    }

    Answer post(List<Statement> statements, String version) throws InterruptedException {
        String body = statements.size() == 1
                ? statements.get(0).json().toString()
                : statements.stream().map(each -> each.json().toString()).collect(Collectors.joining(",", "[", "]"));
        HttpRequest request = request("/statements")
                .header("X-Experience-API-Version", version)
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofString(body))
                .build();
        try {
            HttpResponse<InputStream> response = http.send(request, HttpResponse.BodyHandlers.ofInputStream());
            String text = text(response);
            if (response.statusCode() == 200) {
                List<String> wanted =
                        statements.stream().map(each -> each.id().toString()).toList();
                List<String> ids = new ArrayList<>();
                tree(text).forEach(each -> ids.add(each.asText().toLowerCase(Locale.ROOT)));
                return ids.equals(wanted)
                        ? new Answer.Stored()
                        : new Answer.Stop("what answers at " + endpoint
                                + " does not name the statements it was sent: it is no record store");
            }
            return answer(response.statusCode(), text, response);
        } catch (IOException e) {
            return away(e);
        }
    }

    /** A statement as the store has it; empty if it does not give it away. */
    Optional<JsonNode> get(UUID id, String version) throws InterruptedException {
        String query = "/statements?statementId=" + URLEncoder.encode(id.toString(), StandardCharsets.UTF_8);
        HttpRequest request =
                request(query).header("X-Experience-API-Version", version).GET().build();
        try {
            HttpResponse<InputStream> response = http.send(request, HttpResponse.BodyHandlers.ofInputStream());
            JsonNode found = tree(text(response));
            return response.statusCode() == 200 && found.isObject() ? Optional.of(found) : Optional.empty();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create(endpoint + path))
                .timeout(PATIENCE)
                .header("Accept", "application/json")
                .header("Authorization", credentials.basic());
    }

    private Answer answer(int status, String text, HttpResponse<?> response) {
        String said = "the store answers " + status + (text.isBlank() ? "" : ": " + oneLine(text));
        if (status == 204) {
            return new Answer.Stored();
        }
        if (status == 409) {
            return new Answer.Conflict();
        }
        if (status == 413) {
            return new Answer.TooLarge();
        }
        if (status == 401 || status == 403) {
            return new Answer.Stop(said + "; check the --credentials file (401 and 403: they are not accepted)");
        }
        if (status == 404 || status == 405 || status == 410) {
            return new Answer.Stop(said + "; check --to: there is no record store at " + endpoint);
        }
        if (status >= 300 && status < 400) {
            return new Answer.Stop(said + "; it points to "
                    + oneLine(response.headers().firstValue("Location").orElse("another place"))
                    + ": give that address with --to if it is the right one");
        }
        if (status == 408 || status == 429 || status >= 500) {
            return new Answer.Later(
                    said,
                    response.headers()
                            .firstValue("Retry-After")
                            .map(RecordStore::seconds)
                            .orElse(OptionalLong.empty()));
        }
        return new Answer.Refused(said);
    }

    private static OptionalLong seconds(String retryAfter) {
        return retryAfter.strip().matches("[0-9]{1,6}")
                ? OptionalLong.of(Long.parseLong(retryAfter.strip()))
                : OptionalLong.empty();
    }

    private Answer away(IOException e) {
        String why = e.getMessage() == null ? e.getClass().getSimpleName() : oneLine(e.getMessage());
        return e instanceof SSLException
                ? new Answer.Stop("the certificate or the encryption of " + endpoint + " will not do: " + why)
                : new Answer.Later("no answer from " + endpoint + " (" + why + ")", OptionalLong.empty());
    }

    private static String text(HttpResponse<InputStream> response) throws IOException {
        try (InputStream body = response.body()) {
            return new String(body.readNBytes(MOST_READ), StandardCharsets.UTF_8);
        }
    }

    private static JsonNode tree(String text) {
        try {
            return JSON.readTree(text);
        } catch (JsonProcessingException e) {
            return MissingNode.getInstance();
        }
    }

    private static String oneLine(String text) {
        String line = text.replaceAll("[\\p{Cntrl}\\p{Cf}\\s]+", " ").strip();
        return line.length() <= MOST_SAID ? line : line.substring(0, MOST_SAID) + "…";
    }
}
