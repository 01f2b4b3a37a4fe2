package org.rejoin.protocol.dis;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.earth.BodyAxes;
import org.rejoin.protocol.earth.Vector3;

/**
 * Compares the velocities of one entity with its locations. Some senders put velocity along the body's axes whatever
 * their dead-reckoning algorithm says, or along the earth's where it says body, or in another unit. Which axes are right
 * is told by the direction from location to location alone, so neither jitter nor accelerated time misleads it; the unit
 * is judged only while the sender's time advances as that of receipt does. Confined to one thread.
 */
final class VelocityCheck {

    /** Which velocity to use. */
    enum Use {
        /** In the axes that the algorithm states. */
        AS_STATED,
        /** In the others. */
        OTHER_AXES,
        /** None: the motion is to be taken from the locations. */
        NONE
    }

    /** Far enough that single locations do not matter, near enough that a turn does not. */
    private static final double CHORD_M = 100;

    private static final double LONGEST_CHORD_M = 5_000;
    private static final double SHORTEST_S = 1.5;
    /** In a row, and the share by which speeds may differ: common practice, no source. */
    private static final int IN_A_ROW = 5;

    private static final double SPEED_SHARE = 0.3;
    /** Cosine of 10 degrees. */
    private static final double ALONG = 0.985;

    /** A velocity of less is none: a simulator that puts the aircraft elsewhere step by step, m/s. */
    private static final double STANDING_MPS = 1;

    private static final double CLOCK_SHARE = 0.2;

    private Use use = Use.AS_STATED;
    private Use wanted = Use.AS_STATED;
    private int inARow;
    /** Whether all velocities that did not follow were none. */
    private boolean none = true;

    private Sent begin = new Sent();
    private Sent next = new Sent();
    private boolean begun;

    /** What one PDU says, kept without making an object. */
    private static final class Sent {
        private double x;
        private double y;
        private double z;
        private double vx;
        private double vy;
        private double vz;
        private double psi;
        private double theta;
        private double phi;
        private boolean alongBody;
        private double timeS;
        private double receivedS;

        void take(EntityState heard, int algorithm, double sentS, double atS) {
            x = heard.locationX();
            y = heard.locationY();
            z = heard.locationZ();
            vx = heard.velocityX();
            vy = heard.velocityY();
            vz = heard.velocityZ();
            psi = heard.psi();
            theta = heard.theta();
            phi = heard.phi();
            alongBody = DeadReckoning.alongBody(algorithm);
            timeS = sentS;
            receivedS = atS;
        }

        double speed() {
            return Math.sqrt(vx * vx + vy * vy + vz * vz);
        }

        boolean hasAttitude() {
            return DisState.isTurn(psi, theta, phi);
        }

        /** The velocity sent along the body's axes, turned to earth-centred. */
        Vector3 turned() {
            return BodyAxes.of(new BodyAxes.Euler(psi, theta, phi)).toGeocentric(new Vector3(vx, vy, vz));
        }
    }

    Use use() {
        return use;
    }

    /**
     * Takes the next PDU with a velocity, which is turned to earth-centred axes only where that is to be compared.
     *
     * @param heard the PDU
     * @param algorithm of dead reckoning, in force
     * @param timeS the sender's clock, s past the hour
     * @param receivedS time of receipt, s
     * @return text where it changes what is to be used
     */
    Optional<String> hear(EntityState heard, int algorithm, double timeS, double receivedS) {
        if (use == Use.NONE && !none) {
            return Optional.empty(); // a velocity of another kind follows the locations now and then by chance
        }
        if (!begun) {
            begun = true;
            begin.take(heard, algorithm, timeS, receivedS);
            return Optional.empty();
        }
        double dx = heard.locationX() - begin.x;
        double dy = heard.locationY() - begin.y;
        double dz = heard.locationZ() - begin.z;
        double squared = dx * dx + dy * dy + dz * dz;
        if (squared < CHORD_M * CHORD_M || receivedS - begin.receivedS < SHORTEST_S) {
            return Optional.empty();
        }
        double chordM = Math.sqrt(squared);
        Sent from = begin;
        Sent to = next;
        to.take(heard, algorithm, timeS, receivedS);
        begin = to;
        next = from;
        if (chordM > LONGEST_CHORD_M) {
            return Optional.empty(); // a long silence or a jump tells nothing
        }
        double passedS = to.receivedS - from.receivedS;
        double advancedS = Math.IEEEremainder(to.timeS - from.timeS, PduHeader.SECONDS_PER_HOUR);
        boolean timed = Math.abs(advancedS - passedS) <= CLOCK_SHARE * passedS;
        double speed = timed ? chordM / advancedS : Double.NaN;
        Use fits = fits(from, to, false, dx, dy, dz, speed)
                ? Use.AS_STATED
                : fits(from, to, true, dx, dy, dz, speed) ? Use.OTHER_AXES : Use.NONE;
        if (fits == Use.AS_STATED && wanted == Use.NONE && !timed) {
            return Optional.empty(); // the direction alone says nothing of the unit
        }
        if (fits == Use.NONE) {
            none &= from.speed() < STANDING_MPS && to.speed() < STANDING_MPS;
        }
        inARow = fits == wanted ? inARow + 1 : 1;
        wanted = fits;
        if (wanted == use || inARow < IN_A_ROW) {
            return Optional.empty();
        }
        use = wanted;
        return Optional.of(words(to.speed(), speed));
    }

    /** Whether the mean velocity, in the axes stated or in the others, leads from one location to the other. */
    private static boolean fits(Sent from, Sent to, boolean others, double dx, double dy, double dz, double speed) {
        boolean turnFrom = from.alongBody != others;
        boolean turnTo = to.alongBody != others;
        double vx = from.vx + to.vx;
        double vy = from.vy + to.vy;
        double vz = from.vz + to.vz;
        if (turnFrom || turnTo) {
            if ((turnFrom && !from.hasAttitude()) || (turnTo && !to.hasAttitude())) {
                return false;
            }
            Vector3 atBegin = turnFrom ? from.turned() : new Vector3(from.vx, from.vy, from.vz);
            Vector3 atEnd = turnTo ? to.turned() : new Vector3(to.vx, to.vy, to.vz);
            vx = atBegin.x() + atEnd.x();
            vy = atBegin.y() + atEnd.y();
            vz = atBegin.z() + atEnd.z();
        }
        double size = Math.sqrt(vx * vx + vy * vy + vz * vz) / 2;
        double chordM = Math.sqrt(dx * dx + dy * dy + dz * dz);
        boolean along = (vx * dx + vy * dy + vz * dz) / 2 >= ALONG * size * chordM && size > 0;
        return along && (Double.isNaN(speed) || Math.abs(size - speed) <= SPEED_SHARE * speed);
    }

    private String words(double sent, double speed) {
        return switch (use) {
            case AS_STATED -> "the velocity sent follows the locations again, and is used";
            case OTHER_AXES ->
                "the velocity is sent along other axes than the dead-reckoning algorithm states, and is read along those";
            case NONE ->
                String.format(
                        Locale.ROOT,
                        "the velocity sent, %.0f m/s, does not follow the locations%s, and is left out: it should be in m/s,"
                                + " in earth-centred axes for dead-reckoning algorithms 0 to 5, along the body for 6 to 9",
                        sent,
                        Double.isNaN(speed) ? "" : String.format(Locale.ROOT, ", which move at %.0f m/s", speed));
        };
    }
}
