package org.rejoin.console.flight;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Collectors;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.FlightSession;
import org.rejoin.bridge.TimeOfDay;
import org.rejoin.bridge.feed.AircraftChoice;
import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.AircraftSorter;
import org.rejoin.bridge.feed.DayClock;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.flight.Rule;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.recording.Said;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * Takes the aircraft of a feed through a lesson, each by itself: the first, those named or all. The same for a live flight
 * and for a recording. Confined to the thread that feeds it.
 */
public final class LessonFlights implements AircraftSink {

    /** Aircraft that are heard and not followed are told of at most so often. */
    private static final int TOLD = 100;

    /** Of those heard instead of the one asked for, so many are named. */
    private static final int MOST_NAMED = 20;

    /** Of those that are not followed nothing is taken. */
    private static final AircraftSink NOBODY = new AircraftSink() {};

    /** Sees a flight go by, with what the feed has to say. */
    public interface Watcher extends Entry.Reader {
        /** Something about the feed that the flight did not do, one line. */
        default void note(String text) {}

        /** Something came from the aircraft, whether it flies or is paused. */
        default void heard(AircraftState state) {}
    }

    private final Lesson lesson;
    private final ToleranceSet set;
    private final Supplier<LocalDate> date;
    private final Following following;
    private final Supplier<FlightRecord> records;
    private final Function<FlownAircraft, List<Watcher>> watchers;
    private final Said said;
    private final AircraftName.Names names = new AircraftName.Names();
    private final Map<AircraftKey, AircraftName> called = new HashMap<>();
    private final Map<AircraftKey, FlownAircraft> flown = new LinkedHashMap<>();
    private final Map<AircraftKey, String> passed = new LinkedHashMap<>();
    private final Set<String> namesTaken = new HashSet<>();
    private int told;
    private @Nullable FlownAircraft first;

    /**
     * No aircraft yet.
     *
     * @param date for the magnetic model; asked as each aircraft appears
     * @param records makes a record for each aircraft: whole, or without points where it is followed for hours
     * @param watchers asked once for each aircraft as its first sample comes
     * @param said clearances that were issued in flight, and what was said on the radio
     */
    public LessonFlights(
            Lesson lesson,
            ToleranceSet set,
            Supplier<LocalDate> date,
            Following following,
            Supplier<FlightRecord> records,
            Function<FlownAircraft, List<Watcher>> watchers,
            Said said) {
        this.records = records;
        this.said = said;
        this.lesson = lesson;
        this.set = set;
        this.date = date;
        this.following = following;
        this.watchers = watchers;
    }

    @Override
    public AircraftSink heard(AircraftKey key, String marking, String format, DayClock clock) {
        // Forgotten by the feed and heard again it has another clock, which must not go on in the flight that there is.
        if (!flown.containsKey(key) && wanted(key, marking)) {
            return begin(key, marking, format, clock);
        }
        if (!flown.containsKey(key) && first != null && told++ < TOLD) {
            first.note("a second aircraft, " + key.label() + ", is heard and not followed; this flight is of "
                    + first.key().label());
        }
        return NOBODY;
    }

    /** {@return which samples the feed need give, for the feed's thread; it remembers who else is heard} */
    public AircraftChoice choice() {
        return following.names().isEmpty() ? AircraftChoice.all() : (key, sample) -> follows(key, sample.marking());
    }

    private boolean follows(AircraftKey key, String marking) {
        if (following.names().stream().anyMatch(name -> goesBy(name, key, marking))) {
            passed.remove(key);
            return true;
        }
        if (passed.size() < AircraftSorter.MOST) {
            passed.putIfAbsent(key, name(key, marking).label());
        }
        return false;
    }

    /** By the sender's own names, and by those that this program prints. */
    private boolean goesBy(String name, AircraftKey key, String marking) {
        return AircraftChoice.goesBy(name, key, marking)
                || name.strip().equalsIgnoreCase(key.label())
                || (called.size() < AircraftSorter.MOST
                        && name.strip().equalsIgnoreCase(name(key, marking).label()));
    }

