package org.rejoin.console.report;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * Whose report it is, and who vouches for it.
 *
 * @param pilot name as kept; empty text if nobody said
 * @param practicePilot habit of the practice aircraft, where that flew it and no person
 * @param attempt identifier in the record book; empty text outside of one
 * @param mark the instructor's own, beside the computed one
 * @param signed signatures under it, the last one counts
 */
public record ReportHeading(
        String pilot,
        Optional<String> practicePilot,
        String instructor,
        String attempt,
        Optional<Mark> mark,
        List<Signed> signed) {

    /** Of a recording that is in no record book. */
    public static final ReportHeading NONE = of(Optional.empty());

    /** Of a recording that is in no record book. */
    public static ReportHeading of(Optional<String> practicePilot) {
        return new ReportHeading("", practicePilot, "", "", Optional.empty(), List.of());
    }

    public ReportHeading {
        signed = List.copyOf(signed);
    }

    /** The instructor's own mark, 0 to 100, and why it is another. */
    public record Mark(double score, String by, String reason) {}

    /** A signature; empty texts where there is no certificate or remark. It matches where nothing has changed since. */
    public record Signed(String name, String certificate, Instant at, String remark, boolean matches) {}
}
