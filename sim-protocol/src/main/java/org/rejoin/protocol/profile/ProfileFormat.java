package org.rejoin.protocol.profile;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

/**
 * A wire format described by a {@link Profile}. What the encoder cannot know it leaves empty in text, sends as the
 * profile's {@code missing} value, as not-a-number in floating point, and as 0 in whole numbers.
 */
public record ProfileFormat(Profile profile) implements WireFormat {

    @Override
    public String name() {
        return profile.name();
    }

    @Override
    public boolean recognises(Datagram datagram) {
        return ProfileDecoder.RecordReader.of(profile).recognises(datagram);
    }

    @Override
    public Decoder newDecoder() {
        return new ProfileDecoder(profile);
    }

    @Override
    public Encoder newEncoder() {
        return profile.layout()
                .fold(text -> new TextEncoder(profile, text), binary -> new BinaryEncoder(profile, binary));
    }
}
