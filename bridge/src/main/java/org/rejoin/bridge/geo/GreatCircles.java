package org.rejoin.bridge.geo;

import org.jspecify.annotations.Nullable;

/**
 * Crossing of two great circles of the unit sphere, given a point and a course on each.
 *
 * @param alongFirst signed arc from the first point to the crossing, radians
 * @param alongSecond signed arc from the second point to the crossing, radians
 * @param sine of the angle between the circles, (0, 1]
 */
record GreatCircles(double alongFirst, double alongSecond, double sine) {

    /** Below this sine the planes of the circles are equal to rounding. */
    private static final double COINCIDENT = 1e-15;

    /**
     * Solves for the nearer of the two antipodal crossings.
     *
     * @param arc between the points, radians
     * @param first course at the first point, from the direction toward the second, radians
     * @param second course at the second point, from the direction onward from the first, radians
     * @return the crossing; null if the circles coincide
     */
    static @Nullable GreatCircles solve(double arc, double first, double second) {
        // First point on the x axis, second in the x-y plane; n = point x tangent is the normal of each circle.
        double sinArc = Math.sin(arc);
        double cosArc = Math.cos(arc);
        double t1y = Math.cos(first);
        double t1z = Math.sin(first);
        double t2x = -sinArc * Math.cos(second);
        double t2y = cosArc * Math.cos(second);
        double t2z = Math.sin(second);
        double n1y = -t1z;
        double n1z = t1y;
        double n2x = sinArc * t2z;
        double n2y = -cosArc * t2z;
        double n2z = Math.cos(second);
        double x = n1y * n2z - n1z * n2y;
        double y = n1z * n2x;
        double z = -n1y * n2x;
        double sine = Math.sqrt(x * x + y * y + z * z);
        if (!(sine > COINCIDENT)) {
            return null;
        }
        double along1 = Math.atan2(y * t1y + z * t1z, x);
        double along2 = Math.atan2(x * t2x + y * t2y + z * t2z, x * cosArc + y * sinArc);
        double antipode1 = along1 - Math.copySign(Math.PI, along1);
        double antipode2 = along2 - Math.copySign(Math.PI, along2);
        boolean near = Math.abs(along1) + Math.abs(along2) <= Math.abs(antipode1) + Math.abs(antipode2);
        return near ? new GreatCircles(along1, along2, sine) : new GreatCircles(antipode1, antipode2, sine);
    }
}
