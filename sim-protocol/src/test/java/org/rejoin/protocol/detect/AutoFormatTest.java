package org.rejoin.protocol.detect;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.InetSocketAddress;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.json.JsonFormat;
import org.rejoin.protocol.nmea.NmeaFormat;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.profile.ProfileException;
import org.rejoin.protocol.profile.ProfileFormat;

import org.junit.jupiter.api.Test;

/** Non-regression: telling formats apart (wire-formats 0). */
class AutoFormatTest {

    private static final String PROFILE = """
            name: three numbers
            text: {separator: ",", fields: 3}
            values:
              - {is: latitude, at: 0, unit: deg}
              - {is: longitude, at: 1, unit: deg}
              - {is: altitude_msl, at: 2, unit: ft}
            """;

    private static WireFormats formats() {
        try {
            return new WireFormats(List.of(new ProfileFormat(Profile.parse(PROFILE))));
        } catch (ProfileException e) {
            throw new AssertionError(e);
        }
    }

    private static Datagram of(WireFormat format) {
        return Wire.datagram(format.newEncoder().encode(Wire.referenceState(5)).get(0));
    }

    @Test
    void eachFormatIsRecognisedByItselfAndByNoOther() {
        for (WireFormat sender : formats().all()) {
            for (WireFormat reader : formats().all()) {
                assertThat(reader.recognises(of(sender)))
                        .as("%s reading %s", reader.name(), sender.name())
                        .isEqualTo(reader.name().equals(sender.name()));
            }
        }
    }

    @Test
    void anySenderOfAnyFormatIsUnderstood() {
        for (WireFormat sender : formats().all()) {
            WireFormat.Decoder decoder = formats().auto().newDecoder();
            List<Decoded> out = new ArrayList<>(decoder.decode(of(sender)));
            out.addAll(decoder.advanceTo(Wire.T0 + 100_000));
            assertThat(Wire.samples(out)).as(sender.name()).hasSize(1);
        }
    }

    @Test
    void aTextLineThatBeginsWithADigitIsNotDis() {
        assertThat(new DisFormat().recognises(Wire.text("1,2,3,4,5,6,7,8,9,10,11,12")))
                .isFalse();
    }

    @Test
    void theChoiceIsKeptForASenderUntilTwentyFailures() {
        WireFormat.Decoder decoder = formats().auto().newDecoder();
        assertThat(Wire.samples(decoder.decode(of(new JsonFormat())))).hasSize(1);
        for (int i = 0; i < 20; i++) {
            assertThat(Wire.samples(decoder.decode(of(new DisFormat())))).isEmpty();
        }
        assertThat(Wire.samples(decoder.decode(of(new DisFormat())))).hasSize(1);
    }

    @Test
    void sendersAreKeptApart() {
        WireFormat.Decoder decoder = formats().auto().newDecoder();
        InetSocketAddress other = new InetSocketAddress(Wire.SENDER.getAddress(), 50_000);
        for (int i = 0; i < 3; i++) {
            assertThat(Wire.samples(decoder.decode(of(new JsonFormat())))).hasSize(1);
            Datagram dis = of(new DisFormat());
            assertThat(Wire.samples(decoder.decode(new Datagram(Wire.T0, other, dis.payload()))))
                    .hasSize(1);
        }
    }

    @Test
    void whatNobodyKnowsIsShownByItsFirstOctets() {
        List<Decoded> decoded = formats().auto().newDecoder().decode(Wire.datagram(Wire.hex("fe 09 00 01")));
        assertThat(Wire.faults(decoded).get(0).found()).isEqualTo("octets fe 09 00 01");
        assertThat(Wire.faults(decoded).get(0).expected()).isEqualTo("one of dis, json, nmea, three numbers");
    }

    @Test
    void formatsAreFoundByName() {
        WireFormats formats = formats();
        assertThat(formats.named("dis")).containsInstanceOf(DisFormat.class);
        assertThat(formats.named("nmea")).containsInstanceOf(NmeaFormat.class);
        assertThat(formats.named("three numbers")).containsInstanceOf(ProfileFormat.class);
        assertThat(formats.named("auto").orElseThrow().name()).isEqualTo("auto");
        assertThat(formats.named("other")).isEmpty();
        assertThat(formats.names()).isEqualTo("dis, json, nmea, three numbers, auto");
    }
}
