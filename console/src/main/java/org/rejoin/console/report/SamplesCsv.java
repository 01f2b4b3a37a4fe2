package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.OptionalDouble;

import org.rejoin.bridge.flight.Point;
import org.rejoin.protocol.AircraftState;

/**
 * Every sample that was tracked, as it was received, and where it stood in the amendment; a field that was not sent is
 * empty. Samples sent while the simulator was paused are not tracked and have no row: the log says when it stood still,
 * and {@code paused} is false in all rows.
 */
final class SamplesCsv {

    private static final List<String> NAMES = List.of(
            "time_s",
            "utc",
            "latitude_deg",
            "longitude_deg",
            "altitude_ft",
            "heading_true_deg",
            "heading_magnetic_deg",
            "true_track_deg",
            "ground_speed_kt",
            "vertical_speed_fpm",
            "pitch_deg",
            "roll_deg",
            "indicated_airspeed_kt",
            "paused",
            "phase",
            "cross_track_nm",
            "to_go_nm",
            "track_error_deg",
            "heading_error_deg",
            "altitude_error_ft",
            "established");

    private SamplesCsv() {}

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        CsvWriter csv = new CsvWriter(out);
        for (String name : NAMES) {
            csv.field(name);
        }
        csv.end();
        for (Point sample : flight.samples()) {
            AircraftState state = sample.state();
            csv.field(Figures.decimal(sample.timeS(), 3).toPlainString())
                    .field(TrackXml.utc(flight.instant(sample.timeS())))
                    .field(Figures.plain(state.latitudeDeg(), 9))
                    .field(Figures.plain(state.longitudeDeg(), 9))
                    .field(number(state.altitudeMslFt(), 2))
                    .field(number(state.headingTrueDeg(), 3))
                    .field(number(Point.given(sample.headingMagneticDeg()), 3))
                    .field(number(state.trackTrueDeg(), 3))
                    .field(number(state.groundSpeedKt(), 3))
                    .field(number(state.verticalSpeedFpm(), 1))
                    .field(number(state.pitchDeg(), 3))
                    .field(number(state.rollDeg(), 3))
                    .field(number(state.indicatedAirspeedKt(), 3))
                    .field(String.valueOf(state.paused()))
                    .field(sample.phase().words())
                    .field(number(Point.given(sample.crossTrackNm()), 4))
                    .field(number(Point.given(sample.toGoNm()), 4))
                    .field(number(Point.given(sample.trackErrorDeg()), 2))
                    .field(number(Point.given(sample.headingErrorDeg()), 2))
                    .field(number(Point.given(sample.altitudeErrorFt()), 1))
                    .field(String.valueOf(sample.established()))
                    .end();
        }
    }

    private static String number(OptionalDouble value, int digits) {
        return value.isPresent() ? Figures.plain(value.getAsDouble(), digits) : "";
    }
}
