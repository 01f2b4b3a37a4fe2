package org.rejoin.console.grade;

/** Values in order of time, as many as are needed of the last ones: added at the end, taken from either end. */
final class TimedValues {

    private static final int FIRST_ROOM = 64;

    private double[] instants = new double[FIRST_ROOM];
    private double[] values = new double[FIRST_ROOM];
    private int first;
    private int end;

    int size() {
        return end - first;
    }

    boolean isEmpty() {
        return first == end;
    }

    /** Time of the value at an index, from the oldest on; seconds. */
    double timeS(int index) {
        return instants[first + index];
    }

    double value(int index) {
        return values[first + index];
    }

    double lastValue() {
        return values[end - 1];
    }

    void addLast(double timeS, double value) {
        if (end == instants.length) {
            makeRoom();
        }
        instants[end] = timeS;
        values[end] = value;
        end++;
    }

    private void makeRoom() {
        boolean more = size() > instants.length / 2;
        instants = moved(instants, more);
        values = moved(values, more);
        end = size();
        first = 0;
    }

    private double[] moved(double[] from, boolean more) {
        double[] to = more ? new double[2 * from.length] : from;
        System.arraycopy(from, first, to, 0, size());
        return to;
    }

    void removeFirst() {
        first++;
    }

    void removeLast() {
        end--;
    }

    void clear() {
        first = 0;
        end = 0;
    }
}
