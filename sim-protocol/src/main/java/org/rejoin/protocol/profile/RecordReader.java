package org.rejoin.protocol.profile;

import java.util.List;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.StateSink;

/** Takes the values of a profile out of a datagram. */
interface RecordReader {

    /** Whether frame, length and number of fields are those of the profile. */
    boolean recognises(Datagram datagram);

    /** One reading per record of the profile in the datagram; what is wrong goes to the sink. */
    List<Reading> read(Datagram datagram, StateSink sink);

    static RecordReader of(Profile profile) {
        return profile.layout()
                .fold(text -> new TextReader(profile, text), binary -> new BinaryReader(profile, binary));
    }
}
