package org.rejoin.bridge.geo;

import java.util.HashMap;
import java.util.Map;

import org.rejoin.protocol.earth.GroundPoint;
import org.rejoin.protocol.earth.Normal;

import org.jspecify.annotations.Nullable;

/**
 * The variation of one day for a place asked for again and again: the horizontal field is worked out at the corners of the
 * cells of a lattice fixed to the Earth and taken as linear between them, so that the answer depends on the place alone, not on what
 * was asked before. Against the model itself: 0.01 degree where a compass is of use. Confined to one thread.
 */
public final class VariationMap {

    private static final double CELLS_PER_DEG = 4;
    private static final double CELL_FT = 5000;

    /** A flight needs a few; one that jumps about the world makes them anew. */
    private static final int MOST_CELLS = 256;

    private static final int CORNERS = 8;

    private final MagneticModel model;
    private final double decimalYear;
    private final Map<Place, Cell> cells = new HashMap<>();
    private @Nullable Cell last;

    private record Place(int north, int east, int up) {

        double southDeg() {
            return north / CELLS_PER_DEG - 90;
        }

        double westDeg() {
            return east / CELLS_PER_DEG - 180;
        }
    }

    /** One cell: its south-western corner, and the horizontal field at all corners, north, east and up counting in binary. */
    private record Cell(Place place, Normal corner, double[] northNt, double[] eastNt) {

        /** How far north of its southern edge a point lies, in cells; NaN from the other side of the Earth. */
        double north(Normal at) {
            double cosLat = cosLatitude(at);
            double cosSouth = cosLatitude(corner);
            boolean near = cosLat * cosSouth + at.z() * corner.z() > 0;
            return near ? inCells(at.z() * cosSouth - cosLat * corner.z()) : Double.NaN;
        }

        /** How far east of its western edge, in cells; NaN from the other side of the Earth. */
        double east(Normal at) {
            double cosines = Math.max(cosLatitude(at) * cosLatitude(corner), Double.MIN_NORMAL);
            boolean near = at.x() * corner.x() + at.y() * corner.y() >= 0;
            return near ? inCells((at.y() * corner.x() - at.x() * corner.y()) / cosines) : Double.NaN;
        }

        private static double cosLatitude(Normal at) {
            return Math.sqrt(at.x() * at.x() + at.y() * at.y());
        }

        /** An angle from its sine, in cells: by the series, whose next term is nothing across a cell. */
        private static double inCells(double sine) {
            double square = sine * sine;
            return Math.toDegrees(sine * (1 + square / 6 * (1 + square * 9 / 20))) * CELLS_PER_DEG;
        }
    }

    /** A map. */
    public VariationMap(MagneticModel model, double decimalYear) {
        this.model = model;
        this.decimalYear = decimalYear;
    }

    /**
     * The variation at a point, feet above mean sea level in [-10000, 400000]: degrees from true to magnetic north, east
     * positive.
     *
     * @throws IllegalArgumentException if the altitude is out of range or not a number
     */
    public double eastDegAt(GroundPoint point, double altitudeFt) {
        Range.check("altitude", altitudeFt, -10_000, 400_000, "feet");
        Normal at = point.normal();
        int level = (int) Math.floor(altitudeFt / CELL_FT);
        Cell cell = last;
        if (cell == null || cell.place().up() != level || !isShare(cell.north(at)) || !isShare(cell.east(at))) {
            cell = cell(point, level);
            last = cell;
        }
        double north = cell.north(at);
        double east = cell.east(at);
        double up = altitudeFt / CELL_FT - level;
        double northNt = 0;
        double eastNt = 0;
        for (int corner = 0; corner < CORNERS; corner++) {
            double weight = share(north, corner & 1) * share(east, corner >> 1 & 1) * share(up, corner >> 2);
            northNt += weight * cell.northNt()[corner];
            eastNt += weight * cell.eastNt()[corner];
        }
        return Math.toDegrees(Math.atan2(eastNt, northNt));
    }

    private static double share(double beyond, int side) {
        return side == 0 ? 1 - beyond : beyond;
    }

    private static boolean isShare(double beyond) {
        return beyond >= 0 && beyond < 1;
    }

    private Cell cell(GroundPoint point, int up) {
        if (cells.size() >= MOST_CELLS) {
            cells.clear();
        }
        double north = Math.floor((point.latitudeDeg() + 90) * CELLS_PER_DEG);
        double east = Math.floor((point.longitudeDeg() + 180) * CELLS_PER_DEG);
        Place place = new Place((int) Math.min(north, 180 * CELLS_PER_DEG - 1), (int) east, up);
        return cells.computeIfAbsent(place, this::make);
    }

    private Cell make(Place place) {
        double[] northNt = new double[CORNERS];
        double[] eastNt = new double[CORNERS];
        for (int corner = 0; corner < CORNERS; corner++) {
            double latitude = place.southDeg() + (corner & 1) / CELLS_PER_DEG;
            double longitude = place.westDeg() + (corner >> 1 & 1) / CELLS_PER_DEG;
            MagneticModel.Field field = model.field(
                    new Position(latitude, longitude >= 180 ? longitude - 360 : longitude),
                    (place.up() + (corner >> 2)) * CELL_FT,
                    decimalYear);
            northNt[corner] = field.northNt();
            eastNt[corner] = field.eastNt();
        }
        return new Cell(place, Normal.at(place.southDeg(), place.westDeg()), northNt, eastNt);
    }
}
