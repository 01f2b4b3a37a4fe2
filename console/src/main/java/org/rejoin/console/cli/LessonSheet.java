package org.rejoin.console.cli;

import java.util.ArrayList;
import java.util.List;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.words.CleanText;
import org.rejoin.console.words.Words;

/** What a pilot must know before the flight begins. */
final class LessonSheet {

    private LessonSheet() {}

    static List<String> lines(Lesson lesson) {
        List<String> lines = new ArrayList<>();
        lines.add("Lesson: " + CleanText.line(lesson.title()));
        lines.add("Filed: " + CleanText.line(lesson.filed().text()));
        lesson.start().ifPresent(start -> lines.add(start(start)));
        lesson.time().ifPresent(time -> lines.add(Words.say("Time: %tH%tM UTC at your first sample", time, time)));
        if (lesson.wind().speedKt() > 0) {
            lines.add(Words.say(
                    "Wind: from %s true at %.0f kt",
                    Angles.figures(lesson.wind().from().deg()), lesson.wind().speedKt()));
        }
        lesson.amendments().forEach(amendment -> lines.add("ATC: " + when(amendment.when())));
        return lines;
    }

    private static String start(Lesson.Start start) {
        return Words.say(
                "Start: at %s; %.0f ft, heading %s magnetic, %.0f kt true airspeed",
                Words.place(start.position()),
                start.altitudeFt(),
                Angles.figures(start.heading().deg()),
                start.speedKt());
    }

    private static String when(Amendment.When when) {
        return when instanceof Amendment.When.ElapsedS elapsed
                ? Words.say("a clearance %.0f s after your first sample", elapsed.seconds())
                : "a clearance abeam " + CleanText.line(((Amendment.When.Abeam) when).ident());
    }
}
