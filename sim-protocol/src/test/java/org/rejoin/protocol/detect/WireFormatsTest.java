package org.rejoin.protocol.detect;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

import org.rejoin.protocol.Datagram;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.dis.DisFormat;
import org.rejoin.protocol.nmea.NmeaFormat;
import org.rejoin.protocol.profile.Profile;
import org.rejoin.protocol.yaml.YamlException;

import org.junit.jupiter.api.Test;

/** Non-regression: telling formats apart, as docs/wire-formats.md says. */
class WireFormatsTest {

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
            return new WireFormats(List.of(Profile.parse(PROFILE)));
        } catch (YamlException e) {
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
    void aTextLineThatBeginsWithADigitIsNotDis() {
        assertThat(new DisFormat().recognises(Wire.text("1,2,3,4,5,6,7,8,9,10,11,12")))
                .isFalse();
    }

    @Test
    void formatsAreFoundByName() {
        WireFormats formats = formats();
        assertThat(formats.named("dis")).containsInstanceOf(DisFormat.class);
        assertThat(formats.named("nmea")).containsInstanceOf(NmeaFormat.class);
        assertThat(formats.named("three numbers")).containsInstanceOf(Profile.class);
        assertThat(formats.named("auto"))
                .as("telling formats apart is no format")
                .isEmpty();
        assertThat(formats.named("other")).isEmpty();
    }
}
