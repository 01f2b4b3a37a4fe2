package org.rejoin.console.drill;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;

/** Why draws were thrown away, counted. */
final class Tally {

    /** A reason, in the words that a refusal uses. */
    enum Why {
        NO_AIRWAY("it has no airway that a route can be filed along"),
        NO_STATION("it has no station with radials where this needs one"),
        NO_DME("no station with DME lies within arc distance of an airway"),
        NO_CROSSING_OF_ARC("the arcs do not cross an airway clear of its fixes"),
        OUT_OF_RANGE("the stations are out of their service volume"),
        FLAT_CROSSING("radials and airway cross at too flat an angle for a fix"),
        NEAR_A_FIX("the crossing lies too near a published fix"),
        TURN("the turn at the end would be too small or too large"),
        TOO_SHORT("the legs are too short to be established on"),
        NO_ALTITUDE("no altitude is both above the airway's minimum and in range of the station"),
        TWO_NAMES("a name on it could mean two things"),
        NO_TIME("there is no time to turn and set up before the line"),
        WIND("the wind is too strong for the airspeed"),
        OUT_OF_BAND("the angle or the minutes cannot be had with a heading in whole fives"),
        MEANS_ELSEWHERE("the line could be left at another place than was meant"),
        WARNED("the program warns of what it draws"),
        NOT_WORKED_OUT("the program cannot work out what it draws"),
        NOT_FLYABLE("the practice pilot cannot fly it to the standard"),
        WRONG_WAYS_UNSEEN("a pilot who flew it wrong could not be told from one who flew it right");

        private final String words;

        Why(String words) {
            this.words = words;
        }
    }

    private final Map<Why, Integer> counts = new EnumMap<>(Why.class);

    void add(Why why) {
        counts.merge(why, 1, Integer::sum);
    }

    /** Counts why a draw was thrown away, and gives nothing for it. */
    <T> Optional<T> nothing(Why why) {
        add(why);
        return Optional.empty();
    }

    int total() {
        return counts.values().stream().mapToInt(Integer::intValue).sum();
    }

    /** The commonest reason, with its count. */
    String words() {
        return counts.entrySet().stream()
                .max(Comparator.comparingInt(Map.Entry<Why, Integer>::getValue))
                .map(most -> most.getKey().words + " (" + most.getValue() + " of " + total() + " draws)")
                .orElse("nothing was drawn");
    }
}
