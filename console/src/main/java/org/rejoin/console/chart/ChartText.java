package org.rejoin.console.chart;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;

import org.rejoin.bridge.chart.AiracCycle;
import org.rejoin.bridge.chart.Airport;
import org.rejoin.bridge.chart.Airway;
import org.rejoin.bridge.chart.ChartReport;
import org.rejoin.bridge.chart.Fix;
import org.rejoin.bridge.chart.PublishedHold;
import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.chart.io.ChartReader;
import org.rejoin.bridge.chart.io.ChartSource;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.words.Words;

/** A chart in words, line by line. */
public final class ChartText {

    /** Of one kind; a world-wide file has tens of thousands of shared idents, and --json lists them all. */
    private static final int LISTED = 20;

    private final ChartReader.Result read;
    private final LocalDate day;
    private final List<String> lines = new ArrayList<>();

    public ChartText(ChartReader.Result read, LocalDate day) {
        this.read = read;
        this.day = day;
    }

    public List<String> lines() {
        return lines.stream().map(ChartText::plain).toList();
    }

    /** A file is not to steer the terminal. */
    public static String plain(String text) {
        return text.chars()
                .mapToObj(c -> Character.isISOControl(c) ? "?" : String.valueOf((char) c))
                .collect(Collectors.joining());
    }

    public void describe(ChartReport report) {
        lines.add(read.chart().name());
        lines.add("  format    " + (isArinc() ? "ARINC 424" : "YAML"));
        if (isArinc()) {
            lines.add("  cycle     " + cycle());
        }
        counts(report.counts());
        report.bounds()
                .ifPresent(bounds -> lines.add(Words.say(
                        "  bounds    south %.4f, west %.4f, north %.4f, east %.4f%s",
                        bounds.southDeg(),
                        bounds.westDeg(),
                        bounds.northDeg(),
                        bounds.eastDeg(),
                        bounds.westDeg() > bounds.eastDeg() ? " (across 180)" : "")));
        holds(report.holds());
        oddities(report.oddities(day));
        problems();
    }

    private boolean isArinc() {
        return read.source().format() == ChartSource.Format.ARINC_424;
    }

    private String cycle() {
        AiracCycle today = AiracCycle.of(day);
        return read.source()
                .cycle()
                .map(cycle -> cycle + ", " + cycle.effective() + " to "
                        + cycle.effective().plusDays(AiracCycle.DAYS - 1)
                        + (cycle.equals(today)
                                ? ": current on " + day
                                : ": NOT CURRENT on " + day + ", when " + today + " is"))
                .orElse("not named by the file; on " + day + " it is " + today);
    }

    private void counts(ChartReport.Counts counts) {
        int stations =
                counts.stations().values().stream().mapToInt(Integer::intValue).sum();
        String kinds = counts.stations().entrySet().stream()
                .filter(entry -> entry.getValue() > 0)
                .map(entry -> entry.getKey() + " " + entry.getValue())
                .collect(Collectors.joining(", "));
        lines.add("  stations  " + stations + (stations == 0 ? "" : " (" + kinds + ")"));
        lines.add("  fixes     " + counts.fixes());
        lines.add("  airports  " + counts.airports());
        String pieces = counts.pieces() == counts.airways() ? "" : " in " + Words.count(counts.pieces(), "piece");
        lines.add("  airways   " + counts.airways() + pieces + ", " + Words.count(counts.legs(), "leg"));
        if (!read.source().records().isEmpty()) {
            lines.add("  records   "
                    + read.source().records().entrySet().stream()
                            .map(entry -> entry.getKey().trim() + " " + entry.getValue())
                            .collect(Collectors.joining(", ")));
        }
    }

    private void holds(List<PublishedHold> holds) {
        if (holds.isEmpty()) {
            return;
        }
        lines.add("");
        lines.add("Holding patterns (" + holds.size() + "):");
        listed(holds.stream().map(ChartText::hold).toList());
    }

    /** "WEKOT: inbound 240 magnetic, left turns, 1 min legs, at or above 5000 ft, at most 210 kt". */
    private static String hold(PublishedHold hold) {
        List<String> parts = new ArrayList<>();
        parts.add("inbound " + Words.tenths(hold.inboundMagnetic().deg())
                + (hold.inboundTrueDeg().isPresent() ? " true" : " magnetic"));
        parts.add(Words.side(hold.right()) + " turns");
        hold.legMinutes().ifPresent(minutes -> parts.add(Words.say("%.1f min inbound", minutes)));
        hold.legNm().ifPresent(miles -> parts.add(Words.say("%.1f NM legs", miles)));
        hold.minimumAltitudeFt().ifPresent(feet -> parts.add(Words.say("minimum %.0f ft", feet)));
        hold.maximumAltitudeFt().ifPresent(feet -> parts.add(Words.say("maximum %.0f ft", feet)));
        hold.maximumSpeedKt().ifPresent(knots -> parts.add(Words.say("at most %.0f kt", knots)));
        return hold.fix().ident() + ": " + String.join(", ", parts);
    }

    private void oddities(List<ChartReport.Finding> findings) {
        Map<ChartReport.Oddity, List<ChartReport.Finding>> byKind = findings.stream()
                .collect(Collectors.groupingBy(
                        ChartReport.Finding::oddity,
                        () -> new EnumMap<>(ChartReport.Oddity.class),
                        Collectors.toList()));
        lines.add("");
        lines.add(findings.isEmpty() ? "Nothing odd." : "Odd (" + findings.size() + "):");
        byKind.values()
                .forEach(same -> listed(same.stream()
                        .map(finding -> at(finding.line()) + finding.text())
                        .toList()));
    }

