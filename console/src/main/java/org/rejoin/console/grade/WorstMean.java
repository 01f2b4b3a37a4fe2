package org.rejoin.console.grade;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * The largest mean of a value over a window that slides along the flight. What lies before the first value counts as 0,
 * so that a short error counts for as much as it lasted. Between values it is linear, so that the sample rate does not
 * matter.
 */
final class WorstMean {

    private record At(double flownS, double value, double integral) {}

    private final double windowS;
    private final Deque<At> window = new ArrayDeque<>();
    private double largest;

    WorstMean(double windowS) {
        this.windowS = windowS;
    }

    /** Takes the next value, 0 or more. */
    void add(double flownS, double value) {
        At last = window.peekLast();
        double integral = last == null
                ? 0
                : last.integral() + (flownS - last.flownS()) * (value + last.value()) / 2;
        window.addLast(new At(flownS, value, integral));
        double fromS = flownS - windowS;
        while (window.size() > 2) {
            At first = window.removeFirst();
            if (window.getFirst().flownS() > fromS) {
                window.addFirst(first);
                break;
            }
        }
        At first = window.getFirst();
        largest = Math.max(largest, (integral - integralAt(first, fromS)) / windowS);
    }

    private double integralAt(At first, double fromS) {
        for (At each : window) {
            if (each.flownS() > fromS) {
                double stepS = each.flownS() - first.flownS();
                double share = stepS > 0 ? Math.max(0, (fromS - first.flownS()) / stepS) : 0;
                return first.integral() + share * (each.integral() - first.integral());
            }
        }
        return first.integral();
    }

    /** The time to the next value was not judged. */
    void breakOff() {
        window.clear();
    }

    double largest() {
        return largest;
    }
}
