package org.rejoin.protocol.profile;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlText;

/**
 * Describes the fixed layout of what a simulator sends, and reads and writes it. What the encoder cannot know it leaves empty
 * in text, sends as the profile's {@code missing} value, as not-a-number in floating point, and as 0 in whole numbers.
 *
 * @param name free text
 * @param maxHz faster datagrams are thinned to this; empty for no limit
 * @param messages the kinds of datagram; the first has the position, and values of the others are held beside it
 */
public record Profile(String name, OptionalDouble maxHz, List<Message> messages) implements WireFormat {

    /** Version of the description that this reads and writes. */
    public static final int VERSION = 1;

    private static final int LONGEST = 200_000;

    /** A member of a profile at the start of a line: what has none is another kind of file. */
    private static final Pattern OF_A_PROFILE =
            Pattern.compile("(?m)^[ {]*[\"']?(?:profile|kind|text|binary|values)[\"']? *:");

    /**
     * Keeps its own copy of the messages.
     *
     * @throws IllegalArgumentException if there is none
     */
    public Profile {
        messages = List.copyOf(messages);
        if (messages.isEmpty()) {
            throw new IllegalArgumentException("a profile of no message");
        }
    }

    /** The message that has the position. */
    Message first() {
        return messages.get(0);
    }

    /** {@return the values of all its messages, those of the first one first; never empty} */
    public List<Value> values() {
        return messages.stream().flatMap(message -> message.values().stream()).toList();
    }

    /**
     * Reads a profile.
     *
     * @param yaml text of the file
     * @return the profile, ready for use
     * @throws YamlException if it is not YAML, or not a profile; says where, what stands there and what would be
     *     right
     */
    public static Profile parse(String yaml) throws YamlException {
        if (yaml.length() > LONGEST) {
            throw new YamlException(1, 1, "a file of " + yaml.length() + " characters; at most " + LONGEST);
        }
        try {
            return new ProfileReader().read(YamlText.strictly(yaml, "a profile begins with \"profile: 1\""));
        } catch (YamlException e) {
            boolean foreign = e.isNotYaml()
                    && !yaml.isBlank()
                    && !OF_A_PROFILE.matcher(yaml).find();
            throw foreign
                    ? new YamlException(
                            1, 1, "not YAML, so no profile; one begins with \"profile: 1\", and feed learn writes one")
                    : e;
        }
    }

    /** Writes the profile as a file that {@link #parse} reads back as an equal profile; YAML. */
    public String toYaml() {
        return new ProfileWriter().write(this);
    }

    /** The value of a quantity; empty if the layout has none. */
    public Optional<Value> value(Quantity quantity) {
        return values().stream().filter(v -> v.is() == quantity).findFirst();
    }

    @Override
    public boolean recognises(Datagram datagram) {
        return ProfileDecoder.RecordReader.of(name, first()).recognises(datagram);
    }

    @Override
    public Decoder newDecoder() {
        return new ProfileDecoder(this);
    }

    @Override
    public Encoder newEncoder() {
        List<Encoder> encoders = messages.stream()
                .map(message -> message.layout()
                        .<Encoder>fold(
                                text -> new TextEncoder(message.values(), text),
                                binary -> new BinaryEncoder(message.values(), binary)))
                .toList();
        return state -> encoders.stream()
                .flatMap(encoder -> encoder.encode(state).stream())
                .toList();
    }
}
