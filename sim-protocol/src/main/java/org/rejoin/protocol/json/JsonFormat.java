package org.rejoin.protocol.json;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.WireFormat;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;

/** This project's own wire format, version 1: UTF-8, one JSON object a line, every name carrying its unit. */
public final class JsonFormat implements WireFormat {

    @Override
    public String name() {
        return "json";
    }

    @Override
    public boolean recognises(Datagram datagram) {
        return datagram.firstVisible(JsonLines.markLength(datagram.payload())) == '{';
    }

    @Override
    public Decoder newDecoder() {
        return new JsonDecoder();
    }

    @Override
    public Encoder newEncoder() {
        return new Writer();
    }

    /** Writes one object and a line end; members in the order of the documentation, absent ones left out. */
    private static final class Writer implements Encoder {

        private static final JsonFactory FACTORY = new JsonFactory();

        private long sequence;

        @Override
        public List<byte[]> encode(AircraftState state) {
            ByteArrayOutputStream out = new ByteArrayOutputStream(512);
            try (JsonGenerator json = FACTORY.createGenerator(out)) {
                json.writeStartObject();
                json.writeStringField("format", "rejoin-state");
                json.writeNumberField("version", 1);
                json.writeNumberField("sequence", sequence++);
                number(json, JsonMember.TIME, OptionalDouble.of(state.timeS()));
                number(json, JsonMember.LATITUDE, OptionalDouble.of(state.latitudeDeg()));
                number(json, JsonMember.LONGITUDE, OptionalDouble.of(state.longitudeDeg()));
                number(json, JsonMember.ALTITUDE, state.altitudeMslFt());
                number(json, JsonMember.TRUE_HEADING, state.headingTrueDeg());
                number(json, JsonMember.MAGNETIC_HEADING, state.headingMagneticDeg());
                number(json, JsonMember.MAGNETIC_VARIATION, state.variationDeg());
                number(json, JsonMember.TRUE_TRACK, state.trackTrueDeg());
                number(json, JsonMember.GROUND_SPEED, state.groundSpeedKt());
                number(json, JsonMember.INDICATED_AIRSPEED, state.indicatedAirspeedKt());
                number(json, JsonMember.VERTICAL_SPEED, state.verticalSpeedFpm());
                number(json, JsonMember.PITCH, state.pitchDeg());
                number(json, JsonMember.ROLL, state.rollDeg());
                json.writeBooleanField("paused", state.paused());
                json.writeEndObject();
                json.writeRaw('\n');
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return List.of(out.toByteArray());
        }

        // What a reader would have to refuse is not sent.
        private static void number(JsonGenerator json, JsonMember member, OptionalDouble value) throws IOException {
            if (value.isPresent() && member.allows(value.getAsDouble())) {
                json.writeNumberField(member.member(), value.getAsDouble());
            }
        }
    }
}
