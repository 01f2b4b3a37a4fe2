package org.rejoin.console.flight;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;

import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.TimeBase;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.AircraftState;
import org.rejoin.protocol.Decoded;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One aircraft on its way through the lesson: its {@link FlightSession}, its {@link Grader} and those who watch it. Confined to the
 * thread that feeds it.
 */
public final class FlownAircraft implements AircraftSink {

    private static final Logger LOG = LoggerFactory.getLogger(FlownAircraft.class);

    /** Times within this are one instant, seconds. */
    private static final double SAME_S = 1e-6;

    private final AircraftKey key;
    private final AircraftName name;
    private final FlightSession session;
    private final Grader grader;
    private final Deque<FlightEvent> talk = new ArrayDeque<>();
    private List<LessonFlights.Watcher> watchers = List.of();
    private final Freeze freeze = new Freeze();
    private boolean fliesOn;
    private boolean failed;
    private boolean removed;
    private boolean strayed;

    FlownAircraft(
            AircraftKey key, AircraftName name, FlightSession.Setting setting, ToleranceSet set, FlightRecord record) {
        this.key = key;
        this.name = name;
        this.grader = new Grader(set);
        record.tell(grader);
        this.session = new FlightSession(setting, record);
        grader.measuredBy(session.quality());
    }

    void toHear(List<FlightEvent> said) {
        talk.addAll(said);
    }

    void watchedBy(List<LessonFlights.Watcher> those) {
        watchers = List.copyOf(those);
        those.forEach(record()::tell);
    }

    /** {@return which aircraft of the feed, its key} */
    public AircraftKey key() {
        return key;
    }

    /** {@return what it is called, unique within the flight} */
    public AircraftName name() {
        return name;
    }

    /** {@return the session: its tracker and the clearances in force; for the feed's thread only} */
    public FlightSession session() {
        return session;
    }

    /** {@return the grade so far, final once the flight is over} */
    public Grade grade() {
        return grader.grade();
    }

    /** {@return all events so far, in order of time} */
    public List<FlightEvent> events() {
        return session.record().events();
    }

    /** {@return the flight as it was told so far} */
    public FlightRecord record() {
        return session.record();
    }

    /** A sample that makes something fail costs itself and no more, live as in a debrief. */
    @Override
    public void state(AircraftKey unused, AircraftState state) {
        try {
            removed = false;
            Freeze.Shown shown = freeze.next(state);
            AircraftState heard = shown.paused() ? state.asPaused() : state;
            if (shown.refuted() && !fliesOn) {
                fliesOn = true;
                note(
                        "a Stop/Freeze was sent and no Start/Resume was heard after it, but the aircraft flies: it is not taken"
                                + " for paused");
            }
            shown.stoodS().forEach(session::stood);
            watchers.forEach(watcher -> watcher.heard(heard));
            session.accept(heard);
            strays(heard.timeS());
        } catch (RuntimeException e) {
            LOG.debug("{}: sample at {} s", name.label(), state.timeS(), e);
            if (!failed) {
                failed = true;
                note("what was sent at " + Words.clock(state.timeS())
                        + " could not be used and is left out, perhaps more after it: a mistake in this program, which"
                        + " --verbose says more of");
            }
        }
        hear();
    }

    /** Told once: there may be thousands, and the card counts them. */
    private void strays(double timeS) {
        if (!strayed && session.quality().strays() > 0) {
            strayed = true;
            note("what was sent just before " + Words.clock(timeS)
                    + " is nowhere the aircraft could have flown to, and it did not stay there: it is left out, and so"
                    + " is what strays after it");
        }
    }

    /** What was said on the radio after the last sample and before the next. */
    private void hear() {
        while (!talk.isEmpty() && talk.peek().timeS() <= session.lastS().orElse(-1) + SAME_S) {
            session.heard(talk.remove());
        }
    }

    @Override
    public void silence(AircraftKey unused, double receiptS) {
        if (!freeze.silence()) {
            session.silence(receiptS);
        }
    }

    @Override
    public void timeBase(AircraftKey unused, double timeS, TimeBase base) {
        LOG.debug("{}: times by the clock of the {}: {}", name.label(), base.clock(), base.reason());
        if (base.clock() == TimeBase.Clock.RECEIPT) {
            note("times are those at which the datagrams arrived here: " + base.reason());
        }
    }

    @Override
    public void control(AircraftKey unused, double timeS, Decoded.Control.What what) {
        switch (what) {
            case PAUSED -> freeze.stop(timeS);
            case RESUMED -> freeze.resume(timeS);
            case REMOVED -> {}
        }
        removed = removed && what == Decoded.Control.What.REMOVED;
        if (what == Decoded.Control.What.REMOVED && !removed) {
            removed = true; // some senders say it again and again, until they are closed
            note("the sender took the aircraft out of the simulation");
        }
    }

    @Override
    public void note(AircraftKey unused, double timeS, String text) {
        note(text);
    }

    void note(String text) {
        watchers.forEach(watcher -> watcher.note(text));
    }

    void finish() {
        session.finish();
        session.lastS().ifPresent(this::strays);
    }
}
