package org.rejoin.bridge.flight;

import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.clearance.Instruction;

/**
 * What ATC has assigned beside the route, above mean sea level and indicated; empty where nothing is. Each stays in
 * force until a clearance says something else of it.
 */
public record Assigned(OptionalDouble altitudeFt, Optional<Instruction.MaintainSpeed> speed) {

    /** Nothing is assigned. */
    public static final Assigned NOTHING = new Assigned(OptionalDouble.empty(), Optional.empty());
}
