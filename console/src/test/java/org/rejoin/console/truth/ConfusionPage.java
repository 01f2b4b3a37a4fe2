package org.rejoin.console.truth;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** The page of habits against faults, in words and tables, from what the flights gave. */
final class ConfusionPage {

    private static final Path PAGE = Path.of("docs", "confusion-table.md");

    /** Another machine's sine may move a flight across a threshold: counts and scores may differ by this. */
    private static final double TOLERANCE = 1;

    private final List<Judged> flights;
    private final Map<Sweep, List<Sweep.Point>> sweeps;

    ConfusionPage(List<Judged> flights, Map<Sweep, List<Sweep.Point>> sweeps) {
        this.flights = flights;
        this.sweeps = sweeps;
    }

    void write() throws IOException {
        Files.writeString(PAGE, text());
    }

    /** Where the committed page says something else. */
    List<String> differences() throws IOException {
        List<String> committed = Files.readAllLines(PAGE);
        List<String> now = text().lines().toList();
        List<String> differences = new ArrayList<>();
        for (int i = 0; i < Math.max(committed.size(), now.size()); i++) {
            String a = i < committed.size() ? committed.get(i) : "";
            String b = i < now.size() ? now.get(i) : "";
            if (!near(a, b)) {
                differences.add("line " + (i + 1) + ": \"" + a + "\", now \"" + b + "\"");
            }
        }
        return differences;
    }

    private static boolean near(String a, String b) {
        String[] one = a.trim().split("\\s+", -1);
        String[] other = b.trim().split("\\s+", -1);
        if (one.length != other.length) {
            return false;
        }
        for (int i = 0; i < one.length; i++) {
            boolean same = one[i].equals(other[i])
                    || (number(one[i])
                            && number(other[i])
                            && Math.abs(Double.parseDouble(one[i]) - Double.parseDouble(other[i])) <= TOLERANCE);
            if (!same) {
                return false;
            }
        }
        return true;
    }

    private static boolean number(String word) {
        return word.matches("-?[0-9]+(\\.[0-9]+)?");
    }

    private String text() {
        return String.format(
                Locale.ROOT, """
                # Habits against faults

                *For simulation and training only. Not for navigation. Follow local rules and your instructor.*

                What the program makes of flights whose truth is known. %d flights, drawn over 70 to 300 kt, intercepts of 10 to 110
                degrees to either side, wind up to 60 kt that grows with height, gusts by MIL-F-8785C on every third, legs from 3 NM,
                latitudes 60 south to 70 north and the antimeridian, were flown by three pilots: a route-following autopilot that leads
                its turns, a coupler that captures by deviation and closure, and a human who reacts late, looks now and then and lets
                small errors be. Each made one mistake or none. An own geometry worked out on the true trajectory what happened, and
                from that what an examiner would say; `debrief` read the same flight through one of eight feeds.

                ## What was named

                A row is what the pilot did, whatever its size; a number says in how many flights the fault was named. Small mistakes
                are no faults, so that no row is full. `agree` counts the flights where the program says what the truth says.

                %s
                ## Near a threshold

                There either verdict is right, and neither is counted as wrong:

                %s
                ## One mistake in fine steps

                140 kt, smooth air, the autopilot. The score never rises with the mistake by more than %.1f, and neighbours (0.1 NM, 2 s,
                2 degrees) differ by at most %.0f points.

                %s""", flights.size(), table(), margins(), Sweep.NOISE, Sweep.LARGEST_STEP, curves());
    }

    private String table() {
        Set<String> codes = new TreeSet<>();
        flights.forEach(each -> codes.addAll(each.verdict().faultCodes()));
        StringBuilder out =
                new StringBuilder("| the pilot | flights | agree | " + String.join(" | ", codes) + " | none |\n");
        out.append("| --- ".repeat(codes.size() + 4)).append("|\n");
        for (Mistake.Kind kind : Mistake.Kind.DRAWN) {
            List<Judged> row = flights.stream()
                    .filter(each -> each.flight().mistake().is(kind))
                    .toList();
            if (row.isEmpty()) {
                continue;
            }
            long agree =
                    row.stream().filter(each -> each.disagreement().isEmpty()).count();
            out.append("| ")
                    .append(kind.words())
                    .append(" | ")
                    .append(row.size())
                    .append(" | ")
                    .append(agree);
            for (String code : codes) {
                out.append(" | ")
                        .append(row.stream()
                                .filter(each -> each.verdict().faultCodes().contains(code))
                                .count());
            }
            out.append(" | ")
                    .append(row.stream()
                            .filter(each -> each.verdict().faults().isEmpty())
                            .count())
                    .append(" |\n");
        }
        return out.toString();
    }

    private static String margins() {
        return """
                | fault | either verdict is right |
                | --- | --- |
                | `OVERSHOOT` | carried 0.45 to 0.55 NM past the line |
                | `FLOWN_THROUGH` | carried as far, crossed at 12 to 18 degrees, or the turn begun 6 to 14 s after the line: then `OVERSHOOT` or this one |
                | `TURNED_EARLY` | parallel for 12 to 18 s, 0.95 to 1.05 NM off, within 8 to 14 degrees of the course; on an intercept of less than 25 degrees `HEADING_NOT_HELD` says the same |
                | `HEADING_NOT_HELD` | 9 to 11 degrees off for 7 to 13 s, 5 s earlier or later than the allowance for reaction and turn; also where the turn onto the course began more than 0.8 NM before its lead |
                | `ALTITUDE_NOT_HELD` | 92 to 108 ft off for 3 to 8 s |
                | `WRONG_DIRECTION` | within 27 to 33 degrees of the reciprocal, 0.95 to 1.05 NM off, for 12 to 18 s, turning at 0.7 to 1.5 degrees a second |
                | `WEAVING` | three or four crossings in 165 to 195 s with swings of 8 to 13 degrees, 0.08 to 0.12 NM to either side |
                | `WRONG_TURN` | turned 8 to 30 degrees against the turn of the route |
                | `SEQUENCE_MISSED` | 11 to 19 degrees from the old course 26 to 30 s after passing abeam, or a turn of the route of less than 22 degrees |
                | `COURSE_NOT_HELD` | 1.4 to 1.6 NM off the course once established; what it comes of or comes to may say it |
                | `ROUTE_LEFT` | 1.9 to 2.1 NM off the leg, or turned off it by 27 to 33 degrees for 16 to 24 s, or then 1.4 to 1.6 NM off it, or about its lead before the end; coming back to the line at an angle |
                | `NOT_ACHIEVED` | never joined the next leg, with time for it |
                """;
    }

    private String curves() {
        StringBuilder out = new StringBuilder();
        sweeps.forEach((sweep, points) -> {
            out.append("### ").append(sweep.title()).append("\n\n");
            out.append("The pilot ").append(sweep.kind().words()).append(".\n\n");
            String unit = sweep.kind().unit();
            out.append("| ").append(unit).append(" | score | met | faults |\n| --- | --- | --- | --- |\n");
            for (Sweep.Point each : points) {
                out.append(String.format(
                        Locale.ROOT,
                        "| %.2f | %.1f | %s | %s |%n",
                        each.size(),
                        each.score(),
                        each.met(),
                        each.faults().stream().map(code -> "`" + code + "`").collect(Collectors.joining(", "))));
            }
            out.append('\n');
        });
        return out.toString();
    }
}
