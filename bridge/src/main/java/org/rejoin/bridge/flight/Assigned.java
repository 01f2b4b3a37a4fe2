package org.rejoin.bridge.flight;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Instruction;

/**
 * What ATC has assigned beside the route. Each stays in force until a clearance says something else of it.
 *
 * @param altitudeFt above mean sea level; empty where none was assigned
 * @param speed indicated; empty where none was assigned
 */
public record Assigned(OptionalDouble altitudeFt, Optional<Instruction.MaintainSpeed> speed) {

    /** Nothing is assigned. */
    public static final Assigned NOTHING = new Assigned(OptionalDouble.empty(), Optional.empty());
}
