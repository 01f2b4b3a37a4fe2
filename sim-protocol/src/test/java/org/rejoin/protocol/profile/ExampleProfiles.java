package org.rejoin.protocol.profile;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

import org.rejoin.protocol.Wire;
import org.rejoin.protocol.WireFormat;
import org.rejoin.protocol.detect.WireFormats;
import org.rejoin.protocol.yaml.YamlException;

/** Six invented layouts, with a datagram of each. */
final class ExampleProfiles {

    static final String P1 = """
            text: {starts_with: "RJA", separator: ",", fields: 11}
            values:
              - {is: time, at: 1, unit: none}            # hhmmss.ss, informational
              - {is: latitude, at: 2, unit: deg}
              - {is: longitude, at: 3, unit: deg}
              - {is: altitude_msl, at: 4, unit: ft}
              - {is: magnetic_heading, at: 5, unit: deg}
              - {is: roll, at: 6, unit: deg}
              - {is: pitch, at: 7, unit: deg}
              - {is: ground_speed, at: 8, unit: kt}
              - {is: true_track, at: 9, unit: deg}
              - {is: vertical_speed, at: 10, unit: ft/min}
            """;

    static final String P2 = """
            text: {separator: ";", key_value: "=", decimal: ","}
            values:
              - {is: latitude, at: lat, unit: deg}
              - {is: longitude, at: lon, unit: deg}
              - {is: altitude_msl, at: alt_m, unit: m}
              - {is: true_heading, at: hdg_true, unit: deg}
              - {is: true_track, at: trk_true, unit: deg}
              - {is: ground_speed, at: gs_ms, unit: m/s}
              - {is: vertical_speed, at: vs_ms, unit: m/s}
              - {is: roll, at: bank_left, unit: deg, scale: -1}
              - {is: pitch, at: pitch, unit: deg}
            """;

    static final String P3 = """
            text: {separator: blank, fields: 9}
            values: [ {is: latitude, at: 0, unit: rad}, {is: longitude, at: 1, unit: rad},
                      {is: altitude_msl, at: 2, unit: m}, {is: true_heading, at: 3, unit: rad},
                      {is: true_track, at: 4, unit: rad}, {is: ground_speed, at: 5, unit: m/s},
                      {is: vertical_speed, at: 6, unit: m/s}, {is: roll, at: 7, unit: rad},
                      {is: pitch, at: 8, unit: rad} ]
            """;

    static final String P4 = """
            binary: {byte_order: little, magic: "4F 43 4E 31", length: 56}
            values: [ {is: time, at: 4, type: u32, unit: ms}, {is: latitude, at: 8, type: f64, unit: rad},
                      {is: longitude, at: 16, type: f64, unit: rad}, {is: altitude_msl, at: 24, type: f64, unit: m},
                      {is: true_heading, at: 32, type: f32, unit: rad}, {is: pitch, at: 36, type: f32, unit: rad},
                      {is: roll, at: 40, type: f32, unit: rad}, {is: ground_speed, at: 44, type: f32, unit: m/s},
                      {is: true_track, at: 48, type: f32, unit: rad},
                      {is: vertical_speed, at: 52, type: f32, unit: m/s} ]
            """;

    static final String P5 = """
            binary: {byte_order: big, magic: "7E 51", length: {field: {at: 2, type: u16}, counts_from: 4}}
            values: [ {is: latitude, at: 4, type: i32, unit: deg, scale: 1.0e-7},
                      {is: longitude, at: 8, type: i32, unit: deg, scale: 1.0e-7},
                      {is: altitude_msl, at: 12, type: i32, unit: mm},
                      {is: true_heading, at: 16, type: u16, unit: bam16},
                      {is: true_track, at: 18, type: u16, unit: bam16},
                      {is: roll, at: 20, type: i16, unit: deg, scale: 0.01},
                      {is: pitch, at: 22, type: i16, unit: deg, scale: 0.01},
                      {is: ground_speed, at: 24, type: u16, unit: kt, scale: 0.1},
                      {is: vertical_speed, at: 26, type: i16, unit: ft/min}, {is: paused, at: 28, type: u8, bit: 0} ]
            """;

    static final String P6 = """
            binary: {byte_order: big, magic: "A5 5A 31", length: {min: 13},
                     records: {start: 4, size: 9, index: {at: 0, type: u8}, count: {at: 3, type: u8}}}
            values: [ {is: latitude, index: 1, at: 1, type: f64, unit: deg},
                      {is: longitude, index: 2, at: 1, type: f64, unit: deg},
                      {is: altitude_msl, index: 3, at: 1, type: f64, unit: ft},
                      {is: magnetic_heading, index: 7, at: 1, type: f64, unit: deg},
                      {is: ground_speed, index: 9, at: 1, type: f64, unit: kt},
                      {is: true_track, index: 10, at: 1, type: f64, unit: deg},
                      {is: vertical_speed, index: 12, at: 1, type: f64, unit: ft/s},
                      {is: roll, index: 20, at: 1, type: f64, unit: deg},
                      {is: pitch, index: 21, at: 1, type: f64, unit: deg} ]
            """;

    static final byte[] D1 = text("RJA,000754.50,30.500000,-145.250000,6000.0,256.8,-20.0,3.0,118.0,262.0,-700\r\n");

    static final byte[] D2 = text("lat=30,500000;lon=-145,250000;alt_m=1828,8;hdg_true=270,0;trk_true=262,0;"
            + "gs_ms=60,704;vs_ms=-3,556;bank_left=20,0;pitch=3,0\n");

    static final byte[] D3 =
            text("0.532325422 -2.535090739 1828.80 4.712389 4.572763 60.704 -3.556 -0.349066 0.052360\n");

    static final byte[] D4 = Wire.hex("""
            4f 43 4e 31 44 83 0b 00 da bd b6 52 cf 08 e1 3f
            69 bf 32 a7 dd 47 04 c0 33 33 33 33 33 93 9c 40
            e4 cb 96 40 50 77 56 3d c2 b8 b2 be 5a d1 72 42
            12 54 92 40 81 95 63 c0""");

    static final byte[] D5 = Wire.hex("""
            7e 51 00 1a 12 2d ee 40 a9 6c 9b e0 00 1b e7 c0
            c0 00 ba 50 f8 30 01 2c 04 9c fd 44 00 00""");

    static final byte[] D6 = Wire.hex("""
            a5 5a 31 0a 01 40 3e 80 00 00 00 00 00 02 c0 62
            28 00 00 00 00 00 03 40 b7 70 00 00 00 00 00 07
            40 70 0c cc cc cc cc cd 09 40 5d 80 00 00 00 00
            00 0a 40 70 60 00 00 00 00 00 0c c0 27 55 55 55
            55 9e a2 14 c0 34 00 00 00 00 00 00 15 40 08 00
            00 00 00 00 00 c8 40 c8 1c 80 00 00 00 00""");

    private ExampleProfiles() {}

    static byte[] text(String line) {
        return line.getBytes(StandardCharsets.UTF_8);
    }

    static Profile format(String yaml) {
        try {
            return Profile.parse(yaml);
        } catch (YamlException e) {
            throw new AssertionError(e);
        }
    }

    /** All that are built in, and the example profiles. */
    static List<WireFormat> everyFormat() {
        List<WireFormat> every = new ArrayList<>(new WireFormats().all());
        for (String yaml : List.of(P1, P2, P3, P4, P5, P6)) {
            every.add(format(yaml));
        }
        return every;
    }
}
