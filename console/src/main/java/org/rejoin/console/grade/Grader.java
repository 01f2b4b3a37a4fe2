package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FeedQuality;
import org.rejoin.bridge.flight.FlightEvent;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.words.Words;

import org.jspecify.annotations.Nullable;

/**
 * Reads the record of a flight and grades it: each attempt, and in it each amendment on its own. The same record gives the
 * same grade, live or from a recording.
 */
public final class Grader implements Entry.Reader {

    private final ToleranceSet set;
    private final List<AttemptGrade> before = new ArrayList<>();
    private final List<AmendmentGrader> amendments = new ArrayList<>();
    private @Nullable AmendmentGrader current;
    private final List<String> notes = new ArrayList<>();
    private double fromS;
    private double toS;
    private boolean over;
    private @Nullable FeedQuality feed;

    public Grader(ToleranceSet set) {
        this.set = set;
    }

    /** The grade of a flight, final where it has ended. */
    public static Grade grade(FlightRecord record, ToleranceSet set) {
        Grader grader = new Grader(set);
        record.entries().forEach(entry -> entry.readBy(grader));
        return grader.grade();
    }

    @Override
    public void point(Point point) {
        toS = point.timeS();
        for (AmendmentGrader amendment : amendments) {
            if (amendment == current || amendment.owes()) {
                amendment.point(point);
            }
        }
    }

    @Override
    public void issued(Entry.Issued issued) {
        AmendmentGrader inForce = current;
        if (inForce != null && !inForce.ended() && issued.clearance().routeStays()) {
            // What stands again beside a clearance that went on was told to it before.
            if (!inForce.goesOn() || !issued.asBefore()) {
                inForce.further(issued);
            }
            return;
        }
        if (inForce != null) {
            inForce.replace(issued.timeS());
        }
        AmendmentGrader before = issued.asBefore() ? before(issued) : null;
        if (before != null && before.isOf(issued)) {
            before.goOn(inForce);
            current = before;
            return;
        }
        AmendmentGrader fresh = new AmendmentGrader(set, issued, before, inForce);
        if (issued.asBefore()) {
            fresh.takenBack(inForce);
        }
        amendments.add(fresh);
        current = fresh;
    }

    /** What was flown of a clearance before another took its place; null where that is not known. */
    private @Nullable AmendmentGrader before(Entry.Issued issued) {
        for (int i = amendments.size() - 1; i >= 0; i--) {
            if (amendments.get(i).isReplaced(issued.clearance().text())) {
                return amendments.get(i);
            }
        }
        return null;
    }

    @Override
    public void withdrawn(Entry.Withdrawn withdrawn) {
        if (current != null && !current.ended()) {
            current.withdraw(withdrawn.flownS());
        }
    }

    @Override
    public void happened(Entry.Happened happened) {
        FlightEvent event = happened.event();
        toS = Math.max(toS, event.timeS());
        if (event instanceof FlightEvent.Repositioned moved) {
            before.add(attempt(true, judgesTrack()));
            amendments.clear();
            current = null;
            fromS = moved.timeS();
            notes.add(Words.say(
                    "the aircraft was moved by %.1f NM at %.0f s: attempt %d begins there",
                    moved.jumpNm(), moved.timeS(), before.size() + 1));
            return;
        }
        if (event instanceof FlightEvent.FeedResumed gap) {
            notes.add(Words.say(
                    "nothing that can have been flown was received in the %.0f s before %.0f s, and nothing is judged"
                            + " there",
                    gap.gapS(), gap.timeS()));
        }
        over |= event instanceof FlightEvent.FlightEnded;
        for (AmendmentGrader amendment : amendments) {
            if (amendment == current || amendment.owes()) {
                amendment.happened(happened);
            }
        }
        if (current != null && event instanceof FlightEvent.GradedPartEnded) {
            current.end(event.timeS());
            amendments.forEach(AmendmentGrader::owesNoMore);
        }
    }

    private AttemptGrade attempt(boolean ended, boolean judgesTrack) {
        List<AmendmentGrade> grades = new ArrayList<>();
        Map<AmendmentGrader, Integer> places = new HashMap<>();
        for (AmendmentGrader amendment : amendments) {
            AmendmentGrade grade = amendment.grade(ended || amendment != current, judgesTrack);
            Integer place = places.get(amendment.before());
            if (place == null) {
                places.put(amendment, grades.size());
                grades.add(grade);
            } else {
                // One amendment in two parts: one table, one score.
                places.put(amendment, place);
                grades.set(place, grades.get(place).goingOn(grade));
            }
        }
        return new AttemptGrade(fromS, toS, grades);
    }

    /** What the feed is measured by. */
    public void measuredBy(FeedQuality quality) {
        feed = quality;
    }

    private boolean judgesTrack() {
        return feed == null || feed.canJudgeTrack();
    }

    /**
     * {@return the grade so far, of what the flight has come to; final once the flight has ended; attempts, and what could
     * not be graded}
     */
    public Grade grade() {
        List<AttemptGrade> attempts = new ArrayList<>(before);
        AttemptGrade present = attempt(over, judgesTrack());
        attempts.add(present);
        List<String> all = new ArrayList<>(notes);
        boolean heard =
                attempts.stream().anyMatch(attempt -> !attempt.amendments().isEmpty());
        if (!heard) {
            all.add("no clearance was issued: nothing to grade");
        }
        Optional<FeedLine> line = Optional.ofNullable(feed).map(FeedLine::of);
        Grade grade = new Grade(set.name(), set.task(), attempts, all, line);
        grade.last().amendments().forEach(amendment -> all.addAll(amendment.notes()));
        return new Grade(set.name(), set.task(), attempts, all, line);
    }
}
