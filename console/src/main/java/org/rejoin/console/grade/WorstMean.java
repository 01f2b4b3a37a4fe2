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
        if (first.flownS() >= fromS) {
            return first.integral();
        }
        At second = first;
        for (At each : window) {
            if (each.flownS() > fromS) {
                second = each;
                break;
            }
        }
        double share = second == first ? 0 : (fromS - first.flownS()) / (second.flownS() - first.flownS());
        return first.integral() + share * (second.integral() - first.integral());
    }

    /** The time to the next value was not judged. */
    void breakOff() {
        window.clear();
    }

    double largest() {
        return largest;
    }
}
