package org.rejoin.bridge.tracker;

import org.rejoin.bridge.flight.CourseMeasure;
import org.rejoin.bridge.flight.FlightInstant;
import org.rejoin.bridge.geo.GeodesicArc;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundPath;
import org.rejoin.bridge.geo.LegMap;
import org.rejoin.bridge.geo.Offset;
import org.rejoin.bridge.geo.SlantRange;
import org.rejoin.protocol.earth.Normal;

import org.jspecify.annotations.Nullable;

/** A line to be on, as the instrument shows it: how far off, how far along, which course here. */
sealed interface CourseLine {

    /** An instant of the flight as seen from it. */
    CourseMeasure measure(FlightInstant now);

    /** What it is over the ground. */
    GroundPath path();

    /** Length from start to end, nautical miles. */
    default double lengthNm() {
        return path().lengthNm();
    }

    /** A straight one; a map, made when the first sample asks for it, answers for every sample. */
    final class Straight implements CourseLine {

        private final GeodesicLine line;
        private @Nullable LegMap map;

        /** The line. */
        Straight(GeodesicLine line) {
            this.line = line;
        }

        @Override
        public CourseMeasure measure(FlightInstant now) {
            LegMap made = map();
            Normal here = now.normal();
            if (!made.covers(here)) {
                return CourseMeasure.of(now, line.offsetNear(here, made.alongAboutNm(here)));
            }
            double alongNm = made.alongTrackNm(here);
            return new CourseMeasure(now, made.crossTrackNm(here), alongNm, made.courseDeg(alongNm));
        }

        private LegMap map() {
            LegMap made = map == null ? new LegMap(line) : map;
            map = made;
            return made;
        }

        @Override
        public GroundPath path() {
            return line;
        }
    }

    /**
     * An arc about a DME: off it by what the DME shows more or less than the arc. The DME measures along the straight line
     * (Instrument Flying Handbook, chapter 9), so where the feed gives an altitude the distance is the slant one; where it
     * gives none it is that over the ground.
     *
     * @param path over the ground
     * @param distanceNm on the DME
     * @param elevationFt of the antenna above mean sea level
     */
    record Arc(GeodesicArc path, double distanceNm, double elevationFt) implements CourseLine {
        @Override
        public CourseMeasure measure(FlightInstant now) {
            Offset ground = path.offset(now.normal());
            if (Double.isNaN(now.altitudeFt())) {
                return CourseMeasure.of(now, ground);
            }
            double outward = path.clockwise() ? -1 : 1;
            double groundNm = path.radiusNm() + ground.crossTrackNm() * outward;
            double slantNm = SlantRange.slantNm(Math.max(0, groundNm), now.altitudeFt() - elevationFt);
            return new CourseMeasure(
                    now,
                    (slantNm - distanceNm) * outward,
                    ground.alongTrackNm(),
                    ground.course().deg());
        }
    }
}
