package org.rejoin.console.flight;

import java.util.function.Consumer;

import org.rejoin.bridge.flight.Point;
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
        lesson.start().map(Lesson.Start::position).ifPresent(start -> {
            double nm = start.distanceNm(now.position());
            if (nm > FAR_NM) {
                say.accept(Words.say(
                        "the aircraft is %.0f NM from the start of the lesson, %s: put it there, or the clearance"
                                + " will not fit",
                        nm, Words.place(start)));
            }
        });
    }
}
