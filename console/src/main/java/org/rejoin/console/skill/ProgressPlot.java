package org.rejoin.console.skill;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;

/**
 * A pilot's skills over time as a picture: for each skill the estimate and the band that holds the truth in 90 of 100. SVG
 * 1.1, in plain lines: the plotting libraries of the platform draw with its fonts, so that no two machines give the same
 * file, and bring more than this page of lines.
 */
public final class ProgressPlot {

    private static final int WIDTH = 640;
    private static final int ROW = 110;
    private static final int LEFT = 96;
    private static final int RIGHT = 16;
    private static final int TOP = 44;
    private static final int HIGH = 80;
    private static final int FOOT = 40;

    private final Instant from;
    private final Instant to;
    private final StringBuilder svg = new StringBuilder();

    private ProgressPlot(Instant from, Instant to) {
        this.from = from;
        this.to = to;
    }

    /**
     * Draws the skills that have been shown.
     *
     * @param pilot name
     * @param marks of the pilot, in any order
     * @param now right edge; not before the last mark
     * @return SVG; the same for the same marks and time
     */
    public static String svg(String pilot, List<Mark> marks, Instant now) {
        List<Estimate> history = Progress.history(marks);
        List<Skill> skills = List.of(Skill.values()).stream()
                .filter(skill -> history.stream().anyMatch(each -> each.skill() == skill))
                .toList();
        Instant first = marks.stream().map(Mark::at).min(Instant::compareTo).orElse(now);
        // A day at least, so that one flight is seen too.
        Instant from = first.isAfter(now.minus(Duration.ofDays(1))) ? now.minus(Duration.ofDays(1)) : first;
        ProgressPlot plot = new ProgressPlot(from, now);
        plot.begin(pilot, Math.max(1, skills.size()));
        for (int i = 0; i < skills.size(); i++) {
            Skill skill = skills.get(i);
            plot.row(
                    TOP + i * ROW,
                    skill,
                    history.stream().filter(each -> each.skill() == skill).toList());
        }
        if (skills.isEmpty()) {
            plot.text(LEFT, TOP + 20, "start", "nothing has been marked yet: every skill is unknown");
        }
        return plot.end(Math.max(1, skills.size()));
    }

    private void begin(String pilot, int rows) {
        int height = TOP + rows * ROW + FOOT;
        svg.append(String.format(
                Locale.ROOT,
                "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%d\" height=\"%d\" viewBox=\"0 0 %d %d\""
                        + " font-family=\"sans-serif\" font-size=\"11\">\n",
                WIDTH,
                height,
                WIDTH,
                height));
        svg.append(String.format(Locale.ROOT, "<title>Progress of %s</title>\n", escaped(pilot)));
        svg.append(String.format(
                Locale.ROOT, "<rect width=\"%d\" height=\"%d\" fill=\"white\"/>\n", WIDTH, height));
        text(LEFT, 18, "start", pilot + ": right at standard difficulty, of 100");
        text(LEFT, 33, "start", "line: estimate; band: holds the truth in 90 of 100");
    }

    private void row(int top, Skill skill, List<Estimate> history) {
        text(8, top + 14, "start", skill.name());
        text(8, top + 30, "start", history.get(history.size() - 1).at(to).standing().word());
        for (int of100 : new int[] {0, 50, 100}) {
            int y = y(top, of100 / 100.0);
            svg.append(String.format(
                    Locale.ROOT,
                    "<line x1=\"%d\" y1=\"%d\" x2=\"%d\" y2=\"%d\" stroke=\"#ccc\"/>\n",
                    LEFT,
                    y,
                    WIDTH - RIGHT,
                    y));
            text(LEFT - 6, y + 4, "end", String.valueOf(of100));
        }
        StringBuilder high = new StringBuilder();
        StringBuilder low = new StringBuilder();
        StringBuilder middle = new StringBuilder();
        for (int i = 0; i < history.size(); i++) {
            Estimate each = history.get(i);
            // Before the next mark it has been forgotten a little.
            Instant until = i + 1 < history.size() ? history.get(i + 1).last().orElse(to) : to;
            for (Instant at : List.of(each.last().orElse(from), until)) {
                Estimate then = each.at(at);
                high.append(point(at, top, then.high()));
                low.insert(0, point(at, top, then.low()));
                middle.append(point(at, top, then.p()));
            }
        }
        svg.append(String.format(
                Locale.ROOT, "<polygon points=\"%s%s\" fill=\"#9bd\" fill-opacity=\"0.4\"/>\n", high, low));
        svg.append(String.format(
                Locale.ROOT, "<polyline points=\"%s\" fill=\"none\" stroke=\"#136\" stroke-width=\"1.5\"/>\n", middle));
        for (Estimate each : history) {
            svg.append(String.format(
                    Locale.ROOT,
                    "<circle cx=\"%.1f\" cy=\"%d\" r=\"2\" fill=\"#136\"/>\n",
                    x(each.last().orElse(from)),
                    y(top, each.p())));
        }
    }

    private String end(int rows) {
        int y = TOP + rows * ROW + 4;
        text(LEFT, y, "start", LocalDate.ofInstant(from, ZoneOffset.UTC).toString());
        text(WIDTH - RIGHT, y, "end", LocalDate.ofInstant(to, ZoneOffset.UTC).toString());
        text(LEFT, y + 22, "start", "For simulation and training only. It does not say whether a pilot is ready for anything.");
        return svg.append("</svg>\n").toString();
    }

    private void text(int x, int y, String anchor, String words) {
        svg.append(String.format(
                Locale.ROOT,
                "<text x=\"%d\" y=\"%d\" text-anchor=\"%s\">%s</text>\n",
                x,
                y,
                anchor,
                escaped(words)));
    }

    private String point(Instant at, int top, double share) {
        return String.format(Locale.ROOT, "%.1f,%d ", x(at), y(top, share));
    }

    private double x(Instant at) {
        double share = (double) Duration.between(from, at).toSeconds()
                / Math.max(1, Duration.between(from, to).toSeconds());
        return LEFT + share * (WIDTH - LEFT - RIGHT);
    }

    private static int y(int top, double share) {
        return (int) Math.round(top + (1 - share) * HIGH);
    }

    /** A name may be anything: markup, and characters that XML 1.0 does not have. */
    private static String escaped(String text) {
        StringBuilder escaped = new StringBuilder();
        text.codePoints().forEach(each -> {
            boolean isText = each >= 0x20 && !(each >= 0x7F && each <= 0x9F) && !(each >= 0xD800 && each <= 0xDFFF)
                    && each != 0xFFFE && each != 0xFFFF;
            escaped.append(
                    switch (each) {
                        case '<' -> "&lt;";
                        case '>' -> "&gt;";
                        case '&' -> "&amp;";
                        case '"' -> "&quot;";
                        default -> isText ? Character.toString(each) : " ";
                    });
        });
        return escaped.toString();
    }
}
