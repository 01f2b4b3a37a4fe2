package org.rejoin.bridge.learn;

import java.util.List;
import java.util.Locale;

import org.rejoin.protocol.profile.Quantity;
import org.rejoin.protocol.profile.Unit;

/** Finds the sender's clock. */
final class ClockField {

    private ClockField() {}

    /** Adds the first field that is one. */
    static void find(Frame frame, Findings findings) {
        for (Column column : frame.own()) {
            if (findings.isClaimed(column.spot()) || column.timeS().length < 20) {
                continue;
            }
            Fit fit = Fit.line(column.timeS(), column.raw());
            for (Scale scale :
                    List.of(new Scale(Unit.S, 1, 0), new Scale(Unit.MS, 1, 0), new Scale(Unit.MS, 0.001, 0))) {
                double rate = fit.slope() * scale.factor();
                boolean steady = fit.rms() * scale.factor() < 0.1 && Math.abs(rate - 1) < 0.003;
                boolean fine = column.spot().size() >= 4 || column.spot().type().isEmpty();
                if (steady && fine && ascending(column)) {
                    findings.add(
                            Quantity.TIME,
                            column.spot(),
                            scale,
                            true,
                            0.95,
                            String.format(
                                    Locale.ROOT,
                                    "runs with the clock, scatter %.0f ms",
                                    1000 * fit.rms() * scale.factor()));
                    return;
                }
            }
        }
    }

    /** Whether a field only counts on as time goes by: a clock or a counter, and no altitude, which has level parts. */
    static boolean runsOn(Column column) {
        return column.timeS().length >= 20
                && ascending(column)
                && Fit.line(column.timeS(), column.raw()).r2() > 0.9995;
    }

    /** A counter of whole seconds at one a second would pass for a clock as well as a clock does. */
    private static boolean ascending(Column column) {
        int steps = 0;
        for (int i = 1; i < column.raw().length; i++) {
            if (column.raw()[i] < column.raw()[i - 1]) {
                return false;
            }
            steps += column.raw()[i] > column.raw()[i - 1] ? 1 : 0;
        }
        return steps > 0.9 * (column.raw().length - 1);
    }
}
