package org.rejoin.bridge.geo;

import java.util.HashMap;
import java.util.Map;

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

    private record Place(int north, int east, int up) {}

    /** The horizontal field at the corners of one cell, north, east and up counting in binary. */
    private record Cell(Place place, double[] northNt, double[] eastNt) {}

    /** A map. */
    public VariationMap(MagneticModel model, double decimalYear) {
        this.model = model;
        this.decimalYear = decimalYear;
    }

    /**
     * The variation at a place, feet above mean sea level in [-10000, 400000]: degrees from true to magnetic north, east
     * positive.
     *
     * @throws IllegalArgumentException if the altitude is out of range or not a number
     */
    public double eastDegAt(Position position, double altitudeFt) {
        Range.check("altitude", altitudeFt, -10_000, 400_000, "feet");
        double y = (position.latitudeDeg() + 90) * CELLS_PER_DEG;
        double x = (position.longitudeDeg() + 180) * CELLS_PER_DEG;
        double z = altitudeFt / CELL_FT;
        int north = (int) Math.min(Math.floor(y), 180 * CELLS_PER_DEG - 1);
        int east = (int) Math.floor(x);
        int up = (int) Math.floor(z);
        Cell cell = cell(north, east, up);
        double northNt = 0;
        double eastNt = 0;
        for (int corner = 0; corner < CORNERS; corner++) {
            double weight =
                    share(y - north, corner & 1) * share(x - east, corner >> 1 & 1) * share(z - up, corner >> 2);
            northNt += weight * cell.northNt()[corner];
            eastNt += weight * cell.eastNt()[corner];
        }
        return Math.toDegrees(Math.atan2(eastNt, northNt));
    }

    private static double share(double beyond, int side) {
        return side == 0 ? 1 - beyond : beyond;
    }

    private Cell cell(int north, int east, int up) {
        Cell here = last;
        if (here != null
                && here.place().north() == north
                && here.place().east() == east
                && here.place().up() == up) {
            return here;
        }
        if (cells.size() >= MOST_CELLS) {
            cells.clear();
        }
        Cell found = cells.computeIfAbsent(new Place(north, east, up), this::make);
        last = found;
        return found;
    }

    private Cell make(Place place) {
        double[] northNt = new double[CORNERS];
        double[] eastNt = new double[CORNERS];
        for (int corner = 0; corner < CORNERS; corner++) {
            double latitude = (place.north() + (corner & 1)) / CELLS_PER_DEG - 90;
            double longitude = (place.east() + (corner >> 1 & 1)) / CELLS_PER_DEG - 180;
            MagneticModel.Field field = model.field(
                    new Position(latitude, longitude >= 180 ? longitude - 360 : longitude),
                    (place.up() + (corner >> 2)) * CELL_FT,
                    decimalYear);
            northNt[corner] = field.northNt();
            eastNt[corner] = field.eastNt();
        }
        return new Cell(place, northNt, eastNt);
    }
}
