package org.rejoin.console.lesson;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The lessons that come with the program, hardest first: flying without a name flies the first. */
public enum BuiltInLesson {
    RADIAL_OUTBOUND(
            "C: ride a radial outbound from a station that is not in the plan, join an airway where no fix is published"),
    RADIAL_INBOUND("B: intercept a radial inbound to a station on the airway, then the airway"),
    HEADING_TO_AIRWAY("A: fly a heading and intercept an airway"),
    ARC_TO_AIRWAY("intercept a DME arc and fly it to an airway"),
    HOLD_AT_FIX("intercept a radial outbound and hold where it meets an airway");

    private final String title;

    BuiltInLesson(String title) {
        this.title = title;
    }

    /** {@return name on the command line, lower case with hyphens} */
    public String lessonName() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** {@return what is practised, one line} */
    public String title() {
        return title;
    }

    String resource() {
        return lessonName() + ".yaml";
    }

    /**
     * By its name.
     *
     * @return empty if no built-in lesson has it
     */
    public static Optional<BuiltInLesson> named(String name) {
        return Arrays.stream(values())
                .filter(lesson -> lesson.lessonName().equals(name))
                .findFirst();
    }

    static List<String> names() {
        return Arrays.stream(values()).map(BuiltInLesson::lessonName).toList();
    }
}