    private void problems() {
        List<ChartReader.Problem> problems = read.problems();
        long dropped = problems.stream().filter(ChartReader.Problem::fatal).count();
        lines.add("");
        lines.add(
                problems.isEmpty() ? "No problems." : Words.count(problems.size(), "problem") + leftOut(dropped) + ":");
        listed(problems.stream()
                .map(problem -> at(problem.line()) + problem.what() + (problem.fatal() ? " (left out)" : ""))
                .toList());
    }

    private static String leftOut(long records) {
        return records == 0 ? "" : ", " + Words.count((int) records, "record") + " left out";
    }

    private void listed(List<String> all) {
        all.stream().limit(LISTED).forEach(line -> lines.add("  " + line));
        if (all.size() > LISTED) {
            lines.add("  and " + (all.size() - LISTED) + " more of these; --json lists all");
        }
    }

    private static String at(int line) {
        return line > 0 ? "line " + line + ": " : "";
    }

    public void found(List<ChartReport.Found> found) {
        for (ChartReport.Found each : found) {
            Waypoint point = each.point();
            String name = name(point);
            lines.add(point.ident() + "  " + kind(point)
                    + (name.equals(point.ident()) ? "" : " " + name)
                    + (each.line() > 0 ? "  (line " + each.line() + ")" : ""));
            Position at = point.position();
            lines.add(Words.say("  position     %s  (%s)", Words.place(at), Words.decimal(at)));
            if (point instanceof Station station) {
                station(station);
            } else if (point instanceof Airport airport) {
                elevation(airport.publishedElevationFt());
            }
            lines.add("  airways      " + (each.airways().isEmpty() ? "none" : String.join(", ", each.airways())));
            each.holds().forEach(hold -> lines.add("  hold         " + hold(hold)));
        }
    }

    private void station(Station station) {
        station.dmePosition().ifPresent(dme -> lines.add("  DME at       " + Words.place(dme)));
        if (station.kind().hasRadials() || station.declination().isPresent()) {
            lines.add("  declination  "
                    + station.declination()
                            .map(declination -> declination.trueNorth()
                                    ? "aligned to true north: its radials are true"
                                    : Words.variation(declination.eastDeg()))
                            .orElse("none: its radials cannot be used"));
        }
        lines.add("  frequency    "
                + station.frequencyMhz().stream()
                        .mapToObj(mhz -> Words.frequency(station.kind(), mhz))
                        .findFirst()
                        .orElse("not given"));
        station.serviceClass().ifPresent(type -> lines.add("  class        " + type));
        elevation(station.publishedElevationFt());
    }

    private void elevation(OptionalDouble published) {
        lines.add("  elevation    " + (published.isPresent() ? feet(published) : "not given"));
    }

    static String kind(Waypoint point) {
        return point.fold(station -> station.kind().toString(), fix -> "fix", airport -> "airport");
    }

    static String name(Waypoint point) {
        return point.fold(Station::name, Fix::ident, Airport::name);
    }

    public void airway(List<ChartReport.Piece> pieces) {
        boolean byVariation = false;
        for (int i = 0; i < pieces.size(); i++) {
            ChartReport.Piece piece = pieces.get(i);
            lines.add(Words.say(
                    "%s%s  %s, %.1f NM%s",
                    piece.ident(),
                    pieces.size() == 1 ? "" : " (piece " + (i + 1) + " of " + pieces.size() + ")",
                    Words.count(piece.legs().size(), "leg"),
                    piece.distanceNm(),
                    piece.line() > 0 ? "  (line " + piece.line() + ")" : ""));
            lines.add("  from   to     true   mag.   by      NM     may be flown   minimum altitude");
            for (ChartReport.Leg leg : piece.legs()) {
                byVariation |= leg.guide().isEmpty();
                lines.add(leg(leg));
            }
        }
        if (byVariation) {
            lines.add("  var: by the variation of " + day + ", as no station aligned to magnetic north guides there");
        }
    }

    private String leg(ChartReport.Leg leg) {
        return Words.say(
                "  %-5s  %-5s  %-5s  %-5s  %-5s  %5.1f  %-13s  %s",
                leg.from().ident(),
                leg.to().ident(),
                Words.tenths(leg.course().deg()),
                Words.tenths(magneticDeg(leg, day)),
                leg.guide().map(Station::ident).orElse("var"),
                leg.distanceNm(),
                direction(leg),
                altitudes(leg.published()));
    }

    /** By the guiding station, or by the variation of the day. */
    static double magneticDeg(ChartReport.Leg leg, LocalDate day) {
        return leg.publishedCourse().isPresent()
                ? leg.publishedCourse().get().deg()
                : leg.course()
                        .toMagnetic(MagneticModel.WMM2025.variation(leg.from().position(), 0, day))
                        .deg();
    }

    private static String altitudes(Airway.Segment published) {
        String there = minimum(published, Airway.Direction.FORWARD);
        String back = minimum(published, Airway.Direction.BACKWARD);
        String minimum = there.equals(back) ? there : there + "/back " + back;
        return minimum
                + (published.maximumAltitudeFt().isPresent() ? ", max " + feet(published.maximumAltitudeFt()) : "");
    }

    private static String minimum(Airway.Segment published, Airway.Direction flown) {
        return published.minimumUnknown(flown) ? "unknown" : feet(published.minimumAltitudeFt(flown));
    }

    private static String feet(OptionalDouble feet) {
        return feet.isPresent() ? Words.say("%.0f ft", feet.getAsDouble()) : "none";
    }

    private static String direction(ChartReport.Leg leg) {
        return switch (leg.published().direction()) {
            case BOTH -> "both ways";
            case FORWARD -> "only to " + leg.to().ident();
            case BACKWARD -> "only to " + leg.from().ident();
        };
    }
}
