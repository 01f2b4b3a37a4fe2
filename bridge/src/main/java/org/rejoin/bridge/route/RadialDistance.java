package org.rejoin.bridge.route;

import java.util.Locale;

import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Radial;
import org.rejoin.bridge.geo.TrueDirection;

/**
 * The radial and the miles from a point of the chart that say where a place is.
 *
 * @param from the point; of a station the miles are those of its DME
 * @param radial by the declination of a station that has one, else by today's variation
 */
public record RadialDistance(Waypoint from, Radial radial, double distanceNm) {

    /** How a place is said from a point; not rounded. */
    public static RadialDistance of(Waypoint from, Position place, Situation situation) {
        TrueDirection azimuth = from.position().to(place).initial();
        return new RadialDistance(from, radial(from, azimuth, situation), milesFrom(from, place));
    }

    /**
     * The radial of a direction from a point, by which its sides are named too: azimuth - station declination; where
     * there is none, azimuth - today's variation.
     */
    public static Radial radial(Waypoint from, TrueDirection azimuth, Situation situation) {
        if (from instanceof Station station) {
            return station.declination()
                    .map(declination -> Radial.of(azimuth, declination))
                    .orElseGet(() -> new Radial(
                            azimuth.toMagnetic(situation.variationAt(station)).deg()));
        }
        return new Radial(
                azimuth.toMagnetic(situation.variationAt(from.position())).deg());
    }

    /**
     * A place by miles and a side of a point: "five miles east of AAA" (common practice, no source). Sides are magnetic,
     * as radials are; miles over the ground.
     */
    static Fix beside(Waypoint from, Instruction.Away away, Situation situation) {
        double degrees = Compass.degrees(away.compass());
        double north =
                Angles.turn(radial(from, new TrueDirection(degrees), situation).deg() - degrees);
        Position place = from.position().destination(new TrueDirection(degrees - north), away.distanceNm());
        return new Fix(of(from, place, situation).ident(), place);
    }

    /** Where the miles of a point are measured from: the DME of a station stands apart from it now and then. */
    static Position milesFrom(Waypoint from) {
        return from instanceof Station station ? station.distancePosition() : from.position();
    }

    static double milesFrom(Waypoint from, Position place) {
        return milesFrom(from).distanceNm(place);
    }

    /** {@return what a direction from a point is called: "radial" of a VOR, "bearing" of all else} */
    public static String word(Waypoint from) {
        return from instanceof Station station && station.kind().hasRadials() ? "radial" : "bearing";
    }

    /** {@return whether the pilot can read the miles off an instrument; true for a station with DME} */
    public boolean byDme() {
        return from instanceof Station station && station.kind().hasDistance();
    }

    /** As in a flight plan, for example AAA078064 (ICAO Doc 4444, Appendix 2, item 15). */
    String ident() {
        return String.format(
                Locale.ROOT, "%s%s%03d", from.ident(), Angles.figures(radial.deg()), Math.round(distanceNm));
    }
}
