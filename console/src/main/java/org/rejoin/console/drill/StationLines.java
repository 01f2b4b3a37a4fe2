package org.rejoin.console.drill;

import java.time.LocalDate;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * The lines of a station as they are said: radials of a VOR by its own declination, bearings of an NDB by today's variation.
 *
 * @param northDeg its zero line from true north, degrees, east plus
 */
record StationLines(Station station, double northDeg) {

    /** Of a station, on a date; empty where it gives distance alone, or its radials have no direction. */
    static Optional<StationLines> of(Station station, LocalDate date) {
        if (station.kind().hasRadials()) {
            return station.declination().map(declination -> new StationLines(station, declination.eastDeg()));
        }
        return isNdb(station)
                ? Optional.of(new StationLines(
                        station,
                        MagneticModel.WMM2025
                                .variation(station.position(), station.elevationFt(), date)
                                .eastDeg()))
                : Optional.empty();
    }

    static boolean isNdb(Station station) {
        return station.kind() == Station.Kind.NDB;
    }

    /** The line FROM the station that leads there, in whole degrees, as ATC says it. */
    Radial said(TrueDirection azimuth) {
        return new Radial(Math.round(exact(azimuth).deg()));
    }

    Radial exact(TrueDirection azimuth) {
        return new Radial(azimuth.deg() - northDeg);
    }

    /** Where a line leads. */
    TrueDirection azimuth(Radial line) {
        return new TrueDirection(line.deg() + northDeg);
    }

    /** To intercept a line. Of a radial the route tells which way; of a bearing ATC says it. */
    Instruction intercept(Radial line, boolean inbound, Optional<Instruction.Until> until) {
        return isNdb(station)
                ? new Instruction.InterceptBearing(
                        station,
                        new MagneticDirection(line.deg()),
                        inbound ? Instruction.Sense.INBOUND : Instruction.Sense.OUTBOUND,
                        until)
                : new Instruction.InterceptRadial(station, line, Instruction.Sense.UNSAID, until);
    }

    Instruction.HoldLine holdOn(Radial line) {
        return isNdb(station)
                ? new Instruction.HoldLine.OnBearing(station, new MagneticDirection(line.deg()))
                : new Instruction.HoldLine.OnRadial(station, line);
    }
}
