package org.rejoin.console.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

import org.rejoin.bridge.Amendment;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.report.CleanText;

/** What a pilot must know before the flight begins. */
final class LessonSheet {

    private LessonSheet() {}

    static List<String> lines(Lesson lesson) {
        List<String> lines = new ArrayList<>();
        lines.add("Lesson: " + CleanText.line(lesson.title()));
        lines.add("Filed: " + CleanText.line(lesson.filed().text()));
        lesson.start().ifPresent(start -> lines.add(start(start)));
        if (lesson.wind().speedKt() > 0) {
            lines.add(String.format(
                    Locale.ROOT,
                    "Wind: from %03.0f degrees true at %.0f kt",
                    lesson.wind().from().deg(),
                    lesson.wind().speedKt()));
        }
        lesson.amendments().forEach(amendment -> lines.add("ATC: " + when(amendment.when())));
        return lines;
    }

    private static String start(Lesson.Start start) {
        return String.format(
                Locale.ROOT,
                "Start: at %s, %s; %.0f ft, heading %03.0f magnetic, %.0f kt true airspeed",
                degrees(start.position().latitudeDeg(), "N", "S"),
                degrees(start.position().longitudeDeg(), "E", "W"),
                start.altitudeFt(),
                start.heading().deg(),
                start.speedKt());
    }

    /** Degrees and minutes, as charts and simulators ask for them. */
    private static String degrees(double value, String positive, String negative) {
        long thousandths = Math.round(Math.abs(value) * 60_000);
        return String.format(
                Locale.ROOT,
                "%d %06.3f' %s",
                thousandths / 60_000,
                thousandths % 60_000 / 1000.0,
                value < 0 ? negative : positive);
    }

    private static String when(Amendment.When when) {
        return when instanceof Amendment.When.ElapsedS elapsed
                ? String.format(Locale.ROOT, "a clearance %.0f s after your first sample", elapsed.seconds())
                : "a clearance abeam " + CleanText.line(((Amendment.When.Abeam) when).ident());
    }
}
