package org.rejoin.console.practice;

import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Queue;
import java.util.SplittableRandom;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.Consumer;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.Standing;
import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.Geodesics;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.lesson.LessonException;
import org.rejoin.protocol.AircraftState;

import org.jspecify.annotations.Nullable;

/**
 * One flight of the practice aircraft through a lesson: from the start until the amendment and the turn at the end of the
 * intercepted leg are behind. Pure simulation: gives out the states that a simulator would send, at its own time.
 */
public final class PracticeFlight {

    /** The aircraft is moved at least this often. */
    private static final double STEPS_PER_S = 20;

    /** No lesson is longer, seconds. */
    private static final double LONGEST_S = 3 * 3600;

    /** A clearance that is not due after this long, seconds, is never due: its point does not pass abeam. */
    private static final double LONGEST_WAIT_S = 3600;

    private static final long GUST_SEED = 8785;

    private final Lesson lesson;
    private final LocalDate date;
    private final Habit habit;
    private final Deque<Amendment> due;
    private final Queue<Amendment> spoken = new ConcurrentLinkedQueue<>();
    private final DrydenGusts gusts;
    private final double speedKt;
    private PracticeAircraft aircraft;
    private double altitudeFt;
    private final Deque<InTurn<Instruction.Maintain>> later = new ArrayDeque<>();
    private double heardS;
    private @Nullable PracticePilot pilot;
    private @Nullable AmendedRoute inForce;

    private final Standing<Heard> standing = new Standing<>();

    private boolean habitShown;

    /** A clearance, with what is flown from then on. */
    private record Heard(Amendment amendment, AmendedRoute route, double altitudeFt) {}

    /**
     * A flight in smooth air.
     *
     * @throws LessonException if the lesson has no start
     */
    public PracticeFlight(Lesson lesson, LocalDate date, Habit habit) throws LessonException {
        this(lesson, date, habit, 0);
    }

    /**
     * A flight in gusts. The same gusts come with each flight.
     *
     * @param gustsKt the wind at 20 ft that makes the gusts, knots, [0, 60], as in {@link Turbulence#at}; 0 for none
     * @throws LessonException if the lesson has no start
     */
    public PracticeFlight(Lesson lesson, LocalDate date, Habit habit, double gustsKt) throws LessonException {
        Lesson.Start start = lesson.start()
                .orElseThrow(() -> new LessonException(
                        lesson.title() + ": start is missing; the practice aircraft needs start: {at: \"LAT,LON\","
                                + " altitude_ft: 5000, heading_magnetic_deg: 120, speed_kt: 120}"));
        this.lesson = lesson;
        this.date = date;
        this.habit = habit;
        this.due = new ArrayDeque<>(lesson.amendments());
        this.altitudeFt = start.altitudeFt();
        this.gusts = new DrydenGusts(new SplittableRandom(GUST_SEED), gustsKt);
        this.speedKt = start.speedKt();
        this.aircraft = PracticeAircraft.at(start, lesson.wind(), date);
    }

    /**
     * Flies it, at so many states a second of simulation time, above 0. The sink takes each, {@code timeS} from 0, and
     * may block to keep pace.
     *
     * @throws LessonException if a clearance cannot be worked out where it is spoken
     */
    public void fly(double hz, Consumer<AircraftState> sink) throws LessonException {
        // Whole steps between two states, so that every state is sent at its own instant.
        long stepsPerState = (long) Math.ceil(STEPS_PER_S / hz);
        double stepS = 1 / (hz * stepsPerState);
        TrueDirection headingBefore = aircraft.heading();
        for (long step = 0; aircraft.timeS() < LONGEST_S && !over(); step++) {
            if (step % stepsPerState == 0) {
                sink.accept(aircraft.state(variation()));
            }
            PracticeAircraft before = aircraft;
            double bank = pilot == null ? Guidance.bankForHeading(aircraft, headingBefore) : pilot.bank(aircraft);
            changeOver();
            DrydenGusts.Gust gust = gusts.next(stepS, aircraft.trueAirspeedKt(), aircraft.altitudeFt());
            aircraft = aircraft.after(
                    stepS,
                    new PracticeAircraft.Controls(
                            bank, pilot == null ? altitudeFt : pilot.altitudeFt(altitudeFt), speedKt),
                    altitude -> lesson.wind(),
                    gust);
            hear(before);
        }
    }

    private void changeOver() {
        PracticePilot flying = pilot;
        while (flying != null
                && !later.isEmpty()
                && flying.isPassed(later.getFirst().from().orElseThrow())) {
            altitudeFt = later.removeFirst().said().feet();
        }
    }

    private Variation variation() {
        return MagneticModel.WMM2025.variation(aircraft.position(), aircraft.altitudeFt(), date);
    }

    private boolean over() {
        PracticePilot flying = pilot;
        if (flying == null || !due.isEmpty()) {
            return aircraft.timeS() > heardS + LONGEST_WAIT_S;
        }
        return flying.done(aircraft);
    }

    /**
     * Speaks a clearance in ATC's words in flight; the pilot hears it at the next step. Where no altitude, feet, is
     * assigned with it, the one in the words is. May be called from any thread.
     */
    public void speak(String say, OptionalDouble assignedFt) {
        spoken.add(new Amendment(new Amendment.When.ElapsedS(0), say, assignedFt));
    }

