package org.rejoin.console.lesson;

/** A lesson that cannot be used: one line that says what, where, and what would be right. */
public final class LessonException extends Exception {

    private static final long serialVersionUID = 1L;

    /**
     * A reason.
     *
     * @param message one line
     */
    public LessonException(String message) {
        super(message);
    }

    /**
     * A reason with its cause.
     *
     * @param message one line
     */
    public LessonException(String message, Throwable cause) {
        super(message, cause);
    }
}
