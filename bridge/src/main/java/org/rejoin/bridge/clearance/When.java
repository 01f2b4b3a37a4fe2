package org.rejoin.bridge.clearance;

import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.chart.Waypoint;

/** Where or when something begins or ends. */
public sealed interface When {

    /**
     * Meets it as what it is, so that no kind is forgotten.
     *
     * @param atLine what comes of a line
     * @param near what comes of a place beside a fix
     * @param atTime what comes of a time
     * @param atLevel what comes of an altitude
     * @param established what comes of being established
     * @param advised what comes of ATC's word
     */
    <R> R fold(
            Function<AtLine, R> atLine,
            Function<Near, R> near,
            Function<AtTime, R> atTime,
            Function<AtLevel, R> atLevel,
            Function<Established, R> established,
            Function<Advised, R> advised);

    /**
     * In ATC's words.
     *
     * @return for example "crossing the Petrel zero four zero radial", "one five three zero"
     */
    String words();

    /** {@return when it is past; for example "passing PRION", "reaching six thousand feet", "one five three zero"} */
    String passed();

    /** {@return when it is the latest; for example "by one five three zero", "one zero miles before PRION"} */
    String latest();

    /**
     * At a radial, a distance, a fix or an airway.
     *
     * @param line that is met
     */
    record AtLine(Instruction.Until line) implements When {
        @Override
        public <R> R fold(
                Function<AtLine, R> atLine,
                Function<Near, R> near,
                Function<AtTime, R> atTime,
                Function<AtLevel, R> atLevel,
                Function<Established, R> established,
                Function<Advised, R> advised) {
            return atLine.apply(this);
        }

        @Override
        public String words() {
            return Phraseology.until(line);
        }

        @Override
        public String passed() {
            return "passing " + words();
        }

        @Override
        public String latest() {
            return "by " + words();
        }
    }

    /**
     * Some miles short of a fix along the route, or past it.
     *
     * @param fix on the route
     * @param distanceNm nautical miles, [1, 200]
     * @param before whether it is short of the fix
     */
    record Near(Waypoint fix, double distanceNm, boolean before) implements When {
        @Override
        public <R> R fold(
                Function<AtLine, R> atLine,
                Function<Near, R> near,
                Function<AtTime, R> atTime,
                Function<AtLevel, R> atLevel,
                Function<Established, R> established,
                Function<Advised, R> advised) {
            return near.apply(this);
        }

        @Override
        public String words() {
            return Phraseology.count(distanceNm) + " miles " + (before ? "before " : "after ") + Phraseology.place(fix);
        }

        @Override
        public String passed() {
            return "passing " + words();
        }

        @Override
        public String latest() {
            return words();
        }
    }

    /**
     * At a time.
     *
     * @param time of day, four digits
     */
    record AtTime(String time) implements When {
        @Override
        public <R> R fold(
                Function<AtLine, R> atLine,
                Function<Near, R> near,
                Function<AtTime, R> atTime,
                Function<AtLevel, R> atLevel,
                Function<Established, R> established,
                Function<Advised, R> advised) {
            return atTime.apply(this);
        }

        @Override
        public String words() {
            return SpokenWords.digits(time);
        }

        @Override
        public String passed() {
            return words();
        }

        @Override
        public String latest() {
            return "by " + words();
        }
    }

    /**
     * At an altitude.
     *
     * @param feet above mean sea level
     */
    record AtLevel(double feet) implements When {
        @Override
        public <R> R fold(
                Function<AtLine, R> atLine,
                Function<Near, R> near,
                Function<AtTime, R> atTime,
                Function<AtLevel, R> atLevel,
                Function<Established, R> established,
                Function<Advised, R> advised) {
            return atLevel.apply(this);
        }

        @Override
        public String words() {
            return Phraseology.level(feet);
        }

        @Override
        public String passed() {
            return "reaching " + words();
        }

        @Override
        public String latest() {
            return "by " + words();
        }
    }

    /**
     * Once established on a line.
     *
     * @param line a radial or an airway; empty for the line of the clearance
     */
    record Established(Optional<Instruction.Until> line) implements When {
        @Override
        public <R> R fold(
                Function<AtLine, R> atLine,
                Function<Near, R> near,
                Function<AtTime, R> atTime,
                Function<AtLevel, R> atLevel,
                Function<Established, R> established,
                Function<Advised, R> advised) {
            return established.apply(this);
        }

        @Override
        public String words() {
            return "established"
                    + line.map(on -> " " + new Noted.EstablishedOn(on).words()).orElse("");
        }

        @Override
        public String passed() {
            return words();
        }

        @Override
        public String latest() {
            return "by when " + words();
        }
    }

    /** When ATC says so. */
    record Advised() implements When {
        @Override
        public <R> R fold(
                Function<AtLine, R> atLine,
                Function<Near, R> near,
                Function<AtTime, R> atTime,
                Function<AtLevel, R> atLevel,
                Function<Established, R> established,
                Function<Advised, R> advised) {
            return advised.apply(this);
        }

        @Override
        public String words() {
            return "further advised";
        }

        @Override
        public String passed() {
            return words();
        }

        @Override
        public String latest() {
            return "by when " + words();
        }
    }
}
