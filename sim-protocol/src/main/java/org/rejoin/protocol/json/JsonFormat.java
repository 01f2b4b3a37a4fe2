package org.rejoin.protocol.json;

import java.nio.ByteBuffer;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

/** This project's own wire format, version 1: UTF-8, one JSON object a line, every name carrying its unit. */
public final class JsonFormat implements WireFormat {

    @Override
    public String name() {
        return "json";
    }

    @Override
    public boolean recognises(Datagram datagram) {
        ByteBuffer octets = datagram.payload();
        for (int i = JsonLines.markLength(octets); i < octets.capacity(); i++) {
            byte octet = octets.get(i);
            if (octet != ' ' && octet != '\t' && octet != '\r' && octet != '\n') {
                return octet == '{';
            }
        }
        return false;
    }

    @Override
    public Decoder newDecoder() {
        return new JsonDecoder();
    }

    @Override
    public Encoder newEncoder() {
        return new JsonEncoder();
    }
}
