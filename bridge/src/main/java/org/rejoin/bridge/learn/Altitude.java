package org.rejoin.bridge.learn;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.learn.Vertical.Support;

/**
 * An altitude in one unit.
 *
 * @param feet at the points of the grid
 * @param rate vertical speed that is its slope
 * @param pitch that is its climb angle
 */
record Altitude(
        Spot spot,
        Scale scale,
        double score,
        double[] feet,
        Optional<Support> rate,
        Optional<Support> pitch,
        String words) {

    /** An altimeter is set to another pressure, and read late (common practice, no source). */
    private static final double MISREAD_FT = 200;

    private static final double MISREAD = 0.02;

    /** Two fields that end nearer to one another than this are not told apart by an altimeter, feet. */
    private static final double CLEARLY_FT = 60;

    /** Whether its pitch is only a piece of the octets that make a better pitch for the other. */
    boolean hasPieceOfPitchOf(Altitude other) {
        if (pitch.isEmpty() || other.pitch.isEmpty()) {
            return false;
        }
        Support mine = pitch.get();
        Support better = other.pitch.get();
        boolean less = mine.spot().isLessThan(better.spot()) || mine.r2() < better.r2() - 0.02;
        return mine.spot().isOtherReadingOf(better.spot()) && less && better.r2() > mine.r2() - 0.1;
    }

    Altitude withoutPitch() {
        return new Altitude(
                spot,
                scale,
                score - pitch.map(Support::score).orElse(0.0) - (rate.isEmpty() ? 2 : 0),
                feet,
                rate,
                Optional.empty(),
                words.replaceFirst("(; )?its climb angle is the pitch in [^;]*", ""));
    }

    double spreadFt() {
        return Grid.Smooth.range(feet);
    }

    /** Whether this is only a piece of the other's octets, which moves like the whole as long as no octet carries. */
    boolean isPieceOf(Altitude other) {
        return spot.isOtherReadingOf(other.spot) && spot.isLessThan(other.spot);
    }

    /** Whether it ends elsewhere than where the altimeter stood; no where nobody told. */
    boolean contradicts(OptionalDouble altimeterFt) {
        return altimeterFt.isPresent() && !fits(altimeterFt.getAsDouble(), offFt(altimeterFt.getAsDouble()));
    }

    /** Whether another altitude ends so much nearer to where the altimeter stood that it is the one meant. */
    boolean yieldsTo(Altitude other, double altimeterShowsFt) {
        double off = other.offFt(altimeterShowsFt);
        return fits(altimeterShowsFt, off) && off + CLEARLY_FT < offFt(altimeterShowsFt);
    }

    private double offFt(double altimeterShowsFt) {
        return Math.abs(feet[feet.length - 1] - altimeterShowsFt);
    }

    private static boolean fits(double altimeterShowsFt, double offFt) {
        return offFt < MISREAD_FT + MISREAD * Math.abs(altimeterShowsFt);
    }

    /** With what the pilot said of it. */
    Altitude told(boolean shown) {
        return new Altitude(
                spot,
                scale,
                score + (shown ? 3 : -5),
                feet,
                rate,
                pitch,
                words + (shown ? "; it ends at what the altimeter shows" : "; the altimeter shows something else"));
    }

    /** Whether both say the same altitude, within a few feet. */
    boolean sameAs(Altitude other) {
        for (int i = 0; i < feet.length; i += 4) {
            if (Math.abs(feet[i] - other.feet[i]) > 40) {
                return false;
            }
        }
        return true;
    }
}
