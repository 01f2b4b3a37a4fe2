package org.rejoin.protocol;

import java.util.Optional;

/** What one piece of a datagram turned out to be. Bad input is a value, so that it can be counted, shown and recorded. */
public sealed interface Decoded {

    /**
     * A usable sample.
     *
     * @param state the aircraft; {@code timeS} is the time of receipt in seconds
     * @param source the sender's clock, if the format carries one
     * @param aircraft which aircraft of this sender: DIS "site:application:entity", followed by " exercise " and its number
     *     where this sender was first heard in another exercise; JSON callsign; or empty text where the sender names none
     * @param marking callsign or marking as sent, characters that are not seen replaced by '?'; empty where unsent
     * @param exercise of DIS, 1 to 255; {@link #NO_EXERCISE} where none is named
     */
    record Sample(AircraftState state, Optional<SourceTime> source, String aircraft, String marking, int exercise)
            implements Decoded {}

    /** The exercise where none is named: what is said then is said to all. */
    int NO_EXERCISE = 0;

    /** Whether two exercises may be the same: not where both are named and differ. */
    static boolean oneExercise(int one, int other) {
        return one == NO_EXERCISE || other == NO_EXERCISE || one == other;
    }

    /** What is no sample. */
    sealed interface Other extends Decoded {

        /** Gives itself to a reader. */
        void readBy(Reader reader);
    }

    /** Is given what is no sample, each kind for itself: a kind more, and every reader has to say what becomes of it. */
    interface Reader {

        /** Takes a message beside the positions. */
        void notAPosition(NotAPosition message);

        /** Takes what is said of the simulation. */
        void control(Control control);

        /** Takes what is to be said once. */
        void remark(Remark remark);

        /** Takes what could not be read. */
        void malformed(Malformed fault);
    }

    /** Well formed, but not a position: another PDU, another sentence. */
    record NotAPosition(String kind) implements Other {
        @Override
        public void readBy(Reader reader) {
            reader.notAPosition(this);
        }
    }

    /**
     * The sender says that the simulation stopped, goes on, or that the aircraft is gone.
     *
     * @param aircraft which aircraft, DIS "site:application:entity" or as in {@link Sample}; empty text for all of them
     * @param exercise of DIS in which it is said, 1 to 255; {@link #NO_EXERCISE} where none is named
     */
    record Control(What what, String aircraft, int exercise) implements Other {
        @Override
        public void readBy(Reader reader) {
            reader.control(this);
        }

        /** Whether it is said to an aircraft: not to another one, nor to the same one of another exercise. */
        public boolean concerns(String name, int itsExercise) {
            return oneExercise(exercise, itsExercise)
                    && (aircraft.isEmpty() || aircraft.equals(name) || name.equals(inExercise(aircraft, itsExercise)));
        }

        /** The name of an aircraft whose sender is heard in several exercises, for example "17:23:1001 exercise 2". */
        public static String inExercise(String aircraft, int exercise) {
            return aircraft + " exercise " + exercise;
        }

        /** The kinds of control. */
        public enum What {
            /** The simulation stands still. */
            PAUSED,
            /** The simulation goes on. */
            RESUMED,
            /** The aircraft was taken out of the simulation. */
            REMOVED
        }
    }

    /** Read, and something to be said of it once. */
    record Remark(String aircraft, String text) implements Other {
        @Override
        public void readBy(Reader reader) {
            reader.remark(this);
        }
    }

    /**
     * Not what its format asks for. The rest of the datagram may still hold good samples.
     *
     * @param offset octet at which reading stopped, 0 or more
     */
    record Malformed(int offset, String found, String expected) implements Other {
        @Override
        public void readBy(Reader reader) {
            reader.malformed(this);
        }
    }
}
