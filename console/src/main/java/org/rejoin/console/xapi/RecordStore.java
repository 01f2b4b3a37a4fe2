package org.rejoin.console.xapi;

import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.URLEncoder;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.UUID;
import java.util.stream.Collectors;

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
    private static final int MOST_SAID = 300;
    /** In the order wished for. */
    private static final List<String> VERSIONS = List.of("2.0.0", "1.0.3");

    private static final String OLDEST = "1.0.3";
    private static final String VERSION = "X-Experience-API-Version";

    private final StoreConnection connection;
    private final URI endpoint;
    private final Credentials credentials;

    /** A store at an address without {@code /statements}, and the credentials that it gave. */
    public RecordStore(URI endpoint, Credentials credentials) {
        this(endpoint, credentials, StoreConnection.PATIENCE);
    }

    RecordStore(URI endpoint, Credentials credentials, Duration patience) {
        this.endpoint = endpoint;
        this.credentials = credentials;
        this.connection = new StoreConnection(endpoint, credentials, patience);
    }

    /** What a store answers, as far as it makes a difference. */
    enum Outcome {
        /** It has all of them. */
        STORED,
        /** It has one of that identifier which is other. */
        CONFLICT,
        /** Never again as it is. */
        REFUSED,
        /** Too much at once. */
        TOO_LARGE,
        /** Nothing goes until the user mends it. */
        STOP,
        /** Passing. */
        LATER
    }

    /** What a store answers, why, and the seconds that it wishes to be left alone; empty if it does not say. */
    record Answer(Outcome outcome, String words, OptionalLong afterS) {
        static Answer of(Outcome outcome, String words) {
            return new Answer(outcome, words, OptionalLong.empty());
        }

        boolean is(Outcome other) {
            return outcome == other;
        }
    }

    /**
     * The address as statements need it, without a trailing slash and {@code /statements}.
     *
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
            StoreConnection.Heard heard = connection.get("/about", Map.of());
            if (heard.status() == 200) {
                List<String> known = new ArrayList<>();
                tree(heard.text()).path("version").forEach(each -> known.add(each.asText()));
                Optional<String> best =
                        VERSIONS.stream().filter(known::contains).findFirst();
                boolean older = known.stream().anyMatch(each -> each.startsWith("1.0."));
                return best.isPresent() || older || known.isEmpty()
                        ? Version.known(best.orElse(OLDEST))
                        : Version.unknown(Answer.of(
                                Outcome.STOP,
                                "the store speaks versions " + known
                                        + " of the standard; 1.0.3 or 2.0.0 are spoken here"));
            }
            Answer answer = answer(heard);
            return answer.is(Outcome.LATER)
                            || (answer.is(Outcome.STOP) && answer.words().contains("401"))
                    ? Version.unknown(answer)
                    : Version.known(OLDEST);
        } catch (StoreConnection.NoAnswerException e) {
            return Version.unknown(away(e));
        }
    }

    /**
     * The version of the standard as spoken to a store, that both sides know; "" and why not, where it could not be
     * found out.
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
        Map<String, String> headers = Map.of(VERSION, version, "Content-Type", "application/json");
        try {
            StoreConnection.Heard heard = connection.post("/statements", headers, body);
            if (heard.status() == 200) {
                List<String> wanted =
                        statements.stream().map(each -> each.id().toString()).toList();
                List<String> ids = new ArrayList<>();
                tree(heard.text()).forEach(each -> ids.add(each.asText().toLowerCase(Locale.ROOT)));
                return ids.equals(wanted)
                        ? Answer.of(Outcome.STORED, "")
                        : Answer.of(
                                Outcome.STOP,
                                "what answers at " + endpoint
                                        + " does not name the statements it was sent: it is no record store");
            }
            return answer(heard);
        } catch (StoreConnection.NoAnswerException e) {
            return away(e);
        }
    }

    /**
     * A statement as a store has it; empty if the store does not give it away, or could not be asked for now, and then
     * why.
     */
    record Kept(Optional<JsonNode> json, Optional<Answer> later) {}

    /** A statement as the store has it. */
    Kept get(UUID id, String version) throws InterruptedException {
        String query = "/statements?statementId=" + URLEncoder.encode(id.toString(), StandardCharsets.UTF_8);
        Answer answer;
        try {
            StoreConnection.Heard heard = connection.get(query, Map.of(VERSION, version));
            JsonNode found = tree(heard.text());
            if (heard.status() == 200 && found.isObject()) {
                return new Kept(Optional.of(found), Optional.empty());
            }
            answer = answer(heard);
        } catch (StoreConnection.NoAnswerException e) {
            answer = away(e);
        }
        return new Kept(Optional.empty(), Optional.of(answer).filter(each -> each.is(Outcome.LATER)));
    }

    private Answer answer(StoreConnection.Heard heard) {
        int status = heard.status();
        String text = heard.text();
        String said = "the store answers " + status + (text.isBlank() ? "" : ": " + oneLine(text));
        if (status == 204) {
            return Answer.of(Outcome.STORED, "");
        }
        if (status == 409) {
            return Answer.of(Outcome.CONFLICT, said);
        }
        if (status == 413) {
            return Answer.of(Outcome.TOO_LARGE, said);
        }
        if (status == 401 || status == 403) {
            return Answer.of(
                    Outcome.STOP, said + "; check the --credentials file (401 and 403: they are not accepted)");
        }
        if (status == 404 || status == 405 || status == 410) {
            return Answer.of(Outcome.STOP, said + "; check --to: there is no record store at " + endpoint);
        }
        if (status >= 300 && status < 400) {
            return Answer.of(
                    Outcome.STOP,
                    said + "; it points to "
                            + oneLine(heard.header("Location").orElse("another place"))
                            + ": give that address with --to if it is the right one");
        }
        if (status == 408 || status == 429 || status >= 500) {
            return new Answer(
                    Outcome.LATER,
                    said,
                    heard.header("Retry-After")
                            .map(wish -> seconds(wish, Instant.now()))
                            .orElse(OptionalLong.empty()));
        }
        return Answer.of(Outcome.REFUSED, said);
    }

    /** Seconds, or a date (RFC 9110, sections 10.2.3 and 5.6.7); empty for what is neither. */
    static OptionalLong seconds(String retryAfter, Instant now) {
        String wish = retryAfter.strip();
        if (wish.matches("[0-9]{1,9}")) {
            return OptionalLong.of(Long.parseLong(wish));
        }
        try {
            Instant until = DateTimeFormatter.RFC_1123_DATE_TIME.parse(wish, Instant::from);
            return OptionalLong.of(Math.max(0, Duration.between(now, until).toSeconds() + 1));
        } catch (DateTimeParseException e) {
            return OptionalLong.empty();
        }
    }

    private Answer away(StoreConnection.NoAnswerException e) {
        return e.isOfEncryption()
                ? Answer.of(
                        Outcome.STOP,
                        "the certificate or the encryption of " + endpoint + " will not do: " + e.getMessage())
                : Answer.of(Outcome.LATER, "no answer from " + endpoint + " (" + e.getMessage() + ")");
    }

    private static JsonNode tree(String text) {
        try {
            return JSON.readTree(text);
        } catch (JsonProcessingException e) {
            return MissingNode.getInstance();
        }
    }

    private String oneLine(String text) {
        String line = credentials
                .hidden(text)
                .replaceAll("[\\p{Cntrl}\\p{Cf}\\s]+", " ")
                .strip();
        return line.length() <= MOST_SAID ? line : line.substring(0, MOST_SAID) + "…";
    }
}
