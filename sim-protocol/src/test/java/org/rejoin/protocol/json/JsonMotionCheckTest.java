package org.rejoin.protocol.json;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

import org.rejoin.protocol.Decoded;
import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;

import org.junit.jupiter.api.Test;

/** Speed and track against the positions, once a minute, as docs/wire-formats.md says. */
class JsonMotionCheckTest {

    private static List<Decoded> fly(double factor, double offDeg, boolean timed, double rate) {
        WireFormat.Decoder decoder = new JsonFormat().newDecoder();
        SplittableRandom random = new SplittableRandom(4);
        List<Decoded> all = new ArrayList<>();
        double latitude = 30;
        double longitude = -145;
        for (int i = 0; i < 5 * 150; i++) {
            double track = 350 + i * 0.6; // standard rate, through north
            String line = String.format(
                    Locale.ROOT,
                    "{%s\"latitude_deg\":%.7f,\"longitude_deg\":%.7f,\"true_track_deg\":%.2f,\"ground_speed_kt\":%.1f}\n",
                    timed ? "\"time_s\":" + i * 0.2 + "," : "",
                    latitude,
                    longitude,
                    (track + offDeg) % 360,
                    120 * factor);
            long micros = Wire.T0 + Math.round((i * 0.2 / rate + 0.3 * random.nextDouble()) * 1e6);
            all.addAll(decoder.decode(Wire.datagram(micros, line.getBytes(StandardCharsets.UTF_8))));
            double along = Math.toRadians(track + 0.3);
            latitude += 120.0 / 3600 * 0.2 / 60 * Math.cos(along);
            longitude += 120.0 / 3600 * 0.2 / 60 * Math.sin(along) / Math.cos(Math.toRadians(latitude));
        }
        return all;
    }

    @Test
    void whatFollowsThePositionsIsNotWarnedOf() {
        assertThat(Wire.faults(fly(1, 0, true, 1))).isEmpty();
        assertThat(Wire.faults(fly(1, 0, false, 1))).isEmpty();
        assertThat(Wire.faults(fly(1, 0, true, 4))).isEmpty();
    }

    @Test
    void metresASecondForKnotsAreWarnedOfOnceAMinute() {
        List<Decoded> decoded = fly(1852 / 3600.0, 0, true, 1);
        assertThat(Wire.faults(decoded)).hasSize(2).allSatisfy(fault -> {
            assertThat(fault.found()).isEqualTo("ground_speed_kt 61.7");
            assertThat(fault.expected()).containsPattern("(119|120)\\.\\d kt");
        });
        assertThat(Wire.samples(decoded)).hasSize(750);
    }

    @Test
    void magneticForTrueIsWarnedOf() {
        assertThat(Wire.faults(fly(1, -13.2, true, 1))).hasSize(2).allSatisfy(fault -> {
            assertThat(fault.found()).startsWith("true_track_deg ");
            assertThat(fault.expected()).contains("as the positions move");
        });
    }
}
