package org.rejoin.console.grade;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.flight.Point;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.ocean.ClosedFormFlight;
import org.rejoin.bridge.ocean.Habit;
import org.rejoin.bridge.ocean.Ocean;
import org.rejoin.bridge.ocean.Ocean.Leg;
import org.rejoin.protocol.AircraftState;

import org.junit.jupiter.api.Test;

/**
 * The drawing of the tracker's states has the steps that flights in closed form make from state to state: each that is
 * drawn is made, and none is made that is not drawn.
 */
class TrackerStatesTest {
    private static final String ANEW = "fly heading 180, intercept V40, resume own navigation";

    private final Set<String> made = new TreeSet<>();

    private void fly(List<AircraftState> states, Amendment... amendments) {
        Flown flown = Flown.fly(states, List.of(amendments));
        Point.Phase last = null;
        for (Point progress : flown.progress()) {
            if (progress.phase() != last) {
                made.add((last == null ? "[*]" : last) + " --> " + progress.phase());
            }
            last = progress.phase();
        }
    }

    private void everyHabit() {
        for (Habit habit : Habit.values()) {
            List<AircraftState> states = FeedFairnessTest.flight(habit).sample(2);
            fly(states, Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000));
        }
    }

    /** Something said in each state: on the heading, on the radial, in the turn at the fix, on the airway. */
    private void saidInEachState(String text) {
        List<AircraftState> states = FeedFairnessTest.flight(Habit.SOUND).sample(2);
        Amendment cleared = Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000);
        Flown sound = Flown.fly(states);
        for (Point.Phase phase : Point.Phase.values()) {
            if (phase == Point.Phase.HOLDING) {
                continue;
            }
            double fromS = sound.progress().stream()
                    .filter(progress -> progress.phase() == phase)
                    .findFirst()
                    .orElseThrow()
                    .timeS();
            if (phase != Point.Phase.AS_FILED) {
                fly(states, cleared, Ocean.say(fromS + 3, text));
            }
        }
    }

    private void setBackInEachState() {
        List<AircraftState> full = FeedFairnessTest.flight(Habit.SOUND).sample(1);
        for (int back : new int[] {400, full.size() - 75, full.size() - 40}) {
            List<AircraftState> states = new ArrayList<>(full.subList(0, back));
            full.subList(40, full.size()).forEach(s -> states.add(s.withTimeS(s.timeS() + back - 40)));
            fly(states, Ocean.at(2, Ocean.radialClearance(full.get(0)), 6000));
        }
    }

    /** Beside the radial all the way, and round onto the airway. */
    private void neverOnTheRadial() {
        Leg leg = Ocean.toRadial(45, -1, 120, Ocean.CALM);
        leg.flight.miles(3);
        leg.turnOn().toFixLessNm(leg.flight.radiusNm()).ontoAirway();
        List<AircraftState> states = leg.flight.sample(2);
        fly(states, Ocean.at(2, Ocean.radialClearance(states.get(0)), 6000));
    }

    private void othersThanRadials() {
        List<AircraftState> states = FeedFairnessTest.flight(Habit.SOUND).sample(2);
        int heading = Ocean.magneticHeading(states.get(0));
        fly(states, Ocean.say(2, String.format(Locale.ROOT, "fly heading %03d", heading)));
        fly(states, Ocean.say(2, "maintain 6000"));
        fly(states, Ocean.say(2, "direct SOUTH"));
    }

    /** Entered, and left by a clearance, a word taken back, a move, or nothing at all. */
    private void inAHold() {
        Position fix = new Position(30, -45);
        Position start = fix.destination(new TrueDirection(270), 8);
        ClosedFormFlight flight =
                new ClosedFormFlight(start, start.to(fix).initial().deg(), 120, Ocean.CALM).miles(8);
        double fixS = flight.endS();
        flight.turn(180).seconds(60).turn(180).seconds(250);
        List<AircraftState> states = flight.sample(1);
        Amendment hold = Ocean.say(2, "direct AAA, hold west of AAA on the 282 radial");
        fly(states, hold);
        fly(states, hold, Ocean.say(fixS + 100, "disregard"));
        fly(states, hold, Ocean.say(fixS + 100, "direct NORTH, then as filed"));
        int held = (int) fixS + 100;
        List<AircraftState> moved = new ArrayList<>(states.subList(0, held));
        states.subList(0, 100).forEach(s -> moved.add(s.withTimeS(s.timeS() + held)));
        fly(moved, hold);
    }

    @Test
    void theDrawingHasTheStepsThatFlightsMake() throws IOException {
        everyHabit();
        saidInEachState("disregard");
        saidInEachState(ANEW);
        setBackInEachState();
        neverOnTheRadial();
        othersThanRadials();
        inAHold();
        assertThat(drawn()).isEqualTo(made);
        assertThat(made.stream()
                        .map(step -> step.substring(step.indexOf("> ") + 2))
                        .collect(Collectors.toSet()))
                .isEqualTo(Arrays.stream(Point.Phase.values()).map(Enum::name).collect(Collectors.toSet()));
    }

    private static Set<String> drawn() throws IOException {
        Path here = Path.of("bridge", "docs", "tracker.md");
        String page = Files.readString(Files.exists(here) ? here : Path.of("..").resolve(here));
        int begin = page.indexOf("stateDiagram-v2");
        return Pattern.compile("^\\s*(\\S+ --> \\S+?)(?::.*)?$", Pattern.MULTILINE)
                .matcher(page.substring(begin, page.indexOf("```", begin)))
                .results()
                .map(match -> match.group(1))
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
