package org.rejoin.console.brief;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

import org.rejoin.bridge.clearance.InTurn;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Noted;
import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.clearance.When;
import org.rejoin.bridge.route.AmendedRoute;
import org.rejoin.console.words.RouteWords;
import org.rejoin.console.words.Words;

/** What a clearance assigns that has no line on the map: altitude, speed, reports, what to expect. */
record BesidesTheRoute(AmendedRoute route) implements Instruction.Visitor<Optional<BesidesTheRoute.Item>> {

    /** Said where the route is said. */
    private static final Optional<Item> ON_THE_MAP = Optional.empty();

    /** One line of the brief: what it is about, and the words. */
    record Item(String what, String text) {}

    private static Optional<Item> item(String what, String text) {
        return Optional.of(new Item(what, text));
    }

    @Override
    public Optional<Item> flyHeading(Instruction.FlyHeading said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> turnBy(Instruction.TurnBy said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> flyPresentHeading(Instruction.FlyPresentHeading said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> flyRunwayHeading(Instruction.FlyRunwayHeading said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> interceptAirway(Instruction.InterceptAirway said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> interceptRadial(Instruction.InterceptRadial said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> interceptBearing(Instruction.InterceptBearing said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> interceptArc(Instruction.InterceptArc said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> joinAirway(Instruction.JoinAirway said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> direct(Instruction.Direct said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> depart(Instruction.Depart said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> clearedTo(Instruction.ClearedTo said) {
        return route.limit().isEmpty() ? item("Limit", Phraseology.say(said)) : ON_THE_MAP;
    }

    @Override
    public Optional<Item> onward(Instruction.Onward said) {
        return ON_THE_MAP;
    }

    @Override
    @SuppressWarnings("ReferenceEquality") // the very one: another may have the same words
    public Optional<Item> maintain(Instruction.Maintain said) {
        List<InTurn<Instruction.Maintain>> all = route.clearance().altitudes();
        Optional<When> from =
                all.stream().filter(turn -> turn.said() == said).findFirst().flatMap(InTurn::from);
        if (from.isEmpty()) {
            return now(said);
        }
        String order = all.get(0).said() == said ? from.get().begins() + ", " : "then ";
        return item("Altitude", order + RouteWords.altitude(said, route.clearance()));
    }

    private Optional<Item> now(Instruction.Maintain said) {
        return item(
                "Altitude",
                RouteWords.altitude(said, route.clearance())
                        + route.situation().altitudeFt().stream()
                                .mapToObj(feet -> Words.say("; you are at %.0f ft", feet))
                                .collect(Collectors.joining()));
    }

    @Override
    public Optional<Item> crossAt(Instruction.CrossAt said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> hold(Instruction.Hold said) {
        return ON_THE_MAP;
    }

    @Override
    public Optional<Item> report(Instruction.Report said) {
        return item("Report", Phraseology.say(said).replaceFirst("^report ?", ""));
    }

    @Override
    public Optional<Item> expect(Instruction.Expect said) {
        return item("Later", Phraseology.say(said));
    }

    @Override
    public Optional<Item> maintainSpeed(Instruction.MaintainSpeed said) {
        return item("Speed", RouteWords.speed(said) + ", by the airspeed indicator");
    }

    @Override
    public Optional<Item> maintainPresentSpeed(Instruction.MaintainPresentSpeed said) {
        return item("Speed", Phraseology.say(said));
    }

    @Override
    public Optional<Item> resumeNormalSpeed(Instruction.ResumeNormalSpeed said) {
        return item("Speed", Phraseology.say(said));
    }

    @Override
    public Optional<Item> cancel(Instruction.Cancel said) {
        return ON_THE_MAP;
    }

    /** What was in force before is not known on paper. */
    private static Optional<Item> lifted(Noted.Lifted said) {
        return switch (said.what()) {
            case SPEED -> item("Speed", "none is assigned any more");
            case ALTITUDE ->
                item(
                        "Crossing",
                        "no altitude is to be kept "
                                + said.at().map(fix -> "at " + fix.ident()).orElse("at a fix")
                                + " any more; the one you were cleared to stays");
            case HOLD -> item("Hold", "not to be flown any more");
            case OFFSET -> item("Not followed", Phraseology.say(said));
        };
    }

    @Override
    public Optional<Item> noted(Noted said) {
        if (said.approach().isPresent()) {
            return item("Later", "expect approach clearance " + said.approach().get());
        }
        if (!InTurn.says(said)) {
            return item("Not followed", Phraseology.say(said));
        }
        if (said instanceof Noted.Lifted lifted) {
            return lifted(lifted);
        }
        // Where an altitude or a speed ends is said with it.
        return said instanceof Noted.After after
                ? item("Later", after.when().begins() + ", " + after.begun())
                : ON_THE_MAP;
    }
}
