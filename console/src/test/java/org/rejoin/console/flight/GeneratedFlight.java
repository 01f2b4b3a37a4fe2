package org.rejoin.console.flight;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Variation;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.best.BestPath;
import org.rejoin.console.lesson.BuiltInLesson;
import org.rejoin.console.lesson.Lesson;

/**
 * A lesson made up from a seed on the chart of a built-in one: where the course is met, at what angle and from which
 * side, radial, airspeed and wind are drawn at random.
 */
final class GeneratedFlight {

    private static final double HEARD_S = 30;
    private static final double ALTITUDE_FT = 6000;

    /** What a clearance must leave room for: a whole lesson of any habit on the course, nautical miles. */
    private static final double LEAST_ON_COURSE_NM = 13;

    private static final double MOST_ON_COURSE_NM = 17;

    private final Lesson base;
    private final BuiltInLesson shape;
    private final SplittableRandom random;

    private GeneratedFlight(Lesson base, BuiltInLesson shape, long seed) {
        this.base = base;
        this.shape = shape;
        this.random = new SplittableRandom(seed);
    }

    /** A lesson whose clearance can be flown and needs no warning; others are drawn again. */
    static Lesson of(Lesson base, BuiltInLesson shape, long seed) {
        GeneratedFlight generated = new GeneratedFlight(base, shape, seed);
        for (int i = 0; i < 1000; i++) {
            Optional<Lesson> lesson = generated.draw();
            if (lesson.isPresent()) {
                return lesson.get();
            }
        }
        throw new IllegalStateException("no flyable clearance of shape " + shape + " from seed " + seed);
    }

    private double between(double least, double most) {
        return least + (most - least) * random.nextDouble();
    }

    private String words(int heading) {
        return String.format(
                Locale.ROOT,
                switch (shape) {
                    case HEADING_TO_AIRWAY -> "fly heading %03d, intercept V40, resume own navigation";
                    case RADIAL_INBOUND ->
                        "fly heading %03d, intercept the FUL " + radial + " radial, join V31, then as filed";
                    case RADIAL_OUTBOUND ->
                        "fly heading %03d, intercept the PTL " + radial + " radial, join V40, then as filed";
                },
                heading);
    }

    private String radial = "";

    private Optional<Lesson> draw() {
        Wind wind = new Wind(new TrueDirection(between(0, 360)), between(0, 30));
        double speedKt = between(100, 150);
        radial = String.format(
                Locale.ROOT,
                "%03d",
                Math.round(shape == BuiltInLesson.RADIAL_INBOUND ? between(282, 330) : between(50, 74)));
        double angleDeg = between(25, 75) * (random.nextBoolean() ? 1 : -1);
        double onCourseNm = between(LEAST_ON_COURSE_NM, MOST_ON_COURSE_NM);
        double beforeNm = between(4, 7);
        double turnBeforeDeg = between(-60, 60);
        LocalDate date = base.date().orElseThrow();
        // The course itself does not depend on where it is met from.
        Optional<GeodesicLine> course = amended(base.start().orElseThrow().position(), wind, speedKt, firstHeading())
                .flatMap(route -> route.legs().get(route.courseLeg()).line());
        if (course.isEmpty() || course.get().lengthNm() < onCourseNm + 8) {
            return Optional.empty();
        }
        double alongNm = course.get().lengthNm() - onCourseNm;
        Position met = course.get().pointAt(alongNm);
        double trackDeg = course.get().courseAt(alongNm).deg() - angleDeg;
        Variation variation = MagneticModel.WMM2025.variation(met, ALTITUDE_FT, date);
        Optional<GroundVector.HeadingForCourse> heading =
                GroundVector.forCourse(new TrueDirection(trackDeg), speedKt, wind);
        if (heading.isEmpty()) {
            return Optional.empty();
        }
        int assigned =
                (int) Math.round(heading.get().heading().toMagnetic(variation).deg());
        assigned = assigned == 0 ? 360 : assigned;
        Position heard = met.destination(new TrueDirection(trackDeg + 180), beforeNm);
        TrueDirection before = new TrueDirection(heading.get().heading().deg() + turnBeforeDeg);
        GroundVector ground = GroundVector.onHeading(before, speedKt, wind);
        Position start = heard.destination(ground.track().reciprocal(), ground.groundSpeedKt() * HEARD_S / 3600);
        MagneticDirection startHeading = before.toMagnetic(variation);
        Optional<AmendedRoute> route = amended(heard, wind, speedKt, assigned);
        boolean sound = route.isPresent()
                && route.get().warnings().isEmpty()
                && route.get().intercept().map(each -> each.distanceNm() < 12).orElse(false)
                && route.get().legs().get(route.get().courseLeg()).endsAt().isPresent()
                && BestPath.of(route.get(), HEARD_S, heard, ground).isPresent();
        if (!sound) {
            return Optional.empty();
        }
        return Optional.of(new Lesson(
                base.title(),
                base.chart(),
                base.filed(),
                base.date(),
                Optional.of(new Lesson.Start(start, ALTITUDE_FT, startHeading, speedKt)),
                wind,
                List.of(new Amendment(
                        new Amendment.When.ElapsedS(HEARD_S), words(assigned), OptionalDouble.of(ALTITUDE_FT))),
                base.standard(),
                base.files(),
                base.notes()));
    }

    private int firstHeading() {
        return switch (shape) {
            case HEADING_TO_AIRWAY -> 190;
            case RADIAL_INBOUND -> 150;
            case RADIAL_OUTBOUND -> 110;
        };
    }

    private Optional<AmendedRoute> amended(Position position, Wind wind, double speedKt, int heading) {
        try {
            AmendedRoute route = RouteAmender.amend(
                    base.chart(),
                    base.filed(),
                    ClearanceReader.read(words(heading), base.chart(), base.filed()),
                    new Situation(
                            position,
                            OptionalDouble.of(ALTITUDE_FT),
                            speedKt,
                            Optional.empty(),
                            wind,
                            base.date().orElseThrow()));
            return route.courseLeg() < 0 ? Optional.empty() : Optional.of(route);
        } catch (ClearanceException e) {
            return Optional.empty();
        }
    }
}
