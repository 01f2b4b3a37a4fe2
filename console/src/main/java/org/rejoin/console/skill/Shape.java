package org.rejoin.console.skill;

import java.util.Arrays;
import java.util.Optional;

import org.jspecify.annotations.Nullable;

/** The kinds of line that a drill leads to. */
public enum Shape {
    /** A heading to an airway. */
    A("A", "a heading to an airway", null),
    /** A radial inbound to a station on the route. */
    B("B", "a radial inbound to a station on the route", "TO"),
    /** A radial outbound from a station off the route to where it crosses the airway. */
    C("C", "a radial outbound to an airway where no fix is published", "FROM"),
    /** A radial of one station until the radial of another, which leads to the route. */
    RADIALS("radials", "a radial until another radial, inbound to a station on the route", null),
    /** A DME arc. */
    ARC("arc", "a DME arc", null),
    /** A holding pattern. */
    HOLD("hold", "a holding pattern", null);

    private final String option;
    private final String words;
    private final @Nullable String direction;

    Shape(String option, String words, @Nullable String direction) {
        this.option = option;
        this.words = words;
        this.direction = direction;
    }

    /** {@return name on the command line; "A", "B", "C", "radials", "arc" or "hold"} */
    public String option() {
        return option;
    }

    /** {@return the shape in words, with its article} */
    public String words() {
        return words;
    }

    Optional<String> direction() {
        return Optional.ofNullable(direction);
    }

    /** A shape by name, in any case; empty where there is none. */
    public static Optional<Shape> named(String name) {
        return Arrays.stream(values())
                .filter(shape -> shape.option.equalsIgnoreCase(name.trim()))
                .findFirst();
    }
}
