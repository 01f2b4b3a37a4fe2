package org.rejoin.protocol.profile;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Describes one fixed layout that a simulator sends.
 *
 * @param name free text
 * @param maxHz faster datagrams are thinned to this; empty for no limit
 * @param layout the record
 * @param values what is in it
 */
public record Profile(String name, OptionalDouble maxHz, Layout layout, List<Value> values) {

    /** Version of the description that this reads and writes. */
    public static final int VERSION = 1;

    /** Keeps its own copy of the values. */
    public Profile {
        values = List.copyOf(values);
    }

    /**
     * Reads a profile.
     *
     * @param yaml text of the file
     * @return the profile, ready for use
     * @throws ProfileException if it is not YAML, or not a profile; says where, what stands there and what would be
     *     right
     */
    public static Profile parse(String yaml) throws ProfileException {
        return new ProfileReader().read(YamlNode.parse(yaml));
    }

    /**
     * Writes the profile as a file that {@link #parse} reads back as an equal profile.
     *
     * @return YAML
     */
    public String toYaml() {
        return new ProfileWriter().write(this);
    }

    /**
     * The value of a quantity.
     *
     * @param quantity any
     * @return empty if the layout has none
     */
    public Optional<Value> value(Quantity quantity) {
        return values.stream().filter(v -> v.is() == quantity).findFirst();
    }
}
