package org.rejoin.bridge.clearance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A clearance, understood.
 *
 * @param text as said or typed
 * @param callsign in front of it; empty where none was said
 * @param instructions in the order said, one or more
 * @param notes what was taken for granted in reading it, one sentence each; often empty
 * @param besideFt an altitude assigned beside the text and not in it, feet above mean sea level
 * @param heard what is said with it and changes nothing of the flight, in the words as said: a frequency, traffic, an
 *     altimeter setting
 */
public record Clearance(
        String text,
        Optional<String> callsign,
        List<Instruction> instructions,
        List<String> notes,
        OptionalDouble besideFt,
        List<String> heard) {

    /** The lowest altitude that is assigned, feet above mean sea level. */
    public static final int LOWEST_FT = 500;

    /** The highest altitude that is assigned, feet above mean sea level. */
    public static final int HIGHEST_FT = 60_000;

    public Clearance {
        instructions = List.copyOf(instructions);
        notes = List.copyOf(notes);
        heard = List.copyOf(heard);
    }

    /** A clearance without notes. */
    public Clearance(String text, Optional<String> callsign, List<Instruction> instructions) {
        this(text, callsign, instructions, List.of(), OptionalDouble.empty(), List.of());
    }

    /** {@return all of it as the pilot hears it: the text, and the altitude that stands beside it} */
    public String words() {
        return besideFt.isEmpty() ? text : text + ", " + besideAsSaid();
    }

    /** A level beside the words is one, as a level in them is; it stands last. */
    private String besideAsSaid() {
        return last(Instruction.Maintain.class)
                .filter(said -> said.flightLevel() && besideFt.equals(OptionalDouble.of(said.feet())))
                .map(said -> "maintain " + said.figures())
                .orElseGet(() -> beside(besideFt.orElseThrow()));
    }

    private static String beside(double feet) {
        return "maintain "
                + (SpokenWords.isFlightLevel(feet)
                        ? Phraseology.figures(feet, true)
                        : String.format(Locale.ROOT, "%.0f", feet));
    }

    /** {@return a text and the altitude beside it, feet, as the pilot hears them} */
    public static String words(String text, OptionalDouble besideFt) {
        return besideFt.isEmpty() ? text : text + ", " + beside(besideFt.getAsDouble());
    }

    /** The first instruction of a kind. */
    public <T extends Instruction> Optional<T> first(Class<T> kind) {
        return instructions.stream().filter(kind::isInstance).map(kind::cast).findFirst();
    }

    /**
     * Whether this takes an amendment back and puts nothing in its place: "disregard", "cancel amended clearance,
     * continue as filed". With a heading, course, airway or fix to fly it is an amendment of its own; true if the
     * flight goes on as it was cleared before the amendment.
     */
    public boolean disregards() {
        return first(Instruction.Cancel.class).isPresent()
                && instructions.stream()
                        .allMatch(instruction -> instruction instanceof Instruction.Cancel
                                || instruction instanceof Instruction.Onward
                                || instruction instanceof Instruction.Expect
                                || instruction instanceof Instruction.Assignment);
    }

    /** The last instruction of a kind, which counts where it is said more than once. */
    public <T extends Instruction> Optional<T> last(Class<T> kind) {
        List<T> all = all(kind);
        return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
    }

    /**
     * The same clearance with an altitude given beside the words, feet above mean sea level: as if "maintain A" had
     * been said last; as it is where that altitude is in force at once by the words, or the last of several.
     */
    public Clearance withAltitude(OptionalDouble feet) {
        return feet.isEmpty() ? this : withAltitude(new Instruction.Maintain(feet.getAsDouble(), false));
    }

    /** The same with an altitude that may be a flight level: as if it had been said last. */
    public Clearance withAltitude(Instruction.Maintain beside) {
        List<InTurn<Instruction.Maintain>> said = altitudes();
        OptionalDouble feet = OptionalDouble.of(beside.feet());
        boolean lastOfAll = !said.isEmpty()
                && feet.equals(
                        OptionalDouble.of(said.get(said.size() - 1).said().feet()));
        if (feet.equals(altitudeFt()) || lastOfAll) {
            return this;
        }
        List<Instruction> all = new ArrayList<>(instructions);
        all.add(beside);
        List<String> noted = new ArrayList<>(notes);
        noted.removeAll(WholeClearance.ofAltitudes(instructions));
        noted.addAll(WholeClearance.ofAltitudes(all));
        return new Clearance(text, callsign, all, noted, feet, heard);
    }

    /** How far a clearance was flown. */
    public enum Reached {
        /** Its line is still ahead. */
        NOTHING,
        /** On its line. */
        LINE,
        /** On the airway to join. */
        AIRWAY
    }

    /**
     * What is left of it where some of it was flown: on its line the heading that led there is done, on its airway the
     * line is, too.
     */
    public Clearance left(Reached reached) {
        boolean joins = first(Instruction.JoinAirway.class).isPresent();
        List<Instruction> left = instructions.stream()
                .filter(each -> reached == Reached.NOTHING || !(each instanceof Instruction.Heading))
                .filter(each -> reached != Reached.AIRWAY || !joins || !(each instanceof Instruction.StationLine))
                .toList();
        return new Clearance(text, callsign, left, notes, besideFt, heard);
    }

    /** All instructions of a kind, in the order said. */
    public <T extends Instruction> List<T> all(Class<T> kind) {
        return instructions.stream().filter(kind::isInstance).map(kind::cast).toList();
    }

    /**
     * The speed assigned from now on; with its bound; empty where none was said, or "resume normal speed" came after
     * it.
     */
    public Optional<Instruction.MaintainSpeed> speed() {
        return InTurn.atOnce(speeds()).flatMap(said -> said.assigned(OptionalDouble.empty()));
    }

    /**
     * The assigned altitudes, one after the other: "maintain 8000 until PRION, then climb and maintain 10000". Of two
     * with no word on where the first one ends the last counts; in the order in which they are in force; empty where
     * none was said.
     */
    public List<InTurn<Instruction.Maintain>> altitudes() {
        return InTurn.altitudes(instructions);
    }

    /**
     * The assigned speeds, likewise; in the order in which they are in force; after one that ends somewhere a normal
     * speed, where no other is said.
     */
    public List<InTurn<Instruction.Speed>> speeds() {
        return InTurn.speeds(instructions);
    }

    /** Whether it is said that the altitude is the pilot's within limits: a block, a cruise, a lowest or a highest altitude. */
    public boolean leavesAltitudeOpen() {
        return instructions.stream()
                .anyMatch(each ->
                        each instanceof Noted.Block || each instanceof Noted.Cruise || each instanceof Noted.Bounded);
    }

    /** Whether a speed is said that is no number of knots: by so many slower, or the fastest or slowest there is. */
    public boolean leavesSpeedOpen() {
        return instructions.stream()
                .anyMatch(each -> each instanceof Noted.SpeedChange || each instanceof Noted.ExtremeSpeed);
    }

    /**
     * The altitude assigned from now on, feet above mean sea level; empty where none is, or the first one comes into
     * force later.
     */
    public OptionalDouble altitudeFt() {
        return InTurn.atOnce(altitudes()).stream()
                .mapToDouble(Instruction.Maintain::feet)
                .findFirst();
    }

    /**
     * Whether an assigned altitude is to be reached in the pilot's own time: "at pilot's discretion", "when ready", or
     * by a crossing that asks for the same altitude (Aeronautical Information Manual 4-4-10).
     */
    public boolean inOwnTime(Instruction.Maintain said) {
        return said.when() != Instruction.Maintain.Begin.NOW
                || said.levelBy().isPresent()
                || all(Instruction.CrossAt.class).stream().anyMatch(cross -> cross.feet() == said.feet());
    }

    /**
     * Whether it is an altitude, a speed, a crossing, a report or advance information and nothing else: the route stays
     * as it was; false too when "as filed" or a limit is said with it.
     */
    public boolean routeStays() {
        return !instructions.isEmpty()
                && instructions.stream()
                        .allMatch(each -> each instanceof Instruction.Assignment || each instanceof Instruction.Expect);
    }
}
