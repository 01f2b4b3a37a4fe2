package org.rejoin.console.drill;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.clearance.ClearanceException;
import org.rejoin.bridge.clearance.ClearanceReader;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticModel;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.route.RouteAmender;
import org.rejoin.bridge.route.Situation;
import org.rejoin.console.lesson.Lesson;
import org.rejoin.console.skill.Features;

/** What makes a lesson easy or hard, before anybody has flown it. */
public final class LessonFeatures {

    private LessonFeatures() {}

    /**
     * The features of its first clearance, heard where the practice aircraft would hear it; empty where it has no start
     * or its clearance leads to no line.
     */
    public static Optional<Features> of(Lesson lesson) {
        if (lesson.start().isEmpty() || lesson.amendments().isEmpty()) {
            return Optional.empty();
        }
        Lesson.Start start = lesson.start().get();
        Amendment first = lesson.amendments().get(0);
        LocalDate date = lesson.date().orElse(DrillRequest.USUAL_DATE);
        GroundVector ground = GroundVector.onHeading(
                start.heading().toTrue(MagneticModel.WMM2025.variation(start.position(), start.altitudeFt(), date)),
                start.speedKt(),
                lesson.wind());
        double seconds = first.when() instanceof Amendment.When.ElapsedS elapsed ? elapsed.seconds() : 0;
        Position heard = start.position().destination(ground.track(), ground.groundSpeedKt() * seconds / 3600);
        try {
            return Measured.of(
                    RouteAmender.amend(
                            lesson.chart(),
                            lesson.filed(),
                            ClearanceReader.read(first.say(), lesson.chart(), lesson.filed()),
                            new Situation(
                                    heard,
                                    OptionalDouble.of(start.altitudeFt()),
                                    start.speedKt(),
                                    Optional.of(start.heading()),
                                    lesson.wind(),
                                    date)),
                    lesson.chart(),
                    Optional.of(start.heading()));
        } catch (ClearanceException e) {
            return Optional.empty();
        }
    }
}
