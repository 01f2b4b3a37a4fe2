package org.rejoin.console.lesson;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;
import org.rejoin.bridge.route.Situation;

/**
 * One lesson, read and checked: everything a flight needs but the aircraft.
 *
 * @param date for the magnetic model; empty for the day of the flight
 * @param time of day at the first sample, Coordinated Universal Time; empty for that of the flight
 * @param start of the practice aircraft; empty for lessons flown only by a simulator
 * @param wind for the practice aircraft
 * @param amendments in the order they are spoken
 * @param standard the tolerance set: the name of a built-in one, or its file
 * @param radio how clearances sound; empty for a clean voice
 * @param files what the lesson was read from, to be kept with a recording
 * @param notes what was taken for granted in reading it, and problems of the chart it can live with; for the pilot, often
 *     empty
 */
public record Lesson(
        String title,
        Chart chart,
        FiledRoute filed,
        Optional<LocalDate> date,
        Optional<LocalTime> time,
        Optional<Start> start,
        Wind wind,
        List<Amendment> amendments,
        String standard,
        Optional<Radio> radio,
        Files files,
        List<String> notes) {

    public Lesson {
        amendments = List.copyOf(amendments);
        notes = List.copyOf(notes);
    }

    /**
     * The same lesson in another wind.
     *
     * @param other for the aircraft that flies it
     */
    public Lesson in(Wind other) {
        return new Lesson(title, chart, filed, date, time, start, other, amendments, standard, radio, files, notes);
    }

    /** {@return what ATC says last in it; empty text where ATC says nothing} */
    public String lastSaid() {
        return amendments.isEmpty() ? "" : amendments.get(amendments.size() - 1).say();
    }

    /**
     * How clearances sound through the radio, the same each time.
     *
     * @param voiceOverNoiseDb power of the voice over that of the noise, dB, 0 to 60: 20 loud and clear, 10 hard to read
     * @param seed of the noise, 0 to 1,000,000,000
     */
    public record Radio(double voiceOverNoiseDb, long seed) {}

    /**
     * Where the practice aircraft begins.
     *
     * @param position WGS 84
     * @param altitudeFt above mean sea level, feet
     * @param speedKt true airspeed, knots
     */
    public record Start(Position position, double altitudeFt, MagneticDirection heading, double speedKt) {

        /** How the aircraft is once it has flown straight on to a place, in a wind on a day. */
        public Situation at(Position there, Wind wind, LocalDate date) {
            return new Situation(there, OptionalDouble.of(altitudeFt), speedKt, Optional.of(heading), wind, date);
        }
    }

    /**
     * The text of the lesson, and its chart.
     *
     * @param chartName file name of the chart, without directories
     */
    public record Files(String lessonYaml, String chartName, KeptChart chart) {}

    /** What a recording keeps of a chart. */
    public sealed interface KeptChart {
        /** Its content, of charts that are small. */
        record Octets(byte[] octets) implements KeptChart {}

        /** The file itself, as ARINC 424 files may be larger than fits into memory. */
        record Copy(Path file) implements KeptChart {}
    }
}
