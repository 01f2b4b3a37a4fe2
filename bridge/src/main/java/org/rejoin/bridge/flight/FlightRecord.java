package org.rejoin.bridge.flight;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.AmendedRoute;

/**
 * One flight, told once, in order of time: what the aircraft did, what ATC said, what happened. Everything that is shown,
 * said or graded is read from here. Append-only; confined to the thread that flies it.
 */
public final class FlightRecord {

    /** Times within this are one instant, seconds. */
    private static final double SAME_INSTANT_S = 1e-6;

    /**
     * What is in force.
     *
     * @param sinceS from when, seconds since the first sample
     * @param route amended; empty as filed
     */
    public record InForce(double sinceS, Optional<AmendedRoute> route, Assigned assigned) {

        /** Before the first clearance. */
        public static final InForce AS_FILED = new InForce(0, Optional.empty(), Assigned.NOTHING);
    }

    /**
     * A clearance was taken back.
     *
     * @param timeS seconds since the first sample
     * @param asFiled whether the flight goes on as filed; else as cleared before
     */
    public record TakenBack(double timeS, boolean asFiled) {}

    private final List<Entry> entries = new ArrayList<>();
    private final List<InForce> inForce = new ArrayList<>(List.of(InForce.AS_FILED));
    private final boolean keepsPoints;
    private final Books books = new Books();
    private Consumer<Entry> reader;

    /** {@return a record that keeps all; empty} */
    public static FlightRecord whole() {
        return new FlightRecord(true);
    }

    /** A record of a flight that goes on for hours: its points are told as they come and not kept. */
    public static FlightRecord withoutPoints() {
        return new FlightRecord(false);
    }

    private FlightRecord(boolean keepsPoints) {
        this.keepsPoints = keepsPoints;
        this.reader = entry -> {};
    }

    /** Tells each entry from now on, once it stands in the record, on the thread that appends it. */
    public void tell(Consumer<Entry> next) {
        reader = reader.andThen(next);
    }

    /** Tells each entry from now on, after those that were told before. */
    public void tell(Entry.Reader next) {
        tell((Entry entry) -> entry.readBy(next));
    }

    /** Adds an entry, not earlier than the last but for an event located inside the step that ended there. */
    public void append(Entry entry) {
        if (keepsPoints || !(entry instanceof Point)) {
            entries.add(entry);
        }
        entry.readBy(books);
        reader.accept(entry);
    }

    /** Keeps what is asked for often. */
    private final class Books implements Entry.Reader {
        @Override
        public void issued(Entry.Issued issued) {
            inForce.add(new InForce(issued.timeS(), Optional.of(issued.route()), issued.assigned()));
        }

        @Override
        public void withdrawn(Entry.Withdrawn withdrawn) {
            inForce.add(new InForce(withdrawn.timeS(), Optional.empty(), withdrawn.assigned()));
        }

        @Override
        public void restored(Entry.Restored restored) {
            inForce.add(new InForce(restored.timeS(), Optional.of(restored.route()), restored.assigned()));
        }

        @Override
        public void changedOver(Entry.ChangedOver changedOver) {
            inForce.add(new InForce(changedOver.timeS(), inForce().route(), changedOver.assigned()));
        }

        @Override
        public void happened(Entry.Happened happened) {
            if (happened.event() instanceof FlightEvent.Repositioned) {
                // A second try has no memory of the first.
                inForce.add(new InForce(happened.timeS(), Optional.empty(), Assigned.NOTHING));
            }
        }
    }

    /** {@return all entries; a view, in order} */
    public List<Entry> entries() {
        return Collections.unmodifiableList(entries);
    }

    /** {@return the samples; in order of time; none where they are not kept} */
    public Stream<Point> points() {
        return entries.stream().filter(Point.class::isInstance).map(Point.class::cast);
    }

    /** {@return what happened, in order of time} */
    public List<FlightEvent> events() {
        return entries.stream()
                .filter(Entry.Happened.class::isInstance)
                .map(entry -> ((Entry.Happened) entry).event())
                .toList();
    }

