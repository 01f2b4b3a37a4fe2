package org.rejoin.bridge.route;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/** The racetrack of a hold over the ground, as it is drawn: in still air, at standard rate. */
public final class HoldPattern {

    /** Points of a half circle, degrees apart. */
    private static final int STEP_DEG = 15;

    private HoldPattern() {}

    /** The pattern in still air, two legs and two half circles, from the start of the inbound leg round to it again. */
    public static List<Position> racetrack(Holding hold, double trueAirspeedKt) {
        double length = hold.legNm().orElseGet(() -> hold.legMinutes().orElse(1) / 60 * trueAirspeedKt);
        double radius = Turn.standardRadiusNm(trueAirspeedKt);
        double inbound = hold.inboundTrue().deg();
        double side = hold.right() ? 90 : -90;
        TrueDirection back = new TrueDirection(inbound + 180);
        Position fix = hold.fix().position();
        Position start = fix.destination(back, length);
        Position abeam = fix.destination(new TrueDirection(inbound + side), 2 * radius);
        List<Position> points = new ArrayList<>(List.of(start, fix));
        halfCircle(fix, inbound, side, radius, points);
        Position out = abeam.destination(back, length);
        points.add(out);
        halfCircle(out, inbound + 180, side, radius, points);
        return points;
    }

    private static void halfCircle(Position from, double course, double side, double radius, List<Position> points) {
        Position centre = from.destination(new TrueDirection(course + side), radius);
        for (int deg = STEP_DEG; deg <= 180; deg += STEP_DEG) {
            points.add(centre.destination(new TrueDirection(course - side + deg * Math.signum(side)), radius));
        }
    }
}
