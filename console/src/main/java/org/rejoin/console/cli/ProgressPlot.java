package org.rejoin.console.cli;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;

import org.rejoin.console.draw.Markup;
import org.rejoin.console.skill.Estimate;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Progress;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/**
 * A pilot's skills over time as a picture: for each skill the estimate and the band that holds the truth in 90 of 100. SVG
 * 1.1, in plain lines: the plotting libraries of the platform draw with its fonts, so that no two machines give the same
 * file, and bring more than this page of lines.
 */
final class ProgressPlot {

    private static final int WIDTH = 640;
    private static final int ROW = 110;
    private static final int LEFT = 96;
    private static final int RIGHT = 16;
    private static final int TOP = 44;
    private static final int HIGH = 80;
    private static final int FOOT = 40;

    private final Instant from;
    private final Instant to;
    private final Markup svg = new Markup();

    private ProgressPlot(Instant from, Instant to) {
        this.from = from;
        this.to = to;
    }

    /** Draws the skills that have been shown, up to now; the same marks and time give the same SVG. */
    static String svg(String pilot, List<Mark> marks, Instant now) {
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
        svg.start(
                "svg",
                "xmlns",
                "http://www.w3.org/2000/svg",
                "width",
                "" + WIDTH,
                "height",
                "" + height,
                "viewBox",
                "0 0 " + WIDTH + " " + height,
                "font-family",
                "sans-serif",
                "font-size",
                "11");
        svg.text("\n").element("title", "Progress of " + pilot).text("\n");
        svg.empty("rect", "width", "" + WIDTH, "height", "" + height, "fill", "white")
                .text("\n");
        text(LEFT, 18, "start", pilot + ": right at standard difficulty, of 100");
        text(LEFT, 33, "start", "line: estimate; band: the true figure lies there in 9 of 10 cases");
    }

    private void row(int top, Skill skill, List<Estimate> history) {
        text(8, top + 14, "start", skill.name());
        text(
                8,
                top + 30,
                "start",
                history.get(history.size() - 1).at(to).standing().word());
        for (int of100 : new int[] {0, 50, 100}) {
            int y = y(top, of100 / 100.0);
            svg.empty(
                    "line", "x1", "" + LEFT, "y1", "" + y, "x2", "" + (WIDTH - RIGHT), "y2", "" + y, "stroke", "#ccc");
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
        svg.empty("polygon", "points", high.append(low).toString(), "fill", "#9bd", "fill-opacity", "0.4");
        svg.empty("polyline", "points", middle.toString(), "fill", "none", "stroke", "#136", "stroke-width", "1.5");
        for (Estimate each : history) {
            String x = Markup.xy(x(each.last().orElse(from)));
            svg.empty("circle", "cx", x, "cy", "" + y(top, each.p()), "r", "2", "fill", "#136");
        }
        svg.text("\n");
    }

    private String end(int rows) {
        int y = TOP + rows * ROW + 4;
        text(LEFT, y, "start", LocalDate.ofInstant(from, ZoneOffset.UTC).toString());
        text(WIDTH - RIGHT, y, "end", LocalDate.ofInstant(to, ZoneOffset.UTC).toString());
        text(
                LEFT,
                y + 22,
                "start",
                "For simulation and training only. It does not say whether a pilot is ready for anything.");
        return svg.endLine().document();
    }

    private void text(int x, int y, String anchor, String words) {
        svg.element("text", words, "x", "" + x, "y", "" + y, "text-anchor", anchor)
                .text("\n");
    }

    private String point(Instant at, int top, double share) {
        return Words.say("%.1f,%d ", x(at), y(top, share));
    }

    private double x(Instant at) {
        double share = (double) Duration.between(from, at).toSeconds()
                / Math.max(1, Duration.between(from, to).toSeconds());
        return LEFT + share * (WIDTH - LEFT - RIGHT);
    }

    private static int y(int top, double share) {
        return (int) Math.round(top + (1 - share) * HIGH);
    }
}
