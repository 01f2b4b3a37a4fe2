package org.rejoin.bridge.geo;

import java.util.Arrays;

import org.rejoin.protocol.earth.Normal;

/**
 * A leg prepared for many points: cross-track, along-track and course as {@link GeodesicLine#offset} gives them, from
 * polynomials fitted once to it. For what is asked at every sample of a flight.
 *
 * <p>The leg's own frame is that of its middle: up, along the course and right of it, as directions of the Earth-centred
 * axes. The normal of the ellipsoid at a point, in that frame, has components (u, v, w); on a sphere u / w alone would
 * give the distance along and v the distance across. Polynomials in these two add what the ellipsoid does. A third one
 * gives the course from the distance along.
 *
 * <p>Corridor: a leg of up to {@value #LONGEST_NM} NM, {@value #HALF_WIDTH_NM} NM to either side and
 * {@value #BEYOND_NM} NM beyond either end. Inside it the error is below a centimetre and below 0.0001 degree of course;
 * this is tested when the map is made, and a leg that fails (one that passes close to a pole, where the course spins)
 * gets no corridor. Outside the corridor {@link GeodesicLine#offset} is asked. Immutable.
 */
public final class LegMap {

    /** Longest leg that gets a corridor, nautical miles. */
    public static final double LONGEST_NM = 300;

    /** Half the width of the corridor, nautical miles. */
    public static final double HALF_WIDTH_NM = 50;

    /** How far the corridor goes on beyond the ends of the leg, nautical miles. */
    public static final double BEYOND_NM = 30;

    /** Smallest radius of curvature of WGS 84, a (1 - e2), nautical miles: no mile turns the normal by more. */
    private static final double SMALLEST_RADIUS_NM = Geodesics.EQUATORIAL_RADIUS_NM * (1 - Geodesics.E2);

    /**
     * So that the edge of the stated corridor is inside in every direction, nautical miles: normals turn more slowly
     * eastward than northward, which shears the frame against the leg by up to 0.6 NM.
     */
    private static final double MARGIN_NM = 1;

    private static final double MAX_ERROR_NM = 0.01 / Geodesics.METRES_PER_NM;
    private static final double MAX_COURSE_ERROR_DEG = 1e-4;
    private static final int COURSE_NODES = 14;
    private static final int COURSE_TERMS = 10;

    private final GeodesicLine line;
    private final boolean hasCorridor;
    private final Frame frame;
    private final CorridorPolynomial along;
    private final CorridorPolynomial cross;
    private final double middleNm;
    private final double middleCourseDeg;
    private final double perHalfLength;
    private final double[] course;

    /** Fits the map; takes as long as some fifty offsets of the line. */
    public LegMap(GeodesicLine line) {
        this.line = line;
        middleNm = line.lengthNm() / 2;
        double halfNm = Math.min(line.lengthNm(), LONGEST_NM) / 2 + BEYOND_NM + MARGIN_NM;
        frame = new Frame(
                line.pointAt(middleNm),
                line.courseAt(middleNm),
                Math.tan(halfNm / SMALLEST_RADIUS_NM),
                Math.sin((HALF_WIDTH_NM + MARGIN_NM) / SMALLEST_RADIUS_NM));

        double[][] alongValues = new double[CorridorPolynomial.NODES_ALONG][CorridorPolynomial.NODES_ACROSS];
        double[][] crossValues = new double[CorridorPolynomial.NODES_ALONG][CorridorPolynomial.NODES_ACROSS];
        for (int i = 0; i < CorridorPolynomial.NODES_ALONG; i++) {
            for (int j = 0; j < CorridorPolynomial.NODES_ACROSS; j++) {
                double x = Chebyshev.node(i, CorridorPolynomial.NODES_ALONG);
                Offset offset = line.offsetNear(
                        frame.normal(x, Chebyshev.node(j, CorridorPolynomial.NODES_ACROSS)), middleNm + x * halfNm);
                alongValues[i][j] = offset.alongTrackNm() - middleNm;
                crossValues[i][j] = offset.crossTrackNm();
            }
        }
        along = CorridorPolynomial.fit(alongValues);
        cross = CorridorPolynomial.fit(crossValues);

        // The foot of a point off the line lies a little beyond the point's own u / w.
        double courseHalfNm = halfNm * 1.02;
        perHalfLength = 1 / courseHalfNm;
        TrueDirection middleCourse = line.courseAt(middleNm);
        middleCourseDeg = middleCourse.deg();
        double[] courseValues = new double[COURSE_NODES];
        for (int i = 0; i < COURSE_NODES; i++) {
            courseValues[i] =
                    middleCourse.turnTo(line.courseAt(middleNm + courseHalfNm * Chebyshev.node(i, COURSE_NODES)));
        }
        double[] series = Chebyshev.coefficients(courseValues);
        double courseError = 0;
        for (int i = COURSE_TERMS; i < COURSE_NODES; i++) {
            courseError += Math.abs(series[i]);
        }
        course = Chebyshev.powers(Arrays.copyOf(series, COURSE_TERMS));
        hasCorridor = line.lengthNm() <= LONGEST_NM
                && along.error() < MAX_ERROR_NM
                && cross.error() < MAX_ERROR_NM
                && courseError < MAX_COURSE_ERROR_DEG;
    }

    /** {@return the line this map was made of} */
    public GeodesicLine line() {
        return line;
    }

