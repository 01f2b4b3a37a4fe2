package org.rejoin.protocol.earth;

/**
 * North, east and down at a place, as unit vectors in the earth-centred, earth-fixed frame.
 *
 * @param north toward the North Pole, along the ellipsoid
 * @param east along the parallel
 * @param down along the inward normal of the ellipsoid
 */
public record LocalAxes(Vector3 north, Vector3 east, Vector3 down) {

    /**
     * The axes at a place.
     *
     * @param place only latitude and longitude matter
     * @return the three axes
     */
    public static LocalAxes at(Geodetic place) {
        double sinLat = Math.sin(Math.toRadians(place.latitudeDeg()));
        double cosLat = Math.cos(Math.toRadians(place.latitudeDeg()));
        double sinLon = Math.sin(Math.toRadians(place.longitudeDeg()));
        double cosLon = Math.cos(Math.toRadians(place.longitudeDeg()));
        return new LocalAxes(
                new Vector3(-sinLat * cosLon, -sinLat * sinLon, cosLat),
                new Vector3(-sinLon, cosLon, 0),
                new Vector3(-cosLat * cosLon, -cosLat * sinLon, -sinLat));
    }

    /**
     * A vector given along these axes, in the earth-centred frame.
     *
     * @param alongNorth component, any unit
     * @param alongEast component, same unit
     * @param alongDown component, same unit
     * @return the vector, same unit
     */
    public Vector3 toGeocentric(double alongNorth, double alongEast, double alongDown) {
        return Vector3.combine(alongNorth, north, alongEast, east, alongDown, down);
    }
}
