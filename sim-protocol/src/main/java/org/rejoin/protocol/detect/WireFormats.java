package org.rejoin.protocol.detect;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

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

    /** {@return all formats in the order in which they are tried: the built-in ones, then the profiles} */
    public List<WireFormat> all() {
        return formats;
    }

    /**
     * The format of a name.
     *
     * @param name "dis", "nmea", "json", or the name of a profile
     * @return empty if there is none
     */
    public Optional<WireFormat> named(String name) {
        return formats.stream().filter(f -> f.name().equals(name)).findFirst();
    }
}