    private void hear(PracticeAircraft before) throws LessonException {
        for (Amendment now = spoken.poll(); now != null; now = spoken.poll()) {
            hear(now, Clearance.Reached.NOTHING);
        }
        while (!due.isEmpty() && isDue(due.getFirst(), before)) {
            hear(due.removeFirst(), Clearance.Reached.NOTHING);
        }
    }

    private void hear(Amendment amendment, Clearance.Reached reached) throws LessonException {
        try {
            Clearance clearance = ClearanceReader.read(amendment.say(), lesson.chart(), lesson.filed())
                    .left(reached);
            boolean flown = pilot != null && pilot.flownToItsEnd();
            Clearance.Reached reachedBefore = pilot == null ? Clearance.Reached.NOTHING : pilot.reached();
            if (clearance.disregards()) {
                boolean asFiled = clearance.first(Instruction.Onward.class).isPresent();
                List<Heard> stands = standing.besideTakenBack(asFiled);
                if (!stands.isEmpty()) {
                    restored(stands.get(stands.size() - 1), clearance);
                    return;
                }
                Standing.Again<Heard> stood = standing.takenBack(asFiled, flown);
                List<Heard> again = stood.each();
                if (!again.isEmpty()) {
                    for (Heard each : again) {
                        hear(each.amendment(), stood.reached());
                    }
                    altitudeFt = clearance
                            .altitudeFt()
                            .orElse(again.get(again.size() - 1).altitudeFt());
                    return;
                }
            }
            Situation situation = new Situation(
                    aircraft.position(),
                    OptionalDouble.of(aircraft.altitudeFt()),
                    aircraft.trueAirspeedKt(),
                    RouteAmender.needsPresentHeading(clearance)
                            ? Optional.of(aircraft.heading().toMagnetic(variation()))
                            : Optional.empty(),
                    aircraft.wind(),
                    date);
            AmendedRoute route = RouteAmender.amend(lesson.chart(), lesson.filed(), clearance, situation);
            PracticePilot flying = pilot;
            AmendedRoute before = inForce;
            AmendedRoute now = route;
            if (flying != null && before != null && clearance.routeStays()) {
                now = before.keptUnder(route);
                flying.further(now);
            } else {
                habitShown |= PracticePilot.shows(habit, route);
                pilot = new PracticePilot(route, habit, aircraft);
            }
            inForce = now;
            heardS = aircraft.timeS();
            altitudeFt = amendment.altitudeFt().orElse(clearance.altitudeFt().orElseGet(() -> crossed(route)));
            if (amendment.altitudeFt().isPresent() || !clearance.altitudes().isEmpty()) {
                later.clear();
                clearance.withAltitude(amendment.altitudeFt()).altitudes().stream()
                        .filter(turn -> turn.from().isPresent())
                        .forEach(later::add);
            }
            if (!clearance.disregards()) {
                standing.issued(new Heard(amendment, now, altitudeFt), clearance.routeStays(), flown, reachedBefore);
            }
            if (due.isEmpty() && !habitShown) {
                throw new LessonException("the habit " + habit + " does not show in \"" + amendment.say()
                        + "\": nothing in it is met on a heading, or turned at; fly it with another pilot");
            }
        } catch (ClearanceException e) {
            throw new LessonException(
                    String.format(
                            Locale.ROOT,
                            "the clearance \"%s\" cannot be issued where it is due, after %.0f s at \"%.3f,%.3f\": %s",
                            amendment.say(),
                            aircraft.timeS(),
                            aircraft.position().latitudeDeg(),
                            aircraft.position().longitudeDeg(),
                            e.getMessage()),
                    e);
        }
    }

    /** An altitude alone was taken back: the route goes on, at the altitude before. */
    private void restored(Heard stands, Clearance words) {
        inForce = stands.route();
        if (pilot != null) {
            pilot.further(stands.route());
        }
        heardS = aircraft.timeS();
        altitudeFt = words.altitudeFt().orElse(stands.altitudeFt());
    }

    /** Without an assigned altitude the one of the last crossing stays, once it was passed. */
    private double crossed(AmendedRoute route) {
        return route.crossings().stream()
                .filter(plan -> plan.said().bound() == Instruction.CrossAt.Bound.AT)
                .mapToDouble(plan -> plan.said().feet())
                .reduce((first, second) -> second)
                .orElse(altitudeFt);
    }

    private boolean isDue(Amendment amendment, PracticeAircraft before) {
        if (amendment.when() instanceof Amendment.When.ElapsedS elapsed) {
            return aircraft.timeS() >= elapsed.seconds();
        }
        String ident = ((Amendment.When.Abeam) amendment.when()).ident();
        Waypoint point = lesson.chart().waypoints(ident).get(0);
        return ahead(before, point) > 0 && ahead(aircraft, point) <= 0;
    }

    private static double ahead(PracticeAircraft aircraft, Waypoint point) {
        Geodesics.Inverse way = aircraft.position().to(point.position());
        return way.distanceNm()
                * Math.cos(Math.toRadians(Angles.turn(
                        way.initial().deg() - aircraft.ground().track().deg())));
    }
}
