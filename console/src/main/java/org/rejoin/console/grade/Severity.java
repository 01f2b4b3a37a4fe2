package org.rejoin.console.grade;

/**
 * How grave a fault is, from 0 at its threshold to 1 at twice the threshold: two flights that a pilot could not tell
 * apart differ little. The shape is common practice, no source.
 */
final class Severity {

    private Severity() {}

    static double of(double value, double threshold) {
        return Math.min(1, Math.max(0, value / threshold - 1));
    }
}
