package org.rejoin.console.cli;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;

/** The wire formats by their names on the command line. */
final class Formats {

    private Formats() {}

    /** All built-in formats, in the order in which they are recognised. */
    static List<WireFormat> all() {
        return List.of(new DisFormat(), new NmeaFormat(), new JsonFormat());
    }

    /** Built-in formats after those the user names. */
    static List<WireFormat> withProfiles(List<String> profiles) throws IOException {
        List<WireFormat> formats = new ArrayList<>(all());
        for (String profile : profiles) {
            formats.add(named(profile));
        }
        return formats;
    }

    static WireFormat named(String name) throws IOException {
        return switch (name.toLowerCase(Locale.ROOT)) {
            case "dis" -> new DisFormat();
            case "nmea" -> new NmeaFormat();
            case "json" -> new JsonFormat();
            default -> throw new IOException("no format \"" + name + "\": expected dis, nmea, json or a profile file");
        };
    }
}
