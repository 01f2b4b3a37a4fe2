package org.rejoin.protocol.detect;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

/** The formats that a port may receive, in the order in which they are tried. */
public final class WireFormats {

    private final List<WireFormat> formats;

    /**
     * Those the user names, then the built-in ones: a profile of JSON or of lines with "$" must be asked first. The
     * first that fits a datagram wins; of two of a name the second is left out.
     */
    public WireFormats(List<? extends WireFormat> first) {
        List<WireFormat> all = new ArrayList<>(first);
        all.addAll(List.of(new DisFormat(), new NmeaFormat(), new JsonFormat()));
        List<WireFormat> once = new ArrayList<>();
        for (WireFormat each : all) {
            if (once.stream().noneMatch(known -> known.name().equals(each.name()))) {
                once.add(each);
            }
        }
        formats = List.copyOf(once);
    }

    /** The built-in formats only. */
    public WireFormats() {
        this(List.of());
    }

    /** {@return all formats in the order in which they are tried} */
    public List<WireFormat> all() {
        return formats;
    }

    /** The format of a name: "dis", "nmea", "json", or the name of a profile. */
    public Optional<WireFormat> named(String name) {
        return formats.stream().filter(f -> f.name().equals(name)).findFirst();
    }
}
