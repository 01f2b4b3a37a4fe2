package org.rejoin.bridge.flight;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.route.AmendedRoute;

/** One line of the record of a flight. */
public sealed interface Entry
        permits Point,
                Entry.Issued,
                Entry.Withdrawn,
                Entry.Restored,
                Entry.ChangedOver,
                Entry.NotIssued,
                Entry.Happened {

    /** {@return when it was; seconds since the first sample, as logged} */
    double timeS();

    /**
     * {@return when it was, by the time flown, seconds since the first sample without those in which the simulation stood
     * still}
     */
    double flownS();

    /** Calls the method for this kind of entry. */
    void readBy(Reader reader);

    /** Reads a record entry by entry. */
    interface Reader {

        /** One sample against the route. */
        default void point(Point point) {}

        /** A clearance came into force. */
        default void issued(Issued issued) {}

        /** The clearance in force was taken back. */
        default void withdrawn(Withdrawn withdrawn) {}

        /** What was assigned beside the route was taken back. */
        default void restored(Restored restored) {}

        /** The next altitude or speed of the clearance in force is in force. */
        default void changedOver(ChangedOver changedOver) {}

        /** A clearance was due and could not be issued. */
        default void notIssued(NotIssued notIssued) {}

        /** Something happened. */
        default void happened(Happened happened) {}
    }

    /**
     * A clearance came into force.
     *
     * @param route worked out for it; the one before under its words where it leaves the route as it is; the very one that
     *     was flown where it goes on because the one after it was taken back before anybody had to act on it
     * @param assigned all that is assigned from now on
     * @param asBefore whether it stands again because the one after it was taken back: it was not spoken again, and no
     *     readback is wanted
     */
    record Issued(double timeS, double flownS, AmendedRoute route, Assigned assigned, boolean asBefore)
            implements Entry {

        /** {@return the clearance, with what is assigned beside its words} */
        public Clearance clearance() {
            return route.clearance();
        }

        @Override
        public void readBy(Reader reader) {
            reader.issued(this);
        }
    }

    /**
     * The clearance in force was taken back: the flight goes on under the one before, or as filed.
     *
     * @param clearance that says so
     * @param assigned all that is assigned from now on
     * @param givesBack whether a clearance before it stands again; it follows as {@link Issued}
     */
    record Withdrawn(double timeS, double flownS, Clearance clearance, Assigned assigned, boolean givesBack)
            implements Entry {
        @Override
        public void readBy(Reader reader) {
            reader.withdrawn(this);
        }
    }

    /**
     * An altitude or speed assigned without a route was taken back: the route goes on, and what was assigned before is
     * assigned again.
     *
     * @param clearance that says so
     * @param route in force before and after, under the words that stand
     * @param assigned all that is assigned from now on
     */
    record Restored(double timeS, double flownS, Clearance clearance, AmendedRoute route, Assigned assigned)
            implements Entry {
        @Override
        public void readBy(Reader reader) {
            reader.restored(this);
        }
    }

    /**
     * A place was passed at which the clearance in force assigns another altitude or speed. Follows what happened
     * there.
     *
     * @param assigned all that is assigned from now on
     */
    record ChangedOver(double timeS, double flownS, Assigned assigned) implements Entry {
        @Override
        public void readBy(Reader reader) {
            reader.changedOver(this);
        }
    }

    /**
     * A clearance was due and could not be worked out from where the aircraft was.
     *
     * @param text in ATC's words
     * @param why one line
     */
    record NotIssued(double timeS, double flownS, String text, String why) implements Entry {
        @Override
        public void readBy(Reader reader) {
            reader.notIssued(this);
        }
    }

    /**
     * Something happened.
     *
     * @param event kind and values
     * @param follows whether it follows from a mistake already told: it is said, and not counted again
     */
    record Happened(double flownS, FlightEvent event, boolean follows) implements Entry {

        /** Something that stands for itself. */
        public Happened(double flownS, FlightEvent event) {
            this(flownS, event, false);
        }

        @Override
        public double timeS() {
            return event.timeS();
        }

        @Override
        public void readBy(Reader reader) {
            reader.happened(this);
        }
    }
}
