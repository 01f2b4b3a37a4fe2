package org.rejoin.console.room;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Stream;

import org.rejoin.bridge.feed.AircraftKey;
import org.rejoin.bridge.feed.AircraftSink;
import org.rejoin.bridge.feed.DayClock;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.Warning;
import org.rejoin.console.flight.FlownAircraft;
import org.rejoin.console.flight.Following;
import org.rejoin.console.flight.LessonFlights;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.Grader;
import org.rejoin.console.grade.ToleranceSet;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.console.page.PageServer;
import org.rejoin.console.page.PageShow;
import org.rejoin.console.practice.Habit;
import org.rejoin.console.practice.PracticeAircraft;
import org.rejoin.console.practice.PracticeFlight;
import org.rejoin.console.recording.Said;
import org.rejoin.console.words.Words;
import org.rejoin.protocol.AircraftState;

/** A lesson flown once by the practice aircraft, without a socket: what its clearances give where they come. */
public final class Tryout {

    private static final double HZ = 2;

    /** Of whom no datagram comes. */
    static final AircraftKey ALONE = new AircraftKey(new InetSocketAddress(InetAddress.getLoopbackAddress(), 1), "");

    private final Lesson lesson;
    private final ToleranceSet set;
    private final FlownAircraft flown;
    private final Optional<String> problem;

    private Tryout(Lesson lesson, ToleranceSet set, FlownAircraft flown, Optional<String> problem) {
        this.lesson = lesson;
        this.set = set;
        this.flown = flown;
        this.problem = problem;
    }

    /**
     * One clearance where it came.
     *
     * @param atS seconds of the flight
     * @param say in ATC's words
     * @param warnings one line each; what it could not be issued for is one
     */
    public record Spoken(double atS, String say, List<String> warnings) {}

    /**
     * Flies a lesson.
     *
     * @return the flight, up to a clearance that cannot be issued
     * @throws LessonException if it has no start
     */
    public static Tryout of(Lesson lesson) throws IOException, LessonException {
        ToleranceSet set = ToleranceSet.read(lesson.standard());
        LocalDate date = date(lesson);
        List<AircraftState> states = new ArrayList<>();
        Optional<String> problem = Optional.empty();
        try {
            new PracticeFlight(lesson, date, Habit.GOOD).fly(HZ, states::add);
        } catch (LessonException e) {
            problem = Optional.of(String.valueOf(e.getMessage()));
        }
        if (states.isEmpty()) {
            throw new LessonException(problem.orElse("the practice aircraft flew nothing"));
        }
        return new Tryout(lesson, set, practised(lesson, set, date, states), problem);
    }

    private static LocalDate date(Lesson lesson) {
        return lesson.date().orElseGet(() -> LocalDate.now(ZoneOffset.UTC));
    }

    private static FlownAircraft practised(
            Lesson lesson, ToleranceSet set, LocalDate date, List<AircraftState> states) {
        return flown(lesson, set, () -> date, Said.NOTHING, "PRACTICE", DayClock.receivedAt(Instant.now()), states);
    }

    /** One aircraft from its states alone, by the tracker and grader of any flight. */
    static FlownAircraft flown(
            Lesson lesson,
            ToleranceSet set,
            Supplier<LocalDate> date,
            Said said,
            String label,
            DayClock clock,
            List<AircraftState> states) {
        LessonFlights flights =
                new LessonFlights(lesson, set, date, Following.FIRST, FlightRecord::whole, each -> List.of(), said);
        AircraftSink flight = flights.heard(ALONE, label, "", clock);
        states.forEach(state -> flight.state(ALONE, state));
        flights.finish();
        return flights.flown().get(0);
    }

    /**
     * A lesson as a page is told it before it is flown: chart, filed route, and the aircraft at the start where there is one.
     */
    static String outline(Lesson lesson) throws IOException {
        ToleranceSet set = ToleranceSet.read(lesson.standard());
        LocalDate date = date(lesson);
        if (lesson.start().isEmpty()) {
            return picture(lesson, set, date, new Grader(set).grade(), FlightRecord.whole());
        }
        PracticeAircraft begins = PracticeAircraft.at(lesson.start().get(), lesson.wind(), date);
        Variation variation = MagneticModel.WMM2025.variation(begins.position(), begins.altitudeFt(), date);
        FlownAircraft stands = practised(lesson, set, date, List.of(begins.state(variation)));
        return picture(lesson, set, date, stands.grade(), stands.record());
    }

    /** {@return why it was not flown to its end: a clearance that cannot be issued where it is due; one line} */
    public Optional<String> problem() {
        return problem;
    }

    Grade grade() {
        return flown.grade();
    }

    /** {@return its clearances, in the order they came} */
    public List<Spoken> spoken() {
        List<Spoken> spoken = new ArrayList<>();
        for (Entry entry : flown.record().entries()) {
            if (entry instanceof Entry.Issued issued) {
                spoken.add(new Spoken(
                        issued.timeS(),
                        issued.route().clearance().text(),
                        Stream.concat(
                                        issued.route().clearance().notes().stream(),
                                        issued.route().warnings().stream().map(Warning::text))
                                .toList()));
            } else if (entry instanceof Entry.NotIssued not) {
                spoken.add(new Spoken(not.timeS(), not.text(), List.of("it cannot be issued: " + not.why())));
            }
        }
        return spoken;
    }

    /** As a page is told it. */
    String picture() {
        return picture(lesson, set, date(lesson), flown.grade(), flown.record());
    }

    private static String picture(Lesson lesson, ToleranceSet set, LocalDate date, Grade grade, FlightRecord record) {
        return PageShow.replayed(
                new PageServer.Setting(lesson, set, () -> date, Words.CAUTION, false),
                "practice",
                "Practice aircraft",
                grade,
                record);
    }
}
