package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A clearance, understood.
 *
 * @param text as said or typed
 * @param callsign in front of it; empty where none was said
 * @param instructions in the order said, one or more
 * @param notes what was taken for granted in reading it, one sentence each; often empty
 */
public record Clearance(String text, Optional<String> callsign, List<Instruction> instructions, List<String> notes) {

    /** Copies the lists. */
    public Clearance {
        instructions = List.copyOf(instructions);
        notes = List.copyOf(notes);
    }

    /**
     * A clearance without notes.
     *
     * @param text as said or typed
     * @param callsign in front of it; empty where none was said
     * @param instructions in the order said, one or more
     */
    public Clearance(String text, Optional<String> callsign, List<Instruction> instructions) {
        this(text, callsign, instructions, List.of());
    }

    /**
     * The first instruction of a kind.
     *
     * @param <T> the kind
     * @param kind its class
     * @return the instruction, if there is one
     */
    public <T extends Instruction> Optional<T> first(Class<T> kind) {
        return instructions.stream().filter(kind::isInstance).map(kind::cast).findFirst();
    }

    /**
     * The assigned altitude.
     *
     * @return feet above mean sea level, of the last {@link Instruction.Maintain}; empty where none was said
     */
    public OptionalDouble altitudeFt() {
        return instructions.stream()
                .filter(Instruction.Maintain.class::isInstance)
                .mapToDouble(instruction -> ((Instruction.Maintain) instruction).feet())
                .reduce((first, second) -> second);
    }
}
