package org.rejoin.console.grade;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * The largest value that was held for some time: over every window of that length the smallest value in it, and of those
 * the largest. A spike does not count; a longer or larger error never counts less. Values are piecewise linear between
 * samples and windows end at samples, so the sample rate hardly matters.
 */
final class Held {

    private record At(double timeS, double value) {}

    private final double windowS;
    private final Deque<At> rising = new ArrayDeque<>();
    private double beganS = Double.NaN;
    private double largest;
    private double largestAtS = Double.NaN;

    Held(double windowS) {
        this.windowS = windowS;
    }

    void add(double timeS, double value) {
        if (Double.isNaN(beganS)) {
            beganS = timeS;
        }
        while (!rising.isEmpty() && rising.getLast().value() >= value) {
            rising.removeLast();
        }
        rising.addLast(new At(timeS, value));
        while (rising.getFirst().timeS() < timeS - windowS - 1e-9) {
            rising.removeFirst();
        }
        if (timeS - beganS >= windowS - 1e-9 && rising.getFirst().value() > largest) {
            largest = rising.getFirst().value();
            largestAtS = timeS;
        }
    }

    /** The next value starts anew: the time between was not judged. */
    void breakOff() {
        rising.clear();
        beganS = Double.NaN;
    }

    double largest() {
        return largest;
    }

    double largestAtS() {
        return largestAtS;
    }
}
