package org.rejoin.protocol.detect;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;
import org.rejoin.protocol.profile.ProfileFormat;

/** The formats that a port may receive, in the order in which they are tried. */
public final class WireFormats {

    private final List<WireFormat> formats;

    /**
     * The built-in formats, and the user's profiles after them.
     *
     * @param profiles in the user's order; the first that fits a datagram wins
     */
    public WireFormats(List<ProfileFormat> profiles) {
        List<WireFormat> all = new ArrayList<>(List.of(new DisFormat(), new JsonFormat(), new NmeaFormat()));
        all.addAll(profiles);
        formats = List.copyOf(all);
    }

    /** The built-in formats only. */
    public WireFormats() {
        this(List.of());
    }

    /**
     * All formats, in the order in which they are tried.
     *
     * @return the built-in ones, then the profiles
     */
    public List<WireFormat> all() {
        return formats;
    }

    /**
     * The format of a name.
     *
     * @param name "dis", "nmea", "json", "auto", or the name of a profile
     * @return empty if there is none
     */
    public Optional<WireFormat> named(String name) {
        WireFormat auto = auto();
        if (name.equals(auto.name())) {
            return Optional.of(auto);
        }
        return formats.stream().filter(f -> f.name().equals(name)).findFirst();
    }

    /**
     * Every name that {@link #named} knows, for messages.
     *
     * @return names parted by commas
     */
    public String names() {
        return formats.stream().map(WireFormat::name).collect(Collectors.joining(", ")) + ", auto";
    }

    /**
     * A format that finds out, for each sender, which of the others it sends, and tries again after 20 datagrams in a
     * row of which nothing could be made. It encodes as JSON.
     *
     * @return the format "auto"
     */
    public WireFormat auto() {
        return new AutoFormat(formats);
    }
}
