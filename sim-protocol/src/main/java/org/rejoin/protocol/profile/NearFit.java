package org.rejoin.protocol.profile;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.PlainText;

/** Says what keeps a datagram from being read by a profile that nearly fits it. */
public final class NearFit {

    /** Lengths or numbers of fields that differ by more are another layout, not another version of this one. */
    private static final double WITHIN = 0.25;

    private static final int SHOWN = 24;

    private NearFit() {}

    /** What the profile says and what came instead; empty where they have too little in common. */
    public static Optional<String> of(Profile profile, Datagram datagram) {
        byte[] octets = new byte[datagram.length()];
        datagram.payload().get(0, octets);
        return profile.first().layout().fold(text -> text(text, octets), binary -> binary(binary, octets));
    }

    private static Optional<String> text(Layout.Text layout, byte[] octets) {
        String line = new String(octets, StandardCharsets.ISO_8859_1)
                .lines()
                .findFirst()
                .orElse("");
        boolean json = line.stripLeading().startsWith("{");
        if (layout.json() != json || line.isBlank() || !printable(line)) {
            return Optional.empty();
        }
        boolean begins = line.startsWith(layout.startsWith());
        if (json) {
            return Optional.of("it is JSON, but the members that the profile names are not in it");
        }
        int wanted = layout.fields().orElse(0);
        List<String> fields = TextRecord.fields(line, layout);
        int found = fields.size();
        if (wanted > 0 && found > 1 && begins && found != wanted && Math.abs(found - wanted) <= WITHIN * wanted + 1) {
            return Optional.of("lines have " + found + " fields, the profile says " + wanted);
        }
        if (!begins && found > 1 && (wanted == 0 || found == wanted)) {
            return Optional.of("lines begin with \"" + PlainText.of(line, SHOWN) + "\", the profile says \""
                    + PlainText.of(layout.startsWith(), SHOWN) + "\"");
        }
        return Optional.empty();
    }

    private static boolean printable(String line) {
        return line.chars().allMatch(c -> c >= ' ' || c == '\t');
    }

    private static Optional<String> binary(Layout.Binary layout, byte[] octets) {
        String magic = layout.magic().replace(" ", "").toLowerCase(Locale.ROOT);
        int length = magic.length() / 2;
        boolean begins = octets.length >= length
                && HexFormat.of().formatHex(octets, 0, length).equals(magic);
        Optional<Integer> wanted = layout.length()
                .filter(Layout.Length.Exact.class::isInstance)
                .map(exact -> ((Layout.Length.Exact) exact).octets());
        boolean near = wanted.isPresent()
                && octets.length != wanted.get()
                && Math.abs(octets.length - wanted.get()) <= WITHIN * wanted.get();
        if (begins && (near || (wanted.isPresent() && length > 0 && octets.length != wanted.get()))) {
            return Optional.of("datagrams have " + octets.length + " octets, the profile says " + wanted.get());
        }
        if (!begins && wanted.isPresent() && octets.length == wanted.get()) {
            int shown = Math.min(length, octets.length);
            return Optional.of("datagrams begin with "
                    + HexFormat.ofDelimiter(" ").formatHex(octets, 0, shown) + ", the profile says " + layout.magic());
        }
        return Optional.empty();
    }
}
