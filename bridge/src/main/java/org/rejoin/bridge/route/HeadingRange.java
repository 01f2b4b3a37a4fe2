package org.rejoin.bridge.route;

import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.MagneticDirection;

/**
 * Headings that meet a course at a sensible angle.
 *
 * @param from first of them, clockwise
 * @param to last of them; may be the first, and may lie past north
 */
public record HeadingRange(MagneticDirection from, MagneticDirection to) {

    /** {@return the range in words; "095 to 150", or one heading} */
    public String words() {
        String first = Angles.figures(from.deg());
        String last = Angles.figures(to.deg());
        return first.equals(last) ? first : first + " to " + last;
    }
}
