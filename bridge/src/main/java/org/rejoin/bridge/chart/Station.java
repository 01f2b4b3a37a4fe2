package org.rejoin.bridge.chart;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

import org.rejoin.bridge.geo.Declination;
import org.rejoin.bridge.geo.Position;

import org.jspecify.annotations.Nullable;

/**
 * A radio navigation station.
 *
 * @param ident as {@link Waypoint#ident()}
 * @param name spoken name; the ident where the chart has none
 * @param kind what it transmits
 * @param serviceClass its standard service volume; empty where the chart gives none
 * @param frequencyMhz MHz (an NDB's kHz / 1000); empty where the chart gives none
 * @param position of the antenna that radials and bearings start from, WGS 84; of a DME its own
 * @param declination of its zero radial; empty where there is none (an NDB, a DME, a VOR aligned to grid north)
 * @param publishedElevationFt of the antenna above mean sea level, feet; empty where the chart gives none
 * @param dmePosition of the DME antenna, WGS 84, where it stands apart from the VOR's; hundreds of metres are usual
 */
public record Station(
        String ident,
        String name,
        Kind kind,
        Optional<ServiceClass> serviceClass,
        OptionalDouble frequencyMhz,
        Position position,
        Optional<Declination> declination,
        OptionalDouble publishedElevationFt,
        Optional<Position> dmePosition)
        implements Waypoint {

    /** A station with one position for everything. */
    public Station(
            String ident,
            String name,
            Kind kind,
            Optional<ServiceClass> serviceClass,
            OptionalDouble frequencyMhz,
            Position position,
            Optional<Declination> declination,
            OptionalDouble publishedElevationFt) {
        this(
                ident,
                name,
                kind,
                serviceClass,
                frequencyMhz,
                position,
                declination,
                publishedElevationFt,
                Optional.empty());
    }

    /** {@return what heights above the antenna are counted from, feet above mean sea level; 0 where the chart gives none} */
    public double elevationFt() {
        return publishedElevationFt.orElse(0);
    }

    /** {@return whether it is aligned to true north; its radials are true directions then} */
    public boolean isAlignedToTrueNorth() {
        return declination.filter(Declination::trueNorth).isPresent();
    }

    /** {@return where distances from this station are measured from; position of the DME antenna, WGS 84} */
    public Position distancePosition() {
        return dmePosition.orElse(position);
    }

    /** What a station transmits. */
    public enum Kind {
        /** Radials. */
        VOR(true, false),
        /** Radials and distance. */
        VORDME(true, true),
        /** Radials and distance, shared with military equipment. */
        VORTAC(true, true),
        /** A carrier to take bearings on, by today's variation. */
        NDB(false, false),
        /** Distance only. */
        DME(false, true);

        private final boolean radials;
        private final boolean distance;

        Kind(boolean radials, boolean distance) {
            this.radials = radials;
            this.distance = distance;
        }

        /** {@return whether the station defines radials; true for a VOR of any kind} */
        public boolean hasRadials() {
            return radials;
        }

        /** {@return whether the station gives distance; true where a DME is part of it} */
        public boolean hasDistance() {
            return distance;
        }
    }

    /** By plain calls, as of every point: what Java makes for a record takes a tenth of the program's start. */
    @Override
    public boolean equals(@Nullable Object other) {
        return this == other
                || (other instanceof Station it
                        && ident.equals(it.ident)
                        && name.equals(it.name)
                        && kind == it.kind
                        && serviceClass.equals(it.serviceClass)
                        && frequencyMhz.equals(it.frequencyMhz)
                        && position.equals(it.position)
                        && declination.equals(it.declination)
                        && publishedElevationFt.equals(it.publishedElevationFt)
                        && dmePosition.equals(it.dmePosition));
    }

    @Override
    public int hashCode() {
        return ident.hashCode();
    }

    @Override
    public <R> R fold(Function<Station, R> station, Function<Fix, R> fix, Function<Airport, R> airport) {
        return station.apply(this);
    }

    /**
     * Standard service volumes (Aeronautical Information Manual 1-1-8, table 1-1-1; the legacy classes T, L, H and the
     * current VL, VH). They bind off published routes only.
     */
    public enum ServiceClass {
        /** Terminal. */
        T,
        /** Low altitude. */
        L,
        /** High altitude. */
        H,
        /** VOR low, the current class. */
        VL,
        /** VOR high, the current class. */
        VH;

        /** How far a station may be used so many feet above it, nautical miles; 0 outside the heights of the class. */
        public double radiusNm(double heightFt) {
            if (heightFt < 1000) {
                return 0;
            }
            return switch (this) {
                case T -> heightFt <= 12_000 ? 25 : 0;
                case L -> heightFt <= 18_000 ? 40 : 0;
                case VL -> heightFt < 5_000 ? 40 : heightFt < 18_000 ? 70 : 0;
                case H -> high(heightFt, 40);
                case VH -> heightFt < 5_000 ? 40 : high(heightFt, 70);
            };
        }

        private static double high(double heightFt, double belowNm) {
            if (heightFt < 14_500) {
                return belowNm;
            }
            if (heightFt >= 18_000 && heightFt <= 45_000) {
                return 130;
            }
            // At 14 500 itself the table gives both rows; the pilot gets the larger.
            return heightFt <= 60_000 ? 100 : 0;
        }

        /** The largest distance at any height, for when the height is unknown, nautical miles. */
        public double largestRadiusNm() {
            return switch (this) {
                case T -> 25;
                case L -> 40;
                case VL -> 70;
                case H, VH -> 130;
            };
        }
    }
}
