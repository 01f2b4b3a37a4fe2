package org.rejoin.protocol.json;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;

import org.rejoin.protocol.Angles;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.StateDraft;
import org.rejoin.protocol.StateRange;
import org.rejoin.protocol.StateSink;
import org.rejoin.protocol.StateView;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;

/** One object, member by member; a member that is not what it should be is left out and reported. Used again. */
final class JsonState {

    static final String FORMAT = "rejoin-state";
    private static final int LONGEST_CALLSIGN = 16;
    private static final double HEADINGS_AGREE_DEG = 2;

    private final double[] numbers = new double[JsonMember.values().length];
    private final StateDraft draft = new StateDraft();
    private boolean paused;
    private boolean foreign;
    private String callsign = "";
    /** The callsign heard last: the same octets need no text of their own. */
    private String lastCallsign = "";

    /** Forgets the object before. */
    void clear() {
        Arrays.fill(numbers, Double.NaN);
        paused = false;
        foreign = false;
        callsign = "";
    }

    void number(JsonMember member, double value) {
        numbers[member.place()] = value;
    }

    void paused(boolean standsStill) {
        paused = standsStill;
    }

    /** Takes a callsign of printable ASCII; false if it is too long. */
    boolean callsign(byte[] octets, int from, int to) {
        if (to - from > LONGEST_CALLSIGN) {
            return false;
        }
        if (!isLastCallsign(octets, from, to)) {
            lastCallsign = new String(octets, from, to - from, StandardCharsets.US_ASCII);
        }
        callsign = lastCallsign;
        return true;
    }

    private boolean isLastCallsign(byte[] octets, int from, int to) {
        if (lastCallsign.length() != to - from) {
            return false;
        }
        for (int i = from; i < to; i++) {
            if (lastCallsign.charAt(i - from) != octets[i]) {
                return false;
            }
        }
        return true;
    }

    /** Reads the object that the parser has just begun; whether something of it was reported. */
    boolean read(JsonParser parser, StateSink sink) throws IOException {
        boolean reported = false;
        for (String name = parser.nextFieldName(); name != null; name = parser.nextFieldName()) {
            JsonToken token = parser.nextToken();
            reported |= member(name, token, parser, sink);
        }
        return reported;
    }

    /** Whether the member was reported. */
    private boolean member(String name, JsonToken token, JsonParser parser, StateSink sink) throws IOException {
        Optional<JsonMember> number = JsonMember.named(name);
        if (number.isPresent()) {
            return number(number.get(), token, parser, sink);
        }
        String expected = switch (name) {
            case "format" -> {
                foreign = token != JsonToken.VALUE_NULL && !parser.getText().equals(FORMAT);
                yield foreign ? '"' + FORMAT + '"' : "";
            }
            case "paused", "on_ground" -> {
                if (token.isBoolean()) {
                    paused = name.equals("paused") ? token == JsonToken.VALUE_TRUE : paused;
                }
                yield token.isBoolean() || token == JsonToken.VALUE_NULL ? "" : "true or false";
            }
            case "callsign" -> {
                boolean good = token == JsonToken.VALUE_STRING && parser.getTextLength() <= LONGEST_CALLSIGN;
                callsign = good ? PlainText.name(parser.getText()) : callsign;
                yield good || token == JsonToken.VALUE_NULL ? "" : "at most 16 characters";
            }
            default -> "";
        };
        if (!expected.isEmpty()) {
            fault(name, token, parser, expected, sink);
        }
        parser.skipChildren();
        return !expected.isEmpty();
    }

    private boolean number(JsonMember member, JsonToken token, JsonParser parser, StateSink sink) throws IOException {
        boolean good = token.isNumeric() && member.allows(parser.getDoubleValue());
        number(member, good ? parser.getDoubleValue() : Double.NaN);
        if (good || token == JsonToken.VALUE_NULL) {
            return false;
        }
        String quotes = token == JsonToken.VALUE_STRING ? " without quotes" : "";
        fault(member.member(), token, parser, member.expected() + quotes, sink);
        parser.skipChildren();
        return true;
    }

    private static void fault(String name, JsonToken token, JsonParser parser, String expected, StateSink sink)
            throws IOException {
        int offset = (int) parser.currentTokenLocation().getByteOffset();
        String value = token.isScalarValue() ? parser.getText() : "an array or object";
        String shown = token == JsonToken.VALUE_STRING ? '"' + value + '"' : value;
        sink.other(new Malformed(Math.max(0, offset), name + " " + PlainText.of(shown, 24), expected));
    }

    private double value(JsonMember member) {
        return numbers[member.place()];
    }

    /** Makes the view of what was read; false if it is no sample, which is reported unless something else was. */
    boolean finish(int offset, double receivedS, boolean reported, StateSink sink) {
        if (foreign) {
            return false;
        }
        double speed = value(JsonMember.GROUND_SPEED);
        draft.clear()
                .receivedS(receivedS)
                .source(value(JsonMember.TIME) + 0.0, Double.POSITIVE_INFINITY)
                .aircraft(callsign, callsign)
                .position(value(JsonMember.LATITUDE), value(JsonMember.LONGITUDE))
                .set(StateRange.ALTITUDE_MSL_FT, value(JsonMember.ALTITUDE))
                .set(StateRange.HEADING_TRUE_DEG, value(JsonMember.TRUE_HEADING))
                .set(StateRange.HEADING_MAGNETIC_DEG, value(JsonMember.MAGNETIC_HEADING))
                .variationDeg(value(JsonMember.MAGNETIC_VARIATION))
                .set(
                        StateRange.TRACK_TRUE_DEG,
                        speed < StateDraft.STANDING_STILL_KT ? Double.NaN : value(JsonMember.TRUE_TRACK))
                .set(StateRange.GROUND_SPEED_KT, speed)
                .set(StateRange.VERTICAL_SPEED_FPM, value(JsonMember.VERTICAL_SPEED))
                .set(StateRange.PITCH_DEG, value(JsonMember.PITCH))
                .set(StateRange.ROLL_DEG, value(JsonMember.ROLL))
                .set(StateRange.INDICATED_AIRSPEED_KT, value(JsonMember.INDICATED_AIRSPEED))
                .paused(paused);
        if (!draft.hasPosition()) {
            if (!reported) {
                sink.other(new Malformed(offset, "no position", "latitude_deg and longitude_deg"));
            }
            return false;
        }
        double disagreement = Angles.difference(value(JsonMember.TRUE_HEADING)
                - value(JsonMember.MAGNETIC_HEADING)
                - value(JsonMember.MAGNETIC_VARIATION));
        if (Math.abs(disagreement) > HEADINGS_AGREE_DEG) {
            sink.other(new Malformed(
                    offset,
                    "true_heading_deg " + value(JsonMember.TRUE_HEADING) + " with magnetic_heading_deg "
                            + value(JsonMember.MAGNETIC_HEADING),
                    "a difference of magnetic_variation_deg " + value(JsonMember.MAGNETIC_VARIATION)));
        }
        return true;
    }

    /** What {@link #finish} made. */
    StateView view() {
        return draft;
    }
}
