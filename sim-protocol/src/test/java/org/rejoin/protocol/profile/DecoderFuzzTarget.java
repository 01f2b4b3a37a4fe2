package org.rejoin.protocol.profile;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

/**
 * What a fuzzer gives its octets to: each input is one or two datagrams for every decoder, or for the one named by
 * {@code -Drejoin.fuzz.format}. The build runs it on damaged copies of a corpus ({@link DecoderFuzzTest}); a
 * coverage-guided fuzzer finds the entry point by its name.
 */
public final class DecoderFuzzTarget {

    private static final String ONLY = System.getProperty("rejoin.fuzz.format", "");
    private static final List<WireFormat> FORMATS = ExampleProfiles.everyFormat().stream()
            .filter(format -> ONLY.isEmpty() || format.name().equals(ONLY))
            .toList();

    private DecoderFuzzTarget() {}

    /**
     * Gives an input to new decoders.
     *
     * @param input the first octet says how long the first datagram is; the rest is the second
     */
    public static void fuzzerTestOneInput(byte[] input) {
        int first = input.length == 0 ? 0 : Math.min(input.length - 1, input[0] & 0xFF);
        byte[] one = input.length == 0 ? input : Arrays.copyOfRange(input, 1, 1 + first);
        byte[] two = input.length == 0 ? input : Arrays.copyOfRange(input, 1 + first, input.length);
        for (WireFormat format : FORMATS) {
            WireFormat.Decoder decoder = format.newDecoder();
            decode(format, decoder, Wire.T0, one);
            decode(format, decoder, Wire.T0 + 50_000, two);
        }
    }

    /** Decodes one datagram, and lets time pass; what is said of bad input must be fit to be shown. */
    static List<Decoded> decode(WireFormat format, WireFormat.Decoder decoder, long micros, byte[] octets) {
        format.recognises(Wire.datagram(micros, octets));
        List<Decoded> found = new ArrayList<>(decoder.decode(Wire.datagram(micros, octets)));
        found.addAll(decoder.advanceTo(micros + 90_000));
        Wire.requirePlainFaults(found);
        return found;
    }
}
