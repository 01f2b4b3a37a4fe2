package org.rejoin.protocol.detect;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

/** The formats that a port may receive, in the order in which they are tried. */
public final class WireFormats {

    private final Map<String, WireFormat> byName = new LinkedHashMap<>();

    /**
     * Those the user names, then the built-in ones: a profile of JSON or of lines with "$" must be asked first. The
     * first that fits a datagram wins; of two of a name the second is left out.
     */
    public WireFormats(List<? extends WireFormat> first) {
        Stream.concat(first.stream(), Stream.of(new DisFormat(), new NmeaFormat(), new JsonFormat()))
                .forEach(each -> byName.putIfAbsent(each.name(), each));
    }

    /** The built-in formats only. */
    public WireFormats() {
        this(List.of());
    }

    /** {@return all formats in the order in which they are tried} */
    public List<WireFormat> all() {
        return List.copyOf(byName.values());
    }

    /** The format of a name: "dis", "nmea", "json", or the name of a profile. */
    public Optional<WireFormat> named(String name) {
        return Optional.ofNullable(byName.get(name));
    }
}
