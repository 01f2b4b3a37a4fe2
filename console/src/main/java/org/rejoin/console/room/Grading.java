package org.rejoin.console.room;

import org.rejoin.console.book.AttemptFolder;
import org.rejoin.console.flight.Debrief;
import org.rejoin.console.lesson.Lesson;

/** Grades what was recorded, the same way whether its flight ended, was ended, or the program was. */
public interface Grading {

    /**
     * An attempt flown again.
     *
     * @param report the page to print
     */
    record Again(Lesson lesson, Debrief debrief, String report) {}

    /**
     * Ends an attempt: log, grade and duration are written.
     *
     * @throws Exception if the recording cannot be graded; one line
     */
    void end(AttemptFolder folder) throws Exception;

    /**
     * Flies an attempt again.
     *
     * @return record, grade and report
     * @throws Exception if the recording cannot be graded; one line
     */
    Again again(AttemptFolder folder) throws Exception;
}
