package org.rejoin.console.flight;

import java.util.Optional;
import java.util.function.Consumer;

import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.words.Words;

/** Says at the first sample that the aircraft is not where the lesson begins, while there is time to put it there. */
public final class FarFromStart implements LessonFlights.Watcher {

    /** Nearer, the clearance may still make sense, NM; common practice, no source. */
    private static final double FAR_NM = 20;

    private final Lesson lesson;
    private final Consumer<String> say;
    private boolean looked;

    /** Looks at the first sample; {@code say} takes the one line, if there is one. */
    public FarFromStart(Lesson lesson, Consumer<String> say) {
        this.lesson = lesson;
        this.say = say;
    }

    @Override
    public void point(Point now) {
        if (looked) {
            return;
        }
        looked = true;
        words(lesson, now.position()).ifPresent(say);
    }

    /** One line where an aircraft is not where a lesson begins; empty where it is, or the lesson begins anywhere. */
    public static Optional<String> words(Lesson lesson, Position aircraft) {
        return lesson.start()
                .map(Lesson.Start::position)
                .filter(start -> start.distanceNm(aircraft) > FAR_NM)
                .map(start -> Words.say(
                        "the aircraft is %.0f NM from the start of the lesson, %s: put it there, or the clearance"
                                + " will not fit",
                        start.distanceNm(aircraft), Words.place(start)));
    }
}
