package org.rejoin.protocol.profile;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlMembers;
import org.rejoin.protocol.yaml.YamlNode;
import org.rejoin.protocol.yaml.YamlText;

/**
 * What must be sent to a simulator that only answers requests. To whom is the user's to say, never the profile's.
 *
 * @param hex the octets, in hexadecimal
 * @param everyS seconds from one request to the next, 0.05 to 60
 */
public record Asking(String hex, double everyS) {

    private static final int MOST_OCTETS = 1024;

    /**
     * What the file of a profile says of it.
     *
     * @param yaml text of a profile
     * @return empty where the simulator sends by itself
     * @throws YamlException if the file, or what it says of asking, is not valid
     */
    public static Optional<Asking> of(String yaml) throws YamlException {
        Profile.parse(yaml);
        YamlNode root = YamlText.strictly(yaml, "a profile begins with \"profile: 1\"");
        YamlNode.Member ask = ((YamlNode.Mapping) root).members().get("ask");
        return ask == null ? Optional.empty() : Optional.of(read(ask.value()));
    }

    /**
     * A request that a user types.
     *
     * @param text as in a profile: {@code \n} ends a line
     * @param everyS seconds from one request to the next, 0.05 to 60
     * @return what is to be sent
     * @throws YamlException if it is empty, too long, or not so often
     */
    public static Asking typed(String text, double everyS) throws YamlException {
        String quoted = text.replaceAll("\\\\(?![nrt0\\\\])", "\\\\\\\\").replace("\"", "\\\"");
        return read(YamlText.strictly(
                "{text: \"" + quoted + "\", every_s: " + everyS + "}", "a request is text on one line"));
    }

    /** As it stands in a profile; one line. */
    public String yaml() {
        return "ask: {octets: \"" + HexFormat.ofDelimiter(" ").formatHex(octets()) + "\", every_s: " + everyS + "}";
    }

    static Asking read(YamlNode node) throws YamlException {
        YamlMembers ask = new YamlMembers(node, "ask", List.of("text", "octets", "every_s"));
        Optional<String> text = ask.text("text");
        Optional<String> octets = ask.text("octets");
        if (text.isPresent() == octets.isPresent()) {
            throw ask.fault("ask needs either \"text\" or \"octets\", which is what is sent");
        }
        String hex = text.map(words -> HexFormat.of().formatHex(words.getBytes(StandardCharsets.UTF_8)))
                .orElseGet(() -> octets.orElseThrow().replace(" ", ""));
        if (hex.isEmpty() || !hex.matches("([0-9A-Fa-f]{2}){1," + MOST_OCTETS + "}")) {
            throw ask.fault("ask sends 1 to " + MOST_OCTETS + " octets; octets are pairs of hexadecimal digits");
        }
        return new Asking(hex, ask.number("every_s", 0.05, 60, "seconds").orElse(1));
    }

    /** {@return what is sent, a copy} */
    public byte[] octets() {
        return HexFormat.of().parseHex(hex);
    }
}