    private AircraftName name(AircraftKey key, String marking) {
        return called.computeIfAbsent(key, unnamed -> names.next(unnamed, marking));
    }

    private boolean wanted(AircraftKey key, String marking) {
        if (following.every()) {
            return flown.size() < AircraftSorter.MOST;
        }
        return following.names().isEmpty()
                ? flown.isEmpty()
                : following.names().stream().anyMatch(name -> goesBy(name, key, marking) && namesTaken.add(name));
    }

    /**
     * {@return which aircraft were asked for and not heard, and who was heard instead; one line; empty where all were heard
     * or none was asked for by name}
     */
    public Optional<String> missed() {
        if (namesTaken.containsAll(following.names())) {
            return Optional.empty();
        }
        String missing = following.names().stream()
                .filter(name -> !namesTaken.contains(name))
                .collect(Collectors.joining(" or "));
        String heard = passed.values().stream().sorted().limit(MOST_NAMED).collect(Collectors.joining(", "));
        int more = Math.max(0, passed.size() - MOST_NAMED);
        return Optional.of("no aircraft goes by the name of " + missing
                + (heard.isEmpty()
                        ? "; no other was heard"
                        : "; heard were " + heard + (more > 0 ? " and " + more + " more" : "")));
    }

    private FlownAircraft begin(AircraftKey key, String marking, String format, DayClock clock) {
        FlownAircraft aircraft = new FlownAircraft(
                key,
                name(key, marking),
                new FlightSession.Setting(
                        lesson.chart(),
                        lesson.filed(),
                        amendments(key),
                        date.get(),
                        lesson.wind(),
                        set.limits(),
                        (format.equals("dis") ? Rule.FeedLost.DIS : Rule.FeedLost.OTHER).timeoutS(),
                        timeOfDay(clock)),
                set,
                records.get());
        aircraft.toHear(said.to(key.label()).talk());
        aircraft.watchedBy(watchers.apply(aircraft));
        flown.put(key, aircraft);
        first = first == null ? aircraft : first;
        return aircraft;
    }

    /** The lesson's, or the feed's; that of the computer belongs to today, not to a day that was named. */
    private Optional<TimeOfDay> timeOfDay(DayClock clock) {
        return lesson.time()
                .map(time -> new TimeOfDay(time, true))
                .or(() -> clock.sender()
                        .or(() -> lesson.date().isEmpty() ? Optional.of(clock.receipt()) : Optional.empty())
                        .map(time -> new TimeOfDay(time, false)));
    }

    /** Those of the lesson, then those issued in flight, each at the sample it was issued at. */
    private List<Amendment> amendments(AircraftKey key) {
        List<Amendment> all = new ArrayList<>(lesson.amendments());
        for (InstructorFile.Spoken each : said.spoken()) {
            if (each.seat().equals(key.label())) {
                all.add(new Amendment(new Amendment.When.ElapsedS(each.elapsedS()), each.say(), each.altitudeFt()));
            }
        }
        return all;
    }

    /** The flight is over. */
    public void finish() {
        flown.values().forEach(FlownAircraft::finish);
    }

    /** {@return the aircraft that are flown; a copy, in order of appearance} */
    public List<FlownAircraft> flown() {
        return List.copyOf(flown.values());
    }

    /** {@return whether every aircraft is through with the lesson; false while there is none} */
    public boolean complete() {
        return all(FlightSession::complete);
    }

    /**
     * {@return whether every aircraft is through with the lesson, and no hold or heading of it goes on; false while there is
     * none}
     */
    public boolean over() {
        return all(FlightSession::over);
    }

    private boolean all(Predicate<FlightSession> so) {
        return !flown.isEmpty()
                && flown.values().stream().map(FlownAircraft::session).allMatch(so);
    }
}
