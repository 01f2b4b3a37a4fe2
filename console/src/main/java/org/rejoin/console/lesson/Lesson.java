package org.rejoin.console.lesson;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.Amendment;
import org.rejoin.bridge.chart.Chart;
import org.rejoin.bridge.clearance.FiledRoute;
import org.rejoin.bridge.geo.MagneticDirection;
import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.Wind;

/**
 * One lesson, read and checked: everything a flight needs but the aircraft.
 *
 * @param title free text
 * @param chart loaded
 * @param filed expanded over the chart
 * @param date for the magnetic model; empty for the day of the flight
 * @param start of the practice aircraft; empty for lessons flown only by a simulator
 * @param wind for the practice aircraft
 * @param amendments in the order they are spoken
 * @param standard name of the tolerance set
 * @param files what the lesson was read from, to be kept with a recording
 */
public record Lesson(
        String title,
        Chart chart,
        FiledRoute filed,
        Optional<LocalDate> date,
        Optional<Start> start,
        Wind wind,
        List<Amendment> amendments,
        String standard,
        Files files) {

    /** Copies the list. */
    public Lesson {
        amendments = List.copyOf(amendments);
    }

    /**
     * Where the practice aircraft begins.
     *
     * @param position WGS 84
     * @param altitudeFt above mean sea level, feet
     * @param heading by the compass
     * @param speedKt true airspeed, knots
     */
    public record Start(Position position, double altitudeFt, MagneticDirection heading, double speedKt) {}

    /**
     * The text of the lesson and of its chart.
     *
     * @param lessonYaml as read
     * @param chartName file name of the chart, without directories
     * @param chartOctets as read
     */
    public record Files(String lessonYaml, String chartName, byte[] chartOctets) {}
}
