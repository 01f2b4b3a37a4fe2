package org.rejoin.bridge.learn;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

import org.rejoin.protocol.earth.Geodetic;
import org.rejoin.protocol.earth.Vector3;

/** Looks for three fields that stay within a shell about the ellipsoid, as earth-centred coordinates do. */
final class Geocentric {

    private static final double FARTHEST_M = 6_420_000;
    private static final double LOWEST_M = -500;
    private static final double HIGHEST_M = 20_000;
    /** The axis that stands upright where the aircraft is moves least. */
    private static final double LEAST_SPREAD_M = 50;

    private static final double MOST_SPREAD_M = 200_000;
    private static final double ROUGH_M = 4;
    private static final double ROUGH = 0.02;
    private static final int MOST = 60;

    private Geocentric() {}

    private record Axis(Spot spot, Scale scale, Grid.Smooth metres) {}

    /** Triples that an aircraft can have flown. */
    static List<Motion> search(Frame frame, Grid grid) {
        List<Axis> axes = axes(frame, grid);
        List<Motion> motions = new ArrayList<>();
        for (Axis x : axes) {
            for (Axis y : axes) {
                for (Axis z : alike(x, y) ? axes : List.<Axis>of()) {
                    if (alike(x, z) && alike(y, z) && nearTheGround(x, y, z)) {
                        PositionFields place = new PositionFields(List.of(x.spot, y.spot, z.spot), x.scale);
                        Motion motion = Motion.of(place, x.metres, y.metres, z.metres);
                        if (motion.plausible()) {
                            motions.add(motion);
                        }
                    }
                }
            }
        }
        return motions;
    }

    private static List<Axis> axes(Frame frame, Grid grid) {
        List<Axis> axes = new ArrayList<>();
        for (Column column : frame.own()) {
            for (Scale scale : Scale.coordinates(column.spot())) {
                double most = Math.max(Math.abs(column.lowest()), Math.abs(column.highest())) * scale.factor();
                if (most > FARTHEST_M || axes.size() >= MOST) {
                    continue;
                }
                Grid.Smooth metres = grid.smooth(column.timeS(), column.times(scale.factor()));
                double spread = metres.spread();
                boolean smooth = metres.roughness() < Math.max(ROUGH_M, ROUGH * spread);
                if (spread > LEAST_SPREAD_M && spread < MOST_SPREAD_M && smooth) {
                    axes.add(new Axis(column.spot(), scale, metres));
                }
            }
        }
        return axes;
    }

    private static boolean alike(Axis a, Axis b) {
        return a.spot.type().equals(b.spot.type()) && a.scale.equals(b.scale) && !a.spot.overlaps(b.spot);
    }

    private static boolean nearTheGround(Axis x, Axis y, Axis z) {
        int n = x.metres.value().length;
        return Arrays.stream(new int[] {0, n / 3, 2 * n / 3, n - 1}).allMatch(i -> {
            Vector3 place = new Vector3(
                    x.metres.value()[i], y.metres.value()[i], z.metres.value()[i]);
            if (!(place.length() > FARTHEST_M - 80_000 && place.length() < FARTHEST_M)) {
                return false;
            }
            double height = Geodetic.fromGeocentric(place).heightM();
            return height > LOWEST_M && height < HIGHEST_M;
        });
    }
}
