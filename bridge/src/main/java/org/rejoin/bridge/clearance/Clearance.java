package org.rejoin.bridge.clearance;

import java.util.ArrayList;
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
     * Whether this takes an amendment back and puts nothing in its place: "disregard", "cancel amended clearance,
     * continue as filed". With a heading, course, airway or fix to fly it is an amendment of its own.
     *
     * @return true if the flight goes on as it was cleared before the amendment
     */
    public boolean disregards() {
        return first(Instruction.Cancel.class).isPresent()
                && instructions.stream()
                        .allMatch(instruction -> instruction instanceof Instruction.Cancel
                                || instruction instanceof Instruction.Onward
                                || instruction instanceof Instruction.Expect
                                || instruction instanceof Instruction.Assignment);
    }

    /**
     * The assigned speed.
     *
     * @return the last {@link Instruction.MaintainSpeed} with its bound; empty where none was said, or "resume normal
     *     speed" came after it
     */
    public Optional<Instruction.MaintainSpeed> speed() {
        Optional<Instruction.MaintainSpeed> speed = Optional.empty();
        for (Instruction instruction : instructions) {
            if (instruction instanceof Instruction.MaintainSpeed said) {
                speed = Optional.of(said);
            } else if (instruction instanceof Instruction.ResumeNormalSpeed) {
                speed = Optional.empty();
            }
        }
        return speed;
    }

    /**
     * The assigned speed, where it is to be held exactly.
     *
     * @return indicated airspeed, knots; empty where none was said, or only a limit
     */
    public OptionalDouble speedKt() {
        return speed().stream()
                .filter(said -> said.bound() == Instruction.MaintainSpeed.Limit.EXACTLY)
                .mapToDouble(Instruction.MaintainSpeed::knots)
                .findFirst();
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

    /**
     * The same clearance with an altitude assigned beside its words: it is as if the words had said "maintain" it.
     *
     * @param feet above mean sea level; empty to leave the clearance as it is
     * @return a clearance that assigns this altitude and no other
     */
    public Clearance withAltitude(OptionalDouble feet) {
        if (feet.isEmpty()) {
            return this;
        }
        List<Instruction> with = new ArrayList<>(instructions);
        with.removeIf(Instruction.Maintain.class::isInstance);
        with.add(new Instruction.Maintain(feet.getAsDouble(), false));
        return new Clearance(text, callsign, with, notes);
    }

    /**
     * Whether it is an altitude or a speed and nothing else: the route stays as it was.
     *
     * @return false too when "as filed" or a limit is said with it
     */
    public boolean routeStays() {
        return instructions.stream().allMatch(Instruction.Assignment.class::isInstance);
    }
}
