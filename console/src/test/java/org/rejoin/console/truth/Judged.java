package org.rejoin.console.truth;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.OptionalDouble;

/**
 * One flight of the campaign, by its truth and by the program.
 *
 * @param flight flown
 * @param feed it came by
 * @param expected by the truth
 * @param truth measured on the trajectory
 * @param verdict of the program
 */
record Judged(Flight flight, Feed feed, Expected expected, Truth truth, Verdict verdict) {

    static Judged of(Flight flight, Feed feed, Path folder) {
        try {
            Flown flown = flight.fly();
            Truth truth = new Truth(flown);
            return new Judged(
                    flight, feed, new Expected(truth, flight.mistake()), truth, Verdict.of(flown, feed, folder));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    String disagreement() {
        return expected.disagreement(verdict, feed);
    }

    /** How far the measured overshoot is from the true one; empty where the flight was no plain intercept. */
    OptionalDouble overshootErrorNm() {
        OptionalDouble measured = verdict.measured("INTERCEPT");
        boolean plain = switch (flight.mistake().kind()) {
            case NONE, TURN_DELAYED, CARRIED_PAST, ALTITUDE_OFF, PAST_FIX, WRONG_TURN -> true;
            default -> false;
        };
        if (feed.coarse() || !plain || truth.crossed < 0 || truth.established < 0 || measured.isEmpty()) {
            return OptionalDouble.empty();
        }
        // Up to a tenth of a mile is no overshoot and is not measured.
        double from =
                truth.carriedNm < 0.12 && measured.getAsDouble() < 0.12 ? measured.getAsDouble() : truth.carriedNm;
        return OptionalDouble.of(measured.getAsDouble() - from);
    }

    @Override
    public String toString() {
        return flight + " by " + feed + " | " + expected + " | " + verdict;
    }
}
