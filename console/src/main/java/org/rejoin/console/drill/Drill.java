package org.rejoin.console.drill;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.skill.Difficulty;
import org.rejoin.console.skill.Features;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Line;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.words.Words;

/**
 * A clearance to be flown or worked out, drawn on a chart.
 *
 * @param seed it was drawn from
 * @param say ATC's words
 * @param start where the aircraft begins
 * @param heardS seconds after the start at which the clearance is spoken
 * @param heard where the aircraft is then
 * @param date for the magnetic model
 * @param route worked out by the program from where the clearance is heard
 * @param features measured on that route
 */
public record Drill(
        long seed,
        FiledRoute filed,
        String say,
        Lesson.Start start,
        double heardS,
        Position heard,
        Wind wind,
        LocalDate date,
        AmendedRoute route,
        Features features) {

    /** Changes when the same seed gives another drill than before. */
    public static final int VERSION = 4;

    /** A name that can be read and told from others; the whole seed stands in the lesson. */
    private static final int SHOWN_SEEDS = 10_000;

    /** What a drill is graded against. */
    public static final String STANDARD = "instrument-rating";

    /** {@return how hard it is, in logits; by skill; only skills that the shape shows} */
    public Map<Skill, Double> difficulty() {
        return Difficulty.BUILT_IN.of(features);
    }

    /** {@return the line it leads to, as far as it tells drills apart} */
    public Line line() {
        return Measured.line(route);
    }

    /** {@return the heading flown before the clearance, by the compass} */
    public MagneticDirection presentHeading() {
        return start.heading();
    }

    /** {@return the altitude to fly at once the clearance is heard, feet above mean sea level} */
    public double altitudeFt() {
        return route.clearance().altitudeFt().orElse(start.altitudeFt());
    }

    /** {@return a title that gives nothing away but the shape and a short number made of the seed, one line} */
    public String title() {
        return "Drill " + features.shape().option() + " " + Math.floorMod(seed, SHOWN_SEEDS) + ": "
                + features.shape().words();
    }

    /** The drill as an attempt at it by a pilot, with its marks. */
    public GradedAttempt attempt(String pilot, Instant at, List<Mark> marks) {
        return new GradedAttempt(
                pilot,
                at,
                features.shape().option(),
                Words.side(features.turnOntoCourseDeg() > 0),
                line(),
                OptionalDouble.empty(),
                List.of(),
                marks);
    }

    /** The drill as a lesson to fly, on the chart it was drawn on, with the files that a recording is to keep. */
    public Lesson lesson(Chart chart, Lesson.Files files) {
        return new Lesson(
                title(),
                chart,
                filed,
                Optional.of(date),
                Optional.empty(),
                Optional.of(start),
                wind,
                List.of(new Amendment(new Amendment.When.ElapsedS(heardS), say, OptionalDouble.of(altitudeFt()))),
                STANDARD,
                Optional.empty(),
                files,
                List.of());
    }
}
