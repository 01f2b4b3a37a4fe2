package org.rejoin.console.report;

import java.io.IOException;
import java.io.Writer;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;

import org.rejoin.bridge.flight.Point;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.protocol.AircraftState;

/**
 * Every sample that was tracked, as it was received, and where it stood in the amendment; a field that was not sent is
 * empty. Samples sent while the simulator was paused are not tracked and have no row: the log says when it stood still,
 * and {@code paused} is false in all rows.
 */
final class SamplesCsv {

    private SamplesCsv() {}

    static void write(DebriefedFlight flight, Writer out) throws IOException {
        new Table<>(List.of(
                        column("time_s", sample -> Cell.number(OptionalDouble.of(sample.timeS()), 3)),
                        column("utc", sample -> new Cell.Text(flight.utc(sample.timeS()))),
                        sent("latitude_deg", state -> OptionalDouble.of(state.latitudeDeg()), 9),
                        sent("longitude_deg", state -> OptionalDouble.of(state.longitudeDeg()), 9),
                        sent("altitude_ft", AircraftState::altitudeMslFt, 2),
                        sent("heading_true_deg", AircraftState::headingTrueDeg, 3),
                        given("heading_magnetic_deg", Point::headingMagneticDeg, 3),
                        sent("true_track_deg", AircraftState::trackTrueDeg, 3),
                        sent("ground_speed_kt", AircraftState::groundSpeedKt, 3),
                        sent("vertical_speed_fpm", AircraftState::verticalSpeedFpm, 1),
                        sent("pitch_deg", AircraftState::pitchDeg, 3),
                        sent("roll_deg", AircraftState::rollDeg, 3),
                        sent("indicated_airspeed_kt", AircraftState::indicatedAirspeedKt, 3),
                        column("paused", sample -> new Cell.Flag(sample.state().paused())),
                        column("phase", sample -> new Cell.Text(sample.phase().words())),
                        given("cross_track_nm", Point::crossTrackNm, 4),
                        given("to_go_nm", Point::toGoNm, 4),
                        given("track_error_deg", Point::trackErrorDeg, 2),
                        given("heading_error_deg", Point::headingErrorDeg, 2),
                        given("altitude_error_ft", Point::altitudeErrorFt, 1),
                        column("established", sample -> new Cell.Flag(sample.established()))))
                .writeCsv(flight.samples(), out);
    }

    private static Table.Column<Point> column(String name, Function<Point, Cell> cell) {
        return new Table.Column<>(name, cell);
    }

    /** A field of the feed. */
    private static Table.Column<Point> sent(String name, Function<AircraftState, OptionalDouble> value, int digits) {
        return column(name, sample -> Cell.plain(value.apply(sample.state()), digits));
    }

    /** A figure of the tracker. */
    private static Table.Column<Point> given(String name, ToDoubleFunction<Point> value, int digits) {
        return column(name, sample -> Cell.plain(Point.given(value.applyAsDouble(sample)), digits));
    }
}