    /**
     * Whether any clearance was issued. Asked at every tick of the clock: the entries are not looked through for it;
     * true once one was, taken back or not.
     */
    public boolean anyIssued() {
        return inForce.stream().anyMatch(each -> each.route().isPresent());
    }

    /** {@return the clearances as they came into force, in order of time} */
    public List<Entry.Issued> issued() {
        return entries.stream()
                .filter(Entry.Issued.class::isInstance)
                .map(Entry.Issued.class::cast)
                .toList();
    }

    /**
     * The amendments of the route as they were flown, in order of time: without those that were taken back before anybody had
     * to act on them, and each that goes on then once.
     */
    public List<Entry.Issued> amendments() {
        List<Entry.Issued> amendments = new ArrayList<>();
        for (Entry.Issued issued : issued()) {
            if (issued.clearance().routeStays()) {
                continue;
            }
            int before = amendments.size() - 2;
            boolean goesOn = issued.asBefore()
                    && before >= 0
                    && amendments.get(before).route().equals(issued.route());
            if (goesOn) {
                amendments.remove(before + 1);
            } else {
                amendments.add(issued);
            }
        }
        return amendments;
    }

    /**
     * Whether a clearance was taken back, and when.
     *
     * @param issued of this record
     * @return empty where it was flown, replaced, or stood to the end
     */
    public Optional<TakenBack> takenBack(Entry.Issued issued) {
        int from = entries.indexOf(issued) + 1;
        int beside = 0;
        for (Entry entry : entries.subList(from, entries.size())) {
            if (entry instanceof Entry.Withdrawn withdrawn) {
                return Optional.of(new TakenBack(withdrawn.timeS(), !withdrawn.givesBack()));
            } else if (entry instanceof Entry.Restored restored) {
                // The last of those that stand beside one another is taken back first.
                if (beside == 0) {
                    return Optional.of(new TakenBack(restored.timeS(), false));
                }
                beside--;
            } else if (entry instanceof Entry.Issued next) {
                if (!next.clearance().routeStays()) {
                    return Optional.empty();
                }
                beside++;
            } else if (entry instanceof Entry.Happened happened
                    && happened.event() instanceof FlightEvent.Repositioned) {
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** What is in force now; {@link InForce#AS_FILED} before the first clearance. */
    public InForce inForce() {
        return inForce.get(inForce.size() - 1);
    }

    /** What was in force at a time; what came into force at this instant counts. */
    public InForce inForce(double timeS) {
        for (int i = inForce.size() - 1; i > 0; i--) {
            if (inForce.get(i).sinceS() <= timeS + SAME_INSTANT_S) {
                return inForce.get(i);
            }
        }
        return InForce.AS_FILED;
    }

    /**
     * The track in pieces: a new one begins wherever the aircraft was moved, paused or not heard; one or more points
     * each, in order of time.
     */
    public List<List<Point>> pieces() {
        return pieces(points().toList());
    }

    /** Some of the track in pieces. */
    public static List<List<Point>> pieces(List<Point> points) {
        List<List<Point>> pieces = new ArrayList<>();
        for (Point point : points) {
            if (pieces.isEmpty() || point.newPiece()) {
                pieces.add(new ArrayList<>());
            }
            pieces.get(pieces.size() - 1).add(point);
        }
        return pieces;
    }

    /**
     * Where the aircraft was; outside the flight its nearer end. Between two pieces of the track it stays where it was
     * last heard: what lies between was not flown.
     *
     * @throws IllegalStateException if the record has no points
     */
    public Position positionAt(double timeS) {
        Point before = null;
        Point after = null;
        for (Entry entry : entries) {
            if (entry instanceof Point point) {
                if (point.timeS() <= timeS + SAME_INSTANT_S || before == null) {
                    before = point;
                } else {
                    after = point;
                    break;
                }
            }
        }
        if (before == null) {
            throw new IllegalStateException("a record without points has no positions");
        }
        if (after == null || after.newPiece() || timeS <= before.timeS()) {
            return before.position();
        }
        double share = (timeS - before.timeS()) / (after.timeS() - before.timeS());
        return before.position().toward(after.position(), share);
    }
}
