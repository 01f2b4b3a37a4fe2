package org.rejoin.protocol.json;

import java.io.IOException;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Angles;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Decoded.Malformed;
import org.rejoin.protocol.PlainText;
import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.StateDraft;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;

/** One object, member by member; a member that is not what it should be is left out and reported. */
final class JsonState {

    private static final String FORMAT = "rejoin-state";
    private static final int LONGEST_CALLSIGN = 16;
    private static final double STANDING_STILL_KT = 1;
    private static final double HEADINGS_AGREE_DEG = 2;

    private final Map<JsonMember, Double> numbers = new EnumMap<>(JsonMember.class);
    private boolean paused;
    private boolean foreign;
    private String callsign = "";

    /** Reads the object that the parser has just begun. */
    static void read(JsonParser parser, double receivedS, List<Decoded> out) throws IOException {
        int start = (int) parser.currentTokenLocation().getByteOffset();
        JsonState state = new JsonState();
        int faultsBefore = out.size();
        for (String name = parser.nextFieldName(); name != null; name = parser.nextFieldName()) {
            JsonToken token = parser.nextToken();
            state.member(name, token, parser, out);
        }
        state.finish(start, receivedS, out, out.size() > faultsBefore);
    }

    private void member(String name, JsonToken token, JsonParser parser, List<Decoded> out) throws IOException {
        Optional<JsonMember> number = JsonMember.named(name);
        if (number.isPresent()) {
            number(number.get(), token, parser, out);
            return;
        }
        switch (name) {
            case "format" -> {
                foreign = token != JsonToken.VALUE_NULL && !parser.getText().equals(FORMAT);
                if (foreign) {
                    fault(name, token, parser, '"' + FORMAT + '"', out);
                }
            }
            case "paused", "on_ground" -> {
                if (token.isBoolean()) {
                    paused = name.equals("paused") ? token == JsonToken.VALUE_TRUE : paused;
                } else if (token != JsonToken.VALUE_NULL) {
                    fault(name, token, parser, "true or false", out);
                }
            }
            case "callsign" -> {
                if (token == JsonToken.VALUE_STRING && parser.getTextLength() <= LONGEST_CALLSIGN) {
                    callsign = PlainText.of(parser.getText(), LONGEST_CALLSIGN);
                } else if (token != JsonToken.VALUE_NULL) {
                    fault(name, token, parser, "at most 16 characters", out);
                }
            }
            default -> {}
        }
        parser.skipChildren();
    }

    private void number(JsonMember member, JsonToken token, JsonParser parser, List<Decoded> out) throws IOException {
        if (token == JsonToken.VALUE_NULL) {
            numbers.remove(member);
            return;
        }
        if (token.isNumeric() && member.allows(parser.getDoubleValue())) {
            numbers.put(member, parser.getDoubleValue());
            return;
        }
        numbers.remove(member);
        fault(member.member(), token, parser, member.expected(), out);
        parser.skipChildren();
    }

    private static void fault(String name, JsonToken token, JsonParser parser, String expected, List<Decoded> out)
            throws IOException {
        int offset = (int) parser.currentTokenLocation().getByteOffset();
        String value = token.isScalarValue() ? parser.getText() : "an array or object";
        String shown = token == JsonToken.VALUE_STRING ? '"' + value + '"' : value;
        out.add(new Malformed(Math.max(0, offset), name + " " + PlainText.of(shown, 24), expected));
    }

    private double value(JsonMember member) {
        return numbers.getOrDefault(member, Double.NaN);
    }

    private void finish(int offset, double receivedS, List<Decoded> out, boolean reported) {
        if (foreign) {
            return;
        }
        double speed = value(JsonMember.GROUND_SPEED);
        StateDraft draft = new StateDraft()
                .position(value(JsonMember.LATITUDE), value(JsonMember.LONGITUDE))
                .altitudeMslFt(value(JsonMember.ALTITUDE))
                .headingTrueDeg(value(JsonMember.TRUE_HEADING))
                .headingMagneticDeg(value(JsonMember.MAGNETIC_HEADING))
                .variationDeg(value(JsonMember.MAGNETIC_VARIATION))
                .trackTrueDeg(speed < STANDING_STILL_KT ? Double.NaN : value(JsonMember.TRUE_TRACK))
                .groundSpeedKt(speed)
                .verticalSpeedFpm(value(JsonMember.VERTICAL_SPEED))
                .pitchDeg(value(JsonMember.PITCH))
                .rollDeg(value(JsonMember.ROLL))
                .indicatedAirspeedKt(value(JsonMember.INDICATED_AIRSPEED))
                .paused(paused);
        Optional<AircraftState> state = draft.state(receivedS);
        if (state.isEmpty()) {
            if (!reported) {
                out.add(new Malformed(Math.max(0, offset), "no position", "latitude_deg and longitude_deg"));
            }
            return;
        }
        double disagreement = Angles.difference(value(JsonMember.TRUE_HEADING)
                - value(JsonMember.MAGNETIC_HEADING)
                - value(JsonMember.MAGNETIC_VARIATION));
        if (Math.abs(disagreement) > HEADINGS_AGREE_DEG) {
            out.add(new Malformed(
                    Math.max(0, offset),
                    "true_heading_deg " + value(JsonMember.TRUE_HEADING) + " with magnetic_heading_deg "
                            + value(JsonMember.MAGNETIC_HEADING),
                    "a difference of magnetic_variation_deg " + value(JsonMember.MAGNETIC_VARIATION)));
        }
        Double time = numbers.get(JsonMember.TIME);
        out.add(new Decoded.Sample(
                state.get(), Optional.ofNullable(time).map(SourceTime::monotonic), callsign, callsign));
    }
}
