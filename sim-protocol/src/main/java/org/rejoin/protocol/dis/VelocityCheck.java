package org.rejoin.protocol.dis;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.protocol.SourceTime;
import org.rejoin.protocol.earth.Vector3;

import org.jspecify.annotations.Nullable;

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
    /** wire-formats 1.8: samples in a row, and the share by which speeds may differ. */
    private static final int IN_A_ROW = 5;

    private static final double SPEED_SHARE = 0.3;
    /** Cosine of 25 degrees. */
    private static final double ALONG = 0.906;

    private static final double CLOCK_SHARE = 0.2;

    private Use use = Use.AS_STATED;
    private Use wanted = Use.AS_STATED;
    private int inARow;
    private @Nullable Heard from;

    /**
     * What one PDU says.
     *
     * @param location earth-centred, m
     * @param stated velocity in the axes that the algorithm states, turned to earth-centred, m/s
     * @param other the same if it is in the others; empty without an attitude
     * @param time the sender's
     * @param receivedS time of receipt, s
     */
    record Heard(Vector3 location, Vector3 stated, Optional<Vector3> other, SourceTime time, double receivedS) {}

    Use use() {
        return use;
    }

    /** Takes the next PDU; text where it changes what is to be used. */
    Optional<String> hear(Heard next) {
        Heard begin = from;
        if (begin == null) {
            from = next;
            return Optional.empty();
        }
        Vector3 moved = next.location.minus(begin.location);
        double chordM = moved.length();
        double passedS = next.receivedS - begin.receivedS;
        if (chordM < CHORD_M) {
            return Optional.empty();
        }
        from = next;
        if (chordM > LONGEST_CHORD_M) {
            return Optional.empty(); // a long silence or a jump tells nothing
        }
        double advancedS = next.time.since(begin.time);
        boolean timed = passedS >= SHORTEST_S && Math.abs(advancedS - passedS) <= CLOCK_SHARE * passedS;
        double speed = timed ? chordM / advancedS : Double.NaN;
        Use fits = fits(moved, begin.stated, next.stated, speed)
                ? Use.AS_STATED
                : begin.other.isPresent()
                                && next.other.isPresent()
                                && fits(moved, begin.other.get(), next.other.get(), speed)
                        ? Use.OTHER_AXES
                        : Use.NONE;
        inARow = fits == wanted ? inARow + 1 : 1;
        wanted = fits;
        if (wanted == use || inARow < IN_A_ROW) {
            return Optional.empty();
        }
        use = wanted;
        return Optional.of(words(next, speed));
    }

    private static boolean fits(Vector3 moved, Vector3 atBegin, Vector3 atEnd, double speed) {
        Vector3 mean = Vector3.combine(0.5, atBegin, 0.5, atEnd, 0, atEnd);
        double size = mean.length();
        boolean along = mean.dot(moved) >= ALONG * size * moved.length() && size > 0;
        return along && (Double.isNaN(speed) || Math.abs(size - speed) <= SPEED_SHARE * speed);
    }

    private String words(Heard next, double speed) {
        return switch (use) {
            case AS_STATED -> "velocities that follow the locations again";
            case OTHER_AXES -> "velocities along other axes than the dead-reckoning algorithm states; read so";
            case NONE ->
                String.format(
                        Locale.ROOT,
                        "a velocity of %.0f m/s that does not follow the locations%s; left out",
                        next.stated.length(),
                        Double.isNaN(speed) ? "" : String.format(Locale.ROOT, ", which move at %.0f m/s", speed));
        };
    }
}
