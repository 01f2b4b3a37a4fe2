package org.rejoin.protocol.earth;

/** North, east and down at a place, as unit vectors in the earth-centred, earth-fixed frame. */
public record LocalAxes(Vector3 north, Vector3 east, Vector3 down) {

    /** The axes at a place. */
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

    /** A vector given along these axes, in the earth-centred frame. */
    public Vector3 toGeocentric(double alongNorth, double alongEast, double alongDown) {
        return Vector3.combine(alongNorth, north, alongEast, east, alongDown, down);
    }
}
