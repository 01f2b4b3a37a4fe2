package org.rejoin.console.brief;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.console.words.Words;

/** Why a thing that the chart file does name is not on the chart: its record was left out for a fault in it. */
public final class LeftOut {

    private static final Pattern NOT_ON_CHART =
            Pattern.compile("^(.*?)((?:airway )?([A-Z0-9]+)) is not on the chart(?:; did you mean [^?]*\\?)?(.*)$");

    private LeftOut() {}

    /**
     * A refusal, and where the record is that it misses.
     *
     * @param refusal one line
     * @return with line and fault of the record in place of a guess at other names; as it was where none was left out
     */
    public static String explained(String refusal, List<ChartReader.Problem> problems) {
        Matcher missing = NOT_ON_CHART.matcher(refusal);
        if (!missing.matches()) {
            return refusal;
        }
        Pattern record = Pattern.compile("(?:station|fix|airport|airway) " + missing.group(3) + ": (.*)");
        for (ChartReader.Problem problem : problems) {
            Matcher fault = record.matcher(problem.what());
            if (problem.fatal() && fault.matches()) {
                return missing.group(1)
                        + missing.group(2)
                        + Words.say(
                                " is left out of the chart, for its record%s is not right: %s",
                                problem.line() > 0 ? " at line " + problem.line() : "", fault.group(1))
                        + missing.group(4);
            }
        }
        return refusal;
    }
}
