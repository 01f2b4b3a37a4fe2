package org.rejoin.protocol.json;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.WireFormat;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.io.JsonEOFException;

/** Reads objects as a stream, within limits on depth and length, so that no line can cost more than its octets. */
final class JsonDecoder implements WireFormat.Decoder {

    private static final int MOST_AIRCRAFT = 256;
    private static final int DEEPEST = 4;
    private static final int LONGEST_NUMBER = 64;
    private static final int LONGEST_NAME = 256;

    private static final JsonFactory FACTORY = JsonFactory.builder()
            .streamReadConstraints(StreamReadConstraints.builder()
                    .maxNestingDepth(DEEPEST)
                    .maxNumberLength(LONGEST_NUMBER)
                    .maxStringLength(JsonLines.LONGEST)
                    .maxNameLength(LONGEST_NAME)
                    .maxDocumentLength(JsonLines.LONGEST)
                    .build())
            // Names come from the wire: kept in the parser's own table, which begins anew at 6,000 of them, and not in
            // the machine's, which would only grow.
            .disable(JsonFactory.Feature.INTERN_FIELD_NAMES)
            .enable(StreamReadFeature.USE_FAST_DOUBLE_PARSER)
            .build();

    private final JsonLines lines = new JsonLines();
    /** By callsign; the one longest unheard makes room. */
    private final Map<String, MotionCheck> checks = new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, MotionCheck> eldest) {
            return size() > MOST_AIRCRAFT;
        }
    };

    @Override
    public List<Decoded> decode(Datagram datagram) {
        List<Decoded> out = new ArrayList<>(2);
        List<byte[]> split = lines.split(datagram, out);
        for (int i = 0; i < split.size(); i++) {
            boolean mayGoOn = i == split.size() - 1;
            line(split.get(i), mayGoOn, datagram, out);
        }
        if (datagram.length() == 0) {
            out.add(new Malformed(0, "nothing", "a JSON object"));
        }
        return out;
    }

    @Override
    public List<Decoded> advanceTo(long nowMicros) {
        List<Decoded> out = new ArrayList<>();
        lines.advanceTo(nowMicros, out);
        return out;
    }

    private void line(byte[] line, boolean mayGoOn, Datagram datagram, List<Decoded> out) {
        List<Decoded> found = new ArrayList<>(2);
        int read = 0;
        try (JsonParser parser = FACTORY.createParser(line)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token != JsonToken.START_OBJECT) {
                    found.add(new Malformed(0, "not an object: " + token.name(), "a JSON object"));
                    break;
                }
                JsonState.read(parser, datagram.receivedS(), found);
                read = (int) parser.currentLocation().getByteOffset();
            }
        } catch (JsonEOFException e) {
            byte[] rest = Arrays.copyOfRange(line, read, line.length);
            if (mayGoOn && isObject(rest)) {
                lines.carry(rest, datagram.receivedMicros());
            } else {
                found.add(fault(e, line));
            }
        } catch (IOException e) {
            found.add(fault(e, line));
        }
        out.addAll(found);
        for (Decoded one : found) {
            if (one instanceof Decoded.Sample sample) {
                checks.computeIfAbsent(sample.aircraft(), name -> new MotionCheck())
                        .hear(sample.state(), sample.source())
                        .ifPresent(warning -> out.add(new Malformed(0, warning.found(), warning.expected())));
            }
        }
    }

    private static boolean isObject(byte[] line) {
        int at = 0;
        while (at < line.length && (line[at] == ' ' || line[at] == '\t')) {
            at++;
        }
        return at < line.length && line[at] == '{';
    }

    private static Malformed fault(IOException e, byte[] line) {
        String text = new String(line, 0, Math.min(line.length, 40), StandardCharsets.UTF_8);
        int offset = 0;
        if (e instanceof JsonProcessingException located && located.getLocation() != null) {
            offset = (int) Math.max(0, located.getLocation().getByteOffset());
        }
        return new Malformed(offset, PlainText.of(text, 40), "a JSON object in one line, at most " + DEEPEST + " deep");
    }
}
