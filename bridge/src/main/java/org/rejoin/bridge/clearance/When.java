package org.rejoin.bridge.clearance;

import java.util.Optional;
import java.util.function.Function;

import org.rejoin.bridge.chart.Waypoint;

/** Where or when something begins or ends. */
public sealed interface When {

    /** What comes of each kind, so that none is forgotten. */
    record Cases<R>(
            Function<AtLine, R> atLine,
            Function<Near, R> near,
            Function<AtTime, R> atTime,
            Function<AtLevel, R> atLevel,
            Function<Established, R> established,
            Function<Advised, R> advised,
            Function<Beside, R> beside,
            Function<Reached, R> reached) {}

    /** Meets it as what it is. */
    <R> R fold(Cases<R> cases);

    /** In ATC's words; for example "crossing the Petrel zero four zero radial", "one five three zero". */
    String words();

    /** {@return when it is past; for example "passing PRION", "reaching six thousand feet", "one five three zero"} */
    default String passed() {
        return "passing " + words();
    }

    /** {@return from when something is in force; for example "after passing PRION", "when established"} */
    default String begins() {
        return "after " + passed();
    }

    /** {@return when it is the latest; for example "by one five three zero", "one zero miles before PRION"} */
    default String latest() {
        return "by " + words();
    }

    /** At a radial, a distance, a fix or an airway. */
    record AtLine(Instruction.Until line) implements When {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.atLine().apply(this);
        }

        @Override
        public String words() {
            return Phraseology.until(line);
        }
    }

    /**
     * Some miles short of a fix along the route, or past it.
     *
     * @param distanceNm nautical miles, [1, 200]
     */
    record Near(Waypoint fix, double distanceNm, boolean before) implements When {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.near().apply(this);
        }

        @Override
        public String words() {
            return Phraseology.count(distanceNm) + " miles " + (before ? "before " : "after ") + Phraseology.place(fix);
        }

        @Override
        public String latest() {
            return words();
        }
    }

    /** At a time of day, four digits. */
    record AtTime(String time) implements When {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.atTime().apply(this);
        }

        @Override
        public String words() {
            return SpokenWords.digits(time);
        }

        @Override
        public String passed() {
            return words();
        }
    }

    /**
     * At an altitude.
     *
     * @param flightLevel whether it was said as a flight level
     */
    record AtLevel(double feet, boolean flightLevel) implements When {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.atLevel().apply(this);
        }

        @Override
        public String words() {
            return Phraseology.level(feet, flightLevel);
        }

        @Override
        public String passed() {
            return "reaching " + words();
        }
    }

    /**
     * Once established on a line.
     *
     * @param line a radial or an airway; empty for the line of the clearance
     */
    record Established(Optional<Instruction.Until> line) implements When {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.established().apply(this);
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
        public String begins() {
            return "when " + words();
        }

        @Override
        public String latest() {
            return "by when " + words();
        }
    }

    /** When ATC says so. */
    record Advised() implements When {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.advised().apply(this);
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

    /** Beside a fix: "cross 10 miles west of PRION at 8000, then ...". */
    record Beside(Waypoint fix, Instruction.Away away) implements When {
        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.beside().apply(this);
        }

        @Override
        public String words() {
            return Phraseology.place(fix, Optional.of(away));
        }
    }

    /**
     * Once the altitude or the speed that is said before it is reached: "reduce speed to 80, then descend and maintain
     * 7000" (FAA Order JO 7110.65, 5-7-2).
     */
    record Reached(Instruction said) implements When {

        /** {@return whether it is an altitude; false for a speed} */
        public boolean altitude() {
            return said instanceof Instruction.Maintain;
        }

        @Override
        public <R> R fold(Cases<R> cases) {
            return cases.reached().apply(this);
        }

        @Override
        public String words() {
            if (said instanceof Instruction.Maintain maintain) {
                return Phraseology.level(maintain.feet(), maintain.flightLevel());
            }
            return said instanceof Instruction.MaintainSpeed speed
                    ? Phraseology.count(speed.knots()) + " knots"
                    : Phraseology.say(said);
        }

        @Override
        public String passed() {
            return "reaching " + words();
        }
    }
}
