package org.rejoin.console.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.detect.WireFormats;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.yaml.YamlException;
import org.rejoin.protocol.yaml.YamlText;

/** The wire formats by their names on the command line. */
final class Formats {

    /** A profile is a page of text; anything larger is something else. */
    private static final long LARGEST_OCTETS = 1_000_000;

    private Formats() {}

    /** All built-in formats, in the order in which they are recognised. */
    static List<WireFormat> builtIn() {
        return new WireFormats().all();
    }

    /** Those the user names, then the built-in ones. */
    static List<WireFormat> with(List<String> named) throws IOException {
        List<WireFormat> first = new ArrayList<>();
        for (String name : named) {
            first.add(named(name));
        }
        return new WireFormats(first).all();
    }

    static WireFormat named(String name) throws IOException {
        Optional<WireFormat> known = new WireFormats().named(name.toLowerCase(Locale.ROOT));
        if (known.isPresent()) {
            return known.get();
        }
        Path file = Path.of(name);
        if (!Files.isRegularFile(file)) {
            throw new IOException("no format \"" + name + "\": expected dis, nmea, json or a profile file that exists");
        }
        if (Files.size(file) > LARGEST_OCTETS) {
            throw new IOException(file + " is too large for a profile (" + Files.size(file) + " octets)");
        }
        try {
            return Profile.parse(YamlText.decoded(Files.readAllBytes(file)));
        } catch (YamlException e) {
            throw new IOException(file + ": " + e.getMessage(), e);
        }
    }
}
