package org.rejoin.console.xapi;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Base64;

import org.rejoin.console.recording.Durable;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;

/**
 * The key and secret that a record store gave its user; read from a file, never from the command line.
 *
 * @param key may not contain a colon (RFC 7617)
 * @param secret any
 */
public record Credentials(String key, String secret) {

    private static final String HIDDEN = "…";

    /**
     * Reads a file.
     *
     * @param file with one line {@code KEY:SECRET}, or with {@code key:} and {@code secret:} as YAML or JSON ({@code
     *     username} and {@code password} do too)
     * @throws IOException if it cannot be read or holds none; one line that does not repeat what it holds
     */
    public static Credentials read(Path file) throws IOException {
        String text;
        try {
            text = Files.readString(file).strip();
        } catch (NoSuchFileException e) {
            throw new IOException("there is no file " + file + " with the credentials", e);
        } catch (IOException e) {
            throw new IOException(file + " cannot be read: " + Durable.why(e), e);
        }
        if (text.lines().count() == 1 && text.matches("[^:{}\\s]+:\\S.*")) {
            int colon = text.indexOf(':');
            return new Credentials(text.substring(0, colon), text.substring(colon + 1));
        }
        try {
            JsonNode node = new YAMLMapper().readTree(text);
            String key = member(node, "key", "username", "user");
            String secret = member(node, "secret", "password");
            if (!key.isEmpty() && !key.contains(":") && !secret.isEmpty()) {
                return new Credentials(key, secret);
            }
        } catch (JsonProcessingException e) {
            // Its message would show what is in the file.
        }
        throw new IOException(
                file + " holds no credentials: one line KEY:SECRET, or key: and secret: as YAML, would be" + " right");
    }

    private static String member(JsonNode node, String... names) {
        for (String name : names) {
            JsonNode member = node.path(name);
            if (member.isValueNode() && !member.isNull()) {
                return member.asText();
            }
        }
        return "";
    }

    /** The header of RFC 7617. */
    String basic() {
        return "Basic " + Base64.getEncoder().encodeToString((key + ":" + secret).getBytes(StandardCharsets.UTF_8));
    }

    /**
     * What a store says, without the credentials that it may repeat: dots in place of key and secret together, of the
     * secret, and of both as the header has them.
     */
    String hidden(String text) {
        String header = basic().substring("Basic ".length());
        return text.replace(header, HIDDEN)
                .replace(header.replaceFirst("=+$", ""), HIDDEN)
                .replace(key + ":" + secret, HIDDEN)
                .replace(secret, HIDDEN);
    }

    /** Never shown. */
    @Override
    public String toString() {
        return "credentials of " + key;
    }
}
