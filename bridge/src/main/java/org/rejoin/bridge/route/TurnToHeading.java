package org.rejoin.bridge.route;

import java.util.Optional;

import org.rejoin.bridge.clearance.Clearance;
import org.rejoin.bridge.clearance.Instruction;
import org.rejoin.bridge.clearance.Instruction.TurnDirection;
import org.rejoin.bridge.geo.Angles;
import org.rejoin.bridge.geo.GroundVector;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.bridge.geo.Turn;

/**
 * The turn that begins an amendment: from the heading flown to the one assigned, or to the one that leads direct to a
 * fix.
 *
 * @param heading to turn to, by the compass
 * @param degrees how far, [0, 360)
 */
public record TurnToHeading(MagneticDirection heading, boolean right, double degrees) {

    /** {@return how long it takes, seconds at standard rate} */
    public double seconds() {
        return degrees / Turn.STANDARD_RATE_DEG_PER_S;
    }

    /**
     * {@return whether it goes the long way round; true for more than half a circle, as it is said: half a degree more is
     * none}
     */
    public boolean longWay() {
        return Math.rint(degrees) > 180;
    }

    /** Works out the turn onto the assigned heading, or toward the fix of a direct: which way, how far round. */
    static void work(AmendmentDraft draft) {
        Optional<MagneticDirection> present = draft.situation.heading();
        if (present.isEmpty()) {
            return;
        }
        Optional<Instruction.Heading> said = draft.clearance.first(Instruction.Heading.class);
        if (said.isPresent() && draft.heading.isPresent()) {
            MagneticDirection to = draft.heading.get().magnetic();
            set(draft, present.get(), to, said.get().direction(), "heading " + Angles.figures(to.deg()));
        } else if (!draft.legs.isEmpty() && draft.legs.get(0) instanceof Leg.DirectToFix direct) {
            TrueDirection track = direct.path().initialCourse();
            TrueDirection heading = draft.situation
                    .headingFor(track)
                    .map(GroundVector.HeadingForCourse::heading)
                    .orElse(track);
            set(
                    draft,
                    present.get(),
                    heading.toMagnetic(draft.situation.variation()),
                    said(draft.clearance, direct),
                    "direct " + direct.to().ident());
        } else if (!draft.legs.isEmpty()) {
            onCourse(draft, present.get());
        }
    }

    /** "Turn left on course", where the aircraft is on a leg of its route already. */
    private static void onCourse(AmendmentDraft draft, MagneticDirection present) {
        Optional<TurnDirection> side = TurnsOnto.onCourse(draft.clearance);
        Leg first = draft.legs.get(0);
        if (side.isEmpty() || first.line().isEmpty()) {
            return;
        }
        TrueDirection track = first.line().get().courseAt(first.joinedAtNm());
        TrueDirection heading = draft.situation
                .headingFor(track)
                .map(GroundVector.HeadingForCourse::heading)
                .orElse(track);
        set(draft, present, heading.toMagnetic(draft.situation.variation()), side.get(), "the course");
    }

    /** Which way ATC said to turn to the fix of a direct. */
    static TurnDirection said(Clearance clearance, Leg.DirectToFix direct) {
        return clearance
                .first(Instruction.Direct.class)
                .filter(each -> each.away().isPresent() || each.to().equals(direct.to()))
                .map(Instruction.Direct::turn)
                .filter(turn -> turn != TurnDirection.SHORTEST)
                .or(() -> TurnsOnto.onCourse(clearance))
                .orElse(TurnDirection.SHORTEST);
    }

    /** From the heading flown to another, the way that is said. */
    private static TurnToHeading from(MagneticDirection from, MagneticDirection to, TurnDirection direction) {
        double shortWay = from.turnTo(to);
        double degrees = switch (direction) {
            case SHORTEST -> Math.abs(shortWay);
            case RIGHT -> Angles.circle(shortWay);
            case LEFT -> Angles.circle(-shortWay);
        };
        boolean right = direction == TurnDirection.RIGHT || (direction == TurnDirection.SHORTEST && shortWay >= 0);
        return new TurnToHeading(to, right, degrees);
    }

    /** The turn that begins a route, from a heading by the compass; empty where it begins with none. */
    public static Optional<TurnToHeading> beginning(AmendedRoute route, MagneticDirection present) {
        Optional<HeadingPlan> assigned = route.assignedHeading();
        if (assigned.isPresent()) {
            return Optional.of(from(present, assigned.get().magnetic(), route.orderedTurn()));
        }
        return direct(route, present);
    }

    /** The turn from a heading by the compass to the fix that a route leads direct to; empty where it begins otherwise. */
    public static Optional<TurnToHeading> direct(AmendedRoute route, MagneticDirection flown) {
        Situation situation = route.situation();
        return route.legs().get(0) instanceof Leg.DirectToFix direct
                ? situation
                        .headingFor(direct.path().initialCourse())
                        .map(wind -> from(
                                flown,
                                wind.heading().toMagnetic(situation.variation()),
                                said(route.clearance(), direct)))
                : Optional.empty();
    }

    private static void set(
            AmendmentDraft draft, MagneticDirection from, MagneticDirection to, TurnDirection direction, String what) {
        double shortWay = from.turnTo(to);
        TurnToHeading turn = from(from, to, direction);
        boolean right = turn.right();
        double degrees = turn.degrees();
        draft.turn = Optional.of(turn);
        draft.step(
                "turn to " + what,
                "degrees from the present heading, the way that is said; seconds = degrees / 3 (standard rate)",
                "%s to %s, %s: %s, %.0f s",
                Angles.figures(from.deg()),
                Angles.figures(to.deg()),
                right ? "right" : "left",
                Angles.degrees(degrees),
                turn.seconds());
        if (turn.longWay()) {
            draft.warn(
                    Warning.Code.LONG_WAY_ROUND,
                    "the turn %s to %s goes the long way round, %.0f degrees and about %.0f s at standard rate;"
                            + " the short way is %.0f degrees %s",
                    right ? "right" : "left",
                    what,
                    degrees,
                    turn.seconds(),
                    Math.abs(shortWay),
                    right ? "left" : "right");
        }
    }
}
