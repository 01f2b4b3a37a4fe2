package org.rejoin.protocol.json;

import java.io.IOException;
import java.nio.charset.StandardCharsets;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.StateSink;
import org.rejoin.protocol.WireFormat;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.io.JsonEOFException;

/**
 * Reads a usual line by itself and any other as a stream, within limits on depth and length, so that no line can cost more
 * than its octets.
 */
final class JsonDecoder implements WireFormat.Decoder {

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
    private final PlainLine plain = new PlainLine();
    private final JsonState state = new JsonState();

    @Override
    public void decode(Datagram datagram, StateSink sink) {
        lines.begin(datagram, sink);
        while (lines.next()) {
            int from = firstNotBlank(lines.from(), lines.length());
            if (lines.isEnd(from)) {
                lines.endsAt(from);
                continue;
            }
            state.clear();
            int behind = plain.read(lines.octets(), from, lines.length(), state);
            if (behind > 0 && lines.isEnd(behind)) {
                lines.endsAt(behind);
                give(from - lines.from(), datagram.receivedS(), false, sink);
            } else {
                lines.findEnd();
                stream(datagram.receivedS(), sink);
            }
        }
        if (datagram.length() == 0) {
            sink.other(new Malformed(0, "nothing", "a JSON object"));
        }
    }

    @Override
    public void advanceTo(long nowMicros, StateSink sink) {
        lines.advanceTo(nowMicros, sink);
    }

    private int firstNotBlank(int from, int to) {
        int at = from;
        while (at < to && (lines.octets()[at] == ' ' || lines.octets()[at] == '\t')) {
            at++;
        }
        return at;
    }

    /** Gives out the state, if it is one, and what is to be said of it. */
    private void give(int offset, double receivedS, boolean reported, StateSink sink) {
        if (state.finish(offset, receivedS, reported, sink)) {
            sink.sample(state.view());
        }
    }

    private void stream(double receivedS, StateSink sink) {
        int length = lines.to() - lines.from();
        int read = 0;
        try (JsonParser parser = FACTORY.createParser(lines.octets(), lines.from(), length)) {
            for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
                if (token != JsonToken.START_OBJECT) {
                    sink.other(new Malformed(0, "not an object: " + words(token), "a JSON object"));
                    break;
                }
                int offset = (int) parser.currentTokenLocation().getByteOffset();
                state.clear();
                boolean reported = state.read(parser, sink);
                give(Math.max(0, offset), receivedS, reported, sink);
                read = (int) parser.currentLocation().getByteOffset();
            }
        } catch (JsonEOFException e) {
            int rest = lines.from() + read;
            if (lines.mayGoOn() && isObject(rest)) {
                lines.carry(rest);
            } else {
                sink.other(fault(e));
            }
        } catch (IOException e) {
            sink.other(fault(e));
        }
    }

    private static String words(JsonToken token) {
        return switch (token) {
            case START_ARRAY -> "a list";
            case VALUE_STRING -> "a text";
            case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> "a number";
            case VALUE_NULL, VALUE_TRUE, VALUE_FALSE -> token.asString();
            default -> "the end of one";
        };
    }

    private boolean isObject(int from) {
        int at = firstNotBlank(from, lines.to());
        return at < lines.to() && lines.octets()[at] == '{';
    }

    private Malformed fault(IOException e) {
        int shown = Math.min(lines.to() - lines.from(), 40);
        String text = new String(lines.octets(), lines.from(), shown, StandardCharsets.UTF_8);
        int offset = 0;
        if (e instanceof JsonProcessingException located && located.getLocation() != null) {
            offset = (int) Math.max(0, located.getLocation().getByteOffset());
        }
        return new Malformed(offset, PlainText.of(text, 40), "a JSON object in one line, at most " + DEEPEST + " deep");
    }
}
