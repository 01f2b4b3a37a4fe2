package org.rejoin.protocol.earth;

/** Three components along the axes of some right-handed frame; the user of the vector says which, and in what unit. */
public record Vector3(double x, double y, double z) {

    /** {@return whether all three components are numbers; false if one is infinite or not a number} */
    public boolean isFinite() {
        return Double.isFinite(x) && Double.isFinite(y) && Double.isFinite(z);
    }

    /** Inner product. */
    public double dot(Vector3 other) {
        return x * other.x + y * other.y + z * other.z;
    }

    /** Length; 0 or more, same unit as the components. */
    public double length() {
        return Math.sqrt(dot(this));
    }

    /** From another vector to this one. */
    public Vector3 minus(Vector3 other) {
        return new Vector3(x - other.x, y - other.y, z - other.z);
    }

    /** The sum au + bv + cw of vectors in one frame. */
    public static Vector3 combine(double a, Vector3 u, double b, Vector3 v, double c, Vector3 w) {
        return new Vector3(a * u.x + b * v.x + c * w.x, a * u.y + b * v.y + c * w.y, a * u.z + b * v.z + c * w.z);
    }
}