    /** Whether a point is answered from the polynomials. */
    public boolean covers(Normal normal) {
        double w = frame.up(normal);
        return hasCorridor && w > 0 && Math.abs(frame.along(normal) / w) <= 1 && Math.abs(frame.right(normal)) <= 1;
    }

    /**
     * Cross-track and along-track of a point within a quarter of the globe; in the corridor within a centimetre and
     * 0.0001 degree of {@link GeodesicLine#offset}, outside equal to it.
     */
    public Offset offset(Position point) {
        Normal normal = point.normal();
        if (!covers(normal)) {
            return line.offset(point);
        }
        double alongNm = alongTrackNm(normal);
        return new Offset(crossTrackNm(normal), alongNm, new TrueDirection(courseDeg(alongNm)));
    }

    /**
     * How far off the line a point of the corridor lies, nautical miles, right of course positive: asked so often that
     * it makes no object.
     */
    public double crossTrackNm(Normal normal) {
        return cross.at(x(normal), frame.right(normal));
    }

    /** How far along the line it lies, nautical miles from the start. */
    public double alongTrackNm(Normal normal) {
        return middleNm + along.at(x(normal), frame.right(normal));
    }

    /** About how far along the line a point outside the corridor lies, nautical miles from the start: as on a globe. */
    public double alongAboutNm(Normal normal) {
        return middleNm
                + Math.atan2(frame.along(normal) * frame.halfAlong, frame.up(normal)) * Geodesics.MEAN_RADIUS_NM;
    }

    /**
     * The course of the line there, true, [0, 360). Even and odd powers apart: two short chains of operations instead
     * of a long one.
     */
    public double courseDeg(double alongNm) {
        double t = (alongNm - middleNm) * perHalfLength;
        double[] c = course;
        double square = t * t;
        double odd = (((c[9] * square + c[7]) * square + c[5]) * square + c[3]) * square + c[1];
        double even = (((c[8] * square + c[6]) * square + c[4]) * square + c[2]) * square + c[0];
        return Angles.circle(middleCourseDeg + odd * t + even);
    }

    private double x(Normal normal) {
        return frame.along(normal) / frame.up(normal);
    }

    /**
     * The frame of a leg at its middle, scaled so that its corridor is [-1, 1] along and across. Works on normals of the
     * ellipsoid: unit vectors (cos lat cos lon, cos lat sin lon, sin lat) of the Earth-centred axes.
     */
    private static final class Frame {

        private final double upX;
        private final double upY;
        private final double upZ;
        private final double alongX;
        private final double alongY;
        private final double alongZ;
        private final double rightX;
        private final double rightY;
        private final double rightZ;
        private final double halfAlong;
        private final double halfAcross;

        /**
         * Sets up the frame.
         *
         * @param middle of the leg
         * @param course of the leg there
         * @param halfAlong tangent of the angle from the middle to the end of the corridor
         * @param halfAcross sine of the angle from the leg to the side of the corridor
         */
        Frame(Position middle, TrueDirection course, double halfAlong, double halfAcross) {
            double latitude = Math.toRadians(middle.latitudeDeg());
            double longitude = Math.toRadians(middle.longitudeDeg());
            double sinLat = Math.sin(latitude);
            double cosLat = Math.cos(latitude);
            double sinLon = Math.sin(longitude);
            double cosLon = Math.cos(longitude);
            double sinCourse = Math.sin(Math.toRadians(course.deg()));
            double cosCourse = Math.cos(Math.toRadians(course.deg()));
            upX = cosLat * cosLon;
            upY = cosLat * sinLon;
            upZ = sinLat;
            // North is (-sin lat cos lon, -sin lat sin lon, cos lat), east is (-sin lon, cos lon, 0).
            alongX = (-cosCourse * sinLat * cosLon - sinCourse * sinLon) / halfAlong;
            alongY = (-cosCourse * sinLat * sinLon + sinCourse * cosLon) / halfAlong;
            alongZ = cosCourse * cosLat / halfAlong;
            rightX = (sinCourse * sinLat * cosLon - cosCourse * sinLon) / halfAcross;
            rightY = (sinCourse * sinLat * sinLon + cosCourse * cosLon) / halfAcross;
            rightZ = -sinCourse * cosLat / halfAcross;
            this.halfAlong = halfAlong;
            this.halfAcross = halfAcross;
        }

        /** Component along the vertical of the middle. */
        double up(Normal normal) {
            return normal.x() * upX + normal.y() * upY + normal.z() * upZ;
        }

        /** Component along the course, scaled. */
        double along(Normal normal) {
            return normal.x() * alongX + normal.y() * alongY + normal.z() * alongZ;
        }

        /** Component to the right of the course, scaled. */
        double right(Normal normal) {
            return normal.x() * rightX + normal.y() * rightY + normal.z() * rightZ;
        }

        /** A point of the corridor. */
        Normal normal(double x, double y) {
            double right = y * halfAcross;
            double up = Math.sqrt((1 - right * right) / (1 + x * halfAlong * x * halfAlong));
            double along = x * halfAlong * up;
            double nx = up * upX + along * halfAlong * alongX + right * halfAcross * rightX;
            double ny = up * upY + along * halfAlong * alongY + right * halfAcross * rightY;
            double nz = up * upZ + along * halfAlong * alongZ + right * halfAcross * rightZ;
            return new Normal(nx, ny, nz);
        }
    }
}
