package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;

import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.geo.GeodesicLine;
import org.rejoin.console.skill.Shape;

/** Shape A: a leg of the filed airway. */
final class AirwayLine implements LineShape {

    private static final Band LEFT_NM = new Band(9, 22);

    @Override
    public Optional<LineToMeet> draw(DrillChart chart, FiledAirway way, Ask ask, Random random, Tally tally) {
        int index = random.nextInt(way.legs().size());
        FiledRoute.Segment leg = way.legs().get(index);
        GeodesicLine line = GeodesicLine.between(leg.from().position(), leg.to().position());
        OptionalDouble turn = turnAfter(way.filed(), leg, line);
        if (turn.isPresent() && Math.abs(turn.getAsDouble()) > MOST_TURN_DEG) {
            return tally.nothing(Tally.Why.TURN);
        }
        OptionalDouble altitude = ask.altitude(way, line.initialCourse(), leg.from(), random, feet -> true);
        if (altitude.isEmpty()) {
            return tally.nothing(Tally.Why.NO_ALTITUDE);
        }
        return Optional.of(new LineToMeet(
                Shape.A,
                way,
                List.of(
                        new Instruction.InterceptAirway(way.airway()),
                        new Instruction.Onward(Instruction.Onward.How.RESUME_OWN_NAVIGATION)),
                line,
                CLEAR_OF_TURNS_NM,
                LEFT_NM,
                turn,
                altitude.getAsDouble(),
                Optional.empty()));
    }

    private static OptionalDouble turnAfter(FiledRoute filed, FiledRoute.Segment leg, GeodesicLine line) {
        int next = filed.segments().indexOf(leg) + 1;
        if (next >= filed.segments().size()) {
            return OptionalDouble.empty();
        }
        FiledRoute.Segment after = filed.segments().get(next);
        return OptionalDouble.of(line.courseAt(line.lengthNm())
                .turnTo(after.from().position().to(after.to().position()).initial()));
    }
}
